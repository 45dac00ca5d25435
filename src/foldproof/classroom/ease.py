"""Among plans with equally few sheets, the one that is easiest at the table.

Fewest different layouts first, then fewest settings of the trimmer's stop, then fewest cuts. Layouts made of straight
strips of one part are added to what the search has seen, because they are what a teacher would rather cut.
"""

from collections.abc import Sequence
from dataclasses import replace
from random import Random
from time import monotonic
from typing import Any

import numpy as np

from foldproof.classroom.fill import Fill
from foldproof.classroom.layout import count_cuts, lay_out, settings, within_reach
from foldproof.classroom.master import whole
from foldproof.classroom.orders import fill_in_order, first_order, move_forward
from foldproof.classroom.richest import Grid
from foldproof.classroom.sheets import Line, Node, Part, Sheet
from foldproof.classroom.task import Leaf, Split, Task, Tree, count_kinds, without

_POOL = 400
_SHARES = 24
_TRIES = 60


def strip_patterns(task: Task) -> list[Tree]:
    """Sheets of strips, each strip of one kind, at most two sorts of strip on a sheet."""
    found: list[Tree] = []
    for line, across, along in (
        (Line.LEVEL, task.width, task.height),
        (Line.UPRIGHT, task.height, task.width),
    ):
        strips: list[tuple[Tree, int]] = []
        other = Line.UPRIGHT if line is Line.LEVEL else Line.LEVEL
        for index, kind in enumerate(task.kinds):
            for w, h, turned in kind.ways():
                step, deep = (w, h) if line is Line.LEVEL else (h, w)
                fit = min(across // step, kind.count)
                leaf = Leaf(kind=index, turned=turned)
                if fit and deep <= along:
                    strips.append((leaf if fit == 1 else Split(line=other, members=(leaf,) * fit), deep))
        for one, deep in strips:
            most = along // deep
            found.append(_stack(line, (one,) * most))
            for two, low in strips:
                for times in range(1, most):
                    rest = (along - times * deep) // low
                    if rest and two is not one:
                        found.append(_stack(line, (one,) * times + (two,) * rest))
    return found


def level_patterns(task: Task, sheets: int, until: float) -> list[Tree]:
    """Sheets that hold an even share of everything, so that one or two layouts may do for all."""
    grid = Grid(task)
    random = Random(1)
    areas = [kind.width * kind.height for kind in task.kinds]
    found: list[Tree] = []
    shares: dict[tuple[int, ...], None] = {}
    for times in sorted(range(1, sheets + 1), key=lambda t: (t != sheets, -t))[:_SHARES]:
        shares[tuple(-(-d // times) for d in task.demand)] = None
        shares[tuple(d // times for d in task.demand)] = None
    for share in shares:
        if monotonic() > until:
            break
        if not any(share):
            continue
        tree = Fill(grid, areas, share).tree()
        if tree is not None:
            found.append(tree)
        if sum(a * c for a, c in zip(areas, share, strict=True)) <= task.width * task.height and sum(share) <= 60:
            found += _whole_share(task, share, random)
    return found


def _whole_share(task: Task, share: tuple[int, ...], random: Random) -> list[Tree]:
    """The whole share on one sheet, if a few orders of filling find it."""
    kinds = tuple(replace(kind, count=count) for kind, count in zip(task.kinds, share, strict=True))
    small = Task(width=task.width, height=task.height, kinds=kinds, longest=task.longest)
    order = first_order(small, random)
    for _ in range(_TRIES):
        trees, left = fill_in_order(small, order, random, 1)
        if not left:
            return trees
        order = move_forward(order, left, random)
    return []


def _stack(line: Line, members: tuple[Tree, ...]) -> Tree:
    return members[0] if len(members) == 1 else Split(line=line, members=members)


def easiest(
    trees: Sequence[tuple[Tree, int]],
    pool: Sequence[Tree],
    task: Task,
    sheet: Sheet,
    parts: Sequence[Part],
    seconds: float,
) -> list[tuple[Node, int]]:
    """Layouts with how often each is cut: as many sheets as `trees`, easier where the time allows.

    More sheets only where the trimmer can't make or hold the cuts of those; none where a part can't be had at all.
    """
    kinds = len(task.kinds)
    total = sum(times for _, times in trees)
    even = level_patterns(task, total, monotonic() + seconds / 2)
    simplest: dict[tuple[int, ...], tuple[tuple[int, int], Node]] = {}

    def keep(tree: Tree) -> bool:
        """Whether the trimmer can make the layout; then it is kept if it is the easiest for what it gives."""
        counts = tuple(min(c, d) for c, d in zip(count_kinds(tree, kinds), task.demand, strict=True))
        node = lay_out(tree, sheet, parts)
        if not within_reach(node, sheet):
            return False
        trouble = (len(settings(node)), count_cuts(node))
        if counts not in simplest or trouble < simplest[counts][0]:
            simplest[counts] = (trouble, node)
        return True

    for tree in [*(tree for tree, _ in trees), *_singles(task), *even, *strip_patterns(task), *pool]:
        if len(simplest) >= _POOL:
            break
        if not keep(tree):
            for fewer in _fewer(tree, kinds):
                keep(fewer)
    columns = list(simplest)
    nodes = [simplest[c][1] for c in columns]
    if any(all(c[k] == 0 for c in columns) for k in range(kinds)):
        return []
    chosen = _choose(columns, nodes, task.demand, total, seconds)
    if chosen is None:
        given = [(lay_out(tree, sheet, parts), times) for tree, times in trees]
        if all(within_reach(node, sheet) for node, _ in given):
            return given
        found = whole(columns, task.demand, most=sum(task.demand), seconds=seconds)
        if found is None:
            return []
        chosen = _choose(columns, nodes, task.demand, sum(found), seconds) or found
    return [(nodes[i], times) for i, times in enumerate(chosen) if times]


def _singles(task: Task) -> list[Tree]:
    """One part to a sheet, each way: what is left when the trimmer can hold nothing else."""
    return [
        Leaf(kind=index, turned=turned)
        for index, kind in enumerate(task.kinds)
        for w, h, turned in kind.ways()
        if w <= task.width and h <= task.height
    ]


def _fewer(tree: Tree, kinds: int) -> list[Tree]:
    """The pattern with one or two copies of a kind left out: more paper for the trimmer to hold."""
    found = []
    for index, count in enumerate(count_kinds(tree, kinds)):
        for out in range(1, min(count, 2) + 1):
            surplus = [0] * kinds
            surplus[index] = out
            kept = without(tree, surplus)
            if kept is not None:
                found.append(kept)
    return found


def _choose(
    columns: list[tuple[int, ...]], nodes: list[Node], demand: Sequence[int], total: int, seconds: float
) -> list[int] | None:
    """How often each column is cut: variables are times, whether it is used, and which settings are used."""
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csc_array, lil_array

    marks = sorted({at for node in nodes for at in settings(node)})
    number = {at: k for k, at in enumerate(marks)}
    n, m = len(columns), len(marks)
    if not n:
        return None
    size = 2 * n + m
    links = lil_array((n + sum(len(settings(node)) for node in nodes), size))
    row = n
    for j, node in enumerate(nodes):
        links[j, j], links[j, n + j] = 1.0, -float(total)
        for at in settings(node):
            links[row, n + j], links[row, 2 * n + number[at]] = 1.0, -1.0
            row += 1
    cover = np.hstack((np.array(columns, dtype=float).T, np.zeros((len(demand), n + m))))
    whole = np.hstack((np.ones(n), np.zeros(n + m)))[None, :]
    cuts = np.array([count_cuts(node) for node in nodes], dtype=float)
    most = max(1.0, float(cuts.max()) * total)
    cost = np.hstack((cuts / (2 * most), np.full(n, 10.0 + m / 100), np.ones(m)))
    answer: Any = milp(
        cost,
        constraints=[
            LinearConstraint(csc_array(cover), lb=np.array(demand, dtype=float)),
            LinearConstraint(whole, lb=total, ub=total),
            LinearConstraint(csc_array(links), ub=0.0),
        ],
        integrality=np.ones(size),
        bounds=Bounds(lb=np.zeros(size), ub=np.hstack((np.full(n, float(total)), np.ones(n + m)))),
        options={"time_limit": max(seconds, 0.2)},
    )
    if answer.x is None:
        return None
    times = [round(float(x)) for x in answer.x[:n]]
    enough = all(sum(t * c[k] for t, c in zip(times, columns, strict=True)) >= demand[k] for k in range(len(demand)))
    return times if enough and sum(times) == total else None
