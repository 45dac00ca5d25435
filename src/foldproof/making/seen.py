"""What a body on the table looks like from above: the visible areas of its paper, exactly, in the maker's frame."""

from dataclasses import replace
from fractions import Fraction

from foldproof.folding.card import Card, Panel
from foldproof.folding.overlay import ordered, overlay
from foldproof.frozen import dataclass
from foldproof.making.compare_cuts import canonical
from foldproof.making.lying import turned_over
from foldproof.making.order import lying
from foldproof.making.table import Mark, Stamped, Table
from foldproof.making.work import Part, Work, work_with
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import Where, clip, locate
from foldproof.paper.subdivision import merge
from foldproof.paper.vector import Point, Ring, Segment


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A part of a face that can be seen, and what is on it there.

    The maker's frame: the recipe's unit, the origin at the bottom left of the work as it lies, x to the maker's right,
    y away from the maker.
    """

    piece: str
    panel: str | None
    """None for a piece that has not its plan's outline yet, and so no panels."""
    face: Face
    ring: Ring
    holes: tuple[Ring, ...]
    creases: tuple[Segment, ...]
    """Scores and creases that run over it, where they show."""
    marks: tuple[tuple[str, Point], ...]
    stamped: tuple[Stamped, ...]
    """What has been stamped on this panel's face."""
    wet: tuple[str, ...]
    """Layers and joins that hold this piece or are held by it, whose adhesive is not dry yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A body as the maker sees it."""

    root: str
    width: Fraction
    """As it lies, left to right."""
    height: Fraction
    """As it lies, near to far."""
    shown: tuple[Shown, ...]
    """Without overlaps; a face may be seen in several parts."""

    def of(self, panel: str, face: Face) -> tuple[Shown, ...]:
        """The parts of a panel's face that can be seen."""
        return tuple(part for part in self.shown if part.panel == panel and part.face is face)


def seen(card: Card, table: Table, piece: str, *, behind: bool = False) -> Seen:
    """The body that a piece belongs to, from above; `behind` looks at it turned over like the page of a book."""
    work = work_with(card, table, piece)
    if behind:
        work = replace(work, lie=turned_over(work.lie, "book page"))
    found = lying(card, table, work)
    places: list[tuple[int, Part, Panel]] = []
    panels: dict[str, Panel] = {}
    fits: dict[str, Isometry] = {}
    for index, part in enumerate(found.parts):
        for panel in _panels_of(card, part):
            name = str(len(places))
            places.append((index, part, panel))
            panels[name] = Panel(name=name, piece=part.piece, ring=panel.ring, holes=panel.holes)
            fits[name] = part.fit
    laid = overlay(panels, fits)
    over = frozenset(
        (a, b) for a in panels for b in panels if (places[int(a)][0], places[int(b)][0]) in found.over)
    laid = ordered(laid, over)
    onto = to_maker(work)
    low, high = work.span(work.lie.right)
    near, far = work.span(work.lie.away)
    shown = tuple(
        _shown(table, work, onto, *places[int(name)][1:], area.ring, area.holes)
        for name, area in merge(laid.whole, laid.top))
    return Seen(root=work.root, width=high - low, height=far - near, shown=shown)


def seen_after(card: Card, table: Table) -> tuple[Seen, ...]:
    """Every body on the table, from above, in the order in which its root was cut."""
    roots = dict.fromkeys(table.root(name) for name in table.pieces)
    return tuple(seen(card, table, root) for root in roots)


def _panels_of(card: Card, part: Part) -> tuple[Panel, ...]:
    """The panels that a part shows: its own, or all of an unfolded piece that has its plan's outline."""
    if part.panel is not None:
        return (card.panels[part.panel],)
    plan = card.piece(part.piece)
    if plan is not None and plan.panels and canonical(plan.outline) == canonical(part.ring):
        panels = tuple(card.panels[name] for name in plan.panels)
        if sum(len(panel.holes) for panel in panels) == len(part.holes):
            return panels
    return (Panel(name="", piece=part.piece, ring=part.ring, holes=part.holes),)


def to_maker(work: Work) -> Isometry:
    """From the frame of the body's root to the maker's. A lie is square to the root's frame, of length one."""
    right, away = work.lie.right, work.lie.away
    assert right.square == 1
    return Isometry(
        xx=right.x, xy=right.y, yx=away.x, yy=away.y, dx=-work.span(right)[0], dy=-work.span(away)[0])


def _shown(
    table: Table, work: Work, maker: Isometry, part: Part, panel: Panel, ring: Ring, holes: tuple[Ring, ...],
) -> Shown:
    """What there is on a visible area, which is given in the root's frame."""
    piece, face = table.pieces[part.piece], work.face_up(part)
    back = part.fit.inverse
    on_piece, gaps = back.ring(ring), tuple(back.ring(hole) for hole in holes)
    onto = maker.after(part.fit)
    return Shown(
        piece=part.piece, panel=panel.name or None, face=face, ring=maker.ring(ring),
        holes=tuple(maker.ring(hole) for hole in holes),
        creases=tuple(
            onto.segment(stretch) for crease in piece.creases for stretch in clip(crease.segment, on_piece, gaps)
            if stretch.start != stretch.end),
        marks=tuple((mark.name, onto.point(mark.at)) for mark in piece.marks if _has(mark, face, on_piece, gaps)),
        stamped=tuple(one for one in table.stamped if (one.panel, one.face) == (panel.name, face)),
        wet=tuple(
            bond.name for bond in table.bonds
            if bond.wet_until > table.clock and part.piece in (bond.root, bond.guest)))


def _has(mark: Mark, face: Face, ring: Ring, holes: tuple[Ring, ...]) -> bool:
    return mark.face is face and locate(mark.at, ring, holes) is not Where.OUT
