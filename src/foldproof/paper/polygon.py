"""Simple polygons: their area, what lies in them, and how they lie to each other. All exact."""

import itertools
from collections.abc import Iterable, Sequence
from enum import StrEnum
from fractions import Fraction
from math import lcm

from foldproof.frozen import dataclass
from foldproof.paper.vector import Point, Ring, Segment, Vector

_HALF = Fraction(1, 2)


class Where(StrEnum):
    """How a point lies to an area."""

    IN = "in"
    ON = "on"
    OUT = "out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An upright rectangle, in the frame of what it bounds."""

    left: Fraction
    bottom: Fraction
    right: Fraction
    top: Fraction

    @property
    def width(self) -> Fraction:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> Fraction:
        """From bottom to top."""
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        """The middle."""
        return Point((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    def meets(self, other: "Box") -> bool:
        """Whether the two share at least a point."""
        return (self.left <= other.right and other.left <= self.right
                and self.bottom <= other.top and other.bottom <= self.top)

    def holds(self, p: Point) -> bool:
        """Whether the point lies in the rectangle or on its border."""
        return self.left <= p.x <= self.right and self.bottom <= p.y <= self.top


def bounding_box(points: Iterable[Point]) -> Box:
    """The least upright rectangle round at least one point."""
    points = tuple(points)
    left, right = _least_and_most([p.x for p in points])
    bottom, top = _least_and_most([p.y for p in points])
    return Box(left=left, bottom=bottom, right=right, top=top)


def _least_and_most(numbers: Sequence[Fraction]) -> tuple[Fraction, Fraction]:
    """The least and the greatest of at least one number, compared as whole numbers over one denominator: quick."""
    ratios = [number.as_integer_ratio() for number in numbers]
    whole = lcm(*(below for _, below in ratios))
    scaled = [above * (whole // below) for above, below in ratios]
    return numbers[scaled.index(min(scaled))], numbers[scaled.index(max(scaled))]


def edges(ring: Ring) -> tuple[Segment, ...]:
    """The sides, each from a corner to the next, starting at the first corner."""
    return tuple(Segment(a, b) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))


def area(ring: Ring) -> Fraction:
    """The area, positive when the ring runs anticlockwise (the trapezium formula, in whole numbers on one grid)."""
    grid, (whole,) = _on_grid((ring,))
    total = sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(whole, (*whole[1:], *whole[:1]), strict=True))
    return Fraction(total, 2 * grid * grid)


def anticlockwise(ring: Ring) -> Ring:
    """The same outline, running anticlockwise from the same first corner."""
    return ring if area(ring) >= 0 else (ring[0], *ring[:0:-1])


def turn(a: Point, b: Point, c: Point) -> Fraction:
    """Positive when the way a, b, c bends to the left, zero when it is straight."""
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)


def bend(a: Point, b: Point, c: Point) -> int:
    """A whole number with the sign of `turn`: in whole numbers alone, and so four times as quick."""
    (ax, axd), (ay, ayd) = a.x.as_integer_ratio(), a.y.as_integer_ratio()
    (bx, bxd), (by, byd) = b.x.as_integer_ratio(), b.y.as_integer_ratio()
    (cx, cxd), (cy, cyd) = c.x.as_integer_ratio(), c.y.as_integer_ratio()
    left = (bx * axd - ax * bxd) * (cy * ayd - ay * cyd)  # over bxd axd cyd ayd
    right = (by * ayd - ay * byd) * (cx * axd - ax * cxd)  # over byd ayd cxd axd
    return left * byd * cxd - right * bxd * cyd


def without_straight_corners(ring: Ring) -> Ring:
    """The same outline without repeated corners and corners at which it runs straight on or straight back."""
    corners = list(ring)
    again = True
    while again and len(corners) > 2:
        again = False
        for index in range(len(corners) - 1, -1, -1):
            if bend(corners[index - 1], corners[index], corners[(index + 1) % len(corners)]) == 0:
                del corners[index]
                again = True
                if len(corners) < 3:
                    break
    return tuple(corners)


def is_convex(ring: Ring) -> bool:
    """Whether an anticlockwise ring never bends to the right."""
    count = len(ring)
    return all(bend(ring[i - 2], ring[i - 1], ring[i]) >= 0 for i in range(count))


def on_segment(p: Point, s: Segment) -> bool:
    """Whether the point lies on the segment, its ends included."""
    return (bend(s.start, s.end, p) == 0
            and min(s.start.x, s.end.x) <= p.x <= max(s.start.x, s.end.x)
            and min(s.start.y, s.end.y) <= p.y <= max(s.start.y, s.end.y))


def square_distance(p: Point, s: Segment) -> Fraction:
    """The square of the distance from a point to the nearest point of a segment."""
    along, to = s.along, p - s.start
    share = min(max(to.dot(along) / along.square, Fraction(0)), Fraction(1))
    return (to - along * share).square


def square_distance_to_line(p: Point, s: Segment) -> Fraction:
    """The square of the distance from a point to the endless line through a segment."""
    cross = s.along.cross(p - s.start)
    return cross * cross / s.along.square


def crossing(ring: Ring) -> Point | None:
    """A place where an outline crosses or touches itself; None when it is simple."""
    sides = edges(ring)
    if any(side.start == side.end for side in sides):
        return next(side.start for side in sides if side.start == side.end)
    count = len(sides)
    for i, first in enumerate(sides):
        for j in range(i + 1, count):
            shared = meeting(first, sides[j])
            if shared is None:
                continue
            neighbours = j == i + 1 or (i == 0 and j == count - 1)
            if not neighbours or count == 2:
                return shared.start
            joint = sides[j].start if j == i + 1 else first.start
            if shared.start != joint or shared.end != joint:
                return shared.end if shared.start == joint else shared.start
    return None


def is_simple(ring: Ring) -> bool:
    """Whether an outline has at least three corners, some area, and never touches itself."""
    return len(ring) >= 3 and area(ring) != 0 and crossing(ring) is None


def meeting(a: Segment, b: Segment) -> Segment | None:
    """What two segments share: None, a point (start and end the same), or a stretch that runs as `a` does."""
    one, two = bend(a.start, a.end, b.start), bend(a.start, a.end, b.end)
    if (one > 0 and two > 0) or (one < 0 and two < 0):  # most pairs: all of `b` on one side of the line of `a`
        return None
    d, e, off = a.along, b.along, b.start - a.start
    cross = d.cross(e)
    if cross:
        t, u = off.cross(e) / cross, off.cross(d) / cross
        if 0 <= t <= 1 and 0 <= u <= 1:
            p = a.start + d * t
            return Segment(p, p)
        return None
    if d.cross(off):
        return None
    size = d.square
    t0, t1 = sorted((off.dot(d) / size, (b.end - a.start).dot(d) / size))
    t0, t1 = max(t0, Fraction(0)), min(t1, Fraction(1))
    return Segment(a.start + d * t0, a.start + d * t1) if t0 <= t1 else None


def locate(p: Point, ring: Ring, holes: Sequence[Ring] = ()) -> Where:
    """Whether a point lies in an area, on its border or outside; in a hole is outside."""
    inside = False
    level, part = p.y.as_integer_ratio()
    a, below = ring[-1], _over(ring[-1], level, part)
    for b in ring:
        over = _over(b, level, part)
        if (below > 0) != (over > 0):
            side = bend(a, b, p)
            if side == 0:
                return Where.ON
            if (side > 0) == (over > below):
                inside = not inside
        elif (below == 0 == over and min(a.x, b.x) <= p.x <= max(a.x, b.x)) or (over == 0 and b.x == p.x):
            return Where.ON
        a, below = b, over
    if not inside:
        return Where.OUT
    for hole in holes:
        where = locate(p, hole)
        if where is not Where.OUT:
            return Where.ON if where is Where.ON else Where.OUT
    return Where.IN


def _over(p: Point, level: int, part: int) -> int:
    """A whole number with the sign of the height of a point over the level line at `level / part`."""
    y, y_part = p.y.as_integer_ratio()
    return y * part - level * y_part


def interior_point(ring: Ring, holes: Sequence[Ring] = ()) -> Point:
    """A point well inside: the middle of the widest stretch half way up one of the level bands between corners."""
    grid, rings = _on_grid((ring, *holes))
    levels = sorted({y for one in rings for _, y in one})
    best: tuple[Fraction | int, Fraction | int, int] | None = None
    for low, high in itertools.pairwise(levels):
        twice = low + high
        cuts = sorted(
            ax if ax == bx else ax + Fraction((bx - ax) * (twice - 2 * ay), 2 * (by - ay))
            for one in rings for (ax, ay), (bx, by) in zip(one, (*one[1:], one[0]), strict=True)
            if (2 * ay > twice) != (2 * by > twice)
        )
        for left, right in zip(cuts[::2], cuts[1::2], strict=True):
            size = min(right - left, high - low)
            if size > 0 and (best is None or size > best[0]):
                best = (size, left + right, twice)
    if best is None:
        raise ValueError("a polygon without area has no inside")
    return Point(Fraction(best[1], 2 * grid), Fraction(best[2], 2 * grid))


def _on_grid(rings: Sequence[Ring]) -> tuple[int, list[list[tuple[int, int]]]]:
    """The parts into which a grid divides the unit so that all corners lie on it, and the corners counted on it."""
    ratios = [[(p.x.as_integer_ratio(), p.y.as_integer_ratio()) for p in ring] for ring in rings]
    grid = lcm(*(below for ring in ratios for point in ring for _, below in point))
    return grid, [[(x * (grid // xd), y * (grid // yd)) for (x, xd), (y, yd) in ring] for ring in ratios]


def stretches(s: Segment, ring: Ring, holes: Sequence[Ring] = ()) -> tuple[tuple[Segment, Where], ...]:
    """The segment cut wherever it meets a border, in order, each part with how it lies to the area."""
    d = s.along
    size = d.square
    stops = {Fraction(0), Fraction(1)}
    for one in (ring, *holes):
        for side in edges(one):
            shared = meeting(s, side)
            if shared is not None:
                stops |= {(shared.start - s.start).dot(d) / size, (shared.end - s.start).dot(d) / size}
    marks = sorted(stops)
    return tuple(
        (Segment(s.start + d * low, s.start + d * high), locate(s.start + d * ((low + high) / 2), ring, holes))
        for low, high in itertools.pairwise(marks)
    )


def clip(s: Segment, ring: Ring, holes: Sequence[Ring] = ()) -> tuple[Segment, ...]:
    """The stretches of a segment that lie in an area or along its border, in order, joined where they touch."""
    kept: list[Segment] = []
    for part, where in stretches(s, ring, holes):
        if where is not Where.OUT:
            if kept and kept[-1].end == part.start:
                kept[-1] = Segment(kept[-1].start, part.end)
            else:
                kept.append(part)
    return tuple(kept)


def touch(a: Ring, b: Ring) -> bool:
    """Whether two areas share at least a point."""
    if not bounding_box(a).meets(bounding_box(b)):
        return False
    if any(meeting(x, y) is not None for x in edges(a) for y in edges(b)):
        return True
    return locate(a[0], b) is not Where.OUT or locate(b[0], a) is not Where.OUT


def overlap(a: Ring, b: Ring) -> bool:
    """Whether two areas share more than a border."""
    box, other = bounding_box(a), bounding_box(b)
    if not (box.left < other.right and other.left < box.right and box.bottom < other.top and other.bottom < box.top):
        return False
    if is_convex(a) and is_convex(b):
        return not any(  # where two convex areas lie apart, a side of one of them parts them
            all(bend(side.start, side.end, p) <= 0 for p in other)
            for one, other in ((a, b), (b, a)) for side in edges(one)
        )
    # where no border enters the other area, an area lies wholly inside the other or wholly outside
    return (
        locate(interior_point(a), b) is Where.IN or locate(interior_point(b), a) is Where.IN
        or any(where is Where.IN for side in edges(a) for _, where in stretches(side, b))
    )


def clip_convex(a: Ring, b: Ring) -> Ring:
    """The common part of two convex anticlockwise areas; fewer than three corners when it has no area."""
    part = list(a)
    for side in edges(b):
        kept: list[Point] = []
        for here, after in zip(part, (*part[1:], *part[:1]), strict=True):
            now, then = bend(side.start, side.end, here), bend(side.start, side.end, after)
            if now >= 0:
                kept.append(here)
            if (now > 0 > then) or (now < 0 < then):
                far, near = turn(side.start, side.end, here), turn(side.start, side.end, after)
                kept.append(here + (after - here) * (far / (far - near)))
        part = kept
    ring = without_straight_corners(tuple(part)) if len(part) >= 3 else ()
    return ring if len(ring) >= 3 and area(ring) > 0 else ()


def centre_of(ring: Ring) -> Point:
    """The middle of the bounding rectangle."""
    return bounding_box(ring).centre


def outward(side: Segment) -> Vector:
    """The direction out of the area across a side of an anticlockwise ring; as long as the side."""
    return -side.along.left
