"""The fewest sheets: patterns found by their worth, a proved lower bound, and whole numbers of patterns.

Column generation (Gilmore and Gomory, Operations Research 9 (1961) 849-859 and 13 (1965) 94-120): the linear
solver gives each part a worth, the richest pattern at that worth joins the table of patterns, and so on. Because the
richest pattern is exact, any worths prove a bound: no sheet holds more than the richest, so the parts together, divided
by the richest and rounded up, are sheets that can't be saved. That is reckoned in whole numbers.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from random import Random
from time import monotonic

from foldproof.classroom import master
from foldproof.classroom.divide import TooLong, one_sheet
from foldproof.classroom.fill import Fill
from foldproof.classroom.orders import fill_in_order, first_order, move_forward
from foldproof.classroom.richest import Grid
from foldproof.classroom.task import Leaf, Task, Tree, count_kinds, without
from foldproof.classroom.within import TooMany, worth_more

_LABELS = 30_000
"""Patterns that an exact search may keep in hand."""
_WORTH = 10**6
"""Worths are rounded down to this fraction of a sheet."""


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What was found and what was proved."""

    trees: tuple[tuple[Tree, int], ...]
    """Patterns with how often each is cut."""
    least: int
    reason: str
    pool: tuple[Tree, ...]
    """Every pattern seen, for choosing an easier plan with as many sheets."""

    @property
    def count(self) -> int:
        """Sheets used."""
        return sum(times for _, times in self.trees)


class Search:
    """One search; give it time and it improves, `answer` says where it stands."""

    def __init__(self, task: Task, *, seconds: float, seed: int = 1) -> None:
        self.task = task
        self.kinds = len(task.kinds)
        self.began = monotonic()
        self.until = self.began + seconds
        self.random = Random(seed)
        self.area = task.width * task.height
        self.areas = [kind.width * kind.height for kind in task.kinds]
        self.pool: dict[tuple[int, ...], Tree] = {}
        self.grid = Grid(task)
        self.best: list[tuple[Tree, int]] | None = None
        total = sum(a * n for a, n in zip(self.areas, task.demand, strict=True))
        self.least, self.reason = -(-total // self.area), "together the parts are larger than fewer sheets"
        for index in range(self.kinds):
            turned = not (task.kinds[index].width <= task.width and task.kinds[index].height <= task.height)
            self._keep(Leaf(kind=index, turned=turned))

    # -- the whole search -------------------------------------------------------------------------------------------

    def run(self) -> Answer:
        """Search until the answer is proved or the time is over."""
        if self.kinds == 0 or not any(self.task.demand):
            return Answer(trees=(), least=0, reason="nothing is to be cut", pool=())
        for power in (1.0, 1.05, 1.2):
            if self._over():
                break
            self._fill_up(self._area_worth(power), self.task.demand, [])
        self._order(rounds=60)
        self._one_sheet()
        self._price_unlimited()
        for labels, share in ((4_000, 0.3), (_LABELS, 0.5)):
            if not self._over():
                self._tighten(labels, until=self.began + share * (self.until - self.began))
            if not self._over():
                self._choose(seconds=min(2.0, 0.1 * self._left()))
        rounds = 0
        while not self._over():
            rounds += 1
            self._dive()
            self._vary()
            self._order(rounds=30)
            if rounds % 8 == 0 and not self._over():
                self._choose(seconds=0.2 * self._left())
        return self.answer()

    def answer(self) -> Answer:
        """The best so far."""
        trees = self.best
        if trees is None:
            trees = [(self.pool[c], self.task.demand[i]) for i, c in enumerate(self._singles())]
        return Answer(trees=tuple(trees), least=self.least, reason=self.reason, pool=tuple(self.pool.values()))

    @property
    def count(self) -> int:
        """Sheets of the best plan so far; as many as parts while there is none."""
        return sum(self.task.demand) if self.best is None else sum(times for _, times in self.best)

    def _over(self) -> bool:
        return (self.best is not None and self.count <= self.least) or monotonic() > self.until

    def _left(self) -> float:
        return self.until - monotonic()

    def _singles(self) -> list[tuple[int, ...]]:
        return [tuple(int(i == k) for i in range(self.kinds)) for k in range(self.kinds)]

    def _keep(self, tree: Tree) -> tuple[int, ...]:
        """Put a pattern into the pool, cut back to what is needed; its counts."""
        counts = count_kinds(tree, self.kinds)
        surplus = [max(0, c - d) for c, d in zip(counts, self.task.demand, strict=True)]
        if any(surplus):
            kept = without(tree, surplus)
            if kept is None:
                return counts
            tree = kept
            counts = count_kinds(tree, self.kinds)
        self.pool.setdefault(counts, tree)
        return counts

    def _claim(self, trees: list[tuple[Tree, int]]) -> None:
        if self.best is None or sum(times for _, times in trees) < self.count:
            self.best = trees

    def _prove(self, worths: Sequence[int], richest: int, reason: str) -> None:
        """A bound from worths and the exact value of the richest pattern."""
        total = sum(worth * need for worth, need in zip(worths, self.task.demand, strict=True))
        if richest > 0:
            bound = -(-total // richest)
            if bound > self.least:
                self.least, self.reason = bound, reason

    # -- filling sheet after sheet ----------------------------------------------------------------------------------

    def _area_worth(self, power: float) -> list[float]:
        return [(area / self.area) ** power for area in self.areas]

    def _fill_up(
        self, worths: Sequence[float], demand: Sequence[int], start: list[tuple[Tree, int]], gain: float = 0.0
    ) -> None:
        """Fill sheet after sheet with the richest pattern of what is left; with `gain`, poor sheets raise the worth."""
        worths, left, found = list(worths), list(demand), list(start)
        used = sum(times for _, times in found)
        while any(left):
            if monotonic() > self.until and self.best is not None:
                return
            if self.best is not None and used + -(-self._area_of(left) // self.area) >= self.count:
                return
            tree = Fill(self.grid, [max(1, int(w * _WORTH)) for w in worths], left).tree()
            assert tree is not None, "a part that fits the sheet was left over"
            counts = self._keep(tree)
            times = min(n // c for n, c in zip(left, counts, strict=True) if c)
            found.append((tree, times))
            used += times
            left = [n - c * times for n, c in zip(left, counts, strict=True)]
            if gain:
                poor = self.area / max(1, sum(a * c for a, c in zip(self.areas, counts, strict=True)))
                for i, c in enumerate(counts):
                    if c:
                        worths[i] = (1 - gain) * worths[i] + gain * (self.areas[i] / self.area) ** 1.04 * poor
        self._claim(found)

    def _area_of(self, counts: Sequence[int]) -> int:
        return sum(a * c for a, c in zip(self.areas, counts, strict=True))

    def _order(self, rounds: int) -> None:
        """Fill one sheet fewer than the best so far, part by part, in changing orders."""
        if sum(self.task.demand) > 150:
            return
        order = first_order(self.task, self.random)
        best_left, kept = self.area * self.count, order
        for _ in range(rounds):
            if self._over():
                return
            trees, left = fill_in_order(self.task, order, self.random, self.count - 1)
            if not left:
                self._claim([(tree, 1) for tree in trees])
                for tree in trees:
                    self._keep(tree)
                order, best_left = first_order(self.task, self.random), self.area * self.count
                continue
            area = sum(self.areas[kind] for kind in left)
            if area <= best_left or self.random.random() < 0.1:
                best_left, kept = area, order
            else:
                order = kept
            order = move_forward(order, left, self.random)

    # -- column generation ------------------------------------------------------------------------------------------

    def _price_unlimited(self) -> None:
        """Worths with the exact richest pattern, copies unlimited: the bound."""
        columns = list(self.pool)
        while not self._over():
            sheets, _, worths = master.shares(columns, self.task.demand)
            whole = [int(worth * _WORTH) for worth in worths]
            table = self.grid.solve(whole)
            richest = int(table[-1, -1])
            self._prove(whole, richest, "every way of cutting a sheet was weighed")
            if richest <= _WORTH or self.least >= ceil(sheets - 1e-6):
                self.worths = worths
                return
            for tree in self.grid.several(table, whole, _WORTH, 8):
                columns.append(count_kinds(tree, self.kinds))
                self._keep(tree)
        self.worths = [area / self.area for area in self.areas]

    def _tighten(self, labels: int, until: float) -> None:
        """Raise the bound, keeping exactly to the copies needed, or find the patterns that forbid it."""
        while not self._over():
            columns = list(self.pool)
            sheets, _, worths = master.shares(columns, self.task.demand)
            self.worths = worths
            if sheets <= self.least + 1e-6:
                return
            whole = [int(worth * _WORTH) for worth in worths]
            total = sum(worth * need for worth, need in zip(whole, self.task.demand, strict=True))
            allowed = (total - 1) // self.least
            before = len(self.pool)
            for shake in (0.0, 0.01, 0.03):
                self._fill([int(w * self.random.uniform(1 - shake, 1 + shake)) + 1 for w in whole], self.task.demand)
            if len(self.pool) > before and master.shares(list(self.pool), self.task.demand)[0] < sheets - 1e-9:
                continue
            try:
                trees = worth_more(
                    self.grid, whole, self.task.demand, allowed, labels=labels, until=min(until, self.until)
                )
            except TooMany:
                return
            if not trees:
                self.least += 1
                self.reason = "every way of cutting a sheet was weighed, no part used too often"
            for tree in trees:
                self._keep(tree)

    def _fill(self, worths: Sequence[int], most: Sequence[int]) -> int:
        fill = Fill(self.grid, worths, most)
        tree = fill.tree()
        if tree is not None:
            self._keep(tree)
        return int(fill.worth[-1, -1])

    def _one_sheet(self) -> None:
        """Where nothing forbids a single sheet: find it, or prove that there is none."""
        if self.least > 1 or self._over():
            return
        try:
            tree = one_sheet(self.task, self.began + 0.7 * (self.until - self.began))
        except TooLong:
            return
        if tree is None:
            self.least, self.reason = 2, "every way of sharing the parts out over one sheet was tried"
        else:
            self._claim([(tree, 1)])
            self._keep(tree)

    # -- whole numbers ----------------------------------------------------------------------------------------------

    def _choose(self, seconds: float) -> None:
        """A whole number of sheets per pattern of the pool."""
        columns = list(self.pool)
        times = master.whole(columns, self.task.demand, most=self.count - 1, seconds=seconds)
        if times is not None:
            self._claim([(self.pool[c], n) for c, n in zip(columns, times, strict=True) if n])

    def _dive(self) -> None:
        """Settle sheets one by one where the shares say so, and price what is left again each time."""
        left = list(self.task.demand)
        kept: list[tuple[Tree, int]] = []
        while any(left):
            used = sum(times for _, times in kept)
            chosen = self._settle(left, self.count - 1 - used)
            if chosen is None:
                return
            tree, counts, times = chosen
            kept.append((tree, times))
            left = [n - c * times for n, c in zip(left, counts, strict=True)]
        self._claim(kept)

    def _settle(self, left: list[int], sheets: int) -> tuple[Tree, tuple[int, ...], int] | None:
        """A pattern to cut from what is left, and how often; None when more than `sheets` are needed."""
        while monotonic() < self.until:
            columns = [c for c in self.pool if all(a <= b for a, b in zip(c, left, strict=True)) and any(c)]
            total, shares, worths = master.shares(columns, left)
            if total <= sheets + 1e-6:
                shaken = [share * self.random.uniform(0.7, 1.0) for share in shares]
                at = shaken.index(max(shaken))
                most = min(n // c for n, c in zip(left, columns[at], strict=True) if c)
                times = max(1, min(most, int(shares[at] + 1e-6)))
                return self.pool[columns[at]], columns[at], times
            whole = [int(worth * _WORTH) for worth in worths]
            before = len(self.pool)
            fill = Fill(self.grid, [w + 1 if n else 0 for w, n in zip(whole, left, strict=True)], left)
            tree = fill.tree()
            trees = [] if tree is None else [tree]
            if int(fill.worth[-1, -1]) <= _WORTH + 2 * self.kinds:
                try:
                    trees += worth_more(
                        self.grid, whole, left, _WORTH + 1, labels=4_000, until=min(self.until, monotonic() + 2)
                    )
                except TooMany:
                    return None
            for tree in trees:
                self._keep(tree)
            if len(self.pool) == before:
                return None
        return None

    def _vary(self) -> None:
        """One more plan: round the shares down somewhere, shake the worths, fill up the rest."""
        turn = self.random.random()
        if turn < 0.5 or self.best is None:
            power = self.random.uniform(1.0, 1.25)
            worths = [w * self.random.uniform(0.9, 1.1) for w in self._area_worth(power)]
            self._fill_up(worths, self.task.demand, [], gain=self.random.choice((0.0, 0.1, 0.3, 0.5)))
        else:
            self._part_of_best()

    def _part_of_best(self) -> None:
        """Keep some sheets of the best plan, the fuller ones rather, and cut the rest anew."""
        assert self.best is not None
        left = list(self.task.demand)
        kept: list[tuple[Tree, int]] = []
        share = self.random.uniform(0.2, 0.8)
        sheets = [tree for tree, times in self.best for _ in range(times)]
        self.random.shuffle(sheets)
        for tree in sheets:
            counts = count_kinds(tree, self.kinds)
            full = self._area_of(counts) / self.area
            if self.random.random() < share * full and all(c <= n for c, n in zip(counts, left, strict=True)):
                kept.append((tree, 1))
                left = [n - c for n, c in zip(left, counts, strict=True)]
        worths = [max(w, 0.01) * self.random.uniform(0.95, 1.05) + 0.2 * a / self.area
                  for w, a in zip(self.worths, self.areas, strict=True)]
        self._fill_up(worths, left, kept, gain=self.random.choice((0.0, 0.2)))
