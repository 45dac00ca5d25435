"""From edges that meet only in their corners to the faces between them."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import cmp_to_key
from math import lcm

from foldproof.frozen import dataclass
from foldproof.paper.polygon import Where, area, bounding_box, interior_point, locate, without_straight_corners
from foldproof.paper.vector import Point, Ring

Pair = tuple[Point, Point]
Direction = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A face of the plane: the area inside a ring and outside its holes."""

    ring: Ring
    """Anticlockwise, without straight corners."""
    holes: tuple[Ring, ...] = ()
    """Clockwise."""
    inside: Point
    """A point well inside."""

    @property
    def size(self) -> Fraction:
        """The area without the holes."""
        return area(self.ring) + sum((area(hole) for hole in self.holes), Fraction(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Traced:
    """What the edges enclose."""

    faces: tuple[Area, ...]
    sides: tuple[tuple[int | None, int | None], ...]
    """For each edge, from its first point to its second: the face on its left and on its right; None outside."""
    parts: int
    """Separate bodies of connected edges."""


def trace(pairs: Sequence[Pair]) -> Traced:
    """The faces between edges, which may not cross, overlap or repeat.

    Half-edge 2e runs along edge e, 2e + 1 against it. A face lies on the left of the half-edges that go round it.
    A dangling edge, with the same face on both sides, takes no part in the faces' outlines.
    """
    numbers: dict[Point, int] = {}  # corners are compared again and again: by number, not by their fractions
    ends = [(numbers.setdefault(a, len(numbers)), numbers.setdefault(b, len(numbers))) for a, b in pairs]
    ways = [_direction(a, b) for a, b in pairs]
    around = _walks(ends, ways, range(len(pairs)))
    solid = [e for e in range(len(pairs)) if around[2 * e][0] != around[2 * e + 1][0]]
    walks: dict[int, list[tuple[int, int]]] = {}
    for half, (walk, place) in _walks(ends, ways, solid).items():
        walks.setdefault(walk, []).append((place, half))
    rings: list[tuple[Ring, list[Ring]]] = []
    outer: list[tuple[list[int], list[Ring]]] = []
    face_of: dict[int, int | None] = {}
    for steps in walks.values():
        halves = [half for _, half in sorted(steps)]
        shells: list[Ring] = []
        holes: list[Ring] = []
        for simple in _simple_rings([pairs[half >> 1][half & 1] for half in halves]):
            ring = without_straight_corners(tuple(simple))
            (shells if area(ring) > 0 else holes).append(ring)
        if shells:
            for half in halves:
                face_of[half] = len(rings)
            rings.append((shells[0], holes))
        else:
            outer.append((halves, holes))
    shells_only = [(ring, bounding_box(ring), area(ring)) for ring, _ in rings]

    def innermost(p: Point) -> int | None:
        fits = [
            (size, index) for index, (ring, box, size) in enumerate(shells_only)
            if box.holds(p) and locate(p, ring) is Where.IN
        ]
        return min(fits)[1] if fits else None

    for halves, holes in outer:
        host = innermost(holes[0][0])
        for half in halves:
            face_of[half] = host
        if host is not None:
            rings[host][1].extend(holes)
    sides: list[tuple[int | None, int | None]] = []
    kept = set(solid)
    for e, (a, b) in enumerate(pairs):
        if e in kept:
            sides.append((face_of[2 * e], face_of[2 * e + 1]))
        else:
            middle = innermost(Point((a.x + b.x) / 2, (a.y + b.y) / 2))
            sides.append((middle, middle))
    faces = tuple(
        Area(ring=_from_corner(ring), holes=tuple(_from_corner(hole) for hole in holes),
             inside=interior_point(ring, holes))
        for ring, holes in rings
    )
    return Traced(faces=faces, sides=tuple(sides), parts=_parts(ends, len(numbers)))


def _walks(
    ends: Sequence[tuple[int, int]], ways: Sequence[Direction], kept: Iterable[int],
) -> dict[int, tuple[int, int]]:
    """For each half-edge of the kept edges, which walk round a face it belongs to and its place in the walk."""
    leaving: dict[int, list[tuple[Direction, int]]] = {}
    for e in kept:
        (a, b), (x, y) = ends[e], ways[e]
        leaving.setdefault(a, []).append(((x, y), 2 * e))
        leaving.setdefault(b, []).append(((-x, -y), 2 * e + 1))
    follow: dict[int, int] = {}
    for fan in leaving.values():
        fan.sort(key=cmp_to_key(_turning))
        for place, (_, half) in enumerate(fan):
            follow[half ^ 1] = fan[place - 1][1]
    found: dict[int, tuple[int, int]] = {}
    walk = 0
    for start in follow:
        if start in found:
            continue
        half, place = start, 0
        while half not in found:
            found[half] = (walk, place)
            half, place = follow[half], place + 1
        walk += 1
    return found


def _direction(a: Point, b: Point) -> Direction:
    """From a to b, in whole numbers; only the direction counts."""
    ratios = [v.as_integer_ratio() for v in (a.x, a.y, b.x, b.y)]
    scale = lcm(*(below for _, below in ratios))
    ax, ay, bx, by = (above * (scale // below) for above, below in ratios)
    return bx - ax, by - ay


def _turning(one: tuple[Direction, int], two: tuple[Direction, int]) -> int:
    """Order directions anticlockwise: those that point down or left first, those that point right or up last."""
    (ax, ay), (bx, by) = one[0], two[0]
    upper_a, upper_b = (ay, ax) > (0, 0), (by, bx) > (0, 0)
    if upper_a != upper_b:
        return 1 if upper_a else -1
    cross = ax * by - ay * bx
    return -1 if cross > 0 else (1 if cross < 0 else 0)


def _simple_rings(walk: Sequence[Point]) -> list[list[Point]]:
    """A walk round a face, parted wherever it comes through the same corner again."""
    done: list[list[Point]] = []
    path: list[Point] = []
    places: dict[Point, int] = {}
    for corner in walk:
        if corner in places:
            loop = path[places[corner]:]
            done.append(loop)
            for p in loop[1:]:
                del places[p]
            del path[places[corner] + 1:]
        else:
            places[corner] = len(path)
            path.append(corner)
    done.append(path)
    return done


def _from_corner(ring: Ring) -> Ring:
    """The same ring from its lowest corner, the leftmost of those."""
    first = min(range(len(ring)), key=lambda i: (ring[i].y, ring[i].x))
    return ring[first:] + ring[:first]


def _parts(ends: Sequence[tuple[int, int]], corners: int) -> int:
    """How many separate bodies the edges make."""
    leader = list(range(corners))

    def find(p: int) -> int:
        while leader[p] != p:
            leader[p] = leader[leader[p]]
            p = leader[p]
        return p

    for a, b in ends:
        leader[find(a)] = find(b)
    return sum(leader[p] == p for p in range(corners))
