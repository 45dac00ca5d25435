"""A rich pattern that keeps to the number of copies needed: one label for each width and height.

The same rows and columns as the richest pattern with copies unlimited, but each entry remembers which parts it uses,
and two entries are joined only when together they use no part too often. The result can be cut; it need not be best.

Copies used are held in machine words: a kind needed once has one bit (two patterns clash when they share it), a kind
needed more often has a field with a guard bit above it (offset so that one copy too many reaches the guard).
"""

from collections.abc import Sequence
from typing import Any

import numpy as np

from foldproof.classroom.richest import Grid
from foldproof.classroom.sheets import Line
from foldproof.classroom.task import Leaf, Tree, beside

Words = np.ndarray[Any, np.dtype[np.int64]]
_BITS = 62


class Fill:
    """The labels of one run: `values` per kind, at most `most` copies of each."""

    def __init__(self, grid: Grid, values: Sequence[int], most: Sequence[int]) -> None:
        self.grid = grid
        self.values = values
        task = grid.task
        sheet = task.width * task.height
        used = [
            min(most[i], sheet // (kind.width * kind.height)) if values[i] > 0 else 0
            for i, kind in enumerate(task.kinds)
        ]
        self._allot(used)
        shape = (len(grid.xs), len(grid.ys))
        self.worth = np.zeros(shape, dtype=np.int64)
        self.label = np.zeros(shape, dtype=np.int64)
        self.words = [np.zeros(shape, dtype=np.int64) for _ in range(self.ones + len(self.guards))]
        self.log: list[tuple[Line | None, Words, Words]] = []
        """Chunks of labels in order of number, from 1: two labels joined, or (None) a kind and whether it is turned."""
        self.next = 1
        self._place_parts(used)
        self._sweep_all()

    def _allot(self, used: Sequence[int]) -> None:
        """Give each kind its bit or field: word, shift."""
        self.spot: dict[int, tuple[int, int]] = {}
        single = [i for i, count in enumerate(used) if count == 1]
        for order, kind in enumerate(single):
            self.spot[kind] = (order // _BITS, order % _BITS)
        self.ones = -(-len(single) // _BITS)
        self.guards: list[int] = []
        self.offsets: list[int] = []
        free = 0
        for kind, count in enumerate(used):
            if count < 2:
                continue
            width = count.bit_length() + 1
            if free < width:
                self.guards.append(0)
                self.offsets.append(0)
                free = _BITS
            shift = _BITS - free
            self.spot[kind] = (self.ones + len(self.guards) - 1, shift)
            self.guards[-1] |= 1 << (shift + width - 1)
            self.offsets[-1] |= ((1 << (width - 1)) - 1 - count) << shift
            free -= width

    def _place_parts(self, used: Sequence[int]) -> None:
        """Each part in the smallest rectangle that holds it."""
        for kind, turned, i, j in self.grid.ways:
            if used[kind] and self.values[kind] > self.worth[i, j]:
                self.worth[i, j] = self.values[kind]
                self.label[i, j] = self.next
                word, shift = self.spot[kind]
                for at, words in enumerate(self.words):
                    words[i, j] = 1 << shift if at == word else 0
                self.log.append((None, np.array([kind]), np.array([int(turned)])))
                self.next += 1

    def _sweep_all(self) -> None:
        total = -1
        while True:
            self._sweep(self.grid.across, self.grid.tall, Line.UPRIGHT)
            self._turn()
            self._sweep(self.grid.along, self.grid.wide, Line.LEVEL)
            self._turn()
            now = int(self.worth.sum())
            if now == total:
                return
            total = now

    def _turn(self) -> None:
        self.worth = np.ascontiguousarray(self.worth.T)
        self.label = np.ascontiguousarray(self.label.T)
        self.words = [np.ascontiguousarray(words.T) for words in self.words]

    def _sweep(self, divisions: list[tuple[Words, Words]], reach: int, line: Line) -> None:
        worth, label, words = self.worth, self.label, self.words
        for row in range(1, len(divisions)):
            better = np.flatnonzero(worth[row - 1] > worth[row])
            if len(better):
                for table in (worth, label, *words):
                    table[row, better] = table[row - 1, better]
            low, high = divisions[row]
            if not len(low):
                continue
            sums = worth[low, :reach] + worth[high, :reach]
            clash = np.zeros(sums.shape, dtype=bool)
            for at, table in enumerate(words):
                if at < self.ones:
                    clash |= (table[low, :reach] & table[high, :reach]) != 0
                else:
                    at -= self.ones
                    both = table[low, :reach] + table[high, :reach] + self.offsets[at]
                    clash |= (both & self.guards[at]) != 0
            sums[clash] = -1
            best = sums.argmax(axis=0)
            columns = np.flatnonzero(sums[best, np.arange(sums.shape[1])] > worth[row, :reach])
            if not len(columns):
                continue
            near, far = low[best[columns]], high[best[columns]]
            worth[row, columns] = worth[near, columns] + worth[far, columns]
            for table in words:
                table[row, columns] = table[near, columns] + table[far, columns]
            self.log.append((line, label[near, columns], label[far, columns]))
            label[row, columns] = np.arange(self.next, self.next + len(columns))
            self.next += len(columns)

    def tree(self) -> Tree | None:
        """The pattern of the whole sheet; None when it is empty."""
        starts = np.cumsum([1] + [len(near) for _, near, _ in self.log])

        def pick(number: int) -> Tree | None:
            if number == 0:
                return None
            chunk = int(np.searchsorted(starts, number, side="right")) - 1
            line, near, far = self.log[chunk]
            at = number - int(starts[chunk])
            if line is None:
                return Leaf(kind=int(near[at]), turned=bool(far[at]))
            one, other = pick(int(near[at])), pick(int(far[at]))
            return beside(line, one, other) if one is not None and other is not None else one or other

        return pick(int(self.label[-1, -1]))
