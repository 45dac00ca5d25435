"""The exact arrangement of straight segments in the plane: corners, edges and the faces between them.

Segments may cross, end on each other, overlap, coincide, or end inside a face (a dangling edge).
"""

import itertools
from collections.abc import Callable, Hashable, Sequence
from fractions import Fraction
from math import lcm
from typing import TypeVar

from foldproof.frozen import dataclass
from foldproof.paper.polygon import Where, clip_convex, is_convex, locate, overlap
from foldproof.paper.polygon import edges as edges_of
from foldproof.paper.tracing import Area, trace
from foldproof.paper.vector import Point, Ring, Segment

Label = TypeVar("Label", bound=Hashable)


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """A stretch between neighbouring corners of the arrangement."""

    segment: Segment
    """From the lesser point to the greater, by x and then y."""
    sources: tuple[int, ...]
    """Which of the given segments run along it, in order."""
    left: int | None
    """The face on the left of the segment; None outside of all."""
    right: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Subdivision:
    """All edges and all bounded faces."""

    corners: tuple[Point, ...]
    """Where segments end, cross or bend, sorted."""
    edges: tuple[Edge, ...]
    faces: tuple[Area, ...]
    parts: int
    """How many separate bodies of connected edges there are (for Euler's formula)."""


def subdivide(segments: Sequence[Segment]) -> Subdivision:
    """The arrangement of the segments."""
    pieces: dict[tuple[Point, Point], list[int]] = {}
    for index, stops in enumerate(_split_each(segments)):
        for a, b in itertools.pairwise(stops):
            pieces.setdefault((a, b) if a < b else (b, a), []).append(index)
    drawn = trace(tuple(pieces))
    edges = tuple(
        Edge(segment=Segment(a, b), sources=tuple(sources), left=left, right=right)
        for ((a, b), sources), (left, right) in zip(pieces.items(), drawn.sides, strict=True)
    )
    corners = tuple(sorted({p for pair in pieces for p in pair}))
    return Subdivision(corners=corners, edges=edges, faces=drawn.faces, parts=drawn.parts)


def merge(whole: Subdivision, label: Callable[[int], Label | None]) -> tuple[tuple[Label, Area], ...]:
    """The faces joined where neighbours have the same label; those labelled None are left out."""
    labels = {index: label(index) for index in range(len(whole.faces))}

    def of(face: int | None) -> Label | None:
        return None if face is None else labels[face]

    kept = [edge for edge in whole.edges if of(edge.left) != of(edge.right)]
    drawn = trace(tuple((edge.segment.start, edge.segment.end) for edge in kept))
    found: dict[int, Label | None] = {}
    for edge, (left, right) in zip(kept, drawn.sides, strict=True):
        if left is not None:
            found[left] = of(edge.left)
        if right is not None:
            found[right] = of(edge.right)
    joined: list[tuple[Label, Area]] = []
    for index, face in enumerate(drawn.faces):
        name = found[index]
        if name is not None:
            joined.append((name, face))
    return tuple(joined)


def _split_each(segments: Sequence[Segment]) -> list[list[Point]]:
    """For each segment the corners on it, from its start to its end; those that coincide are reckoned once.

    Folded paper lies edge on edge, so many of them do.
    """
    ways = [(s.start, s.end) if s.start < s.end else (s.end, s.start) for s in segments]
    number: dict[tuple[Point, Point], int] = {}
    for way in ways:
        number.setdefault(way, len(number))
    stops = _split([Segment(*way) for way in number])
    return [
        stops[number[way]] if way[0] == s.start else stops[number[way]][::-1]
        for s, way in zip(segments, ways, strict=True)]


def _split(segments: Sequence[Segment]) -> list[list[Point]]:
    """For each segment the corners on it, from its start to its end.

    Reckoned in whole numbers on a common grid; only a crossing of slanted lines can fall off the grid.
    """
    grid = lcm(*(v.denominator for s in segments for p in (s.start, s.end) for v in (p.x, p.y)))

    def on_grid(v: Fraction) -> int:
        return v.numerator * (grid // v.denominator)

    whole = [(on_grid(s.start.x), on_grid(s.start.y), on_grid(s.end.x), on_grid(s.end.y)) for s in segments]
    stops: list[dict[Fraction, Point]] = [{Fraction(0): s.start, Fraction(1): s.end} for s in segments]
    order = sorted(range(len(whole)), key=lambda i: min(whole[i][0], whole[i][2]))
    active: list[int] = []
    for i in order:
        ax, ay, bx, by = whole[i]
        left, low, high = min(ax, bx), min(ay, by), max(ay, by)
        active = [j for j in active if max(whole[j][0], whole[j][2]) >= left]
        for j in active:
            cx, cy, dx, dy = whole[j]
            if max(cy, dy) < low or min(cy, dy) > high:
                continue
            ux, uy, vx, vy, wx, wy = bx - ax, by - ay, dx - cx, dy - cy, cx - ax, cy - ay
            cross = ux * vy - uy * vx
            if cross:
                t, u = wx * vy - wy * vx, wx * uy - wy * ux
                if cross < 0:
                    t, u, cross = -t, -u, -cross
                if 0 <= t <= cross and 0 <= u <= cross:
                    share = Fraction(t, cross)
                    at = Point((ax + ux * share) / grid, (ay + uy * share) / grid)
                    stops[i][share] = at
                    stops[j][Fraction(u, cross)] = at
            elif ux * wy == uy * wx:
                _stop_at_ends(whole[j], segments[j], whole[i], stops[i])
                _stop_at_ends(whole[i], segments[i], whole[j], stops[j])
        active.append(i)
    return [[at for _, at in sorted(one.items())] for one in stops]


def _stop_at_ends(
    other: tuple[int, int, int, int], real: Segment, line: tuple[int, int, int, int], stops: dict[Fraction, Point],
) -> None:
    """Stop a line where another on the same straight line ends."""
    ax, ay, bx, by = line
    ux, uy = bx - ax, by - ay
    size = ux * ux + uy * uy
    for (px, py), at in (((other[0], other[1]), real.start), ((other[2], other[3]), real.end)):
        along = (px - ax) * ux + (py - ay) * uy
        if 0 < along < size:
            stops[Fraction(along, size)] = at


def common(a: Ring, b: Ring) -> Ring | None:
    """The common part of two areas, the largest where there are several; None where they share no area."""
    if is_convex(a) and is_convex(b):
        return clip_convex(a, b) or None
    if not overlap(a, b):
        return None
    whole = subdivide((*edges_of(a), *edges_of(b)))
    shared = merge(whole, lambda face: True if _in_both(whole.faces[face].inside, a, b) else None)
    return max((part for _, part in shared), key=lambda part: part.size).ring


def _in_both(p: Point, a: Ring, b: Ring) -> bool:
    return locate(p, a) is Where.IN and locate(p, b) is Where.IN
