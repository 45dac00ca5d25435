"""The work as it lies before the maker: its paper in millimetres on the drawing, and what shows of it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import sqrt

from foldproof.drawing.plane import XY, Box, area_of, between, box_round, length, minus, round_out, split_by_rings
from foldproof.drawing.scene import Area, Fill, Item, Kind, Line
from foldproof.folding.card import Card, CardScore
from foldproof.making.order import lying
from foldproof.making.table import Crease, Lie, Table
from foldproof.making.work import Part, Work, work_with
from foldproof.paper.face import Face, Fold
from foldproof.paper.keyhole import keyhole
from foldproof.paper.polygon import Where, area, clip, locate, on_segment
from foldproof.paper.shapes import CIRCLE_CORNERS
from foldproof.paper.vector import ORIGIN, Point, Ring, Segment

SHORT = 1.6
"""How far an existing crease stops short of the edge, in millimetres."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Looking:
    """From the root's own frame to the drawing: the lie's right becomes right, its away becomes up."""

    lie: Lie
    scale: float
    """Millimetres on the drawing in one unit of the recipe."""

    def at(self, p: Point) -> XY:
        """Where a point of the root's frame is drawn."""
        step = p - ORIGIN
        size = sqrt(self.lie.right.square)
        return (
            float(step.dot(self.lie.right)) / size * self.scale, float(step.dot(self.lie.away)) / size * self.scale)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pane:
    """One flat stretch of paper as it is drawn."""

    part: Part
    ring: tuple[XY, ...]
    face: Face
    """The face that the maker sees."""
    tone: str | None
    over: tuple[tuple[XY, ...], ...]
    """The outlines of everything that lies on it, or might; windows let in by bridges."""
    shows: tuple[tuple[tuple[XY, ...], ...], ...] | None = None
    """Where papers run in a ring, what shows of this one: areas with their holes. Else what is painted later covers."""
    holes: tuple[tuple[XY, ...], ...] = ()
    """Windows: what lies beneath shows there."""

    @property
    def covered(self) -> tuple[tuple[XY, ...], ...]:
        """Where nothing can be written on it: beneath other paper, and in its windows."""
        return (*self.over, *self.holes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A body on the table, ready to be drawn."""

    card: Card
    table: Table
    work: Work
    looking: Looking
    panes: tuple[Pane, ...]
    """From the bottom up, as the maker looks at it."""

    @property
    def box(self) -> Box:
        """The room that the paper takes."""
        return box_round(p for pane in self.panes for p in pane.ring)

    def pane_at(self, piece: str, p: Point) -> Pane | None:
        """The stretch of a piece that a point of its own frame belongs to."""
        own = [pane for pane in self.panes if pane.part.piece == piece]
        inside = [pane for pane in own if locate(p, pane.part.ring, pane.part.holes) is not Where.OUT]
        return next(iter((*inside, *own)), None)

    def at(self, piece: str, p: Point) -> XY:
        """Where a point of a piece's own frame is drawn."""
        pane = self.pane_at(piece, p)
        return self.looking.at(pane.part.fit.point(p) if pane else p)

    def top_pane(self, panel: str) -> Pane | None:
        """The pane of a panel, or of the whole piece that it belongs to."""
        piece = self.card.panels[panel].piece
        return next((
            pane for pane in self.panes
            if pane.part.panel == panel or (pane.part.panel is None and pane.part.piece == piece)
        ), None)


def picture_of(card: Card, table: Table, piece: str, scale: float, lie: Lie | None = None) -> Picture:
    """The body that a piece belongs to; `lie` looks at it another way than it lies."""
    work = work_with(card, table, piece)
    if lie is not None:
        work = Work(root=work.root, lie=lie, parts=work.parts)
    looking = Looking(lie=work.lie, scale=scale)
    found = lying(card, table, work)
    rings = [_drawn_ring(table, part, looking) for part in found.parts]
    solid = [_solid_ring(part, looking) if part.holes else ring for part, ring in zip(found.parts, rings, strict=True)]
    panes = tuple(
        Pane(
            part=part, ring=ring, face=work.face_up(part), tone=tone_of(card, part.piece),
            over=tuple(solid[j] for j in range(len(rings)) if (j, i) in found.over),
            shows=tuple(
                tuple(tuple(looking.at(p) for p in one) for one in (outer, *holes))
                for place, outer, holes in found.shown if place == i) if found.shown else None,
            holes=tuple(_drawn_hole(card, part, hole, looking) for hole in part.holes))
        for i, (part, ring) in enumerate(zip(found.parts, rings, strict=True))
    )
    return Picture(card=card, table=table, work=work, looking=looking, panes=panes)


def _solid_ring(part: Part, looking: Looking) -> tuple[XY, ...]:
    ring, _ = keyhole(part.ring, [hole if area(hole) < 0 else hole[::-1] for hole in part.holes])
    return tuple(looking.at(part.fit.point(p)) for p in ring)


def _drawn_hole(card: Card, part: Part, hole: Ring, looking: Looking) -> tuple[XY, ...]:
    ring = tuple(looking.at(part.fit.point(p)) for p in hole)
    plan = card.piece(part.piece)
    if len(ring) == CIRCLE_CORNERS and plan is not None and any(window.round for window in plan.windows):
        box = box_round(ring)
        return round_out(ring, [(box.centre, box.width / 2)])
    return ring


def _drawn_ring(table: Table, part: Part, looking: Looking) -> tuple[XY, ...]:
    ring = tuple(looking.at(part.fit.point(p)) for p in part.ring)
    if table.pieces[part.piece].round and part.panel in (None, part.piece):
        box = box_round(ring)
        return round_out(ring, [(box.centre, box.width / 2)])
    return ring


def tone_of(card: Card, piece: str) -> str | None:
    """The tone of the paper of a piece, where the recipe gives one."""
    plan = card.piece(piece)
    for paper in card.recipe.papers:
        if plan is not None and paper.name.value == plan.paper and paper.tone is not None:
            return paper.tone.value
    return None


def paper_items(
    picture: Picture, strong: Iterable[str] = (), new: frozenset[tuple[str, Segment]] = frozenset(),
    new_slits: frozenset[tuple[str, Segment]] = frozenset(),
) -> list[Item]:
    """The paper, its edges and the creases that were there before.

    `strong` names pieces whose edges are drawn heavier; `new` and `new_slits` hold creases and slits (piece, segment)
    that are drawn elsewhere.
    """
    items: list[Item] = []
    heavy = set(strong)
    for pane in picture.panes:
        fill = Fill.FRONT if pane.face is Face.FRONT else Fill.BACK
        areas = ((pane.ring, *pane.holes),) if pane.shows is None else pane.shows
        items += [Area(rings=rings, fill=fill, tone=pane.tone) for rings in areas]
    for pane in picture.panes:
        kind = Kind.STRONG if pane.part.piece in heavy else Kind.EDGE
        # what lies on other paper keeps its edge to itself, so that a narrow border shows alike on all sides
        within = pane.part.piece != picture.work.root
        for p, q in _edges(picture, pane):
            ends = (p, q) if area_of(pane.ring) > 0 else (q, p)
            items += [Line(points=s, kind=kind, within=within) for s in seen(*ends, pane.over)]
        for p, q in _cut_edges(picture, pane, new_slits):
            items += [Line(points=s, kind=kind) for s in seen(p, q, pane.over)]
        for crease in picture.table.pieces[pane.part.piece].creases:
            if (pane.part.piece, crease.segment) not in new and not folded_now(picture, pane.part.piece, crease):
                for p, q in crease_on(picture, pane, crease):
                    items += [Line(points=shortened(*s), kind=Kind.CREASE) for s in seen(p, q, pane.over)]
    return items


def seen(p: XY, q: XY, over: Sequence[Sequence[XY]]) -> list[tuple[XY, XY]]:
    """The stretches of a segment that nothing covers."""
    return [(a, b) for a, b, covered in split_by_rings(p, q, over) if not covered]


def shortened(p: XY, q: XY) -> tuple[XY, XY]:
    """A stretch that stops short at both ends; a short one keeps two thirds of itself."""
    size = length(minus(q, p))
    share = min(SHORT / size, 1 / 6) if size else 0.0
    return between(p, q, share), between(p, q, 1 - share)


def crease_on(picture: Picture, pane: Pane, crease: Crease) -> Iterator[tuple[XY, XY]]:
    """Where a crease runs over a pane, on the drawing."""
    yield from line_on(picture, pane, crease.segment)


def line_on(picture: Picture, pane: Pane, line: Segment) -> Iterator[tuple[XY, XY]]:
    """Where a line of a piece runs over a pane, on the drawing."""
    for stretch in clip(line, pane.part.ring, pane.part.holes):
        if stretch.start != stretch.end:
            start, end = (picture.looking.at(pane.part.fit.point(p)) for p in (stretch.start, stretch.end))
            yield (start, end)


def folded_now(picture: Picture, piece: str, crease: Crease) -> bool:
    """Whether the score that a crease made is folded over at this moment: then it is an edge."""
    score = score_of(picture.card, piece, crease.segment)
    angles = dict(picture.table.folded)
    return score is not None and abs(angles.get(score.name, Fraction(0))) == 180


def score_of(card: Card, piece: str, line: Segment) -> CardScore | None:
    """The score of the plan that a line on a piece lies on."""
    plan = card.piece(piece)
    for score in plan.scores if plan else ():
        if on_segment(line.start, score.segment) and on_segment(line.end, score.segment):
            return score
    return None


def fold_seen(card: Card, piece: str, line: Segment, face: Face) -> Fold | None:
    """Which way the score under a line folds, seen from a face; None where the plan has none there."""
    score = score_of(card, piece, line)
    if score is None:
        return None
    return score.fold if face is Face.FRONT else score.fold.other


def kind_of_fold(fold: Fold | None) -> Kind:
    """The stroke for a score."""
    return {Fold.VALLEY: Kind.VALLEY, Fold.MOUNTAIN: Kind.MOUNTAIN, Fold.NONE: Kind.PRESSED, None: Kind.PRESSED}[fold]


def _edges(picture: Picture, pane: Pane) -> Iterator[tuple[XY, XY]]:
    """The sides of a pane but for hinges that lie flat."""
    ring = pane.ring
    flat = _flat_hinges(picture, pane.part)
    corners = pane.part.ring
    if len(corners) != len(ring):
        yield from pairwise((*ring, ring[0]))
        return
    for i in range(len(ring)):
        a, b = corners[i], corners[(i + 1) % len(corners)]
        if not any(on_segment(a, hinge) and on_segment(b, hinge) for hinge in flat):
            yield ring[i], ring[(i + 1) % len(ring)]


def _cut_edges(
    picture: Picture, pane: Pane, new_slits: frozenset[tuple[str, Segment]],
) -> Iterator[tuple[XY, XY]]:
    """The sides of a pane's windows, and its slits."""
    for hole in pane.holes:
        yield from pairwise((*hole, hole[0]))
    for slit in picture.table.pieces[pane.part.piece].slits:
        if (pane.part.piece, slit) not in new_slits:
            yield from line_on(picture, pane, slit)


def _flat_hinges(picture: Picture, part: Part) -> list[Segment]:
    if part.panel is None:
        return []
    folded = {name for name, angle in picture.table.folded if abs(angle) == 180}
    return [
        hinge.segment for hinge in picture.card.hinges
        if hinge.piece == part.piece and part.panel in hinge.panels and hinge.score not in folded
    ]
