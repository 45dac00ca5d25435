"""What the camera sees: the frame with its real width, the work in it as it lies, and which edge is at the bottom.

From overhead the picture is the table seen straight down, with the maker's edge at its bottom, or the far edge, which
is the whole table turned half round: the fence then lies at the bottom and the maker's right is at the left.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from foldproof.drawing.ink import to_svg
from foldproof.drawing.labels import Wish, obstacles_of, set_labels
from foldproof.drawing.lettering import text_width
from foldproof.drawing.picture import paper_items, picture_of, tone_of
from foldproof.drawing.places import places_inside
from foldproof.drawing.plane import XY, Box, box_round, clip_to_box
from foldproof.drawing.record import PLAIN, Drawing, DrawingStyle
from foldproof.drawing.rows import Wanted, set_in_rows
from foldproof.drawing.scene import Area, Arrow, Fill, HeadKind, Item, Kind, Label, Line, framed, items_box, moved
from foldproof.drawing.standing import standing_items
from foldproof.filming.continuity import Continuity
from foldproof.filming.cuts import CLOSE, WIDE
from foldproof.filming.measuring import hand_room, sheet_level
from foldproof.filming.records import FilmPlan, Shot, Spot
from foldproof.filming.spots import whole
from foldproof.filming.spread import spread
from foldproof.folding.card import Card, FlatPose, StandingPose
from foldproof.making.lying import turned
from foldproof.making.table import Lie, Table
from foldproof.measures.writing import with_unit, write_size
from foldproof.paper.face import Face
from foldproof.recipe import actions as do
from foldproof.recipe.film_records import BeautySpec

WIDE_MM, HIGH_MM = 52.0, 46.0
"""The largest picture of a frame on paper."""
FENCE_MM = 2.4
BETWEEN_MM = 5.0


@dataclass(frozen=True, slots=True)
class _View:
    """A frame on paper: its middle is the origin."""

    card: Card
    shot: Shot
    box: Box
    scale: float
    """Millimetres on paper in one unit."""
    opposite: bool
    style: DrawingStyle
    fence: bool = False
    """Whether the work lies against the fence."""

    @property
    def turn(self) -> str:
        return "half" if self.opposite else "none"


def draw_shot(
    card: Card, plan: FilmPlan, shot: Shot, held: Continuity, style: DrawingStyle = PLAIN,
) -> Drawing:
    """The frame when the camera starts and when it stops, side by side; one picture where nothing changes."""
    view = _view(card, plan, shot, style)
    scored = any(isinstance(done.action, do.ScoreAt | do.Lay) for done in shot.done)
    laid = scored and not isinstance(shot.done[0].action, do.Lay | do.Turn | do.TurnOver)
    start = _picture(replace(view, fence=laid), shot.before, shot.frame.first, held.start, ends=False)
    cells = [("When the camera starts" if shot.done else "The shot", start)]
    if shot.done:
        cells.append(("When it stops", _picture(
            replace(view, fence=scored), shot.after, shot.frame.last, held.end, ends=True)))
    items: list[Item] = []
    across = 0.0
    for words, picture in cells:
        cell = [*picture, *_round(view, words)]
        items += [moved(item, (across, 0.0)) for item in cell]
        across += items_box(tuple(cell)).width + BETWEEN_MM
    scene = framed(tuple(items))
    return Drawing(
        svg=to_svg(scene, style), alt=tell_shot(card, plan, shot, held), width_mm=round(scene.width, 2),
        height_mm=round(scene.height, 2), name=f"shot-{shot.key.replace('.', '-')}")


def tell_shot(card: Card, plan: FilmPlan, shot: Shot, held: Continuity) -> str:
    """The picture in words."""
    unit = card.recipe.unit
    width = with_unit(shot.frame.width, unit)
    bottom = f" The bottom of the picture is {bottom_words(plan)}." if shot.overhead else ""
    there = _listed(held.start) or (f"a sheet of {sheet}" if (sheet := _paper_first_cut(card, shot)) else "nothing")
    start = f" When the camera starts: {there}."
    end = f" When it stops: {_listed(held.end)}." if shot.done else ""
    return f"The frame of shot {shot.key}, {width} wide.{bottom}{start}{end}"


def bottom_words(plan: FilmPlan) -> str:
    """Which edge of the table is at the bottom of an overhead picture."""
    return "your edge of the table" if plan.bottom == "maker" else "the far edge of the table"


def _paper_first_cut(card: Card, shot: Shot) -> str | None:
    cut = next((d.piece for d in shot.done if isinstance(d.action, do.CutOut | do.DieCut) and d.piece), None)
    plan = card.piece(cut) if cut else None
    return plan.paper if plan else None


def _listed(names: Sequence[str]) -> str:
    return ", ".join(f"the {name}" for name in names)


def _view(card: Card, plan: FilmPlan, shot: Shot, style: DrawingStyle) -> _View:
    aspect = float(plan.aspect)
    wide = min(WIDE_MM, HIGH_MM * aspect)
    box = Box(-wide / 2, -wide / aspect / 2, wide / 2, wide / aspect / 2)
    opposite = plan.bottom == "opposite" and shot.overhead
    return _View(card, shot, box, wide / float(shot.frame.width), opposite, style)


@dataclass(frozen=True, slots=True)
class _Inner:
    """What lies in the frame before it is cut off at the edges."""

    items: tuple[Item, ...] = ()
    names: tuple[tuple[Box, str], ...] = ()
    """The room that each thing takes, and how it is called."""

    def moved(self, by: XY) -> "_Inner":
        return _Inner(
            tuple(moved(item, by) for item in self.items),
            tuple((box_round(((b.left + by[0], b.bottom + by[1]), (b.right + by[0], b.top + by[1]))), words)
                  for b, words in self.names))

    def plus(self, other: "_Inner") -> "_Inner":
        return _Inner((*self.items, *other.items), (*self.names, *other.names))


def _picture(view: _View, table: Table, spot: Spot | None, roots: Sequence[str], *, ends: bool) -> list[Item]:
    """What lies in the frame, cut off at its edges, with its names."""
    shot = view.shot
    if not shot.overhead or isinstance(shot.spec, BeautySpec):
        inner = _held_up(view, table, roots, ends=ends)
    elif shot.framing == WIDE or spot is None:
        inner = _side_by_side(view, table, roots)
    else:
        inner = _on_spot(view, table, spot, roots)
    items = [*(part for item in inner.items for part in _cut_off(item, view.box)), *_edge(view.box)]
    wishes = [wish for box, words in inner.names for wish in _named(view, box, words)]
    return [*items, *set_labels(wishes, obstacles_of(items))]


def _named(view: _View, box: Box, words: str) -> Iterator[Wish]:
    """The name of a thing, in what shows of it, else below or above it."""
    frame, pt = view.box, view.style.small_pt
    shown = Box(
        max(box.left, frame.left), max(box.bottom, frame.bottom), min(box.right, frame.right), min(box.top, frame.top))
    if shown.width <= 0 or shown.height <= 0:
        return
    x, y = shown.centre
    ring = ((shown.left, shown.bottom), (shown.right, shown.bottom), (shown.right, shown.top), (shown.left, shown.top))
    inside = tuple(places_inside(ring, words, pt)) if max(shown.width, shown.height) > text_width(words, pt) + 2 else ()
    round_it = tuple(
        ((x, at), "middle", False) for step in (2.6, 5.2) for at in (shown.bottom - step, shown.top + step)
        if frame.bottom + 2 < at < frame.top - 2)
    label = Label(text=words, at=(x, y), pt=pt, patch=True)
    yield Wish(label=label, places=(*inside, *round_it, (label.at, "middle", False)))


def _edge(box: Box) -> list[Item]:
    corners = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    return [Line(points=corners, kind=Kind.STRONG, closed=True)]


def _round(view: _View, words: str) -> list[Item]:
    """The words above the frame, its real width below, and where the hands come from."""
    box, style = view.box, view.style
    items: list[Item] = [Label(text=words, at=(box.left, box.top + 3.4), pt=style.text_pt, anchor="start", bold=True)]
    width = Wanted(
        start=(box.left, box.bottom), end=(box.right, box.bottom), sides=("below",),
        text=f"{with_unit(view.shot.frame.width, view.card.recipe.unit)} wide")
    items += set_in_rows([width], box, style.text_pt)
    if view.shot.overhead:
        side, way = (box.top, -1.0) if view.opposite else (box.bottom, 1.0)
        x = box.right - 11.0
        items.append(Arrow(points=((x, side - way * 4.4), (x, side + way * 1.4)), head=HeadKind.SOLID))
        items.append(Label(
            text="hands", at=(x + 2.0, side - way * 2.2), pt=style.small_pt, anchor="start", italic=True, patch=True))
    return items


def _on_spot(view: _View, table: Table, spot: Spot, roots: Sequence[str]) -> _Inner:
    """The body that the camera is set on, its spot in the middle of the frame."""
    member = _member(view.shot, table, spot.root)
    body = whole(view.card, table, member) if member else None
    if member is None or body is None:
        return _side_by_side(view, table, roots)
    lie = spot.lie if body.root == spot.root and spot.lie.up is not body.lie.up else body.lie
    aimed = body.root == spot.root and lie == spot.lie
    middle = spot.box.centre if aimed else body.box.centre
    sign = 1.0 if view.opposite else -1.0
    inner = _body(view, table, member, lie).moved(
        (sign * float(middle.x) * view.scale, sign * float(middle.y) * view.scale))
    if view.shot.framing != CLOSE or not aimed or spot.box == body.box:
        return inner
    wide, high = float(spot.box.width) * view.scale / 2, float(spot.box.height) * view.scale / 2
    around = Line(points=((-wide, -high), (wide, -high), (wide, high), (-wide, high)), kind=Kind.HIDDEN, closed=True)
    return inner.plus(_Inner((around,)))


def _member(shot: Shot, table: Table, root: str) -> str | None:
    """A piece of a shot that belongs to a body on the table."""
    if root not in table.pieces:
        return None
    return next((name for name in shot.pieces if name in table.pieces and table.root(name) == table.root(root)), None)


def _body(view: _View, table: Table, piece: str, lie: Lie) -> _Inner:
    """A body with its name; turned half round where the camera looks from the far side."""
    picture = picture_of(view.card, table, piece, view.scale, turned(lie, view.turn))
    items = paper_items(picture)
    box = picture.box
    if view.fence:
        items += _fence(view, box)
    root = table.root(piece)
    folded = any(part.panel is not None for part in picture.work.parts)
    return _Inner(tuple(items), ((box, f"{root}, folded" if folded else f"{root}, {lie.up} up"),))


def _fence(view: _View, box: Box) -> list[Item]:
    """The fence along the far edge: at the top, or at the bottom where the camera looks from the far side."""
    low, high = (box.bottom - FENCE_MM, box.bottom) if view.opposite else (box.top, box.top + FENCE_MM)
    band = ((box.left - 4, low), (box.right + 4, low), (box.right + 4, high), (box.left - 4, high))
    return [
        Area(rings=(band,), fill=Fill.TOOL, edge=Kind.MEASURE),
        Label(text="fence", at=(box.right, (low + high) / 2), pt=view.style.small_pt, anchor="end", italic=True)]


def _side_by_side(view: _View, table: Table, roots: Sequence[str]) -> _Inner:
    """Bodies laid out in rows, or, before anything is cut, the sheet."""
    found = [body for name in roots if (body := whole(view.card, table, name)) is not None]
    if not found:
        return _sheet(view)
    sizes = [(body.box.width, body.box.height) for body in found]
    frame = view.shot.frame
    laid = spread(sizes, hand_room(view.card.recipe.unit) / 2, frame.width / frame.height)
    inner = _Inner()
    sign = -1.0 if view.opposite else 1.0
    for body, at in zip(found, laid.laid, strict=True):
        x = float(at.x + body.box.width / 2 - laid.width / 2) * view.scale
        y = float(at.y + body.box.height / 2 - laid.height / 2) * view.scale
        one = _body(view, table, body.root, body.lie)
        if len(found) > 1:  # names alone, so that they find room
            one = _Inner(one.items, ((one.names[0][0], body.root),))
        centre = one.names[0][0].centre
        inner = inner.plus(one.moved((sign * x - centre[0], sign * y - centre[1])))
    return inner


def _sheet(view: _View) -> _Inner:
    """The sheet that the first piece is cut from."""
    cut = next((d.piece for d in view.shot.done if isinstance(d.action, do.CutOut | do.DieCut) and d.piece), None)
    size = sheet_level(view.card, cut) if cut else None
    plan = view.card.piece(cut) if cut else None
    if cut is None or size is None or plan is None:
        return _Inner()
    wide, high = (float(side) * view.scale / 2 for side in size)
    ring = ((-wide, -high), (wide, -high), (wide, high), (-wide, high))
    words = f"sheet of {plan.paper}, {write_size(size, view.card.recipe.unit)}"
    return _Inner(
        (Area(rings=(ring,), fill=Fill.FRONT, tone=tone_of(view.card, cut), edge=Kind.EDGE),),
        ((box_round(ring), words),))


def _held_up(view: _View, table: Table, roots: Sequence[str], *, ends: bool) -> _Inner:
    """A card before the camera: it stands on the table, or is held there."""
    items = _card_itself(view, table, roots, ends=ends)
    if not items:
        return _Inner()
    paper = box_round(p for item in items if isinstance(item, Area) for p in item.rings[0])
    floor = view.box.bottom + max((view.box.height - paper.height) / 2, 3.0)
    shifted = tuple(moved(item, (-paper.centre[0], floor - paper.bottom)) for item in items)
    line = Line(points=((view.box.left, floor), (view.box.right, floor)), kind=Kind.MEASURE)
    return _Inner(shifted if view.shot.overhead else (line, *shifted))


def _card_itself(view: _View, table: Table, roots: Sequence[str], *, ends: bool) -> list[Item]:
    """The pose of a beauty shot; the standing pose at the end of the last step; else the work as it is folded."""
    card, shot = view.card, view.shot
    stands = card.recipe.finished.stands
    last = shot.step is not None and shot.step.spec is card.recipe.steps[-1]
    pose = card.pose(shot.spec.pose.value) if isinstance(shot.spec, BeautySpec) else None
    if pose is None and ends and last and stands is not None:
        pose = card.pose(stands.pose.value)
    if isinstance(pose, FlatPose):
        return list(_flat_pose(view, pose))
    if isinstance(pose, StandingPose):
        drawn = standing_items(card, pose, view.scale, view.style)
        return [item for item in drawn if isinstance(item, Area | Line)]
    body = next((found for name in roots if (found := whole(card, table, name)) is not None), None)
    return list(_body(replace(view, opposite=False), table, body.root, body.lie).items) if body else []


def _flat_pose(view: _View, pose: FlatPose) -> Iterator[Item]:
    for region in pose.seen:
        rings = tuple(
            tuple((float(p.x) * view.scale, float(p.y) * view.scale) for p in ring)
            for ring in (region.ring, *region.holes))
        tone = tone_of(view.card, view.card.panels[region.panel].piece)
        fill = Fill.FRONT if region.face is Face.FRONT else Fill.BACK
        yield Area(rings=rings, fill=fill, tone=tone, edge=Kind.EDGE)


def _cut_off(item: Item, box: Box) -> Iterator[Item]:
    """The part of an item that lies in the frame."""
    match item:
        case Line():
            points = (*item.points, item.points[0]) if item.closed else item.points
            for p, q in pairwise(points):
                if (inner := clip_to_box(p, q, box)) is not None:
                    yield replace(item, points=inner, closed=False)
        case Area():
            rings = tuple(ring for whole_ring in item.rings if len(ring := _clip_ring(whole_ring, box)) > 2)
            if rings:
                yield replace(item, rings=rings)
        case Label():
            yield from _label_inside(item, box)
        case _:
            yield item


def _label_inside(label: Label, box: Box) -> Iterator[Label]:
    """A label moved into the frame where it stands partly outside; none where it does not fit."""
    own = label.box
    if own.width > box.width - 2:
        return
    dx = max(box.left + 1 - own.left, 0.0) - max(own.right - box.right + 1, 0.0)
    dy = max(box.bottom + 1 - own.bottom, 0.0) - max(own.top - box.top + 1, 0.0)
    yield replace(label, at=(label.at[0] + dx, label.at[1] + dy))


def _clip_ring(ring: Sequence[XY], box: Box) -> tuple[XY, ...]:
    """A ring cut off at the frame's four sides, one after the other (Sutherland and Hodgman)."""
    points = list(ring)
    for axis, limit, sign in ((0, box.left, 1), (0, box.right, -1), (1, box.bottom, 1), (1, box.top, -1)):
        kept: list[XY] = []
        for p, q in zip(points, [*points[1:], *points[:1]], strict=True):
            p_in, q_in = sign * (p[axis] - limit) >= 0, sign * (q[axis] - limit) >= 0
            if p_in:
                kept.append(p)
            if p_in != q_in:
                t = (limit - p[axis]) / (q[axis] - p[axis])
                kept.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
        points = kept
    return tuple(points)
