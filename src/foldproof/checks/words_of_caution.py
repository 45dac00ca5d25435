"""The usual caution for each blade, heat, solvent or small part, at its first use."""

from collections.abc import Iterable, Iterator

from foldproof.checks.check import warning
from foldproof.facts.cautions import find_caution
from foldproof.facts.source import Source
from foldproof.facts.tools import caution_kind
from foldproof.findings.finding import Finding, Place
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Making
from foldproof.recipe.actions import Attach, Tie
from foldproof.recipe.records import StepSpec

NO_CAUTION = warning(
    "no caution for a tool that may hurt",
    "A tool or supply sounds sharp, hot or full of fumes, and no caution is known for it.")

_RISKY = (
    "knife", "blade", "cutter", "cutting", "razor", "scalpel", "saw", "guillotine", "shears", "chisel", "awl", "drill",
    "heat", "hot", "iron", "solder", "burn", "torch", "candle", "spray", "solvent", "thinner", "acetone", "spirit",
    "alcohol", "laser",
)
_HARMLESS = ("mat", "guide", "template", "board")
"""Last words of names that only go with a blade."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepCaution:
    """A caution that stands beside the step in which its tool or supply is first used."""

    step: str
    """The step's id."""
    about: str
    """The tool or supply, as the recipe calls it."""
    text: str
    source: Source | None
    """None where the recipe gives the words."""


def cautions(card: Card) -> tuple[StepCaution, ...]:
    """Every caution of the card, once for each kind of danger, in the order of the steps.

    A tool's own `caution` comes before the usual one. What a step says itself is the step's and not repeated here.
    """
    own = {tool.name.value: tool.caution.value for tool in card.recipe.tools if tool.caution is not None}
    told: set[str] = set()
    found: list[StepCaution] = []
    for step in card.recipe.steps:
        for name, _ in _things(card, step):
            kind = caution_kind(name) or _kind_of_supply(card, name)
            usual = find_caution(kind)
            key = name if name in own else kind
            if key is None or key in told or (name not in own and usual is None):
                continue
            told |= {key, name, *((kind,) if kind else ())}
            found.append(StepCaution(
                step=step.id, about=name, text=own.get(name) or (usual.text if usual else ""),
                source=usual.source if usual is not None and name not in own else None))
    return tuple(found)


def check_cautions(card: Card, making: Making) -> Iterable[Finding]:
    """A tool or supply that sounds dangerous has a caution of its own or a usual one."""
    own = {tool.name.value for tool in card.recipe.tools if tool.caution is not None}
    told: set[str] = set()
    for step in card.recipe.steps:
        for name, place in _things(card, step):
            words = name.casefold().replace("-", " ").split()
            risky = any(word.startswith(risk) for word in words for risk in _RISKY) and words[-1] not in _HARMLESS
            if not risky or name in own | told or caution_kind(name) or _kind_of_supply(card, name) or step.caution:
                continue
            told.add(name)
            yield NO_CAUTION.finding(
                f"No caution is known for {name}, and it sounds as if it could cut, burn or fill the room with fumes.",
                mend=f"Say how to use it safely: `caution` at {name} under `tools`, or at the step.",
                place=place, step=step.id)


def _things(card: Card, step: StepSpec) -> Iterator[tuple[str, Place]]:
    """What a step uses: tools, supplies, and what its actions take, by the layers and joins that they fix too."""
    for used in (*step.tools, *step.supplies):
        yield used.value, used.place
    adhesives = {bond.name: bond.adhesive for bond in card.bonds}
    for action in step.actions:
        if isinstance(action, Attach):
            name = action.adhesive or adhesives.get(action.bond)
            if name is not None:
                yield name, action.place
        elif isinstance(action, Tie):
            yield action.supply, action.place


def _kind_of_supply(card: Card, name: str) -> str | None:
    supply = next((one for one in card.recipe.supplies if one.name.value == name), None)
    return caution_kind(supply.kind) if supply is not None and supply.kind is not None else None
