"""Corners of folds inside the paper: which scores meet there, in which order, and the angles between them."""

from collections.abc import Iterator, Sequence
from functools import cmp_to_key
from math import atan2, degrees

from foldproof.folding.card import Card, CardPiece, Hinge
from foldproof.frozen import dataclass
from foldproof.paper.polygon import Where, locate, on_segment
from foldproof.paper.vector import Point, Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Crease:
    """A stretch of score that ends at a corner."""

    score: str
    out: Vector
    """From the corner along the score, in the piece's own frame."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A place inside a piece, paper all round it, where scores meet."""

    piece: str
    at: Point
    """In the piece's own frame."""
    creases: tuple[Crease, ...]
    """Anticlockwise."""


def corners(card: Card) -> Iterator[Corner]:
    """All corners of the card, piece by piece, each from its lowest to its highest."""
    for piece in card.pieces:
        ends: dict[Point, list[tuple[Hinge, Vector]]] = {}
        for hinge in card.hinges:
            if hinge.piece == piece.name:
                ends.setdefault(hinge.segment.start, []).append((hinge, hinge.segment.along))
                ends.setdefault(hinge.segment.end, []).append((hinge, -hinge.segment.along))
        for at, fan in sorted(ends.items()):
            fan.sort(key=lambda one: by_angle(one[1]))
            if _inside(card, piece, at) and _closed(fan):
                yield Corner(
                    piece=piece.name, at=at,
                    creases=tuple(Crease(score=hinge.score, out=out) for hinge, out in fan))


def _inside(card: Card, piece: CardPiece, at: Point) -> bool:
    """Whether there is paper all round: no edge, no opening and no slit runs there."""
    return (locate(at, piece.outline) is Where.IN
            and all(locate(at, hole) is Where.OUT for name in piece.panels for hole in card.panels[name].holes)
            and not any(on_segment(at, slit.segment) for slit in piece.slits))


def _closed(fan: Sequence[tuple[Hinge, Vector]]) -> bool:
    """Whether each score has the same panel on its left as the next one has on its right: no cut runs in between."""
    def sides(hinge: Hinge, out: Vector) -> tuple[str, str]:
        return hinge.panels if out == hinge.segment.along else hinge.panels[::-1]

    return all(sides(*fan[i - 1])[0] == sides(*fan[i])[1] for i in range(len(fan)))


def turning(one: Vector, two: Vector) -> int:
    """Order directions by their angle from the x axis, anticlockwise from 0 to 360 degrees; exact."""
    upper, theirs = (v.y > 0 or (v.y == 0 and v.x > 0) for v in (one, two))
    if upper != theirs:
        return -1 if upper else 1
    cross = one.cross(two)
    return -1 if cross > 0 else 1 if cross < 0 else 0


by_angle = cmp_to_key(turning)
"""A key to sort directions by."""


def between(one: Vector, two: Vector) -> Vector:
    """The angle from one direction anticlockwise to another, as a direction turned that far from the x axis.

    The product of the one's conjugate with the other, as complex numbers.
    """
    return Vector(one.dot(two), one.cross(two))


def in_degrees(angle: Vector) -> float:
    """An angle of more than 0 and at most 360 degrees, for words."""
    return degrees(atan2(float(angle.y), float(angle.x))) % 360 or 360.0
