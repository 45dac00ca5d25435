"""Whether two panels pass through each other: crossing at a moment, or changing sides between two moments."""

from collections.abc import Sequence
from dataclasses import field

from foldproof.folding.card import Panel
from foldproof.folding.space import Motion, Vec, cross, dot, length, lifted, minus, plus, times
from foldproof.frozen import dataclass
from foldproof.paper.convex import convex_parts
from foldproof.paper.polygon import area
from foldproof.paper.vector import Point

Flat = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Shape:
    """A panel ready to be tested, in floats, in its own piece's frame."""

    name: str
    parts: tuple[tuple[Vec, ...], ...]
    """Convex, anticlockwise."""
    spots: tuple[Vec, ...]
    """Points well inside its corners."""
    middle: Vec
    reach: float
    """From its middle to its farthest corner."""

    def far_from(self, other: "Shape", place: Motion, other_place: Motion) -> bool:
        """Whether the two are too far apart to touch."""
        return length(minus(place.point(self.middle), other_place.point(other.middle))) > self.reach + other.reach

    def holds(self, p: Flat) -> bool:
        """Whether a point of its plane lies on it."""
        return any(_inside(p, part) for part in self.parts)


def shape_of(panel: Panel) -> Shape:
    """A panel as a shape; windows are paper no more."""
    parts = tuple(tuple(lifted(p) for p in part) for part in convex_parts(panel.ring, panel.holes))
    spots = []
    for part in parts:
        middle = _middle(part)
        spots += [plus(times(p, 0.97), times(middle, 0.03)) for p in part]
    corners = [p for part in parts for p in part]
    middle = _middle(corners)
    return Shape(panel.name, parts, tuple(spots), middle, max(length(minus(p, middle)) for p in corners))


def _middle(ring: Sequence[Vec]) -> Vec:
    total = (0.0, 0.0, 0.0)
    for p in ring:
        total = plus(total, p)
    return times(total, 1 / len(ring))


def inner_spots(ring: Sequence[Point]) -> tuple[Vec, ...]:
    """The middle of an overlap and points near its corners."""
    corners = [lifted(p) for p in ring]
    middle = _middle(corners)
    return (middle, *(plus(times(p, 0.9), times(middle, 0.1)) for p in corners))


def _inside(p: Flat, part: Sequence[Vec]) -> bool:
    x, y = p
    bx, by, _ = part[-1]
    for ax, ay, _ in part:
        if (ax - bx) * (y - by) - (ay - by) * (x - bx) < 0:
            return False
        bx, by = ax, ay
    return True


def crossing_depth(a: Shape, b: Shape, place_a: Motion, place_b: Motion, least: float) -> float:
    """How deep two panels stand in each other: the least way by which one would come free; 0 up to `least`."""
    heights_a = _heights(a, place_a, place_b)
    if _one_sided(heights_a, least):
        return 0.0
    heights_b = _heights(b, place_b, place_a)
    if _one_sided(heights_b, least):
        return 0.0
    worst = 0.0
    along = cross(place_a.out, place_b.out)
    size = length(along)
    if size < 1e-9:
        return 0.0
    along = times(along, 1 / size)
    for part_a, over_b in zip(a.parts, heights_a, strict=True):
        for part_b, over_a in zip(b.parts, heights_b, strict=True):
            ring_a = [place_a.point(p) for p in part_a]
            ring_b = [place_b.point(p) for p in part_b]
            worst = max(worst, _depth(ring_a, over_b, ring_b, over_a, along, least))
    return worst


def _heights(one: Shape, place: Motion, other: Motion) -> list[list[float]]:
    """For each convex part, the heights of its corners over the other's plane."""
    level = dot(other.out, other.origin)
    return [[dot(other.out, place.point(p)) - level for p in part] for part in one.parts]


def _one_sided(heights: Sequence[Sequence[float]], least: float) -> bool:
    return all(h >= -least for part in heights for h in part) or all(h <= least for part in heights for h in part)


def _depth(
    ring_a: Sequence[Vec], over_b: Sequence[float], ring_b: Sequence[Vec], over_a: Sequence[float], along: Vec,
    least: float,
) -> float:
    reach_a, reach_b = _reach(ring_a, over_b, along), _reach(ring_b, over_a, along)
    if reach_a is None or reach_b is None:
        return 0.0
    low, high = max(reach_a[0], reach_b[0]), min(reach_a[1], reach_b[1])
    if high - low <= least:
        return 0.0
    sides = [high - low]
    for ring, heights in ((ring_a, over_b), (ring_b, over_a)):
        kept = _between(ring, heights, along, low, high)
        if not kept:
            return 0.0
        sides += [max(kept), -min(kept)]
    depth = min(sides)
    return depth if depth > least else 0.0


def _reach(ring: Sequence[Vec], heights: Sequence[float], along: Vec) -> tuple[float, float] | None:
    """From where to where, along the line of two planes, a convex part crosses the other's plane."""
    found = []
    for i, h in enumerate(heights):
        g = heights[i - 1]
        if (h > 0) != (g > 0):
            share = g / (g - h)
            p, q = ring[i - 1], ring[i]
            found.append(dot(along, plus(p, times(minus(q, p), share))))
    return (min(found), max(found)) if len(found) >= 2 else None


def _between(ring: Sequence[Vec], heights: Sequence[float], along: Vec, low: float, high: float) -> list[float]:
    """Heights at the corners of the part of a convex ring between two places along a line."""
    spots = [(dot(along, p), h) for p, h in zip(ring, heights, strict=True)]
    for level, sign in ((low, 1.0), (high, -1.0)):
        cut: list[tuple[float, float]] = []
        for i, (x, h) in enumerate(spots):
            y, g = spots[i - 1]
            here, before = (x - level) * sign, (y - level) * sign
            if (here >= 0) != (before >= 0):
                share = before / (before - here)
                cut.append((level, g + (h - g) * share))
            if here >= 0:
                cut.append((x, h))
        spots = cut
    return [h for _, h in spots]


@dataclass
class Watch:
    """On which side of one panel points of another lie, from moment to moment: the one thing here that changes."""

    face: Shape
    other: str
    spots: tuple[Vec, ...]
    """Points of the other panel, in its own piece's frame."""
    sides: list[int] = field(default_factory=list)
    """For each spot +1 on the front's side of the face, -1 on its back's, 0 where it is beside it or not known."""

    def begin(self, side: int) -> None:
        """All spots on the side on which the one lies on the other at the start; 0 where they lie apart."""
        self.sides = [side] * len(self.spots)

    def lose(self) -> None:
        """The two are far apart: no spot is over the face."""
        self.sides = [0] * len(self.spots)

    def look(self, face: Motion, other: Motion, least: float) -> float:
        """Move on to the next moment; how far a spot has come through, 0 where none has."""
        through = 0.0
        point, holds = other.point, self.face.holds
        (ox, oy, oz), (rx, ry, rz), (ux, uy, uz) = face.origin, face.right, face.up
        for i, spot in enumerate(self.spots):  # written out: more time goes here than anywhere else on the way
            x, y, z = point(spot)
            x, y, z = x - ox, y - oy, z - oz
            if not holds((x * rx + y * ry + z * rz, x * ux + y * uy + z * uz)):
                self.sides[i] = 0
                continue
            height = dot((x, y, z), face.out)
            if abs(height) <= least:
                continue
            side = 1 if height > 0 else -1
            if self.sides[i] == -side:
                through = max(through, abs(height))
            self.sides[i] = side
        return through

    def ends(self, side: int) -> bool:
        """Whether the spots that are over the face at the end lie on the side on which the order has them."""
        return all(now in (0, side) for now in self.sides)


def within(small: Panel, large: Panel, shared: Sequence[Point] | None) -> bool:
    """Whether a panel glued on another lies wholly on it, so that what misses the other misses it too."""
    return shared is not None and not large.holes and area(tuple(shared)) == area(small.ring)
