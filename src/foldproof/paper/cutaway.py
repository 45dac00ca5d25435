"""Taking shapes away from paper: round corners, scalloped edges, and what is left of a sheet."""

from collections.abc import Sequence
from fractions import Fraction

from foldproof.paper.polygon import Box, Where, anticlockwise, edges, locate
from foldproof.paper.shapes import QUARTER
from foldproof.paper.subdivision import merge, subdivide
from foldproof.paper.tracing import Area
from foldproof.paper.vector import Point, Ring


def remaining(ring: Ring, holes: Sequence[Ring], gone: Sequence[Ring]) -> tuple[Area, ...]:
    """What is left of a sheet with holes when shapes are taken away; several parts where they part it."""
    sides = [side for one in (ring, *holes, *gone) for side in edges(one)]
    whole = subdivide(sides)

    def left(face: int) -> bool | None:
        p = whole.faces[face].inside
        if locate(p, ring) is not Where.IN or any(locate(p, one) is Where.IN for one in (*holes, *gone)):
            return None
        return True

    return tuple(part for _, part in merge(whole, left))


def shared(ring: Ring, holes: Sequence[Ring], other: Ring) -> tuple[Area, ...]:
    """The parts of a sheet with holes that a shape covers."""
    whole = subdivide([side for one in (ring, *holes, other) for side in edges(one)])

    def both(face: int) -> bool | None:
        p = whole.faces[face].inside
        covered = locate(p, ring) is Where.IN and locate(p, other) is Where.IN
        return True if covered and not any(locate(p, hole) is Where.IN for hole in holes) else None

    return tuple(part for _, part in merge(whole, both))


def corner_waste(box: Box, corner: str, radius: Fraction) -> Ring:
    """What a corner rounder takes off a corner of a rectangle (`top left`, ...).

    The arc is a polygon of chords of at most 15.53 degrees inside the true one: it takes off at most
    r (1 - cos 7.77 degrees), less than 1/100 of the radius, too much.
    """
    level, side = corner.split()
    x, inward = (box.left, 1) if side == "left" else (box.right, -1)
    y, upward = (box.bottom, 1) if level == "bottom" else (box.top, -1)
    arc = (Point(x + inward * radius * (1 - c), y + upward * radius * (1 - s)) for c, s in QUARTER)
    return anticlockwise((Point(x, y), *arc))


def scallop_waste(box: Box, edge: str, across: Fraction) -> tuple[Ring, ...]:
    """What is taken off between half discs along an edge of a rectangle, which holds a whole number of them."""
    level = edge in ("top", "bottom")
    start, end = (box.left, box.right) if level else (box.bottom, box.top)
    half, waste = across / 2, list[Ring]()
    at = start
    while at < end:
        if level:
            bottom, top = (box.bottom, box.bottom + half) if edge == "bottom" else (box.top - half, box.top)
            cell, ends = Box(left=at, right=at + across, bottom=bottom, top=top), (f"{edge} left", f"{edge} right")
        else:
            left, right = (box.left, box.left + half) if edge == "left" else (box.right - half, box.right)
            cell, ends = Box(left=left, right=right, bottom=at, top=at + across), (f"bottom {edge}", f"top {edge}")
        waste += [corner_waste(cell, corner, half) for corner in ends]
        at += across
    return tuple(waste)
