"""Whose number it is: the number of a dimension stands nearest to its own line."""

from foldproof.drawing.plane import XY, Box, between, length, length_inside, minus, plus, times, unit
from foldproof.drawing.scene import HEAD, Dimension

LEAD = 0.4
"""How much nearer to its own line than to another's a number stands at least, in millimetres."""
TAIL = HEAD + 1.6
"""How far the line of a dimension reaches past its extension lines where its heads stand outside."""


def dimension_line(dimension: Dimension) -> tuple[XY, XY]:
    """The line of a dimension from end to end, the tails of heads that stand outside with it."""
    p, q = dimension.row
    past = times(unit(minus(q, p)), TAIL) if dimension.outward else (0.0, 0.0)
    return minus(p, past), plus(q, past)


def may_be_taken_for(one: Dimension, other: Dimension) -> bool:
    """Whether the number of one may be read as that of the other: it stands no nearer to its own line."""
    box = one.label.box
    return away(box, *dimension_line(other)) < away(box, *dimension_line(one)) + LEAD


def away(box: Box, p: XY, q: XY) -> float:
    """How far a stroke stays away from a box; 0 where it runs through it."""
    if length_inside(p, q, box) > 0:
        return 0.0
    from_ends = [length((max(box.left - x, 0.0, x - box.right), max(box.bottom - y, 0.0, y - box.top)))
                 for x, y in (p, q)]
    return min(*from_ends, *(_to_stroke(corner, p, q) for corner in box.corners))


def _to_stroke(at: XY, p: XY, q: XY) -> float:
    """From a point to the nearest of a stroke."""
    way, off = minus(q, p), minus(at, p)
    square = way[0] * way[0] + way[1] * way[1]
    share = min(max((off[0] * way[0] + off[1] * way[1]) / square, 0.0), 1.0) if square else 0.0
    return length(minus(at, between(p, q, share)))
