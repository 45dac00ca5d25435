"""The work before the maker: all the paper of one body, as it lies now, folded as it is."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from foldproof.folding.card import Bond, Card, Panel
from foldproof.folding.place import place_panels
from foldproof.making.table import Lie, Table
from foldproof.paper.face import Face
from foldproof.paper.isometry import IDENTITY, Isometry
from foldproof.paper.polygon import area
from foldproof.paper.vector import Point, Ring, Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One flat stretch of paper in the work."""

    piece: str
    panel: str | None
    """None for a piece that has not been folded: it is taken whole."""
    ring: Ring
    """In the piece's own frame."""
    fit: Isometry
    """From the piece's own frame to the frame of the body's root."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A body on the table: a root piece and all that is bonded to it, in the root's own frame."""

    root: str
    lie: Lie
    parts: tuple[Part, ...]

    @property
    def corners(self) -> Iterable[Point]:
        """Every corner of every part, in the root's frame."""
        return (part.fit.point(p) for part in self.parts for p in part.ring)

    def span(self, along: Vector) -> tuple[Fraction, Fraction]:
        """The least and greatest of `along . p` over the work; divide by the length of `along` for distances."""
        values = [along.x * p.x + along.y * p.y for p in self.corners]
        return min(values), max(values)

    def face_up(self, part: Part) -> Face:
        """The face of a part that is up."""
        return self.lie.up.other if part.fit.flips else self.lie.up


def root_still(card: Card, root: str) -> str | None:
    """The panel of the root that stays where it lies when folding: the closed pose's still one, or the largest."""
    piece = card.piece(root)
    if piece is None or not piece.panels:
        return None
    closed = card.closed
    if closed is not None and closed.spec.still is not None and closed.spec.still.value in piece.panels:
        return closed.spec.still.value
    return max(piece.panels, key=lambda name: area(card.panels[name].ring))


def work_with(card: Card, table: Table, piece: str) -> Work:
    """The body that a piece on the table belongs to, as it lies and as it is folded now."""
    root = table.root(piece)
    members = [name for name in table.pieces if table.root(name) == root]
    lie = table.pieces[root].lie
    folds = {name: angle for name, angle in table.folded if abs(angle) == 180}
    scores = {score.name for name in members if (found := card.piece(name)) for score in found.scores}
    if not any(score in folds for score in scores):
        fits = _whole(table, root, members)
        return Work(root=root, lie=lie, parts=tuple(
            Part(piece=name, panel=None, ring=table.pieces[name].outline, fit=fits[name])
            for name in members if name in fits
        ))
    panels = {name: panel for name, panel in card.panels.items() if panel.piece in members}
    return Work(root=root, lie=lie, parts=_folded(card, table, root, panels, folds))


def _whole(table: Table, root: str, members: list[str]) -> dict[str, Isometry]:
    fits = {root: IDENTITY}
    for _ in members:
        for bond in table.bonds:
            if bond.root in fits and bond.guest not in fits:
                fits[bond.guest] = fits[bond.root].after(bond.fit)
    return fits


def _folded(
    card: Card, table: Table, root: str, panels: Mapping[str, Panel], folds: Mapping[str, Fraction]
) -> tuple[Part, ...]:
    still = root_still(card, root)
    if still is None:
        return ()
    placing = place_panels(
        panels,
        tuple(hinge for hinge in card.hinges if hinge.piece in {panel.piece for panel in panels.values()}),
        made_bonds(card, table),
        folds,
        still,
    )
    return tuple(
        Part(piece=panels[name].piece, panel=name, ring=panels[name].ring, fit=fit)
        for name, fit in placing.placements.items()
    )


def made_bonds(card: Card, table: Table) -> tuple[Bond, ...]:
    """The plan's bonds that have been made on the table."""
    made = {bond.name for bond in table.bonds}
    return tuple(bond for bond in card.bonds if bond.name in made)
