"""Straight lines made on the table: where they run, and what pressing a score or cutting a slit along one leaves."""

from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from foldproof.making.layered import through_several
from foldproof.making.outcome import Outcome, Setting, refused, with_pieces
from foldproof.making.points import at_coordinates, find_point
from foldproof.making.table import Crease, Dimension, OnTable
from foldproof.making.work import Part, Work
from foldproof.measures.quantity import Quantity
from foldproof.paper.polygon import clip
from foldproof.paper.vector import Point, Segment
from foldproof.recipe import actions as do


class Length(NamedTuple):
    """A length that an action sets, in the frame of the body's root."""

    start: Point
    end: Point
    measure: Quantity


def at_stop(
    setting: Setting, work: Work, action: do.ScoreAt | do.SlitAt,
    make: Callable[[Segment, tuple[Length, ...]], Outcome],
) -> Outcome:
    """A line square to the fence at a distance from the stop, as far from the fence as it is said to run."""
    low, high = work.span(work.lie.right)
    bottom, top = work.span(work.lie.away)
    from_left = isinstance(action, do.SlitAt) or action.start == "left"
    at = low + action.at.value if from_left else high - action.at.value
    sort = "score" if isinstance(action, do.ScoreAt) else "slit"
    if not low < at < high:
        whence = "the stop" if from_left else "the right end"
        return refused(
            setting, "off the work", f"A {sort} {setting.length(action.at.value)} from {whence} misses the "
            f"{work.root}, which is {setting.length(high - low)} long as it lies.",
            "Check the distance, and which edge lies against the fence.")
    far = top - (action.begins.value if action.begins else 0)
    near = top - action.ends.value if action.ends else bottom
    if near < bottom or far <= bottom:
        last = action.ends or action.begins
        assert last is not None
        return refused(
            setting, "off the work", f"A {sort} that goes to {setting.length(last.value)} from the fence runs off the "
            f"{work.root}, which is {setting.length(top - bottom)} deep as it lies.",
            "Check the distance, and which edge lies against the fence.")
    line = Segment(at_coordinates(work, at, near), at_coordinates(work, at, far))
    measured = [Length(at_coordinates(work, low if from_left else high, top), at_coordinates(work, at, top), action.at)]
    for end, quantity in ((far, action.begins), (near, action.ends)):
        if quantity is not None:
            measured.append(Length(at_coordinates(work, at, top), at_coordinates(work, at, end), quantity))
    return make(line, tuple(measured))


def line_between(
    setting: Setting, work: Work, action: do.ScoreBetween | do.SlitBetween, sort: str,
) -> Segment | Outcome:
    """The line between two named points of the work."""
    ends = [find_point(setting.card, setting.table, work, point) for point in (action.start, action.end)]
    reasons = [found for found in ends if isinstance(found, str)]
    if reasons:
        return refused(setting, "no such point", f"The {sort} cannot be placed: {'; '.join(reasons)}.",
                       "Name a corner as the piece lies, such as `top left`, or a mark made before.")
    start, end = (p for p in ends if isinstance(p, Point))
    if start == end:
        return refused(setting, "no length", f"The {sort} starts and ends at the same point.",
                       "Name two different points.")
    return Segment(start, end)


def press(
    setting: Setting, work: Work, line: Segment, measured: tuple[Length, ...], action: do.Doing,
) -> Outcome:
    """Press a line through all the paper beneath it."""
    pieces: dict[str, OnTable] = {}
    dimensions: tuple[Dimension, ...] = ()
    lines: list[Segment] = []
    for part in work.parts:
        inverse = part.fit.inverse
        stretches = [s for s in clip(inverse.segment(line), part.ring, part.holes) if s.start != s.end]
        if not stretches:
            continue
        piece = pieces.get(part.piece, setting.table.pieces[part.piece])
        new = tuple(Crease(segment=s, pressed=work.face_up(part), place=action.place) for s in stretches)
        pieces[part.piece] = replace(piece, creases=(*piece.creases, *new))
        if part.piece == (setting.target or work.root):
            lines.extend(stretches)
            dimensions = dimensions or _lengths(part, measured)
    if not pieces:
        return refused(setting, "off the work", "The score touches no paper.", "Check its two points.")
    return Outcome(
        table=with_pieces(setting.table, *pieces.values()), piece=setting.target or work.root,
        dimensions=dimensions, lines=tuple(lines), findings=through_several(setting, work, line))


def _lengths(part: Part, measured: tuple[Length, ...]) -> tuple[Dimension, ...]:
    inverse = part.fit.inverse
    return tuple(
        Dimension(piece=part.piece, start=inverse.point(one.start), end=inverse.point(one.end), measure=one.measure)
        for one in measured)


def slit(setting: Setting, work: Work, line: Segment, measured: tuple[Length, ...]) -> Outcome:
    """Part the paper of a loose piece along a line."""
    part = work.parts[0]
    piece = setting.table.pieces[part.piece]
    stretches = tuple(s for s in clip(line, part.ring, part.holes) if s.start != s.end)
    if not stretches:
        return refused(setting, "off the work", "The slit touches no paper.", "Check its two ends.")
    return Outcome(
        table=with_pieces(setting.table, replace(piece, slits=(*piece.slits, *stretches))), piece=part.piece,
        dimensions=_lengths(part, measured), lines=stretches)
