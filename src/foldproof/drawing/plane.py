"""Plane geometry in millimetres on paper: floats, x to the right, y up."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

XY = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Bottom to top."""
        return self.top - self.bottom

    @property
    def centre(self) -> XY:
        """The middle."""
        return ((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    @property
    def corners(self) -> tuple[XY, XY, XY, XY]:
        """Anticlockwise from the bottom left."""
        return ((self.left, self.bottom), (self.right, self.bottom), (self.right, self.top), (self.left, self.top))

    def grown(self, by: float) -> "Box":
        """Wider by `by` on every side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def moved(self, by: XY) -> "Box":
        """Shifted."""
        return Box(self.left + by[0], self.bottom + by[1], self.right + by[0], self.top + by[1])

    def meets(self, other: "Box") -> bool:
        """Whether the two share more than an edge."""
        return (self.left < other.right and other.left < self.right
                and self.bottom < other.top and other.bottom < self.top)

    def holds(self, other: "Box") -> bool:
        """Whether the other lies wholly inside."""
        return (self.left <= other.left and other.right <= self.right
                and self.bottom <= other.bottom and other.top <= self.top)

    def share(self, other: "Box") -> float:
        """The area that the two share."""
        across = min(self.right, other.right) - max(self.left, other.left)
        up = min(self.top, other.top) - max(self.bottom, other.bottom)
        return max(across, 0.0) * max(up, 0.0)


def box_round(points: Iterable[XY]) -> Box:
    """The smallest box that holds the points; there is at least one."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def joined(boxes: Iterable[Box]) -> Box:
    """The smallest box that holds the boxes; there is at least one."""
    every = tuple(boxes)
    return Box(
        min([box.left for box in every]), min([box.bottom for box in every]), max([box.right for box in every]),
        max([box.top for box in every]))


def plus(p: XY, q: XY) -> XY:
    """Their sum."""
    return (p[0] + q[0], p[1] + q[1])


def minus(p: XY, q: XY) -> XY:
    """From q to p."""
    return (p[0] - q[0], p[1] - q[1])


def times(p: XY, factor: float) -> XY:
    """Made longer."""
    return (p[0] * factor, p[1] * factor)


def length(v: XY) -> float:
    """Its length."""
    return math.hypot(v[0], v[1])


def unit(v: XY) -> XY:
    """The same direction, one millimetre long; nought stays nought."""
    size = length(v)
    return (v[0] / size, v[1] / size) if size else (0.0, 0.0)


def left_of(v: XY) -> XY:
    """Turned a quarter anticlockwise."""
    return (-v[1], v[0])


def between(p: XY, q: XY, share: float) -> XY:
    """The point a share of the way from p to q."""
    return (p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share)


def clip_to_box(p: XY, q: XY, box: Box) -> tuple[XY, XY] | None:
    """The part of a segment inside a box (Liang and Barsky's way), or None where it stays outside."""
    (px, py), (qx, qy) = p, q
    left, bottom, right, top = box.left, box.bottom, box.right, box.top
    if (px < left and qx < left) or (px > right and qx > right) \
            or (py < bottom and qy < bottom) or (py > top and qy > top):
        return None
    low, high = 0.0, 1.0
    dx, dy = qx - px, qy - py
    for step, room in ((-dx, px - left), (dx, right - px), (-dy, py - bottom), (dy, top - py)):
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            if room / step > low:
                low = room / step
        elif room / step < high:
            high = room / step
    return ((px + dx * low, py + dy * low), (px + dx * high, py + dy * high)) if low < high else None


def length_inside(p: XY, q: XY, box: Box) -> float:
    """How much of a segment runs inside a box."""
    found = clip_to_box(p, q, box)
    return math.hypot(found[1][0] - found[0][0], found[1][1] - found[0][1]) if found else 0.0


def area_of(ring: Sequence[XY]) -> float:
    """Signed: positive when anticlockwise."""
    return sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(ring, [*ring[1:], ring[0]], strict=True)) / 2


def middle_of(ring: Sequence[XY]) -> XY:
    """The centre of area; the mean of the corners where there is no area."""
    whole = area_of(ring)
    if abs(whole) < 1e-9:
        return (sum(p[0] for p in ring) / len(ring), sum(p[1] for p in ring) / len(ring))
    x = y = 0.0
    for p, q in zip(ring, [*ring[1:], ring[0]], strict=True):
        turn = p[0] * q[1] - q[0] * p[1]
        x += (p[0] + q[0]) * turn
        y += (p[1] + q[1]) * turn
    return (x / (6 * whole), y / (6 * whole))


def inside(p: XY, ring: Sequence[XY]) -> bool:
    """Whether a point lies inside a ring, by crossings of a ray to the right."""
    found = False
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        if (a[1] > p[1]) != (b[1] > p[1]) and p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]):
            found = not found
    return found


def box_inside(box: Box, ring: Sequence[XY]) -> bool:
    """Whether a box lies wholly inside a ring: its centre does and no edge runs through it."""
    return inside(box.centre, ring) and all(
        length_inside(a, b, box) == 0.0 for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)
    )


Disc = tuple[XY, float]
"""A circle: its centre and its radius."""


def round_side(p: XY, q: XY, discs: Sequence[Disc], steps: int = 6) -> tuple[XY, ...]:
    """The way from p to q without its end: along a circle where the side of a polygon stands for a part of one."""
    for centre, radius in discs:
        if all(abs(length(minus(spot, centre)) - radius) < 0.03 * radius for spot in (p, q, between(p, q, 0.5))):
            outs = [minus(between(p, q, i / steps), centre) for i in range(1, steps)]
            return (p, *(plus(centre, times(out, radius / length(out))) for out in outs))
    return (p,)


def round_out(ring: Sequence[XY], discs: Sequence[Disc]) -> tuple[XY, ...]:
    """A ring whose sides along circles follow them closely."""
    return tuple(spot for p, q in zip(ring, [*ring[1:], ring[0]], strict=True) for spot in round_side(p, q, discs))


def stripes(rings: Sequence[Sequence[XY]], spacing: float, slope: XY = (1.0, 1.0)) -> tuple[tuple[XY, XY], ...]:
    """Parallel strokes, `spacing` apart, that fill the rings by the even-odd rule, in the direction `slope`.

    The lattice goes through the origin, so that neighbours match.
    """
    along = unit(slope)
    across = left_of(along)
    edges = [(a, b) for ring in rings for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)]
    heights = [(a[0] * across[0] + a[1] * across[1], b[0] * across[0] + b[1] * across[1]) for a, b in edges]
    if not heights:
        return ()
    low, high = min(min(pair) for pair in heights), max(max(pair) for pair in heights)
    strokes: list[tuple[XY, XY]] = []
    for row in range(math.ceil(low / spacing), math.floor(high / spacing) + 1):
        level = row * spacing + 1e-7
        cuts = sorted(
            between(a, b, (level - ha) / (hb - ha)) for (a, b), (ha, hb) in zip(edges, heights, strict=True)
            if (ha > level) != (hb > level)
        )
        cuts.sort(key=lambda p: p[0] * along[0] + p[1] * along[1])
        strokes += [(p, q) for p, q in zip(cuts[::2], cuts[1::2], strict=False) if length(minus(q, p)) > 0.2]
    return tuple(strokes)


def _stops(p: XY, q: XY, ring: Sequence[XY]) -> list[float]:
    """Shares of the way from p to q at which it meets the edges of a ring, or runs into or out of their line."""
    d = minus(q, p)
    size = d[0] * d[0] + d[1] * d[1]
    found: list[float] = []
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        e, off = minus(b, a), minus(a, p)
        cross = d[0] * e[1] - d[1] * e[0]
        if abs(cross) > 1e-12:
            t = (off[0] * e[1] - off[1] * e[0]) / cross
            u = (off[0] * d[1] - off[1] * d[0]) / cross
            if -1e-9 <= u <= 1 + 1e-9 and 0 < t < 1:
                found.append(t)
        elif abs(off[0] * d[1] - off[1] * d[0]) < 1e-9 * max(size, 1):
            found += [t for t in (
                (off[0] * d[0] + off[1] * d[1]) / size, (minus(b, p)[0] * d[0] + minus(b, p)[1] * d[1]) / size,
            ) if 0 < t < 1]
    return found


def on_edge(p: XY, ring: Sequence[XY], within: float = 1e-6) -> bool:
    """Whether a point lies on the outline of a ring."""
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        d = minus(b, a)
        size = d[0] * d[0] + d[1] * d[1]
        t = min(max(((p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1]) / size, 0.0), 1.0) if size else 0.0
        if length(minus(p, between(a, b, t))) <= within:
            return True
    return False


def split_by_rings(p: XY, q: XY, rings: Sequence[Sequence[XY]]) -> tuple[tuple[XY, XY, bool], ...]:
    """A segment cut where it meets the rings, each part with whether it lies strictly inside one of them."""
    if p == q:
        return ()
    marks = sorted({0.0, 1.0, *(t for ring in rings for t in _stops(p, q, ring))})
    whole: list[tuple[float, float, bool]] = []
    for low, high in pairwise(marks):
        if high - low < 1e-9:
            continue
        middle = between(p, q, (low + high) / 2)
        covered = any(inside(middle, ring) and not on_edge(middle, ring) for ring in rings)
        if whole and whole[-1][2] is covered:
            whole[-1] = (whole[-1][0], high, covered)
        else:
            whole.append((low, high, covered))
    return tuple((between(p, q, low), between(p, q, high), covered) for low, high, covered in whole)
