"""Whose number it is: the number of a dimension stands nearest to its own line."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

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
    return away(number, *other) < away(number, *own) + LEAD


def away(box: Box, p: XY, q: XY) -> float:
    """How far a stroke stays away from a box; 0 where it runs through it."""
    left, bottom, right, top = box.left, box.bottom, box.right, box.top
    (px, py), (qx, qy) = p, q
    ends = min([math.hypot(max(left - x, 0.0, x - right), max(bottom - y, 0.0, y - top)) for x, y in (p, q)])
    across = max(left - (px if px > qx else qx), (px if px < qx else qx) - right, 0.0)
    up = max(bottom - (py if py > qy else qy), (py if py < qy else qy) - top, 0.0)
    if across * across + up * up >= ends * ends:  # no spot of it is nearer than an end, which its bounds tell
        return ends
    return 0.0 if length_inside(p, q, box) else min(ends, *(_to_stroke(corner, p, q) for corner in box.corners))


def offs(boxes: Sequence[Box], path: Sequence[XY]) -> NDArray[np.float64]:
    """How far a broken line stays away from each of many boxes: the least that `away` tells of its strokes."""
    edges = np.array([(box.left, box.bottom, box.right, box.top) for box in boxes]).reshape(-1, 4, 1)
    left, bottom, right, top = edges[:, 0], edges[:, 1], edges[:, 2], edges[:, 3]
    points = np.array(path)
    ends = np.hypot(
        np.maximum(np.maximum(left - points[:, 0], points[:, 0] - right), 0),
        np.maximum(np.maximum(bottom - points[:, 1], points[:, 1] - top), 0)).min(axis=1)
    start, way = points[:-1], np.diff(points, axis=0)
    square = (way ** 2).sum(axis=1)
    corners = np.stack([  # for each box and stroke, four times x and y
        np.stack(np.broadcast_arrays(x, y), axis=-1) for x in (left, right) for y in (bottom, top)], axis=1)
    from_start = corners - start[:, None].transpose(1, 0, 2)[None]
    along = (from_start * way).sum(axis=-1)
    share = np.clip(np.divide(along, square, out=np.zeros_like(along), where=square > 0), 0, 1)
    near = from_start - share[..., None] * way
    beside = np.hypot(near[..., 0], near[..., 1]).min(axis=(1, 2))
    sides = from_start[..., 0] * way[:, 1] - from_start[..., 1] * way[:, 0]
    low, high = np.minimum(start, points[1:]), np.maximum(start, points[1:])
    through = ((sides.min(axis=1) < 0) & (sides.max(axis=1) > 0) & (low[:, 0] < right) & (high[:, 0] > left)
               & (low[:, 1] < top) & (high[:, 1] > bottom)).any(axis=1)
    return np.where(through, 0.0, np.minimum(ends, beside))


def _to_stroke(at: XY, p: XY, q: XY) -> float:
    """From a point to the nearest of a stroke."""
    way_x, way_y, off_x, off_y = q[0] - p[0], q[1] - p[1], at[0] - p[0], at[1] - p[1]
    square = way_x * way_x + way_y * way_y
    share = min(max((off_x * way_x + off_y * way_y) / square, 0.0), 1.0) if square else 0.0
    return math.hypot(off_x - way_x * share, off_y - way_y * share)
