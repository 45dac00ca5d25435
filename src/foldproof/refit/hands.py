"""The numbers of an action, found anew on the work as it lies."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from foldproof.folding.bonds import MIRROR
from foldproof.folding.card import Bond, Card, CardPiece
from foldproof.making.table import Done, Table
from foldproof.making.work import Work, work_with
from foldproof.measures.quantity import Quantity
from foldproof.measures.writing import write_number
from foldproof.paper.face import Face
from foldproof.paper.isometry import IDENTITY
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Point, Segment, Vector
from foldproof.recipe.actions import (
    Action,
    Attach,
    CutAcross,
    CutAway,
    CutOff,
    CutOut,
    DieCut,
    MarkAt,
    Measure,
    PlacedAt,
    RoundCorners,
    Scallop,
    ScoreAt,
    SlitAt,
    Tie,
)
from foldproof.recipe.points import PointAt
from foldproof.refit.holes import refitted_hole
from foldproof.refit.referents import same_point, same_score, same_size

Loose = Callable[[Fraction], Fraction]
"""What becomes of an amount that stands for nothing on the card: a trim allowance, the waste that a cut takes off."""


def as_it_is(amount: Fraction) -> Fraction:
    """The same amount."""
    return amount


def refitted(old: Card, new: Card, done: Done, table: Table, loose: Loose = as_it_is) -> Action:
    """An action of the old card's steps as it is done on the new card, the table being as it is by then.

    A number whose meaning is not found again becomes what `loose` makes of it, and the proof of the new card then
    tells.
    """
    action = done.action
    before = old.piece(done.piece) if done.piece is not None else None
    after = new.piece(done.piece) if done.piece is not None else None
    match action:
        case Attach():
            bond = next((bond for bond in new.bonds if bond.name == action.bond), None)
            return action if bond is None else replace(action, at=_slanted(bond, _placed(new, bond, action.at)))
        case CutOut() | DieCut() if before is not None and after is not None:
            size = same_size(before, after, (action.size[0].value, action.size[1].value), loose)
            return replace(action, size=(said(action.size[0], size[0]), said(action.size[1], size[1])))
        case Tie() if action.length is not None:
            return replace(action, length=said(action.length, _tied(old, new, action, loose)))
    if before is None or after is None or after.name not in table.pieces:
        return action
    work = work_with(new, table, after.name)
    match action:
        case ScoreAt() | SlitAt():
            return _line(action, done, before, after, work)
        case CutAcross():
            return replace(action, at=said(action.at, _kept(action, done, old, new, loose)))
        case CutOff():
            return replace(action, width=said(action.width, _strip(action, done, old, new, loose)))
        case CutAway():
            return refitted_hole(action, done, before, after, work)
        case RoundCorners() if after.spec.cuts.rounded is not None:
            return replace(action, radius=said(action.radius, after.spec.cuts.rounded.radius.value))
        case Scallop():
            return _scalloped(action, before, after)
        case MarkAt():
            return _mark(action, done, before, after, work)
        case Measure():
            spans = [work.span(way) for way in (work.lie.right, work.lie.away)]
            return replace(action, size=(
                said(action.size[0], spans[0][1] - spans[0][0]), said(action.size[1], spans[1][1] - spans[1][0])))
    return action


def said(quantity: Quantity, value: Fraction) -> Quantity:
    """Another value in a number's place; the same one stays as it is written."""
    return quantity if value == quantity.value else replace(quantity, value=value, written=write_number(value))


def _line(
    action: ScoreAt | SlitAt, done: Done, before: CardPiece, after: CardPiece, work: Work,
) -> ScoreAt | SlitAt:
    """A score or a slit: where its line is, and how far it runs where it does not run right across."""
    line = next((found for line in done.lines if (found := _same_line(before, after, line))), None)
    if line is None:
        return action
    at, (low, high) = _along(work, after, line.middle, work.lie.right), work.span(work.lie.right)
    start = action.start if isinstance(action, ScoreAt) else "left"
    fresh = replace(action, at=said(action.at, at - low if start == "left" else high - at))
    ends = [same_point(before, after, end) for line in done.lines for end in (line.start, line.end)]
    far = work.span(work.lie.away)[1]
    depths = [far - _along(work, after, end, work.lie.away) for end in ends if end is not None]
    if len(depths) < len(ends):
        return fresh
    if fresh.begins is not None:
        fresh = replace(fresh, begins=said(fresh.begins, min(depths)))
    return fresh if fresh.ends is None else replace(fresh, ends=said(fresh.ends, max(depths)))


def _same_line(before: CardPiece, after: CardPiece, line: Segment) -> Segment | None:
    ends = same_point(before, after, line.start), same_point(before, after, line.end)
    if ends[0] is not None and ends[1] is not None and ends[0] != ends[1]:
        return Segment(ends[0], ends[1])
    return same_score(before, after, line)


def _kept(action: CutAcross, done: Done, old: Card, new: Card, loose: Loose) -> Fraction:
    """How long the part at the end that is measured from is: of the piece where that is kept, else of the other."""
    name = done.piece if action.keep == action.start else action.other
    if name is None:
        return loose(action.at.value)
    return _part(action.at.value, name, done, old, new, loose, level=True)


def _strip(action: CutOff, done: Done, old: Card, new: Card, loose: Loose) -> Fraction:
    """How wide the strip is: as the layer that it becomes."""
    if action.other is None:
        return loose(action.width.value)
    level = action.edge in ("left", "right")
    return _part(action.width.value, action.other, done, old, new, loose, level=level)


def _part(value: Fraction, name: str, done: Done, old: Card, new: Card, loose: Loose, *, level: bool) -> Fraction:
    """A side of a part that a cut leaves, across as it lies (`level`) or away; what is over stays over."""
    assert done.piece is not None
    before, after = old.piece(name), new.piece(name)
    if before is None or after is None:
        return loose(value)
    lies_level = done.before.pieces[done.before.root(done.piece)].lie.right.x != 0
    was, now = bounding_box(before.outline), bounding_box(after.outline)
    side, fresh = (was.width, now.width) if lies_level == level else (was.height, now.height)
    return fresh + loose(value - side)


def _tied(old: Card, new: Card, action: Tie, loose: Loose) -> Fraction:
    """The ribbon's length: as listed, where that is what is tied."""
    assert action.length is not None
    listed = {one.name.value: one.length for one in new.recipe.supplies}
    was = next((one.length for one in old.recipe.supplies if one.name.value == action.supply), None)
    now = listed.get(action.supply)
    same = was is not None and now is not None and was.value == action.length.value
    return now.value if same and now is not None else loose(action.length.value)


def _scalloped(action: Scallop, before: CardPiece, after: CardPiece) -> Scallop:
    pairs = zip(before.spec.cuts.scallops, after.spec.cuts.scallops, strict=True)
    now = next((new.across.value for old, new in pairs if old.across.value == action.across.value), None)
    return action if now is None else replace(action, across=said(action.across, now))


def _along(work: Work, piece: CardPiece, point: Point, way: Vector) -> Fraction:
    """Where a point of a piece lies along a direction of the work."""
    fit = next((part.fit for part in work.parts if part.piece == piece.name), IDENTITY)
    there = fit.point(point)
    return way.x * there.x + way.y * there.y


def _mark(action: MarkAt, done: Done, before: CardPiece, after: CardPiece, work: Work) -> MarkAt:
    made = next((
        mark.at for mark in done.after.pieces[before.name].marks if mark.name == action.name), None)
    point = same_point(before, after, made) if made is not None else None
    if point is None:
        return action
    level = action.edge in ("top", "bottom")
    along, across = (work.lie.right, work.lie.away) if level else (work.lie.away, work.lie.right)
    (low, high), (near, far) = work.span(along), work.span(across)
    at, deep = _along(work, after, point, along), _along(work, after, point, across)
    fresh = replace(action, at=said(action.at, high - at if action.start in ("right", "top") else at - low))
    if fresh.inward is None:
        return fresh
    return replace(fresh, inward=said(fresh.inward, far - deep if action.edge in ("top", "right") else deep - near))


def distances(card: Card, bond: Bond) -> dict[str, Fraction]:
    """From each edge of the panel that receives to what is laid on it, as the receiving face is looked at."""
    look = MIRROR if bond.under.face is Face.BACK else IDENTITY
    room = bounding_box(look.ring(card.panels[bond.under.panel].ring))
    laid = bounding_box(look.ring(bond.fit.ring(card.panels[bond.over.panel].ring)))
    return {"left": laid.left - room.left, "right": room.right - laid.right,
            "bottom": laid.bottom - room.bottom, "top": room.top - laid.top}


def _placed(card: Card, bond: Bond, at: PlacedAt) -> PlacedAt:
    """The distances that a step names, as the new plan has them; an even border that is so no more becomes two."""
    now = distances(card, bond)

    def anew(quantity: Quantity | None, side: str) -> Quantity | None:
        return None if quantity is None else said(quantity, now[side])

    fresh = replace(at, left=anew(at.left, "left"), right=anew(at.right, "right"), top=anew(at.top, "top"),
                    bottom=anew(at.bottom, "bottom"))
    if at.border is None:
        return fresh
    ways = {"left": at.left is at.right is None and at.centred not in ("both", "across"),
            "top": at.top is at.bottom is None and at.centred not in ("both", "up")}
    values = {now[side] for side, named in ways.items() if named}
    if len(values) == 1:
        return replace(fresh, border=said(at.border, next(iter(values))))
    return replace(
        fresh, border=None, left=said(at.border, now["left"]) if ways["left"] else fresh.left,
        top=said(at.border, now["top"]) if ways["top"] else fresh.top)


def _slanted(bond: Bond, at: PlacedAt) -> PlacedAt:
    """A slanted place, by the points that the new plan gives."""
    plan = bond.spec.at
    if at.points is None or at.lie_on is None or plan.points is None or plan.lie_on is None:
        return at
    return replace(at, points=_points(at.points, plan.points), lie_on=_points(at.lie_on, plan.lie_on))


def _points(pair: tuple[PointAt, PointAt], plan: tuple[PointAt, PointAt]) -> tuple[PointAt, PointAt]:
    first, second = (
        replace(one, x=said(one.x, there.x.value), y=said(one.y, there.y.value))
        for one, there in zip(pair, plan, strict=True))
    return first, second
