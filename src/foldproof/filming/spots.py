"""Where on the work the camera is set: the whole work, or the part of it that hands are at."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from foldproof.filming.records import Spot
from foldproof.folding.card import Bond, Card
from foldproof.making.lying import turned_over
from foldproof.making.table import Done, Lie, Table
from foldproof.making.work import Work, work_with
from foldproof.paper.polygon import Box, bounding_box
from foldproof.paper.vector import Point, Vector
from foldproof.recipe import actions as do

_LINES = (do.ScoreAt, do.ScoreBetween, do.CutAcross, do.CutOff, do.CutBetween)


def whole(card: Card, table: Table, piece: str) -> Spot | None:
    """The whole body that a piece belongs to; None where it is not there."""
    if piece not in table.pieces:
        return None
    work = work_with(card, table, piece)
    return _spot(work, work.lie, work.corners)


def part(card: Card, table: Table, names: Sequence[str]) -> Spot | None:
    """The named pieces, layers and panels, of the body that the first of them belongs to."""
    pieces = [card.panels[name].piece if name in card.panels else name for name in names]
    there = [piece for piece in pieces if piece in table.pieces]
    if not there:
        return None
    work = work_with(card, table, there[0])
    points = [p for name in names for p in _points_of(card, work, name)]
    return _spot(work, work.lie, points) if points else None


def hands_at(card: Card, done: Done, room: Fraction) -> Spot | None:
    """The part of the work that one action is about; None for an action without one."""
    action = done.action
    match action:
        case do.Attach():
            bond = next((bond for bond in card.bonds if bond.name == action.bond), None)
            return _attached(card, done, bond) if bond is not None else None
        case do.Stamp() if action.panel in card.panels:
            return part(card, done.after, (action.panel,))
        case do.Tuck():
            return part(card, done.after, (action.flap, action.under))
        case do.MarkAt():
            return _mark(card, done, room)
    return _line(card, done)


def together(spots: Iterable[Spot | None]) -> tuple[Spot, ...]:
    """One spot for each body as it lies, in order: parts of the same body made one."""
    found: dict[tuple[object, ...], Spot] = {}
    for spot in spots:
        if spot is None:
            continue
        key = (spot.root, spot.lie)
        known = found.get(key)
        found[key] = spot if known is None else Spot(root=spot.root, lie=spot.lie, box=hull(known.box, spot.box))
    return tuple(found.values())


def hull(a: Box, b: Box) -> Box:
    """The least box round two."""
    return Box(
        left=min(a.left, b.left), bottom=min(a.bottom, b.bottom), right=max(a.right, b.right), top=max(a.top, b.top))


def _attached(card: Card, done: Done, bond: Bond) -> Spot | None:
    """Where a guest is put, seen from the side on which it is put."""
    guest = card.panels[bond.over.panel].piece
    if guest not in done.after.pieces:
        return None
    work = work_with(card, done.after, guest)
    lie = work.lie
    under = card.panels[bond.under.panel].piece
    for each in work.parts:
        if each.piece == under and each.panel in (None, bond.under.panel) and work.face_up(each) is not bond.under.face:
            lie = turned_over(work.lie, "book page")
    points = _points_of(card, work, bond.over.panel)
    return _spot(work, lie, points) if points else None


def _line(card: Card, done: Done) -> Spot | None:
    """The line of a score or a cut, with what is measured to it."""
    if not isinstance(done.action, _LINES) or done.piece is None or not done.lines:
        return None
    table = done.before if done.piece in done.before.pieces else done.after
    work = work_with(card, table, done.piece)
    ends = [p for line in done.lines for p in (line.start, line.end)]
    ends += [p for dimension in done.dimensions if dimension.piece == done.piece for p in (
        dimension.start, dimension.end)]
    points = [each.fit.point(p) for each in work.parts if each.piece == done.piece for p in ends]
    return _spot(work, work.lie, points) if points else None


def _mark(card: Card, done: Done, room: Fraction) -> Spot | None:
    """A mark, with some of its edge on either side."""
    if done.piece is None or done.piece not in done.after.pieces:
        return None
    work = work_with(card, done.after, done.piece)
    for name, piece in done.after.pieces.items():
        old = done.before.pieces.get(name)
        new = [mark for mark in piece.marks if old is None or mark not in old.marks]
        points = [each.fit.point(mark.at) for each in work.parts if each.piece == name for mark in new]
        if points:
            spot = _spot(work, work.lie, points)
            box = spot.box
            return Spot(root=spot.root, lie=spot.lie, box=Box(
                left=box.left - room, bottom=box.bottom - room, right=box.right + room, top=box.top + room))
    return None


def _points_of(card: Card, work: Work, name: str) -> list[Point]:
    """The corners of a piece or a panel, in the frame of the work's root."""
    if name in card.panels:
        panel = card.panels[name]
        own = [each for each in work.parts if each.piece == panel.piece and each.panel in (None, name)]
        return [own[0].fit.point(p) for p in panel.ring] if own else []
    return [each.fit.point(p) for each in work.parts if each.piece == name for p in each.ring]


def _spot(work: Work, lie: Lie, points: Iterable[Point]) -> Spot:
    return Spot(root=work.root, lie=lie, box=bounding_box(as_lies(lie, p) for p in points))


def as_lies(lie: Lie, p: Point) -> Point:
    """A point of the root's frame as it lies: x to the maker's right, y away from the maker."""
    return Point(_along(p, lie.right), _along(p, lie.away))


def _along(p: Point, way: Vector) -> Fraction:
    """How far a point lies along a direction from the root's origin: nothing to reckon where that is an axis."""
    if not way.y:
        return p.x if way.x == 1 else p.x * way.x
    if not way.x:
        return p.y if way.y == 1 else p.y * way.y
    return p.x * way.x + p.y * way.y
