"""The work before the maker: all the paper of one body, as it lies now, folded as it is."""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from foldproof.folding.card import Bond, Card, Panel
from foldproof.folding.place import Placing, place_panels
from foldproof.folding.remembered import remembered
from foldproof.frozen import dataclass
from foldproof.making.table import Lie, Table
from foldproof.paper.face import Face
from foldproof.paper.isometry import IDENTITY, Isometry
from foldproof.paper.polygon import Where, area, clip, edges, interior_point, locate
from foldproof.paper.subdivision import subdivide
from foldproof.paper.tracing import Area
from foldproof.paper.vector import Point, Ring, Vector
from foldproof.recipe.cut_records import UNCUT


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
    holes: tuple[Ring, ...] = ()
    """In the piece's own frame."""


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


@remembered(256)
def work_with(card: Card, table: Table, piece: str) -> Work:
    """The body that a piece on the table belongs to, as it lies and as it is folded now."""
    root = table.root(piece)
    members = list(table.body(piece))
    lie = table.pieces[root].lie
    folds = {name: angle for name, angle in table.folded if abs(angle) == 180}
    scores = {score.name for name in members if (found := card.piece(name)) for score in found.scores}
    if not any(score in folds for score in scores):
        fits = _whole(table, root, members)
        return Work(root=root, lie=lie, parts=tuple(
            Part(piece=name, panel=None, ring=table.pieces[name].outline, fit=fits[name],
                 holes=table.pieces[name].holes)
            for name in members if name in fits
        ))
    panels = {name: panel for name, panel in card.panels.items() if panel.piece in members}
    return Work(root=root, lie=lie, parts=_folded(card, table, root, panels, folds))


def _whole(table: Table, root: str, members: list[str]) -> dict[str, Isometry]:
    fits = {root: IDENTITY}
    for _ in members:
        known = len(fits)
        for bond in table.bonds:
            if bond.root in fits and bond.guest not in fits:
                fits[bond.guest] = fits[bond.root].after(bond.fit)
        if len(fits) == known:
            break
    return fits


def _folded(
    card: Card, table: Table, root: str, panels: Mapping[str, Panel], folds: Mapping[str, Fraction]
) -> tuple[Part, ...]:
    still = root_still(card, root)
    if still is None:
        return ()
    placing = _placing(card, table, panels, folds, still)
    unfinished = {
        name: regions for name in {panel.piece for panel in panels.values()}
        if (regions := _as_cut_so_far(card, table, name)) is not None
    }
    parts = []
    for name, fit in placing.placements.items():
        panel = panels[name]
        area_now = unfinished.get(panel.piece, {}).get(name)
        if panel.piece not in unfinished:
            parts.append(Part(piece=panel.piece, panel=name, ring=panel.ring, fit=fit, holes=panel.holes))
        elif area_now is not None:
            parts.append(Part(piece=panel.piece, panel=name, ring=area_now.ring, fit=fit, holes=area_now.holes))
    return tuple(parts)


def _placing(
    card: Card, table: Table, panels: Mapping[str, Panel], folds: Mapping[str, Fraction], still: str,
) -> Placing:
    hinges = tuple(hinge for hinge in card.hinges if hinge.piece in {panel.piece for panel in panels.values()})
    return place_panels(panels, hinges, made_bonds(card, table), folds, still)


def stays_together(card: Card, table: Table, piece: str) -> bool:
    """Whether the body of a piece closes as it is folded now; where folds are tied in a ring it may not yet."""
    root = table.root(piece)
    still = root_still(card, root)
    members = set(table.body(piece))
    panels = {name: panel for name, panel in card.panels.items() if panel.piece in members}
    folds = {name: angle for name, angle in table.folded if abs(angle) == 180}
    return still is None or not _placing(card, table, panels, folds, still).misfits


def _as_cut_so_far(card: Card, table: Table, name: str) -> Mapping[str, Area] | None:
    """The panels of a piece whose windows, notches or slits are not all cut yet; None where the plan's panels do.

    Panels that no cut parts from each other yet are one region, under the name of the first.
    """
    plan, now = card.piece(name), table.pieces[name]
    if plan is None or plan.spec.cuts == UNCUT:
        return None
    if len(now.holes) == len(plan.windows) and len(now.slits) >= len(plan.slits) \
            and len(now.outline) == len(plan.outline):
        return None
    segments = [side for ring in (now.outline, *now.holes) for side in edges(ring)]
    segments += list(now.slits)
    for score in plan.scores:
        segments += [s for s in clip(score.segment, now.outline, now.holes) if s.start != s.end]
    faces = [
        face for face in subdivide(segments).faces
        if not any(locate(face.inside, hole) is Where.IN for hole in now.holes)
    ]
    found: dict[str, Area] = {}
    for panel in plan.panels:
        p = interior_point(card.panels[panel].ring, card.panels[panel].holes)
        face = next((face for face in faces if locate(p, face.ring, face.holes) is Where.IN), None)
        if face is not None and face not in found.values():
            found[panel] = face
    return found


def made_bonds(card: Card, table: Table) -> tuple[Bond, ...]:
    """The plan's bonds that have been made on the table."""
    made = {bond.name for bond in table.bonds}
    return tuple(bond for bond in card.bonds if bond.name in made)
