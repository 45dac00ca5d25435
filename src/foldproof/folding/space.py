"""Panels in space, in floats: rotations about hinges."""

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from copy import copy
from math import cos, radians, sin, sqrt

from foldproof.folding.card import Bond, Frame3, Hinge, Panel, Stand
from foldproof.frozen import dataclass
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.vector import Point, Segment

Vec = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Motion:
    """A motion of space without mirroring: v goes to v.x right + v.y up + v.z out + origin."""

    right: Vec = (1.0, 0.0, 0.0)
    up: Vec = (0.0, 1.0, 0.0)
    out: Vec = (0.0, 0.0, 1.0)
    origin: Vec = (0.0, 0.0, 0.0)

    def turned(self, v: Vec) -> Vec:
        """Where a displacement goes."""
        x, y, z = v
        right, up, out = self.right, self.up, self.out
        return (
            x * right[0] + y * up[0] + z * out[0],
            x * right[1] + y * up[1] + z * out[1],
            x * right[2] + y * up[2] + z * out[2],
        )

    def point(self, v: Vec) -> Vec:
        """Where a point goes."""
        x, y, z = v
        right, up, out, origin = self.right, self.up, self.out, self.origin
        return (
            x * right[0] + y * up[0] + z * out[0] + origin[0],
            x * right[1] + y * up[1] + z * out[1] + origin[1],
            x * right[2] + y * up[2] + z * out[2] + origin[2],
        )

    def after(self, first: "Motion") -> "Motion":
        """The motion that does `first` and then this one."""
        return Motion(self.turned(first.right), self.turned(first.up), self.turned(first.out), self.point(first.origin))

    @property
    def frame(self) -> Frame3:
        """The motion as a frame for points of a piece."""
        return Frame3(origin=self.origin, right=self.right, up=self.up)


def plus(a: Vec, b: Vec) -> Vec:
    """The sum."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def minus(a: Vec, b: Vec) -> Vec:
    """The difference."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def times(a: Vec, factor: float) -> Vec:
    """A multiple."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def dot(a: Vec, b: Vec) -> float:
    """The inner product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec, b: Vec) -> Vec:
    """The outer product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def length(a: Vec) -> float:
    """The length."""
    return sqrt(dot(a, a))


def lifted(p: Point) -> Vec:
    """A point of a piece as a point of space, the piece lying in z = 0 with its front up."""
    return (float(p.x), float(p.y), 0.0)


def flat_motion(move: Isometry) -> Motion:
    """An isometry of the plane as a motion of space: what flips turns over."""
    side = -1.0 if move.flips else 1.0
    return Motion(
        (float(move.xx), float(move.yx), 0.0), (float(move.xy), float(move.yy), 0.0), (0.0, 0.0, side),
        (float(move.dx), float(move.dy), 0.0),
    )


def about(line: Segment, angle: float) -> Motion:
    """The turn by an angle in radians about a line of the plane, by the right-hand rule along it.

    Rodrigues' formula with the axis (a, b, 0).
    """
    return turned_about(*axis_of(line), angle)


def axis_of(line: Segment) -> tuple[Vec, Vec]:
    """The start of a line of the plane and the unit vector along it."""
    d = line.along
    size = sqrt(float(d.square))
    return lifted(line.start), (float(d.x) / size, float(d.y) / size, 0.0)


def turned_about(p: Vec, along: Vec, angle: float) -> Motion:
    """The turn by an angle in radians about the line of the plane through a point along a unit vector."""
    a, b, _ = along
    x, y, _ = p
    c, s = cos(angle), sin(angle)
    v = 1 - c
    right = (c + a * a * v, a * b * v, -b * s)
    up = (a * b * v, c + b * b * v, a * s)
    out = (b * s, -a * s, c)
    return Motion(right, up, out, (
        x - x * right[0] - y * up[0], y - x * right[1] - y * up[1], -x * right[2] - y * up[2]))


def inverse(m: Motion) -> Motion:
    """The motion that undoes this one."""
    back = Motion(
        (m.right[0], m.up[0], m.out[0]), (m.right[1], m.up[1], m.out[1]), (m.right[2], m.up[2], m.out[2]),
    )
    return Motion(back.right, back.up, back.out, times(back.point(m.origin), -1.0))


@dataclass(frozen=True, slots=True)
class _Way:
    link: Hinge | Bond
    start: str
    end: str
    side: float
    """For a hinge, +1 where the end lies on the left of its line: a valley lifts it by a right-hand turn."""
    axis: tuple[Vec, Vec] | None = None
    """Of a hinge: a point of its line and the unit vector along it."""
    fixed: Motion | None = None
    """Of a bond: from the frame of the end's piece to the frame of the start's."""


class Linkage:
    """The panels of a card and the ways between them, walked once; only the angles change."""

    def __init__(self, panels: Mapping[str, Panel], hinges: Sequence[Hinge], bonds: Sequence[Bond], still: str) -> None:
        """Walk from the still panel; what closes a loop is kept apart."""
        leaving: dict[str, list[_Way]] = {}
        for hinge in hinges:
            left, right = hinge.panels
            axis = axis_of(hinge.segment)
            leaving.setdefault(right, []).append(_Way(hinge, right, left, 1.0, axis))
            leaving.setdefault(left, []).append(_Way(hinge, left, right, -1.0, axis))
        for bond in bonds:
            under, over, fit = bond.under.panel, bond.over.panel, flat_motion(bond.fit)
            if bond.stand is not None:
                fit = stood(bond.stand, bond.under.face, fit)
            leaving.setdefault(under, []).append(_Way(bond, under, over, 1.0, None, fit))
            leaving.setdefault(over, []).append(_Way(bond, over, under, -1.0, None, inverse(fit)))
        self.still, self.panels = still, panels
        self.tree: list[_Way] = []
        self.loops: list[_Way] = []
        self._came: dict[str, _Way] = {}
        used: set[int] = set()
        reached = {still}
        queue = deque([still])
        while queue:
            for way in leaving.get(queue.popleft(), ()):
                if id(way.link) in used:
                    continue
                used.add(id(way.link))
                (self.loops if way.end in reached else self.tree).append(way)
                if way.end not in reached:
                    reached.add(way.end)
                    self._came[way.end] = way
                    queue.append(way.end)
        self._corners = {way.end: _spread(panels[way.end]) for way in self.loops}

    def reaching(self, names: Iterable[str]) -> "Linkage":
        """The same linkage without the panels that neither a loop nor one of the named panels hangs on."""
        wanted = {self.still}
        for name in (*names, *(end for way in self.loops for end in (way.start, way.end))):
            while name not in wanted:
                wanted.add(name)
                name = self._came[name].start
        bare = copy(self)
        bare.tree = [way for way in self.tree if way.end in wanted]
        return bare

    def frames(self, angles: Mapping[str, float]) -> dict[str, Motion]:
        """Where the panels stand, for angles in radians by score; a score without one lies flat."""
        placed = {self.still: Motion()}
        for way in self.tree:
            placed[way.end] = placed[way.start].after(_move(way, angles))
        return placed

    def misfits(self, angles: Mapping[str, float], placed: Mapping[str, Motion]) -> list[Vec]:
        """For every loop, in order, how far three corners of the panel that closes it are from where they should be."""
        found: list[Vec] = []
        for way in self.loops:
            there, here = placed[way.start].after(_move(way, angles)), placed[way.end]
            found += [minus(there.point(p), here.point(p)) for p in self._corners[way.end]]
        return found

    def scores_round(self, loop: int) -> tuple[str, ...]:
        """The scores that a loop runs over, each once, from the link that closes it round."""
        way = self.loops[loop]
        one, two = self._back(way.start), self._back(way.end)
        while one and two and one[-1] is two[-1]:
            one, two = one[:-1], two[:-1]
        links = [way.link, *(each.link for each in two), *(each.link for each in reversed(one))]
        return tuple(dict.fromkeys(link.score for link in links if isinstance(link, Hinge)))

    def _back(self, name: str) -> list[_Way]:
        """The ways from a panel back to the still one."""
        ways = []
        while name in self._came:
            ways.append(self._came[name])
            name = self._came[name].start
        return ways


def _spread(panel: Panel) -> tuple[Vec, ...]:
    """Three corners of a panel, far apart and far from one line."""
    ring = panel.ring
    a = ring[0]
    b = max(ring, key=lambda p: (p - a).square)
    c = max(ring, key=lambda p: abs((b - a).cross(p - a)))
    return lifted(a), lifted(b), lifted(c)


def _move(way: _Way, angles: Mapping[str, float]) -> Motion:
    if way.fixed is not None:
        return way.fixed
    assert isinstance(way.link, Hinge) and way.axis is not None
    return turned_about(*way.axis, way.side * angles.get(way.link.score, 0.0))


def stood(stand: Stand, face: Face, fit: Motion) -> Motion:
    """What lies flat on a face, turned up from it about a line by the angle of the join."""
    lift = radians(float(stand.angle)) * (1.0 if face is Face.FRONT else -1.0)
    return about(stand.line, lift).after(fit)
