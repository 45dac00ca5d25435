"""Flat panels in space, seen from one side: what hides what, by parting space along the panels' own planes."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from foldproof.drawing.plane import XY
from foldproof.folding.space import cross, dot

XYZ = tuple[float, float, float]
THIN = 1e-7
"""Distances from a plane below this count as on it, in the unit of the points."""


def add(a: XYZ, b: XYZ, factor: float = 1.0) -> XYZ:
    """The first and a multiple of the second."""
    return (a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2])


def normal_of(points: Sequence[XYZ]) -> XYZ:
    """The unit vector square to a flat ring, toward the side from which it runs anticlockwise (Newell's sum)."""
    x = y = z = 0.0
    for p, q in zip(points, [*points[1:], points[0]], strict=True):
        x += (p[1] - q[1]) * (p[2] + q[2])
        y += (p[2] - q[2]) * (p[0] + q[0])
        z += (p[0] - q[0]) * (p[1] + q[1])
    size = math.sqrt(x * x + y * y + z * z)
    return (x / size, y / size, z / size)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A flat piece of paper in space, or a part of one."""

    name: str
    points: tuple[XYZ, ...]
    """A ring; anticlockwise as seen from its front."""
    rims: tuple[bool, ...]
    """For each side, from a point to the next, whether it is an edge of the paper, not a cut made for sorting."""
    normal: XYZ


Contacts = Mapping[tuple[str, str], XYZ]
"""For a pair (a, b) of sheets that lie flat on each other, the unit vector square to them that leads from b to a."""


def sheet(name: str, points: tuple[XYZ, ...], rims: tuple[bool, ...]) -> Sheet:
    """A sheet with its normal."""
    return Sheet(name, points, rims, normal_of(points))


def far_to_near(
    sheets: Sequence[Sheet], camera: "Camera", contacts: Contacts = MappingProxyType({}),
) -> Iterator[Sheet]:
    """The sheets, cut where they must be, so that none hides one that comes later.

    Space is parted by the plane of the sheet that cuts fewest others, again and again. Of sheets in one plane only
    what is not covered is given: who covers whom is what the contacts say, pair by pair, so it may run in a ring.
    """
    if not sheets:
        return
    cuts = [sum(_crosses(first, one) for one in sheets) for first in sheets]
    best = cuts.index(min(cuts))
    first, rest = sheets[best], [*sheets[:best], *sheets[best + 1:]]
    level = dot(first.normal, first.points[0])
    front: list[Sheet] = []
    back: list[Sheet] = []
    flush: list[Sheet] = [first]
    for one in rest:
        heights = [dot(first.normal, p) - level for p in one.points]
        if all(abs(h) <= THIN for h in heights):
            flush.append(one)
        elif all(h >= -THIN for h in heights):
            front.append(one)
        elif all(h <= THIN for h in heights):
            back.append(one)
        else:
            front.append(_part(one, heights))
            back.append(_part(one, [-h for h in heights]))
    facing = camera.sees(first.normal, level)
    yield from far_to_near(back if facing else front, camera, contacts)
    yield from _uncovered(flush, first.normal if facing else add((0.0, 0.0, 0.0), first.normal, -1.0), contacts)
    yield from far_to_near(front if facing else back, camera, contacts)


def _uncovered(flush: Sequence[Sheet], out: XYZ, contacts: Contacts) -> Iterator[Sheet]:
    """What is seen of sheets in one plane, from the side to which `out` leads."""
    for one in flush:
        left = [one]
        for other in flush:
            way = contacts.get((other.name, one.name))
            if way is None:
                back = contacts.get((one.name, other.name))
                way = None if back is None else add((0.0, 0.0, 0.0), back, -1.0)
            if way is not None and dot(way, out) > 0:
                left = [part for piece in left for part in beside(piece, other)]
        yield from left


def beside(one: Sheet, other: Sheet, edged: bool = False) -> list[Sheet]:
    """The parts of a convex sheet outside a convex one in its plane; where `edged`, its rims become their rims."""
    left: list[Sheet] = []
    inner = one
    count = len(other.points)
    for i in range(count):
        p, q = other.points[i], other.points[(i + 1) % count]
        out = cross(add(q, p, -1.0), other.normal)
        size = math.sqrt(dot(out, out))
        if size <= THIN:
            continue
        heights = [dot(out, add(r, p, -1.0)) / size for r in inner.points]
        if all(h >= -THIN for h in heights):
            return [one]
        if any(h > THIN for h in heights):
            left.append(_part(inner, heights, edged and other.rims[i]))
            inner = _part(inner, [-h for h in heights])
    return left


def _crosses(first: Sheet, one: Sheet) -> bool:
    """Whether the plane of the first runs through the other."""
    level = dot(first.normal, first.points[0])
    heights = [dot(first.normal, p) - level for p in one.points]
    return min(heights) < -THIN and max(heights) > THIN


def _part(one: Sheet, heights: Sequence[float], rim: bool = False) -> Sheet:
    """The part of a convex sheet on the positive side of a plane; `rim` tells whether the cut is an edge of paper."""
    points: list[XYZ] = []
    rims: list[bool] = []
    count = len(one.points)
    for i in range(count):
        j = (i + 1) % count
        p, q, hp, hq = one.points[i], one.points[j], heights[i], heights[j]
        if hp >= 0:
            points.append(p)
            rims.append(one.rims[i] if hq >= 0 or hp > 0 else rim)
        if (hp > 0 > hq) or (hp < 0 < hq):
            share = hp / (hp - hq)
            points.append(add(p, add(q, p, -1.0), share))
            # leaving the kept side starts the cut; coming back goes on along the old side
            rims.append(one.rims[i] if hp < 0 else rim)
    return replace(one, points=tuple(points), rims=tuple(rims))


@dataclass(frozen=True, slots=True)
class Camera:
    """Where the viewer is: near parts are drawn larger than far ones, as the eye sees them."""

    azimuth: float
    """Degrees to the right of straight in front."""
    height: float
    """Degrees above the table."""
    target: XYZ = (0.0, 0.0, 0.0)
    """What the viewer looks at; drawn at its true scale, at the origin of the drawing."""
    away: float | None = None
    """From the eye to the target; None for an eye so far away that parallel edges stay parallel."""

    def sees(self, normal: XYZ, level: float) -> bool:
        """Whether the eye is on the side of a plane to which its normal points."""
        eye = self.toward if self.away is None else add(self.target, self.toward, self.away)
        return dot(normal, eye) - (0.0 if self.away is None else level) >= 0

    @property
    def toward(self) -> XYZ:
        """From the work to the viewer."""
        a, e = math.radians(self.azimuth), math.radians(self.height)
        return (math.sin(a) * math.cos(e), -math.cos(a) * math.cos(e), math.sin(e))

    def at(self, p: XYZ, scale: float) -> XY:
        """Where a point is drawn, in millimetres."""
        a, e = math.radians(self.azimuth), math.radians(self.height)
        right: XYZ = (math.cos(a), math.sin(a), 0.0)
        up: XYZ = (-math.sin(a) * math.sin(e), math.cos(a) * math.sin(e), math.cos(e))
        q = add(p, self.target, -1.0)
        if self.away is not None:
            scale *= self.away / (self.away - dot(self.toward, q))
        return (dot(right, q) * scale, dot(up, q) * scale)
