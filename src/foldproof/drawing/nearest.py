"""Whose number it is: the number of a dimension stands nearest to its own line."""

import math
from collections.abc import Sequence
from itertools import pairwise

from foldproof.drawing.plane import XY, Box, length_inside, minus, plus, times, unit
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


def may_be_taken_for(number: Box, own: tuple[XY, XY], other: tuple[XY, XY]) -> bool:
    """Whether a number may be read as that of another line than its own: it stands no nearer to its own."""
    nearest = off(number, own) + LEAD
    return off(number, other, unless=nearest) < nearest


def away(box: Box, p: XY, q: XY) -> float:
    """How far a stroke stays away from a box; 0 where it runs through it."""
    return off(box, (p, q))


def off(box: Box, path: Sequence[XY], unless: float = 0.0) -> float:
    """How far a broken line stays away from a box, or some length below `unless` as soon as it is found to be nearer.

    0 where it runs through the box. Most of its strokes are farther than another, which their bounds tell.
    """
    left, bottom, right, top = box.left, box.bottom, box.right, box.top
    best = min([math.hypot(max(left - x, 0.0, x - right), max(bottom - y, 0.0, y - top)) for x, y in path])
    for p, q in pairwise(path):
        if best < unless:
            break
        (px, py), (qx, qy) = p, q
        across = max(left - (px if px > qx else qx), (px if px < qx else qx) - right, 0.0)
        up = max(bottom - (py if py > qy else qy), (py if py < qy else qy) - top, 0.0)
        if across * across + up * up < best * best:
            best = min(best, *(_to_stroke(corner, p, q) for corner in box.corners)) if not length_inside(
                p, q, box) else 0.0
    return best


def _to_stroke(at: XY, p: XY, q: XY) -> float:
    """From a point to the nearest of a stroke."""
    way_x, way_y, off_x, off_y = q[0] - p[0], q[1] - p[1], at[0] - p[0], at[1] - p[1]
    square = way_x * way_x + way_y * way_y
    share = min(max((off_x * way_x + off_y * way_y) / square, 0.0), 1.0) if square else 0.0
    return math.hypot(off_x - way_x * share, off_y - way_y * share)
