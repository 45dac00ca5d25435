"""Exact: do all these parts fit one sheet? Tried from the whole sheet downward.

A rectangle is divided by a straight cut, and the parts are shared out between its two sides, so that neither side gets
more than its area. What the parts leave of the sheet is all that may ever be wasted: where little is left, few ways
of sharing out remain, and they can all be tried. Of strips side by side the narrowest is cut off first, which is no
loss, because the order of strips is free; so its width is at most half, and it is not divided again the same way.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from time import monotonic

from foldproof.classroom.sheets import Line
from foldproof.classroom.task import Leaf, Task, Tree, beside

Counts = tuple[int, ...]


class TooLong(Exception):
    """The clock ran out; nothing is proved."""


def one_sheet(task: Task, until: float) -> Tree | None:
    """A pattern of one sheet with all parts; None proves that there is none. Raises TooLong after `until`."""
    return _Divider(task=task, until=until).fit(task.demand, task.width, task.height, None)


@dataclass(kw_only=True)
class _Divider:
    task: Task
    until: float
    never: set[tuple[Counts, int, int, Line | None]] = field(default_factory=set)
    """What was tried in vain: parts, width, height, the direction in which it may not be divided."""
    steps: int = 0

    def __post_init__(self) -> None:
        self.areas = [kind.width * kind.height for kind in self.task.kinds]
        self.ways = [tuple(kind.ways()) for kind in self.task.kinds]

    def fit(self, counts: Counts, width: int, height: int, barred: Line | None) -> Tree | None:
        """A pattern of these parts in so much room, its first cut not in the direction barred."""
        if sum(counts) == 1:
            return self._single(counts.index(1), width, height)
        key = (counts, width, height, barred)
        if key in self.never or (barred is not None and (counts, width, height, None) in self.never):
            return None
        self.steps += 1
        if self.steps % 500 == 0 and monotonic() > self.until:
            raise TooLong
        if self._possible(counts, width, height):
            for line in (Line.UPRIGHT, Line.LEVEL):
                if line is not barred and (tree := self._divided(counts, width, height, line)) is not None:
                    return tree
        self.never.add(key)
        return None

    def _single(self, kind: int, width: int, height: int) -> Tree | None:
        for w, h, turned in self.ways[kind]:
            if w <= width and h <= height and self._trims(w, h, width, height):
                return Leaf(kind=kind, turned=turned)
        return None

    def _trims(self, w: int, h: int, width: int, height: int) -> bool:
        """Whether the trimmer reaches far enough to cut what is spare off one part."""
        longest = self.task.longest
        if longest is None:
            return True
        upright_first = (w == width or height <= longest) and (h == height or w <= longest)
        level_first = (h == height or width <= longest) and (w == width or h <= longest)
        return upright_first or level_first

    def _possible(self, counts: Counts, width: int, height: int) -> bool:
        """Whether areas, single parts, and parts that can only lie side by side leave it open."""
        across, along = 1, 1
        area = beside_width = above_height = 0
        for kind, count in enumerate(counts):
            if not count:
                continue
            area += self.areas[kind] * count
            ways = [(w, h) for w, h, _ in self.ways[kind] if w <= width and h <= height]
            if not ways:
                return False
            if all(2 * h > height for _, h in ways):
                beside_width += count * min(w for w, _ in ways)
            if all(2 * w > width for w, _ in ways):
                above_height += count * min(h for _, h in ways)
            for _ in range(count):
                across = across | _shifted(across, [w for w, _ in ways])
                along = along | _shifted(along, [h for _, h in ways])
        if beside_width > width or above_height > height:
            return False
        tight_width = (across & ((1 << (width + 1)) - 1)).bit_length() - 1
        tight_height = (along & ((1 << (height + 1)) - 1)).bit_length() - 1
        return area <= tight_width * tight_height

    def _divided(self, counts: Counts, width: int, height: int, line: Line) -> Tree | None:
        across, along = (width, height) if line is Line.UPRIGHT else (height, width)
        longest = self.task.longest
        if longest is not None and along > longest:
            if across > longest:
                return None
            along = longest  # what reaches beyond is cut off first, the other way
            width, height = (across, along) if line is Line.UPRIGHT else (along, across)
        total = sum(a * c for a, c in zip(self.areas, counts, strict=True))
        waste = width * height - total
        for near in self._widths(counts, across, along, line):
            low = near * along - waste
            for share in self._shares(counts, near, across - near, along, line, low):
                rest = tuple(c - s for c, s in zip(counts, share, strict=True))
                one_size = (near, height) if line is Line.UPRIGHT else (width, near)
                other_size = (across - near, height) if line is Line.UPRIGHT else (width, across - near)
                one = self.fit(share, *one_size, line)
                if one is not None and (other := self.fit(rest, *other_size, None)) is not None:
                    return beside(line, one, other)
        return None

    def _sizes(self, kind: int, line: Line) -> list[tuple[int, int]]:
        """Across and along the strips, each way that a part may lie."""
        return [(w, h) if line is Line.UPRIGHT else (h, w) for w, h, _ in self.ways[kind]]

    def _widths(self, counts: Counts, across: int, along: int, line: Line) -> list[int]:
        """Widths of a strip that parts fill exactly, up to half of the room.

        A strip that is not divided again the same way is as wide as its widest part or group; each group is itself
        a row of parts, so every sum of widths may come.
        """
        bits = 1
        for kind, count in enumerate(counts):
            sizes = [a for a, b in self._sizes(kind, line) if a <= across // 2 and b <= along]
            for _ in range(count if sizes else 0):
                bits |= _shifted(bits, sizes)
        return [n for n in range(1, across // 2 + 1) if bits >> n & 1]

    def _shares(
        self, counts: Counts, near: int, far: int, along: int, line: Line, low: int
    ) -> Iterator[Counts]:
        """Ways to share out the parts so that both sides have room: what the near side gets."""
        bounds: list[tuple[int, int]] = []
        for kind, count in enumerate(counts):
            sizes = self._sizes(kind, line)
            here = any(a <= near and b <= along for a, b in sizes)
            there = any(a <= far and b <= along for a, b in sizes)
            if count and not here and not there:
                return
            bounds.append((0 if there else count, count if here else 0))
        most = [0]
        least = [0]
        for kind in reversed(range(len(counts))):
            most.append(most[-1] + bounds[kind][1] * self.areas[kind])
            least.append(least[-1] + bounds[kind][0] * self.areas[kind])
        most.reverse()
        least.reverse()
        high = near * along
        share = [0] * len(counts)

        def walk(kind: int, area: int) -> Iterator[Counts]:
            if area + least[kind] > high or area + most[kind] < low:
                return
            if kind == len(counts):
                if area:
                    yield tuple(share)
                return
            for number in range(bounds[kind][0], bounds[kind][1] + 1):
                share[kind] = number
                yield from walk(kind + 1, area + number * self.areas[kind])

        for found in walk(0, 0):
            if found != counts:
                yield found


def _shifted(bits: int, lengths: list[int]) -> int:
    found = 0
    for length in lengths:
        found |= bits << length
    return found
