"""Dimensions set outside the work in stacked rows, the shortest next to the work, as in technical drawing."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from random import Random
from typing import Any

from foldproof.drawing.lettering import line_step, text_width
from foldproof.drawing.nearest import TAIL, dimension_line, may_be_taken_for
from foldproof.drawing.plane import XY, Box, box_round, joined, left_of, length, length_inside, minus, plus, times, unit
from foldproof.drawing.scene import HEAD, Area, Dimension, Label, Line, parts

FIRST = 4.2
"""From the work to the first row, in millimetres."""
STEP = 4.2
"""From row to row."""
PT = 8.5
"""The size of words that the two are made for; larger words take more."""
READ = 2.0
"""How far from its line a number may stand, in millimetres: nothing farther off is taken for its own."""
MOST_MOVES = 600
"""How often a dimension is moved out of the way of others before they are left as they are."""
MOST_PAIRS = 40_000
"""How many pairs of dimensions are held against each other before they are left as they are: some half a second."""


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
    strokes: tuple[tuple[XY, XY], ...]
    """All that is drawn of it but the number."""
    box: Box
    """The room that all of it takes, and a little more."""
    near: Box
    """That room, and as far round it as a number is read as its own."""
    line: tuple[XY, XY]
    number: Box
    room: Box
    """The number's, and a little more."""


def set_in_rows(
    wanted: Iterable[Wanted], box: Box, pt: float, avoid: Sequence[tuple[XY, XY]] = (),
) -> tuple[Dimension, ...]:
    """Each length beside the box, none on another; a length that is neither level nor upright runs beside itself.

    `avoid` are strokes that they keep away from, too.
    """
    slanted: list[Dimension] = []
    wants: list[tuple[Wanted, tuple[str, ...]]] = []
    for want in sorted(wanted, key=lambda w: length(minus(w.end, w.start))):
        dx, dy = minus(want.end, want.start)
        if abs(dx) > 1e-6 and abs(dy) > 1e-6:
            slanted.append(_beside(want, box, pt))
            continue
        usual = ("below", "above") if abs(dx) >= abs(dy) else ("left", "right")
        wants.append((want, want.sides or usual))
    near = [(p, q) for p, q in avoid if not (box.holds(box_round((p, q))))]
    rows = 2 * len(wants) + (3 if near else 1)
    taken = _fitted([_choices(want, sides, box, pt, rows, near) for want, sides in wants])
    return (*slanted, *(one.dimension for one in taken))


def _choices(
    want: Wanted, sides: tuple[str, ...], box: Box, pt: float, rows: int, avoid: Sequence[tuple[XY, XY]],
) -> Sequence[_Taken]:
    """Every way to set a length, the best first: near rows, the first side, the nearest place for the number.

    Only those that keep clear of the strokes to avoid, where there are any.
    """
    ranked = sorted(
        (row + 0.4 * order + 0.5 * after, order, row, after, side)
        for order, side in enumerate(sides) for row in range(rows)
        for after in range(2 if side in ("below", "above") else 3)
    )
    ways = _Ways([each[2:] for each in ranked], lambda row, after, side: _set(want, side, row, box, pt, after))
    if not avoid:
        return ways
    free = [way for way in ways if not any(length_inside(p, q, way.number.grown(0.4)) for p, q in avoid)]
    return free or ways


class _Ways(Sequence[_Taken]):
    """Ways to set a length, each worked out when it is first looked at: most lengths take one of the first."""

    def __init__(self, ranked: Sequence[tuple[int, int, str]], setting: Callable[[int, int, str], _Taken]) -> None:
        self._ranked, self._setting = ranked, setting
        self._known: dict[int, _Taken] = {}

    def __len__(self) -> int:
        return len(self._ranked)

    def __getitem__(self, at: Any) -> Any:
        if not 0 <= at < len(self._ranked):
            raise IndexError(at)
        if at not in self._known:
            self._known[at] = self._setting(*self._ranked[at])
        return self._known[at]


def _fitted(choices: Sequence[Sequence[_Taken]]) -> list[_Taken]:
    """One choice for each length, so that all keep clear where that can be.

    Each takes the best that is clear of those before it; what then still runs into another is moved to where it runs
    into the fewest, pairs that stay in each other's way weighing more each time (breakout search; its chance is seeded,
    so that a drawing comes out the same every time). At last each goes as near as it can.
    """
    clear: dict[tuple[int, int, int, int], bool] = {}
    weights: dict[tuple[int, int], int] = {}

    def apart(i: int, one: int, j: int, other: int) -> bool:
        key = (i, one, j, other) if i < j else (j, other, i, one)
        if key not in clear:
            clear[key] = _clear(choices[key[0]][key[1]], choices[key[2]][key[3]])
        return clear[key]

    def free(i: int, one: int) -> bool:
        return all(j == i or apart(i, one, j, other) for j, other in taken.items())

    def trouble(i: int, one: int, others: Mapping[int, int]) -> int:
        return sum([
            weights.get((min(i, j), max(i, j)), 1) for j, other in others.items()
            if j != i and not apart(i, one, j, other)])

    taken: dict[int, int] = {}
    for i, ways in enumerate(choices):
        taken[i] = next((k for k in range(len(ways)) if len(clear) > MOST_PAIRS or free(i, k)), 0)
    chance = Random(1)
    for _ in range(MOST_MOVES):
        hurt = [i for i in taken if not free(i, taken[i])]
        if not hurt or len(clear) > MOST_PAIRS:
            break
        i = chance.choice(hurt)
        for j in hurt:
            if j != i and trouble(i, taken[i], {j: taken[j]}):
                pair = (min(i, j), max(i, j))
                weights[pair] = weights.get(pair, 1) + 1
        costs = [trouble(i, k, taken) for k in range(len(choices[i]))]
        least = min(costs)
        taken[i] = chance.choice([k for k, cost in enumerate(costs) if cost == least])
    for i, k in taken.items() if len(clear) <= MOST_PAIRS else ():
        if free(i, k):
            taken[i] = next(k for k in range(len(choices[i])) if free(i, k))
    return [choices[i][k] for i, k in taken.items()]


def _clear(one: _Taken, other: _Taken) -> bool:
    """Whether two dimensions keep clear of each other: rows apart, no extension line through a number, and each number
    nearest to its own line."""
    if not one.near.meets(other.box):
        return True
    if may_be_taken_for(one.number, one.line, other.line) or may_be_taken_for(other.number, other.line, one.line):
        return False
    if one.side == other.side and one.row == other.row and one.low < other.high and other.low < one.high:
        return False
    for first, second in ((one, other), (other, one)):
        if any(length_inside(p, q, second.room) > 0 for p, q in first.strokes):
            return False
    return not one.number.meets(other.number)


def _set(want: Wanted, side: str, row: int, box: Box, pt: float, after: int) -> _Taken:
    """One way to set a length; `after` chooses where the number goes when it does not fit between the heads."""
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
        label = Label(text=want.text, at=at((low + high) / 2), pt=pt, upright=not level)
        return _taken(side, row, (low - 0.3, high + 0.3), Dimension(
            start=p, end=q, row=(at(low), at(high)), label=label))
    outward = high - low < 2 * HEAD + 1.0
    if level:
        far = high + TAIL + 0.8 if not after else low - TAIL - 0.8
        label = Label(text=want.text, at=at(far), pt=pt, anchor="end" if after else "start")
        ends = (low - TAIL, far + width) if not after else (far - width, high + TAIL)
        outward = True
    else:
        # no room to read upwards: read level, beside the line or beyond one of its ends
        away, end = (-1.8, "end") if side == "left" else (1.8, "start")
        beyond = TAIL + line_step(pt) * 0.6
        outward = outward or after > 0
        label = [
            Label(text=want.text, at=at((low + high) / 2, line + away), pt=pt, anchor=end),
            Label(text=want.text, at=at(high + beyond), pt=pt),
            Label(text=want.text, at=at(low - beyond), pt=pt),
        ][after]
        ends = (low - TAIL, high + TAIL) if outward else (low, high)
    return _taken(side, row, (ends[0] - 0.6, ends[1] + 0.6), Dimension(
        start=p, end=q, row=(at(low), at(high)), label=label, outward=outward))


def _taken(side: str, row: int, reach: tuple[float, float], dimension: Dimension) -> _Taken:
    strokes: list[tuple[XY, XY]] = []
    for part in parts(dimension):
        match part:
            case Line(points=points):
                strokes += pairwise(points)
            case Area(rings=rings):
                strokes += [pair for ring in rings for pair in pairwise((*ring, ring[0]))]
            case _:
                pass
    number = dimension.label.box
    box = joined([number, box_round(p for stroke in strokes for p in stroke)]).grown(0.4)
    return _Taken(
        side, row, *reach, dimension, tuple(strokes), box, box.grown(READ), dimension_line(dimension), number,
        number.grown(0.3))


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
        text=want.text, at=plus(middle, shift), pt=pt))
