"""The richest pattern: most value out of one sheet by edge-to-edge cuts, copies unlimited.

Exact, by dynamic programming over the lengths that matter (Gilmore and Gomory's recursion for any number of stages,
Operations Research 13 (1965) 94-120, from memory): the best of a rectangle is its best part, or the best of two
rectangles that a cut leaves. Rows and columns are brought up to date in turn, whole arrays at a time, until nothing
changes. Values are whole numbers, so equality is exact.
"""

from bisect import bisect_right
from collections.abc import Sequence
from functools import cached_property
from typing import Any

import numpy as np

from foldproof.classroom.sheets import Line
from foldproof.classroom.task import Leaf, Task, Tree, beside, pairs, sums

Table = np.ndarray[Any, np.dtype[np.int64]]


class Grid:
    """The lengths that matter of a task and the ways to divide them; made once, used for many values."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.xs, self.ys = task.xs, task.ys
        self.across = _divisions(self.xs, [(w, k.count) for k in task.kinds for w, _, _ in k.ways()])
        self.along = _divisions(self.ys, [(h, k.count) for k in task.kinds for _, h, _ in k.ways()])
        self.tall = len(self.ys) if task.longest is None else bisect_right(self.ys, task.longest)
        """Rows (by height) that an upright cut can cross."""
        self.wide = len(self.xs) if task.longest is None else bisect_right(self.xs, task.longest)
        self.ways = [
            (index, turned, int(np.searchsorted(self.xs, w)), int(np.searchsorted(self.ys, h)))
            for index, kind in enumerate(task.kinds)
            for w, h, turned in kind.ways()
            if w <= task.width and h <= task.height
        ]

    @cached_property
    def cells(self) -> int:
        """How large the table is."""
        return len(self.xs) * len(self.ys)

    def solve(self, values: Sequence[int]) -> Table:
        """The best value for each width (first index) and height (second)."""
        best = np.zeros((len(self.xs), len(self.ys)), dtype=np.int64)
        for kind, _, i, j in self.ways:
            if values[kind] > 0 and i < len(self.xs) and j < len(self.ys):
                best[i, j] = max(best[i, j], values[kind])
        np.maximum.accumulate(best, axis=0, out=best)
        np.maximum.accumulate(best, axis=1, out=best)
        total = -1
        while True:
            _sweep(best[:, : self.tall], self.across)
            turned = np.ascontiguousarray(best.T)
            _sweep(turned[:, : self.wide], self.along)
            best = np.ascontiguousarray(turned.T)
            now = int(best.sum())
            if now == total:
                return best
            total = now

    def unpick(self, best: Table, values: Sequence[int]) -> Tree | None:
        """A pattern that reaches the best value of the whole sheet; None when that is nothing."""
        return self._unpick(best, values, len(self.xs) - 1, len(self.ys) - 1)

    def several(self, best: Table, values: Sequence[int], over: int, most: int) -> list[Tree]:
        """Up to `most` patterns worth more than `over`, by different first cuts, the richest first."""
        i, j = len(self.xs) - 1, len(self.ys) - 1
        found: list[tuple[int, int, Line, int, int]] = []
        if j < self.tall:
            low, high = self.across[i]
            worth = best[low, j] + best[high, j]
            rich: list[int] = np.flatnonzero(worth > over).tolist()
            found += [(int(worth[k]), k, Line.UPRIGHT, int(low[k]), int(high[k])) for k in rich]
        if i < self.wide:
            low, high = self.along[j]
            worth = best[i, low] + best[i, high]
            rich = np.flatnonzero(worth > over).tolist()
            found += [(int(worth[k]), k, Line.LEVEL, int(low[k]), int(high[k])) for k in rich]
        trees: list[Tree] = []
        single = self.unpick(best, values)
        if single is not None and int(best[i, j]) > over:
            trees.append(single)
        for _, _, line, low_at, high_at in sorted(found, key=lambda one: -one[0])[: most * 2]:
            if len(trees) >= most:
                break
            if line is Line.UPRIGHT:
                near, far = self._unpick(best, values, low_at, j), self._unpick(best, values, high_at, j)
            else:
                near, far = self._unpick(best, values, i, low_at), self._unpick(best, values, i, high_at)
            if near is not None and far is not None:
                trees.append(beside(line, near, far))
        return trees

    def _unpick(self, best: Table, values: Sequence[int], i: int, j: int) -> Tree | None:
        worth = int(best[i, j])
        if worth == 0:
            return None
        i, j = self._cut_down(best, i, j)
        for kind, turned, at, up in self.ways:
            if values[kind] == worth and at <= i and up <= j:
                return Leaf(kind=kind, turned=turned)
        if j < self.tall:
            low, high = self.across[i]
            hits = np.flatnonzero(best[low, j] + best[high, j] == worth)
            if len(hits):
                return self._joined(best, values, Line.UPRIGHT, (int(low[hits[0]]), j), (int(high[hits[0]]), j))
        if i < self.wide:
            low, high = self.along[j]
            hits = np.flatnonzero(best[i, low] + best[i, high] == worth)
            if len(hits):
                return self._joined(best, values, Line.LEVEL, (i, int(low[hits[0]])), (i, int(high[hits[0]])))
        raise AssertionError("the table holds a value that nothing makes")

    def _cut_down(self, best: Table, i: int, j: int) -> tuple[int, int]:
        """The smallest rectangle of the same value that trimming leads to."""
        while True:
            if i and j < self.tall and best[i - 1, j] == best[i, j]:
                i -= 1
            elif j and i < self.wide and best[i, j - 1] == best[i, j]:
                j -= 1
            else:
                return i, j

    def _joined(
        self, best: Table, values: Sequence[int], line: Line, near: tuple[int, int], far: tuple[int, int]
    ) -> Tree | None:
        one, other = self._unpick(best, values, *near), self._unpick(best, values, *far)
        if one is None or other is None:
            return one or other
        return beside(line, one, other)


def _divisions(lengths: Sequence[int], parts: Sequence[tuple[int, int]]) -> list[tuple[Table, Table]]:
    """For each length that matters, the two smaller ones of each way to divide it, as indices."""
    normal = sums(lengths[-1], parts)
    index = {length: at for at, length in enumerate(lengths)}
    found = []
    for length in lengths:
        ways = sorted(pairs(length, normal))
        low = np.array([index[a] for a, _ in ways], dtype=np.int64)
        high = np.array([index[b] for _, b in ways], dtype=np.int64)
        found.append((low, high))
    return found


def _sweep(best: Table, divisions: list[tuple[Table, Table]]) -> None:
    """Bring the rows up to date from the smallest: each becomes the best of itself and of two smaller ones."""
    for row, (low, high) in enumerate(divisions):
        if row:  # what is wider than it need be is cut down
            np.maximum(best[row], best[row - 1], out=best[row])
        if len(low):
            np.maximum(best[row], (best[low] + best[high]).max(axis=0), out=best[row])

