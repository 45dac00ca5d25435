"""An area of paper in convex parts."""

from collections.abc import Iterator, Sequence

from foldproof.paper.keyhole import keyhole
from foldproof.paper.polygon import bend, is_convex
from foldproof.paper.vector import Ring


def convex_parts(ring: Ring, holes: Sequence[Ring] = ()) -> tuple[Ring, ...]:
    """Convex anticlockwise areas that together are the area inside a ring and outside its holes, exactly."""
    if not holes and is_convex(ring):
        return (ring,)
    return tuple(_ears(keyhole(ring, tuple(holes))[0]))


def _ears(ring: Ring) -> Iterator[Ring]:
    """Triangles cut off a simple anticlockwise ring one after another (Meisters 1975: there is always one)."""
    corners = list(ring)
    while len(corners) > 3:
        count = len(corners)
        for i in range(count):
            a, b, c = corners[i - 1], corners[i], corners[(i + 1) % count]
            if bend(a, b, c) > 0 and not any(
                bend(a, b, p) >= 0 and bend(b, c, p) >= 0 and bend(c, a, p) >= 0 for p in corners if p not in (a, b, c)
            ):
                yield (a, b, c)
                del corners[i]
                break
        else:
            straight = next(
                (i for i in range(count) if bend(corners[i - 1], corners[i], corners[(i + 1) % count]) == 0), None)
            if straight is None:
                return
            del corners[straight]
    if bend(*corners) > 0:
        yield tuple(corners)
