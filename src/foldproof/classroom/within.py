"""Exact: is there a pattern worth more than so much that uses no part more often than it is needed?

Patterns are built from single parts by laying two side by side or one above the other (Wang, Operations Research 31
(1983) 573-586, from memory). One that can't reach the worth any more is dropped: what the rest of the sheet can add
is at most what it adds with copies unlimited, and that is known for every width and height. Of patterns with the same
parts only those of which none is both narrower and lower are kept.
"""

from collections.abc import Sequence
from time import monotonic
from typing import Any

import numpy as np

from foldproof.classroom.richest import Grid, Table
from foldproof.classroom.sheets import Line
from foldproof.classroom.task import Leaf, Tree, beside

Array = np.ndarray[Any, Any]
_BITS = 62
_PAIRS = 400_000


class TooMany(Exception):
    """The patterns to be kept are more than the search allows itself; nothing is proved."""


def worth_more(
    grid: Grid, values: Sequence[int], most: Sequence[int], over: int, *, labels: int, until: float
) -> list[Tree]:
    """Some patterns worth more than `over`; none proves that there is none.

    Raises TooMany when the patterns in hand outgrow `labels` or the clock passes `until`.
    """
    return _Builder(grid, values, most, over, labels, until).run()


def rest_of_sheet(grid: Grid, best: Table) -> Table:
    """For each width and height: at most how much a sheet holds beside a rectangle of that size (-1: it can't be)."""
    rest = np.full(best.shape, -1, dtype=np.int64)
    rest[-1, -1] = 0
    while True:
        before = rest.copy()
        for line in (Line.UPRIGHT, Line.LEVEL):
            sweep, table = (rest, best) if line is Line.UPRIGHT else (rest.T, best.T)
            divisions, reach = (grid.across, grid.tall) if line is Line.UPRIGHT else (grid.along, grid.wide)
            for row in range(len(divisions) - 1, -1, -1):
                if row + 1 < len(divisions):
                    np.maximum(sweep[row], sweep[row + 1], out=sweep[row])
                low, high = divisions[row]
                here = sweep[row, :reach]
                possible = here >= 0
                for one, other in ((low, high), (high, low)):
                    grown = np.where(possible, here + table[other, :reach], -1)
                    np.maximum.at(sweep, (one[:, None], np.arange(reach)[None, :]), grown)
        if bool((before == rest).all()):
            return rest


class _Builder:
    def __init__(
        self, grid: Grid, values: Sequence[int], most: Sequence[int], over: int, labels: int, until: float
    ) -> None:
        self.grid, self.over, self.labels, self.until = grid, over, labels, until
        task = grid.task
        self.width, self.height = task.width, task.height
        self.tall = task.height if task.longest is None else min(task.longest, task.height)
        self.wide = task.width if task.longest is None else min(task.longest, task.width)
        best = grid.solve(values)
        self.nothing = int(best[-1, -1]) <= over
        if self.nothing:
            return
        self.rest = rest_of_sheet(grid, best)
        self.at_x = np.searchsorted(grid.xs, np.arange(task.width + 1))
        self.at_y = np.searchsorted(grid.ys, np.arange(task.height + 1))
        self._allot(values, most)
        self._start(values, most)

    def _allot(self, values: Sequence[int], most: Sequence[int]) -> None:
        """Fields for counting: one bit for a kind needed once, else a field with a guard bit above it."""
        task = self.grid.task
        self.unit: dict[int, tuple[int, int]] = {}
        self.offsets: list[int] = []
        self.guards: list[int] = []
        free = 0
        for kind, part in enumerate(task.kinds):
            count = min(most[kind], (self.width * self.height) // (part.width * part.height))
            if count < 1 or values[kind] <= 0:
                continue
            size = count.bit_length() + 1
            if free < size:
                self.offsets.append(0)
                self.guards.append(0)
                free = _BITS
            shift = _BITS - free
            self.unit[kind] = (len(self.guards) - 1, shift)
            self.guards[-1] |= 1 << (shift + size - 1)
            self.offsets[-1] |= ((1 << (size - 1)) - 1 - count) << shift
            free -= size

    def _start(self, values: Sequence[int], most: Sequence[int]) -> None:
        rows = [
            (w, h, values[kind], self.unit[kind], kind, int(turned))
            for kind, part in enumerate(self.grid.task.kinds)
            if kind in self.unit
            for w, h, turned in part.ways()
            if w <= self.width and h <= self.height
        ]
        self.w = np.array([row[0] for row in rows], dtype=np.int64)
        self.h = np.array([row[1] for row in rows], dtype=np.int64)
        self.v = np.array([row[2] for row in rows], dtype=np.int64)
        self.words = np.zeros((len(self.guards), len(rows)), dtype=np.int64)
        for at, row in enumerate(rows):
            word, shift = row[3]
            self.words[word, at] = 1 << shift
        self.near = np.array([row[4] for row in rows], dtype=np.int64)
        self.far = np.array([row[5] for row in rows], dtype=np.int64)
        self.how = np.zeros(len(rows), dtype=np.int8)
        keep = self._promising(self.w, self.h, self.v)
        self._take(keep)

    def _take(self, keep: Array) -> None:
        self.w, self.h, self.v = self.w[keep], self.h[keep], self.v[keep]
        self.near, self.far, self.how = self.near[keep], self.far[keep], self.how[keep]
        self.words = self.words[:, keep]

    def _promising(self, w: Array, h: Array, v: Array) -> Array:
        rest = self.rest[self.at_x[w], self.at_y[h]]
        return (rest >= 0) & (v + rest > self.over)

    def run(self) -> list[Tree]:
        """Join until something is rich enough or nothing new comes."""
        if self.nothing:
            return []
        seen: dict[tuple[int, ...], list[tuple[int, int]]] = {}
        start = 0
        while True:
            rich = np.flatnonzero(self.v[start:] > self.over) + start
            if len(rich):
                rich = rich[np.argsort(-self.v[rich])][:8]
                return [self._tree(int(at)) for at in rich]
            end = len(self.v)
            if start == end:
                return []
            fresh: list[tuple[Array, ...]] = []
            step = max(1, _PAIRS // end)
            for at in range(start, end, step):
                if monotonic() > self.until:
                    raise TooMany
                fresh += [self._join(at, min(at + step, end), end, upright) for upright in (True, False)]
                if sum(len(one[0]) for one in fresh) > 40 * self.labels:
                    raise TooMany
            start = end
            self._add(fresh, seen)
            if len(self.v) > self.labels:
                raise TooMany

    def _join(self, low: int, high: int, end: int, upright: bool) -> tuple[Array, ...]:
        """Join each of the patterns low..high with each up to `end` that is not younger."""
        a, b = slice(low, high), slice(0, end)
        if upright:
            w = self.w[a, None] + self.w[None, b]
            h = np.maximum(self.h[a, None], self.h[None, b])
            good = (w <= self.width) & (h <= self.tall)
        else:
            w = np.maximum(self.w[a, None], self.w[None, b])
            h = self.h[a, None] + self.h[None, b]
            good = (h <= self.height) & (w <= self.wide)
        good &= np.arange(low, high)[:, None] >= np.arange(end)[None, :]
        for word in range(len(self.guards)):
            both = self.words[word, a, None] + self.words[word, None, b] + self.offsets[word]
            good &= (both & self.guards[word]) == 0
        one, other = np.nonzero(good)
        w, h = w[one, other], h[one, other]
        one = one + low
        v = self.v[one] + self.v[other]
        keep = np.flatnonzero(self._promising(w, h, v))
        one, other = one[keep], other[keep]
        how = np.full(len(keep), 1 if upright else 2, dtype=np.int8)
        return w[keep], h[keep], v[keep], one, other, how

    def _add(self, fresh: list[tuple[Array, ...]], seen: dict[tuple[int, ...], list[tuple[int, int]]]) -> None:
        w, h, v, near, far, how = (np.concatenate([one[k] for one in fresh]) for k in range(6))
        words = self.words[:, near] + self.words[:, far]
        order = np.lexsort((h, w, *words))
        keep = []
        for at in order.tolist():
            key = tuple(words[:, at].tolist())
            size = (int(w[at]), int(h[at]))
            sizes = seen.setdefault(key, [])
            if any(a <= size[0] and b <= size[1] for a, b in sizes):
                continue
            sizes.append(size)
            keep.append(at)
        chosen = np.array(keep, dtype=np.int64)
        self.w = np.concatenate((self.w, w[chosen]))
        self.h = np.concatenate((self.h, h[chosen]))
        self.v = np.concatenate((self.v, v[chosen]))
        self.near = np.concatenate((self.near, near[chosen]))
        self.far = np.concatenate((self.far, far[chosen]))
        self.how = np.concatenate((self.how, how[chosen]))
        self.words = np.concatenate((self.words, words[:, chosen]), axis=1)

    def _tree(self, at: int) -> Tree:
        near, far = int(self.near[at]), int(self.far[at])
        if self.how[at] == 0:
            return Leaf(kind=near, turned=bool(far))
        return beside(Line.UPRIGHT if self.how[at] == 1 else Line.LEVEL, self._tree(near), self._tree(far))
