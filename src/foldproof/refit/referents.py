"""What a line, a point or a size of the first card stood for, found again on the card with other measures."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from foldproof.findings.finding import Place
from foldproof.folding.card import CardPiece
from foldproof.making.folds import same_line
from foldproof.measures.quantity import Kind, Quantity
from foldproof.measures.writing import write_number
from foldproof.paper.polygon import bounding_box, edges
from foldproof.paper.vector import Point, Segment

Size = tuple[Fraction, Fraction]
MOST_FROM_ONE = 12
"""The most equal parts that a strip is taken to be cut into."""


def same_score(old: CardPiece, new: CardPiece, line: Segment) -> Segment | None:
    """The score of the new plan that has the name of the old plan's score along a line."""
    name = next((score.name for score in old.scores if same_line(score.segment, line)), None)
    return next((score.segment for score in new.scores if score.name == name), None)


def same_point(old: CardPiece, new: CardPiece, at: Point) -> Point | None:
    """The point of the new plan that has the name or the place in the outline of the old plan's point there."""
    return next((other for one, other in zip(_points(old), _points(new), strict=False) if one == at), None)


def same_size(
    old: CardPiece, new: CardPiece, said: Size, loose: Callable[[Fraction], Fraction] = Fraction,
) -> Size:
    """The size to cut for the new plan where `said` was cut for the old one.

    A side of the piece, or a whole number of them (two mats from one strip), stays that; else what was cut more or less
    than the piece needs stays what `loose` makes of that amount. A size said the other way round stays so.
    """
    before, after = bounding_box(old.outline), bounding_box(new.outline)
    was, now = (before.width, before.height), (after.width, after.height)
    if said == was[::-1] and said != was:
        return now[::-1]
    return _side(said[0], was[0], now[0], loose), _side(said[1], was[1], now[1], loose)


def _side(said: Fraction, was: Fraction, now: Fraction, loose: Callable[[Fraction], Fraction]) -> Fraction:
    times = said / was
    if times.denominator == 1 and times <= MOST_FROM_ONE:
        return now * times
    return now + loose(said - was)


def _points(piece: CardPiece) -> Iterator[Point | None]:
    """The places of a piece that hands could mean, in an order that does not depend on the measures."""
    for score in piece.scores:
        yield score.segment.start
        yield score.segment.end
    for slit in piece.slits:
        yield slit.segment.start
        yield slit.segment.end
    yield from (piece.points[name] for name in piece.points)
    yield from piece.outline
    box = bounding_box(piece.outline)
    yield from (Point(x, y) for x in (box.left, box.right) for y in (box.bottom, box.top))
    yield from (edge.middle for edge in edges(piece.outline))
    yield box.centre


def placed_length(value: Fraction, place: Place) -> Quantity:
    """A length that was reckoned, with the place of what it belongs to."""
    return Quantity(value=value, kind=Kind.LENGTH, written=write_number(value), place=place)
