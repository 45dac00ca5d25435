"""A sheet with holes as one ring, cut open from each hole to the outline, for what wants a single ring."""

from collections.abc import Sequence

from foldproof.paper.polygon import edges, meeting
from foldproof.paper.vector import Point, Ring, Segment


def keyhole(ring: Ring, holes: Sequence[Ring]) -> tuple[Ring, tuple[bool, ...]]:
    """The ring with its clockwise holes let in by bridges that are run along there and back.

    For each side, from a corner to the next, whether it is an edge of the paper and not a bridge.
    """
    corners, rims = list(ring), [True] * len(ring)
    left = list(holes)
    while left:
        hole, start, end = _bridge(corners, left)
        left.remove(hole)
        at = hole.index(end)
        turned = [*hole[at:], *hole[:at]]
        place = corners.index(start)
        corners[place:place + 1] = [start, *turned, end, start]
        rims[place:place + 1] = [False, *([True] * len(turned)), False, rims[place]]
    return tuple(corners), tuple(rims)


def _bridge(corners: Sequence[Point], holes: Sequence[Ring]) -> tuple[Ring, Point, Point]:
    """The shortest way from a corner to a corner of a hole that crosses nothing."""
    sides = [side for ring in (tuple(corners), *holes) for side in edges(ring) if side.start != side.end]
    ways = sorted(((a - b).square, a, b, hole) for a in set(corners) for hole in holes for b in hole)
    for _, a, b, hole in ways:
        way = Segment(a, b)
        shared = [found for side in sides if (found := meeting(way, side)) is not None]
        if all(one.start == one.end and one.start in (a, b) for one in shared):
            return hole, a, b
    raise ValueError("a hole that cannot be reached from the outline")
