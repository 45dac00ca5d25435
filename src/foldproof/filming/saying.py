"""The cautions that are spoken: beside the first filmed use of a blade, of heat, or of what gives off fumes."""

from collections.abc import Mapping, Sequence

from foldproof.checks.words_of_caution import cautions
from foldproof.facts.tools import caution_kind
from foldproof.filming.lines import spoken
from foldproof.folding.card import Card
from foldproof.making.table import StepMade

_NOT_SPOKEN = ("small parts", "magnets", "button cells")
"""Dangers of what a card is made of: they belong on paper, beside the card."""


def spoken_cautions(card: Card, steps: Sequence[StepMade]) -> Mapping[str, tuple[tuple[str, str], ...]]:
    """Cautions to say, each with the tool or supply that it is about, by the id of the step.

    `steps` are those that are filmed.
    """
    found: dict[str, tuple[tuple[str, str], ...]] = {}
    for caution in cautions(card):
        if caution_kind(caution.about) in _NOT_SPOKEN:
            continue
        step = next((step for step in steps if step.spec.id == caution.step or _uses(step, caution.about)), None)
        if step is not None:
            said = (caution.about, spoken(caution.text, card.recipe.unit))
            found[step.spec.id] = (*found.get(step.spec.id, ()), said)
    return found


def _uses(step: StepMade, name: str) -> bool:
    return any(used.value == name for used in (*step.spec.tools, *step.spec.supplies))
