"""What may come out otherwise: edges that meet, borders, the room in the envelope, the height of a standing card."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from foldproof.checks.envelope import envelope_fit
from foldproof.checks.finished import wanted_gap
from foldproof.checks.phrases import length
from foldproof.folding.card import Card, StandingPose
from foldproof.measures.quantity import Unit
from foldproof.recipe.records import LayerSpec
from foldproof.refit.hands import distances


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One measure of the finished card."""

    name: str
    """Stable: `meeting left door, right door`, `border left left mat`."""
    what: str
    """At the start of a sentence: `The gap between the left door and the right door`."""
    value: Fraction
    """In the recipe's unit; a height off the table is the nearest fraction of its float."""
    least: Fraction | None
    """Below this the card is spoiled; None where nothing is."""
    most: Fraction | None
    low: str
    """What is seen when it is too small, as a sentence without its full stop."""
    high: str
    exact: bool = True


def outcomes_of(card: Card) -> Iterator[Outcome]:
    """Every outcome of a card, those that the recipe promises first."""
    yield from _meetings(card)
    yield from _envelope(card)
    yield from _borders(card)
    yield from _height(card)


def visible_miss(card: Card) -> Fraction:
    """What anybody sees at edges that should meet: 1/16 in or 1.5 mm (our own choice)."""
    return {Unit.INCH: Fraction(1, 16), Unit.MM: Fraction(3, 2), Unit.CM: Fraction(3, 20)}[card.recipe.unit]


def _meetings(card: Card) -> Iterator[Outcome]:
    closed = card.closed
    if closed is None:
        return
    for meets in card.recipe.finished.meets:
        first, second = (name.value for name in meets.panels)
        found = [one for one in closed.meetings if set(one.panels) == {first, second}]
        wanted, miss = wanted_gap(meets), visible_miss(card)
        if found:
            nearest = min(found, key=lambda one: abs(one.gap - wanted))
            yield Outcome(
                name=f"meeting {first}, {second}", what=f"The gap between the {first} and the {second}",
                value=nearest.gap, least=wanted - miss, most=wanted + miss,
                low=f"The {first} and the {second} {'overlap' if wanted <= 0 else 'stand too close'}",
                high=f"The {first} and the {second} {'gape' if wanted <= 0 else 'stand too far apart'}")


def _envelope(card: Card) -> Iterator[Outcome]:
    closed, fit = card.closed, envelope_fit(card)
    if closed is None or fit is None or not fit.goes_in:
        return
    sides = sorted(side / card.recipe.unit.millimetres for side in fit.envelope_mm)
    card_sides = sorted((("width", closed.width), ("height", closed.height)), key=lambda side: side[1])
    for room, (side, value) in zip(sides, card_sides, strict=True):
        yield Outcome(
            name=f"closed {side}", what=f"The {side} of the closed card", value=value, least=None, most=room,
            low="", high=f"The card does not go into its {fit.envelope} envelope")


def _borders(card: Card) -> Iterator[Outcome]:
    for bond in card.bonds:
        if not isinstance(bond.spec, LayerSpec) or bond.spec.overhangs:
            continue
        for side, value in distances(card, bond).items():
            if value > 0:
                yield Outcome(
                    name=f"border {side} {bond.name}", what=f"The {side} border of the {bond.name}", value=value,
                    least=Fraction(0), most=None, low=f"The {bond.name} sticks out past the {side} edge", high="")


def _height(card: Card) -> Iterator[Outcome]:
    stands = card.recipe.finished.stands
    pose = card.pose(stands.pose.value) if stands is not None else None
    if isinstance(pose, StandingPose):
        yield Outcome(
            name=f"height {pose.name}", what=f"The height of the card in the pose {pose.name}",
            value=Fraction(pose.height).limit_denominator(10**6), least=None, most=None, low="", high="", exact=False)


def told(card: Card, value: Fraction) -> str:
    """A length in a finding, as fine as a ruler shows it: to 1/64 in, or to 0.1 mm."""
    marks = {Unit.INCH: 64, Unit.MM: 10, Unit.CM: 100}[card.recipe.unit]
    nearest = Fraction(round(value * marks), marks)
    return f"{'' if nearest == value else 'about '}{length(card, nearest)}"
