"""The numbers of an action, found anew on the work as it lies."""

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
from foldproof.recipe.actions import Action, Attach, CutAcross, CutOut, DieCut, MarkAt, Measure, PlacedAt, ScoreAt
from foldproof.refit.referents import same_point, same_score, same_size


def refitted(old: Card, new: Card, done: Done, table: Table) -> Action:
    """An action of the old card's steps as it is done on the new card, the table being as it is by then.

    A number whose meaning is not found again stays as it was written, and the proof of the new card then tells.
    """
    action = done.action
    before = old.piece(done.piece) if done.piece is not None else None
    after = new.piece(done.piece) if done.piece is not None else None
    match action:
        case Attach():
            bond = next((bond for bond in new.bonds if bond.name == action.bond), None)
            return action if bond is None else replace(action, at=_placed(new, bond, action.at))
        case CutOut() | DieCut() if before is not None and after is not None:
            size = same_size(before, after, (action.size[0].value, action.size[1].value))
            return replace(action, size=(said(action.size[0], size[0]), said(action.size[1], size[1])))
    if before is None or after is None or after.name not in table.pieces:
        return action
    work = work_with(new, table, after.name)
    match action:
        case ScoreAt():
            line = next((found for line in done.lines if (found := same_score(before, after, line))), None)
            return action if line is None else replace(action, at=said(action.at, _from_end(action, work, after, line)))
        case CutAcross() if action.keep == action.start:
            return replace(action, at=said(action.at, _kept(action, done, before, after)))
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


def _from_end(action: ScoreAt, work: Work, piece: CardPiece, line: Segment) -> Fraction:
    """How far a line of a piece lies from the end of the work that the action measures from."""
    at, (low, high) = _along(work, piece, line.middle, work.lie.right), work.span(work.lie.right)
    return at - low if action.start == "left" else high - at


def _kept(action: CutAcross, done: Done, before: CardPiece, after: CardPiece) -> Fraction:
    """How long the part is that is kept; where it is the other part, the waste is as it was."""
    root = done.before.root(before.name)
    level = done.before.pieces[root].lie.right.x != 0
    was, now = bounding_box(before.outline), bounding_box(after.outline)
    old, new = (was.width, now.width) if level else (was.height, now.height)
    return action.at.value + new - old


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
    way = work.lie.right if action.edge in ("top", "bottom") else work.lie.away
    low, high = work.span(way)
    at = _along(work, after, point, way)
    return replace(action, at=said(action.at, high - at if action.start in ("right", "top") else at - low))


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
