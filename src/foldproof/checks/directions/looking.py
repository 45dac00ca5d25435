"""What is to be seen on the table at a moment: where a panel lies, which face is up, what a fold moved."""

from collections.abc import Collection, Iterable, Mapping
from fractions import Fraction
from functools import cached_property

from foldproof.folding.card import Card
from foldproof.making.lying import direction
from foldproof.making.table import Table
from foldproof.making.work import Work, work_with
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.vector import ORIGIN, Point, Ring, Vector

Span = tuple[Fraction, Fraction]


class Sight:
    """One body on the table at one moment, as its maker sees it."""

    def __init__(self, card: Card, table: Table, piece: str) -> None:
        self.card, self.table, self.piece = card, table, piece
        self.work: Work = work_with(card, table, piece)

    @cached_property
    def fits(self) -> Mapping[str, Isometry]:
        """For each panel, from its piece's frame to the body's."""
        whole = {part.piece: part.fit for part in self.work.parts if part.panel is None}
        return {
            **{part.panel: part.fit for part in self.work.parts if part.panel is not None},
            **{name: whole[panel.piece] for name, panel in self.card.panels.items() if panel.piece in whole},
        }

    def ring(self, panel: str) -> Ring:
        """A panel's outline in the body's frame."""
        return self.fits[panel].ring(self.card.panels[panel].ring)

    def up(self, panel: str) -> Face:
        """The face of a panel that looks at the maker."""
        lie = self.work.lie.up
        return lie.other if self.fits[panel].flips else lie

    def way(self, side: str) -> Vector:
        """A side's direction in the body's frame."""
        return direction(self.work.lie, side)

    def spans(self, panels: Collection[str]) -> tuple[Span, Span]:
        """How far panels reach: rightward, then away from the maker (in lengths of the lie's own vector)."""
        points = [p for panel in panels for p in self.ring(panel)]
        return self._span(points, "right"), self._span(points, "top")

    def _span(self, points: Collection[Point], side: str) -> Span:
        values = [(p - ORIGIN).dot(self.way(side)) for p in points]
        return min(values), max(values)

    @property
    def panels(self) -> tuple[str, ...]:
        """Every panel of the body."""
        return tuple(self.fits)

    def own(self) -> tuple[str, ...]:
        """The panels of the piece itself and of pieces joined to it, its layers left out."""
        kept = [name for name in self.fits if not self._layer(name)]
        return tuple(kept) or self.panels

    def _layer(self, panel: str) -> bool:
        found = self.card.piece(self.card.panels[panel].piece)
        return found is not None and found.layer

    def sides(self, panels: Collection[str]) -> frozenset[str]:
        """The sides of the body toward which panels lie: those on which their middle is off the body's middle."""
        mine, all_ = self.spans(panels), self.spans(self.own())
        return _sides((a + b for a, b in mine), (a + b for a, b in all_))

    def point_sides(self, point: Point) -> frozenset[str]:
        """The sides of the body toward which a point of its frame lies."""
        return _sides(
            (2 * (point - ORIGIN).dot(self.way(side)) for side in ("right", "top")),
            (a + b for a, b in self.spans(self.own())),
        )


def _sides(mine: Iterable[Fraction], middle: Iterable[Fraction]) -> frozenset[str]:
    found = set()
    for (low, high), a, b in zip((("left", "right"), ("bottom", "top")), mine, middle, strict=True):
        if a != b:
            found.add(low if a < b else high)
    return frozenset(found)


def moved(before: Sight, after: Sight) -> tuple[str, ...]:
    """The panels that lie elsewhere in the body after a fold."""
    return tuple(name for name, fit in before.fits.items() if name in after.fits and after.fits[name] != fit)


def motion(before: Sight, after: Sight, panels: Collection[str]) -> frozenset[str]:
    """The sides toward which panels went, as the maker sees it."""
    was, now = before.spans(panels), after.spans(panels)
    return _sides((a + b for a, b in now), (a + b for a, b in was))


def upright(sight: Sight, panel: str) -> bool:
    """Whether a panel's own up, looked at, points away from the maker."""
    up = sight.fits[panel].vector(Vector(Fraction(0), Fraction(1)))
    return up.dot(sight.way("right")) == 0 and up.dot(sight.way("top")) > 0
