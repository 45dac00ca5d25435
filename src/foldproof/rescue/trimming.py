"""How what lies on the table is trimmed so that it becomes what another plan needs."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType

from foldproof.folding.card import Card, CardPiece
from foldproof.making.folds import same_line
from foldproof.making.table import Crease, OnTable, Table
from foldproof.paper.isometry import translation
from foldproof.paper.polygon import bounding_box, clip
from foldproof.paper.vector import Point, Segment, Vector

_0 = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trim:
    """What comes off a piece at each edge, looking at its front, upright; nothing is negative."""

    piece: str
    left: Fraction = _0
    right: Fraction = _0
    top: Fraction = _0
    bottom: Fraction = _0

    @property
    def sides(self) -> tuple[tuple[str, Fraction], ...]:
        """The edges at which something comes off."""
        return tuple((side, amount) for side in ("left", "right", "top", "bottom") if (amount := getattr(self, side)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Saved:
    """A table that agrees with another plan, and what made it so."""

    table: Table
    trims: tuple[Trim, ...]
    anew: tuple[str, ...]
    """Loose layers that are too small now and have to be cut again."""


def saved_for(plan: Card, table: Table) -> Saved | None:
    """The table made fit for a plan by trimming and by cutting loose layers again; None where that cannot be done."""
    pieces, trims, anew = dict(table.pieces), [], []
    shifts: dict[str, Vector] = {}
    bonded = {name for bond in table.bonds for name in (bond.root, bond.guest)}
    for name, made in table.pieces.items():
        wanted = plan.piece(name)
        if wanted is None:
            return None
        fitted = _fitted(wanted, made, loose=name not in bonded)
        if fitted is None:
            if not wanted.layer or name in bonded:
                return None
            anew.append(name)
            pieces[name] = OnTable(name=name, outline=wanted.outline, round=wanted.round, lie=made.lie)
            continue
        trim, pieces[name], shifts[name] = fitted
        if trim.sides:
            trims.append(trim)
    bonds = tuple(
        replace(bond, fit=translation(shifts.get(bond.root, Vector(_0, _0))).after(bond.fit)) for bond in table.bonds)
    wanted_fits = {bond.name: bond.fit for bond in plan.bonds}
    if any(wanted_fits.get(bond.name) != bond.fit for bond in bonds):
        return None
    return Saved(
        table=replace(table, pieces=MappingProxyType(pieces), bonds=bonds), trims=tuple(trims), anew=tuple(anew))


def _fitted(wanted: CardPiece, made: OnTable, *, loose: bool) -> tuple[Trim, OnTable, Vector] | None:
    """The piece trimmed to a plan's outline so that every crease in it is a score of the plan."""
    for corner in _corners(wanted, made):
        shift = Vector(-corner.x, -corner.y)
        trim = _trim(wanted, made, corner)
        if trim is None or (trim.sides and not loose):
            continue
        creases = tuple(_moved(made.creases, wanted, shift))
        if all(any(same_line(crease.segment, score.segment) for score in wanted.scores) for crease in creases):
            move = translation(shift)
            marks = tuple(replace(mark, at=move.point(mark.at)) for mark in made.marks)
            return trim, replace(made, outline=wanted.outline, creases=creases, marks=marks), shift
    return None


def _corners(wanted: CardPiece, made: OnTable) -> Iterator[Point]:
    """Where the plan's bottom left corner may come to lie on the piece: the least waste first."""
    box, room = bounding_box(wanted.outline), bounding_box(made.outline)
    levels = _offsets(
        [c.segment.start.x for c in made.creases if c.segment.start.x == c.segment.end.x],
        [s.segment.start.x for s in wanted.scores if s.segment.start.x == s.segment.end.x],
        room.width - box.width)
    uprights = _offsets(
        [c.segment.start.y for c in made.creases if c.segment.start.y == c.segment.end.y],
        [s.segment.start.y for s in wanted.scores if s.segment.start.y == s.segment.end.y],
        room.height - box.height)
    yield from (Point(x, y) for x in levels for y in uprights)


def _offsets(creases: list[Fraction], scores: list[Fraction], spare: Fraction) -> list[Fraction]:
    if not creases:
        return [_0, spare] if spare > 0 else [_0]
    return sorted({creases[0] - score for score in scores})


def _trim(wanted: CardPiece, made: OnTable, corner: Point) -> Trim | None:
    box, room = bounding_box(wanted.outline), bounding_box(made.outline)
    straight = len(wanted.outline) == len(made.outline) == 4 and not made.round
    left, bottom = corner.x - room.left, corner.y - room.bottom
    right, top = room.width - box.width - left, room.height - box.height - bottom
    amounts = (left, right, top, bottom)
    if min(amounts) < 0 or (not straight and (any(amounts) or set(wanted.outline) != set(made.outline))):
        return None
    return Trim(piece=wanted.name, left=left, right=right, top=top, bottom=bottom)


def _moved(creases: tuple[Crease, ...], wanted: CardPiece, shift: Vector) -> Iterator[Crease]:
    """The creases in the trimmed piece's own frame, cut off where the paper is."""
    for crease in creases:
        line = Segment(crease.segment.start + shift, crease.segment.end + shift)
        for stretch in clip(line, wanted.outline):
            yield replace(crease, segment=stretch)
