"""What of an area is left uncovered by others: exact, in convex pieces."""

from collections.abc import Iterable

from foldproof.paper.polygon import anticlockwise, area, bend, edges, is_convex, turn, without_straight_corners
from foldproof.paper.vector import Point, Ring, Segment


def uncovered(ring: Ring, covers: Iterable[Ring]) -> tuple[Ring, ...]:
    """The parts of an area that lie outside all the covering areas, as convex rings without overlaps.

    Every cover is a simple outline; holes in it are for the caller to leave out or to pass by.
    """
    left = list(convex_parts(ring))
    for cover in covers:
        for part in convex_parts(cover):
            left = [rest for piece in left for rest in _less(piece, part)]
    return tuple(left)


def convex_parts(ring: Ring) -> tuple[Ring, ...]:
    """An outline cut into convex ones: itself where it is convex, else triangles by clipping ears."""
    ring = without_straight_corners(anticlockwise(ring))
    if len(ring) < 3:
        return ()
    if is_convex(ring):
        return (ring,)
    corners, parts = list(ring), []
    while len(corners) > 3:
        ear = next((i for i in range(len(corners)) if _is_ear(corners, i)), None)
        if ear is None:
            raise ValueError("an outline that crosses itself has no ears")
        parts.append((corners[ear - 1], corners[ear], corners[(ear + 1) % len(corners)]))
        del corners[ear]
    parts.append((corners[0], corners[1], corners[2]))
    return tuple(part for part in parts if area(part) > 0)


def _is_ear(corners: list[Point], index: int) -> bool:
    a, b, c = corners[index - 1], corners[index], corners[(index + 1) % len(corners)]
    bent = bend(a, b, c)
    if bent <= 0:
        return bent == 0
    return not any(
        bend(a, b, p) >= 0 and bend(b, c, p) >= 0 and bend(c, a, p) >= 0
        for p in corners if p not in (a, b, c)
    )


def _less(ring: Ring, cover: Ring) -> list[Ring]:
    """One convex area less another."""
    rest, inside = [], ring
    for side in edges(cover):
        outside = _half(inside, Segment(side.end, side.start))
        if outside:
            rest.append(outside)
        inside = _half(inside, side)
        if not inside:
            return [ring]
    return rest


def _half(ring: Ring, side: Segment) -> Ring:
    """The part of a convex area on the left of a line; empty when it has no area."""
    kept: list[Point] = []
    for here, after in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        now, then = bend(side.start, side.end, here), bend(side.start, side.end, after)
        if now >= 0:
            kept.append(here)
        if (now > 0 > then) or (now < 0 < then):
            far, near = turn(side.start, side.end, here), turn(side.start, side.end, after)
            kept.append(here + (after - here) * (far / (far - near)))
    clean = without_straight_corners(tuple(kept)) if len(kept) >= 3 else ()
    return clean if len(clean) >= 3 and area(clean) > 0 else ()
