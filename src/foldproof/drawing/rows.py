"""Dimensions set outside the work in stacked rows, the shortest next to the work, as in technical drawing."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from foldproof.drawing.lettering import text_width
from foldproof.drawing.plane import XY, Box, left_of, length, length_inside, minus, plus, times, unit
from foldproof.drawing.scene import HEAD, Dimension, Label

FIRST = 5.0
"""From the work to the first row, in millimetres."""
STEP = 4.6
"""From row to row."""
PT = 8.5
"""The size of words that the two are made for; larger words take more."""
TAIL = HEAD + 1.6
MOST_TRIED = 20000
"""How many ways are tried before the first ones are taken as they are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A length to be shown: two points on the work and the words."""

    start: XY
    end: XY
    text: str
    sides: tuple[str, ...] = ()
    """Where it may stand, the best first: `below`, `above` for a level length, `left`, `right` for an upright one."""


@dataclass(frozen=True, slots=True)
class _Taken:
    side: str
    row: int
    low: float
    high: float
    dimension: Dimension


def set_in_rows(wanted: Iterable[Wanted], box: Box, pt: float) -> tuple[Dimension, ...]:
    """Each length beside the box, none on another; a length that is neither level nor upright runs beside itself."""
    slanted: list[Dimension] = []
    choices: list[list[_Taken]] = []
    for want in sorted(wanted, key=lambda w: length(minus(w.end, w.start))):
        dx, dy = minus(want.end, want.start)
        if abs(dx) > 1e-6 and abs(dy) > 1e-6:
            slanted.append(_beside(want, box, pt))
            continue
        usual = ("below", "above") if abs(dx) >= abs(dy) else ("left", "right")
        choices.append(_choices(want, want.sides or usual, box, pt, len(choices) + 2))
    taken = _fitted(choices)
    return (*slanted, *(one.dimension for one in taken))


def _choices(want: Wanted, sides: tuple[str, ...], box: Box, pt: float, rows: int) -> list[_Taken]:
    """Every way to set a length, the best first: near rows, the first side, the number after the line."""
    ranked = sorted(
        (row + 0.4 * order + 0.5 * after, order, row, after, side)
        for order, side in enumerate(sides) for row in range(rows) for after in (0, 1)
    )
    return [_set(want, side, row, box, pt, bool(after)) for _, _, row, after, side in ranked]


def _fitted(choices: Sequence[Sequence[_Taken]]) -> list[_Taken]:
    """One choice for each length so that all keep clear, found by trying and going back; the first ones if none is."""
    tried = 0

    def place(taken: list[_Taken]) -> list[_Taken] | None:
        nonlocal tried
        if len(taken) == len(choices):
            return taken
        for one in choices[len(taken)]:
            tried += 1
            if tried > MOST_TRIED:
                return None
            if all(_clear(one, other) for other in taken):
                found = place([*taken, one])
                if found is not None:
                    return found
        return None

    return place([]) or [ways[min(i, len(ways) - 1)] for i, ways in enumerate(choices)]


def _clear(one: _Taken, other: _Taken) -> bool:
    """Whether two dimensions keep clear of each other: rows apart, and no extension line through a number."""
    if one.side == other.side and one.row == other.row and one.low < other.high and other.low < one.high:
        return False
    for first, second in ((one.dimension, other.dimension), (other.dimension, one.dimension)):
        room = second.label.box.grown(0.3)
        strokes = ((first.start, first.row[0]), (first.end, first.row[1]), first.row)
        if any(length_inside(p, q, room) > 0 for p, q in strokes):
            return False
    return not one.dimension.label.box.meets(other.dimension.label.box)


def _set(want: Wanted, side: str, row: int, box: Box, pt: float, after: bool) -> _Taken:
    level = side in ("below", "above")
    offset = (FIRST + STEP * row) * max(1.0, pt / PT)
    line = {
        "below": box.bottom - offset, "above": box.top + offset, "left": box.left - offset, "right": box.right + offset,
    }[side]
    p, q = sorted((want.start, want.end))
    low, high = (p[0], q[0]) if level else (p[1], q[1])
    width = text_width(want.text, pt)
    room = high - low >= width + 2 * HEAD + 1.2

    def at(along: float, across: float = line) -> XY:
        return (along, across) if level else (across, along)

    if room:
        label = Label(text=want.text, at=at((low + high) / 2), pt=pt, upright=not level, patch=True)
        return _Taken(side, row, low - 0.3, high + 0.3, Dimension(
            start=p, end=q, row=(at(low), at(high)), label=label))
    outward = high - low < 2 * HEAD + 1.0
    if level:
        far = high + TAIL + 0.8 if not after else low - TAIL - 0.8
        label = Label(text=want.text, at=at(far), pt=pt, anchor="end" if after else "start")
        ends = (low - TAIL, far + width) if not after else (far - width, high + TAIL)
        outward = True
    else:
        # no room to read upwards: beside the line, read level
        away = -1.8 if side == "left" else 1.8
        label = Label(
            text=want.text, at=at((low + high) / 2, line + away), pt=pt, anchor="end" if side == "left" else "start")
        ends = (low - TAIL, high + TAIL) if outward else (low, high)
    return _Taken(side, row, ends[0] - 0.6, ends[1] + 0.6, Dimension(
        start=p, end=q, row=(at(low), at(high)), label=label, outward=outward))


def _beside(want: Wanted, box: Box, pt: float) -> Dimension:
    """A slanted length, its line parallel to it on the side away from the middle of the work."""
    along = unit(minus(want.end, want.start))
    out = left_of(along)
    middle = times(plus(want.start, want.end), 0.5)
    toward = minus(box.centre, middle)
    if out[0] * toward[0] + out[1] * toward[1] > 0:
        out = times(out, -1)
    shift = times(out, FIRST * max(1.0, pt / PT))
    row = (plus(want.start, shift), plus(want.end, shift))
    return Dimension(start=want.start, end=want.end, row=row, label=Label(
        text=want.text, at=plus(middle, shift), pt=pt, patch=True))
