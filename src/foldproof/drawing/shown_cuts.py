"""Cuts: out of a sheet, and through a piece with what is kept of it."""

from collections.abc import Sequence
from fractions import Fraction

from foldproof.drawing.frame import Frame
from foldproof.drawing.labels import Wish
from foldproof.drawing.places import places_inside, places_round
from foldproof.drawing.plane import (
    XY,
    area_of,
    between,
    inside,
    middle_of,
    on_edge,
    split_by_rings,
)
from foldproof.drawing.scene import Area, Fill, Kind, Label, Line
from foldproof.drawing.sheet import Sheet, add_lengths, along_line
from foldproof.drawing.tools import track
from foldproof.drawing.words import list_of
from foldproof.making.table import Done
from foldproof.making.work import work_with
from foldproof.paper.face import Face
from foldproof.paper.polygon import Where, locate
from foldproof.paper.vector import Ring, Segment, Vector
from foldproof.recipe import actions as do


def outline_heavy(sheet: Sheet) -> None:
    """The edges of a piece that is cut out."""
    for pane in sheet.picture.panes:
        sheet.items.append(Line(points=pane.ring, kind=Kind.CUT, closed=True))


def cut_shift(before: Ring, after: Ring, lines: Sequence[Segment]) -> Vector:
    """From the frame that a piece has after a cut to the one before: a cut moves the frame's corner with the part kept.

    The shift puts the kept part inside the old outline and the cut strictly inside it.
    """
    zero = Vector(Fraction(0), Fraction(0))
    candidates = [zero, *(p - q for p in before for q in after)]
    for shift in candidates:
        held = all(locate(q + shift, before) is not Where.OUT for q in after)
        crossing = all(locate(line.middle + shift, before) is Where.IN for line in lines)
        if held and crossing:
            return shift
    return zero


def new_slits(frame: Frame) -> frozenset[tuple[str, Segment]]:
    """The slits that the frame cuts, (piece, segment)."""
    return frozenset(
        (done.piece or "", line) for done in frame.done for line in done.lines
        if isinstance(done.action, do.SlitAt | do.SlitBetween))


def draw_slit(sheet: Sheet, done: Done) -> None:
    """A slit as it is cut, heavy, with its lengths."""
    for line in done.lines:
        p, q = (sheet.picture.at(done.piece or "", end) for end in (line.start, line.end))
        sheet.items.append(Line(points=(p, q), kind=Kind.CUT))
        sheet.wishes.append(Wish(
            label=Label(text="slit", at=p, pt=sheet.style.small_pt, italic=True),
            places=tuple(along_line(p, q, sheet.style.small_pt)), must=False))
    add_lengths(sheet, done.piece or "", done)


def draw_away(sheet: Sheet, done: Done) -> None:
    """A shape that is cut out of all the paper beneath: its outline heavy, as far as paper is cut, and its lengths."""
    picture = sheet.picture
    before = work_with(sheet.card, done.before, done.piece or "")
    drawn: set[tuple[XY, XY]] = set()
    for ring in done.gone:
        shape = tuple(picture.looking.at(p) for p in ring)
        for part in before.parts:
            paper = tuple(picture.looking.at(part.fit.point(p)) for p in part.ring)
            for p, q in zip(shape, (*shape[1:], shape[0]), strict=True):
                for a, b, cut in split_by_rings(p, q, (paper,)):
                    if cut and (a, b) not in drawn:
                        drawn.add((a, b))
                        sheet.items.append(Line(points=(a, b), kind=Kind.CUT))
        words = "cut out" if isinstance(done.action, do.CutAway) else "cut off"
        places = tuple(places_inside(shape, words, sheet.style.small_pt))
        sheet.wishes.append(Wish(
            label=Label(text=words, at=shape[0], pt=sheet.style.small_pt, italic=True), places=places, room=shape,
            must=False))
    match done.action:
        case do.RoundCorners(radius=radius, corners=corners):
            which = "all corners" if len(corners) == 4 else list_of(corners)
            sheet.notes.append(f"{which} rounded to {sheet.length(radius.value)}")
        case do.Scallop(edge=edge, across=across):
            sheet.notes.append(f"{edge} edge in scallops {sheet.length(across.value)} across")
        case _:
            pass
    add_lengths(sheet, done.piece or "", done)


def draw_cut(sheet: Sheet, done: Done) -> None:
    """The whole piece, the cut, the part that is kept and the part that is not."""
    piece = done.piece or ""
    before, after = done.before.pieces[piece], done.after.pieces[piece]
    shift = cut_shift(before.outline, after.outline, done.lines)
    kept = tuple(sheet.picture.at(piece, p + shift) for p in after.outline)
    whole = sheet.picture.panes[-1].ring
    face, tone = sheet.picture.panes[-1].face, sheet.picture.panes[-1].tone
    other = done.action.other if isinstance(done.action, do.CutBetween | do.CutAcross | do.CutOff) else None
    if other is None:
        sheet.items += [
            Area(rings=(whole,), fill=Fill.GONE),
            Area(rings=(kept,), fill=Fill.FRONT if face is Face.FRONT else Fill.BACK, tone=tone),
        ]
        for p, q in zip(whole, (*whole[1:], whole[0]), strict=True):
            for a, b, _ in split_by_rings(p, q, (kept,)):
                on_kept = _touches(between(a, b, 0.5), kept)
                sheet.items.append(Line(points=(a, b), kind=Kind.EDGE if on_kept else Kind.HIDDEN))
    for line in done.lines:
        p, q = sheet.picture.at(piece, line.start + shift), sheet.picture.at(piece, line.end + shift)
        sheet.items.append(Line(points=(p, q), kind=Kind.CUT))
        if isinstance(done.action, do.CutBetween):
            sheet.items += track(p, q)
        sheet.wishes.append(Wish(
            label=Label(text="cut", at=p, pt=sheet.style.small_pt, italic=True),
            places=tuple(along_line(p, q, sheet.style.small_pt)), must=False))
    add_lengths(sheet, piece, done, shift)
    rest = _rest(whole, kept)
    pt = sheet.style.text_pt
    sheet.wishes.append(Wish(
        label=Label(text="keep", at=kept[0], pt=pt, bold=True),
        places=(*places_inside(kept, "keep", pt, bold=True), *places_round(middle_of(kept), pt)),
        about=middle_of(kept), area=kept))
    words = other or "offcut"
    sheet.wishes.append(Wish(
        label=Label(text=words, at=rest, pt=pt, italic=other is None),
        places=(*((p, a, u) for p, a, u in places_inside(whole, words, pt) if not inside(p, kept)),
                *places_round(rest, pt)), about=rest, area=whole))


def _touches(p: XY, ring: Sequence[XY]) -> bool:
    return on_edge(p, ring, 1e-4)


def _rest(whole: Sequence[XY], kept: Sequence[XY]) -> XY:
    """A point in the part that is not kept: the middle of what is left, weighed by area."""
    a, b = abs(area_of(whole)), abs(area_of(kept))
    w, k = middle_of(whole), middle_of(kept)
    left = a - b
    return ((w[0] * a - k[0] * b) / left, (w[1] * a - k[1] * b) / left) if left > 1e-9 else w
