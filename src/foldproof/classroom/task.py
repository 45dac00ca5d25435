"""The cutting question in whole numbers: what the planner works on.

Every length is scaled to an integer. A blade that takes away paper is folded into the sizes: each part and the sheet
grow by one blade's width, so that cuts then cost nothing.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from functools import cached_property
from math import lcm

from foldproof.classroom.sheets import Line, MayTurn, Part, Sheet
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """One part of a pattern."""

    kind: int
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """Parts or groups side by side (upright cuts between them) or one above the other (level cuts)."""

    line: Line
    members: tuple["Tree", ...]


Tree = Leaf | Split


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A part in whole numbers."""

    width: int
    height: int
    count: int
    turns: bool

    def ways(self) -> Iterable[tuple[int, int, bool]]:
        """Width, height, turned: each way that it may lie."""
        yield self.width, self.height, False
        if self.turns and self.width != self.height:
            yield self.height, self.width, True


@dataclass(frozen=True, kw_only=True)
class Task:
    """Kinds to be cut from equal sheets."""

    width: int
    """Of the sheet inside its trimmed edges."""
    height: int
    kinds: tuple[Kind, ...]
    longest: int | None
    """The longest cut."""

    @cached_property
    def xs(self) -> tuple[int, ...]:
        """Widths that matter, rising; the last is the sheet's."""
        return reach(self.width, [(w, kind.count) for kind in self.kinds for w, _, _ in kind.ways()], self.longest)

    @cached_property
    def ys(self) -> tuple[int, ...]:
        """Heights that matter, rising; the last is the sheet's."""
        return reach(self.height, [(h, kind.count) for kind in self.kinds for _, h, _ in kind.ways()], self.longest)

    @property
    def demand(self) -> tuple[int, ...]:
        """How many of each kind."""
        return tuple(kind.count for kind in self.kinds)

    def fits(self, kind: Kind) -> bool:
        """Whether one part of this kind fits the sheet."""
        return any(w <= self.width and h <= self.height for w, h, _ in kind.ways())


def task_of(sheet: Sheet, parts: Sequence[Part]) -> tuple[Task, int]:
    """The question in whole numbers, and how many of them make one unit of length."""
    lengths = [sheet.width, sheet.height, sheet.kerf, sheet.trim, sheet.longest_cut or sheet.width]
    lengths += [side for part in parts for side in (part.width, part.height)]
    scale = lcm(*(length.denominator for length in lengths))
    kerf = int(sheet.kerf * scale)
    lost = 2 * (int(sheet.trim * scale) + kerf) if sheet.trim else 0
    kinds = tuple(
        Kind(
            width=int(part.width * scale) + kerf,
            height=int(part.height * scale) + kerf,
            count=part.count,
            turns=part.may_turn is MayTurn.ANY,
        )
        for part in parts
    )
    task = Task(
        width=int(sheet.width * scale) - lost + kerf,
        height=int(sheet.height * scale) - lost + kerf,
        kinds=kinds,
        longest=None if sheet.longest_cut is None else int(sheet.longest_cut * scale) + kerf,
    )
    return task, scale


def sums(limit: int, lengths: Iterable[tuple[int, int]]) -> list[int]:
    """The lengths up to `limit` that copies of these lengths can add up to, from 0, rising."""
    mask = (1 << (limit + 1)) - 1
    bits = 1
    for length, count in lengths:
        left = min(count, limit // length)
        step = 1
        while left > 0:
            step = min(step, left)
            bits |= (bits << (length * step)) & mask
            left -= step
            step *= 2
    return [n for n, bit in enumerate(reversed(bin(bits)[2:])) if bit == "1"]


def reach(limit: int, lengths: Iterable[tuple[int, int]], longest: int | None = None) -> tuple[int, ...]:
    """The lengths that cutting `limit` need ever lead to, and `limit` itself, rising.

    A strip may shrink to the greatest sum of part lengths that it holds, and then its neighbour may grow by what was
    set free: only pairs that can neither shrink nor grow need be tried (the raster points of Terno, Lindemann and
    Scheithauer, from memory; the argument is the one above). What is longer than the longest cut may first be cut
    down until it is in reach.
    """
    normal = sums(limit, lengths)
    found = {limit}
    if longest is not None and normal[1:2] and normal[1] <= longest < limit:
        found.add(normal[bisect_right(normal, longest) - 1])
    waiting = sorted(found)
    while waiting:
        for low, high in pairs(waiting.pop(), normal):
            for length in (low, high):
                if length not in found:
                    found.add(length)
                    waiting.append(length)
    return tuple(sorted(found))


def pairs(length: int, normal: Sequence[int]) -> set[tuple[int, int]]:
    """Ways to divide a length in two that can neither shrink nor grow; the smaller first."""
    found = set()
    for near in normal[1 : bisect_right(normal, length // 2)]:
        far = normal[bisect_right(normal, length - near) - 1]
        grown = normal[bisect_right(normal, length - far) - 1]
        found.add((grown, far) if grown <= far else (far, grown))
    return found


def count_kinds(tree: Tree, kinds: int) -> tuple[int, ...]:
    """How many of each kind a pattern gives."""
    counts = [0] * kinds
    waiting = [tree]
    while waiting:
        here = waiting.pop()
        if isinstance(here, Leaf):
            counts[here.kind] += 1
        else:
            waiting += here.members
    return tuple(counts)


def needed(tree: Tree, task: Task) -> tuple[int, int]:
    """Width and height that a pattern needs."""
    if isinstance(tree, Leaf):
        kind = task.kinds[tree.kind]
        return (kind.height, kind.width) if tree.turned else (kind.width, kind.height)
    sizes = [needed(member, task) for member in tree.members]
    if tree.line is Line.UPRIGHT:
        return sum(w for w, _ in sizes), max(h for _, h in sizes)
    return max(w for w, _ in sizes), sum(h for _, h in sizes)


def beside(line: Line, near: Tree, far: Tree) -> Tree:
    """Two patterns next to each other, strips of the same direction made into one row."""
    members: tuple[Tree, ...] = ()
    for tree in (near, far):
        members += tree.members if isinstance(tree, Split) and tree.line is line else (tree,)
    return Split(line=line, members=members)


def without(tree: Tree, surplus: list[int]) -> Tree | None:
    """The pattern without `surplus` copies of each kind (counted down as they go); None when nothing is left."""
    if isinstance(tree, Leaf):
        if surplus[tree.kind] > 0:
            surplus[tree.kind] -= 1
            return None
        return tree
    members = tuple(kept for member in tree.members if (kept := without(member, surplus)) is not None)
    if len(members) < 2:
        return members[0] if members else None
    joined = members[0]
    for member in members[1:]:
        joined = beside(tree.line, joined, member)
    return joined
