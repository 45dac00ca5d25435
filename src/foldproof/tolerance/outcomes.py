"""What may come out otherwise: edges that meet, borders, the room in the envelope, the height of a standing card.

Each outcome is read off the plan with its limits, and off a card as hands made it by its gauge.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from foldproof.checks.envelope import envelope_fit
from foldproof.checks.finished import wanted_gap
from foldproof.checks.phrases import length
from foldproof.folding.card import Card, Meeting, StandingPose
from foldproof.folding.meetings import gap_between
from foldproof.measures.quantity import Unit
from foldproof.paper.polygon import bounding_box, edges
from foldproof.paper.vector import Segment
from foldproof.recipe.records import LayerSpec
from foldproof.refit.hands import distances
from foldproof.tolerance.as_made import Made


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


Gauge = Callable[[Made], Fraction | None]
"""Reads one outcome off a card; None where that has no such."""


def outcomes_of(card: Card) -> tuple[Outcome, ...]:
    """Every outcome of a card, those that the recipe promises first."""
    return tuple(outcome for outcome, _ in gauged(card))


def gauged(card: Card) -> Iterator[tuple[Outcome, Gauge]]:
    """Every outcome of a card with what reads it off another of the same plan."""
    yield from _meetings(card)
    yield from _envelope(card)
    yield from _borders(card)
    yield from _height(card)


def readings(gauges: Mapping[str, Gauge], made: Made) -> dict[str, Fraction]:
    """What can be read, by the names of the outcomes."""
    found = ((name, gauge(made)) for name, gauge in gauges.items())
    return {name: value for name, value in found if value is not None}


def visible_miss(card: Card) -> Fraction:
    """What anybody sees at edges that should meet: 1/16 in or 1.5 mm (our own choice)."""
    return {Unit.INCH: Fraction(1, 16), Unit.MM: Fraction(3, 2), Unit.CM: Fraction(3, 20)}[card.recipe.unit]


def _meetings(card: Card) -> Iterator[tuple[Outcome, Gauge]]:
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
                high=f"The {first} and the {second} {'gape' if wanted <= 0 else 'stand too far apart'}"), _gap(nearest)


def _gap(meeting: Meeting) -> Gauge:
    def read(made: Made) -> Fraction | None:
        if any(panel not in made.closed for panel in meeting.panels):
            return None
        one, other = (
            _nearest(edges(made.closed[panel].ring(made.card.panels[panel].ring)), edge)
            for panel, edge in zip(meeting.panels, meeting.edges, strict=True))
        return gap_between(one, other)

    return read


def _nearest(sides: Iterable[Segment], edge: Segment) -> Segment:
    """The side that an edge of the plan has become: of those that run as it does, the one whose line is nearest."""
    def off(side: Segment) -> tuple[bool, float]:
        along = side.along
        apart = float(along.cross(edge.middle - side.start) ** 2 / along.square)
        turned = float(along.cross(edge.along) ** 2 / (along.square * edge.along.square))
        return turned > 0.01 or along.dot(edge.along) < 0, apart

    return min(sides, key=off)


def _envelope(card: Card) -> Iterator[tuple[Outcome, Gauge]]:
    closed, fit = card.closed, envelope_fit(card)
    if closed is None or fit is None or not fit.goes_in:
        return
    sides = sorted(side / card.recipe.unit.millimetres for side in fit.envelope_mm)
    card_sides = sorted((("width", closed.width), ("height", closed.height)), key=lambda side: side[1])
    for room, (side, value) in zip(sides, card_sides, strict=True):
        yield Outcome(
            name=f"closed {side}", what=f"The {side} of the closed card", value=value, least=None, most=room,
            low="", high=f"The card does not go into its {fit.envelope} envelope"), _closed(side)


def _closed(side: str) -> Gauge:
    def read(made: Made) -> Fraction | None:
        if not made.closed:
            return None
        box = bounding_box(p for name, move in made.closed.items() for p in move.ring(made.card.panels[name].ring))
        return box.width if side == "width" else box.height

    return read


def _borders(card: Card) -> Iterator[tuple[Outcome, Gauge]]:
    for bond in card.bonds:
        if not isinstance(bond.spec, LayerSpec) or bond.spec.overhangs:
            continue
        for side, value in distances(card, bond).items():
            if value > 0:
                yield Outcome(
                    name=f"border {side} {bond.name}", what=f"The {side} border of the {bond.name}", value=value,
                    least=Fraction(0), most=None, low=f"The {bond.name} sticks out past the {side} edge", high=""
                ), _border(bond.name, side)


def _border(name: str, side: str) -> Gauge:
    def read(made: Made) -> Fraction | None:
        bond = next((one for one in made.card.bonds if one.name == name), None)
        return distances(made.card, bond)[side] if bond is not None else None

    return read


def _height(card: Card) -> Iterator[tuple[Outcome, Gauge]]:
    stands = card.recipe.finished.stands
    pose = card.pose(stands.pose.value) if stands is not None else None
    if isinstance(pose, StandingPose):
        yield Outcome(
            name=f"height {pose.name}", what=f"The height of the card in the pose {pose.name}",
            value=_reach(pose), least=None, most=None, low="", high="", exact=False
        ), lambda made: _reach(made.stands) if made.stands is not None else None


def _reach(pose: StandingPose) -> Fraction:
    return Fraction(pose.height).limit_denominator(10**6)


def told(card: Card, value: Fraction) -> str:
    """A length in a finding, as fine as a ruler shows it: to 1/64 in, or to 0.1 mm."""
    marks = {Unit.INCH: 64, Unit.MM: 10, Unit.CM: 100}[card.recipe.unit]
    nearest = Fraction(round(value * marks), marks)
    return f"{'' if nearest == value else 'about '}{length(card, nearest)}"
