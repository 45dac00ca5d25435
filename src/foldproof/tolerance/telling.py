"""What the study says to the author, to the maker beside a step, and to someone whose card came out otherwise."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from foldproof.checks.phrases import length, listed
from foldproof.findings.finding import Finding, Place, Severity
from foldproof.folding.card import Card
from foldproof.measures.writing import with_unit
from foldproof.tolerance.outcomes import Outcome, told
from foldproof.tolerance.study import OFTEN, Share, Spread, Study

NAME = "often off in a class"
MOST_TOLD = 2
_MOST_CAUSES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Care:
    """A note beside a step."""

    step: int
    """Its number, from 1."""
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """What may have gone wrong, where it comes from, and what helps."""

    seen: str
    causes: tuple[str, ...]
    helps: str


def tolerance_findings(card: Card, study: Study) -> tuple[Finding, ...]:
    """The worst two outcomes that more than about one card in twenty would spoil, as advice."""
    return tuple(_finding(card, study, spread) for spread in _worst(study))


def cares(card: Card, study: Study) -> tuple[Care, ...]:
    """A note for each setting that decides one of the worst outcomes, in the order of the steps."""
    found = {
        Care(step=share.setting.step, text=_care(card, study, spread.outcome, share)): None
        for spread in _worst(study) for share in spread.deciding}
    return tuple(sorted(found, key=lambda care: care.step))


def troubles(card: Card, study: Study) -> tuple[Trouble, ...]:
    """The outcomes that can be seen to be wrong at all within the tolerance, the likeliest first; borders once."""
    found: list[Trouble] = []
    for spread in study.spreads:
        outcome = spread.outcome
        for seen, sign, room in (
            (outcome.low, -1, None if outcome.least is None else outcome.value - outcome.least),
            (outcome.high, 1, None if outcome.most is None else outcome.most - outcome.value),
        ):
            if seen and room is not None and room < spread.worst and spread.shares:
                found.append(Trouble(
                    seen=seen, causes=tuple(_causes(card, spread, sign)), helps=_helps(outcome, sign)))
    return tuple(dict.fromkeys(found))


def _worst(study: Study) -> tuple[Spread, ...]:
    return tuple(spread for spread in study.spreads if spread.often > OFTEN)[:MOST_TOLD]


def _finding(card: Card, study: Study, spread: Spread) -> Finding:
    deciding = spread.deciding
    first = deciding[0]
    moves = abs(first.sensitivity) * study.tolerance
    return Finding(
        name=NAME, severity=Severity.ADVICE, place=_place(card, spread.outcome),
        message=f"{spread.outcome.what} may be off by {told(card, spread.worst)}, and as a rule by about "
        f"{told(card, Fraction(spread.root_sum_square).limit_denominator(10**6)).removeprefix('about ')}, where every "
        f"cut and score is off by up to {length(card, study.tolerance)}. About {_share(spread.often)} would show it.",
        mend=f"What decides is {listed(dict.fromkeys(_where(card, share) for share in deciding))}: "
        f"{length(card, study.tolerance)} off there is {told(card, moves)} here. Say so in the step, choose a "
        "construction that forgives more, or write `tolerance:` if your class works closer.")


def _care(card: Card, study: Study, outcome: Outcome, share: Share) -> str:
    moves = abs(share.sensitivity) * study.tolerance
    what = outcome.what[0].lower() + outcome.what[1:]
    return (f"Take care with the {share.setting.what}: {length(card, study.tolerance)} off here moves {what} by "
            f"{told(card, moves)}.")


def _causes(card: Card, spread: Spread, sign: int) -> Iterator[str]:
    for share in spread.deciding[:_MOST_CAUSES]:
        more = (share.sensitivity > 0) == (sign > 0)
        if share.setting.value:
            size = with_unit(share.setting.value, card.recipe.unit)
            yield f"step {share.setting.step}: the {share.setting.what} at {'more' if more else 'less'} than {size}"
        else:
            yield f"step {share.setting.step}: the {share.setting.what}"


def _helps(outcome: Outcome, sign: int) -> str:
    kind = outcome.name.split(" ", 1)[0]
    if kind == "meeting":
        return ("Trim the overlap off one free edge. Do not score again beside the score." if sign < 0 else
                "Leave it if it is even from top to bottom. A score beside the score would show.")
    if kind == "border":
        return "Trim the layer before it is fixed, or shift it toward the wider border."
    return "Trim a free edge of the closed card, never the fold, and look which layer has to follow."


def _where(card: Card, share: Share) -> str:
    value = f" at {with_unit(share.setting.value, card.recipe.unit)}" if share.setting.value else ""
    return f"the {share.setting.what}{value} in step {share.setting.step}"


def _share(often: float) -> str:
    """`1 card in 10`, `2 cards in 5`."""
    nearest = min(((n, d) for d in (2, 3, 4, 5, 10, 20) for n in range(1, d)), key=lambda p: (abs(p[0] / p[1] - often)))
    return f"{nearest[0]} card{'s' if nearest[0] > 1 else ''} in {nearest[1]}"


def _place(card: Card, outcome: Outcome) -> Place | None:
    kind, _, names = outcome.name.partition(" ")
    if kind == "meeting":
        for meets in card.recipe.finished.meets:
            if ", ".join(name.value for name in meets.panels) == names:
                return meets.place
    if kind == "border":
        return next((bond.place for bond in card.bonds if bond.name == names.split(" ", 1)[1]), None)
    return card.recipe.finished.size[0].place
