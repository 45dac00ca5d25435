"""The tools that a step is done with, as they stand round the work."""

from collections.abc import Sequence

from foldproof.drawing.labels import Wish
from foldproof.drawing.plane import XY, Box, area_of, between, length, minus, plus, times, unit
from foldproof.drawing.scene import Area, Fill, Hatch, Item, Kind, Label, Line

THICK = 2.6
"""Of the fence and the stop, in millimetres."""
STOP = 11.0
"""Length of the stop."""
PAST = 3.0
"""How far the fence runs past the work."""
TRACK = 5.0
"""How far a track runs past the paper."""


def fence_and_stop(box: Box) -> list[Item]:
    """The fence along the far edge of the work and the stop at its left end."""
    left, top = box.left - THICK, box.top + THICK
    right, low = box.right + PAST, max(box.top - STOP, box.bottom)
    corner: tuple[XY, ...] = (
        (left, low), (box.left, low), (box.left, box.top), (right, box.top), (right, top), (left, top))
    return [
        Area(rings=(corner,), fill=Fill.TOOL, edge=Kind.MEASURE),
        Hatch(rings=(corner,), spacing=1.1, slope=(1.0, 1.0)),
    ]


def tool_names(box: Box, pt: float) -> list[Wish]:
    """The words for the fence and the stop, above their ends or beside them."""
    top = box.top + THICK
    low = max(box.top - STOP, box.bottom)
    left = box.left - THICK
    return [
        Wish(label=Label(text="fence", at=(0, 0), pt=pt, italic=True), places=(
            ((box.right + PAST, top + 2.4), "end", False), (((box.left + box.right) / 2, top + 2.4), "middle", False),
            ((box.right + PAST + 1.2, box.top + THICK / 2), "start", False),
            ((box.right + PAST, top + 12.0), "end", False),
        )),
        Wish(label=Label(text="stop", at=(0, 0), pt=pt, italic=True), places=(
            ((left, top + 2.4), "start", False), ((left, low - 2.4), "start", False),
            ((left - 1.2, (low + box.top) / 2), "end", False),
        )),
    ]


def guide_edge(rings: Sequence[Sequence[XY]], box: Box) -> list[Item]:
    """The edges of the work that lie against the fence, heavy."""
    items: list[Item] = []
    for ring in rings:
        for p, q in zip(ring, [*ring[1:], ring[0]], strict=True):
            if abs(p[1] - box.top) < 1e-6 and abs(q[1] - box.top) < 1e-6:
                items.append(Line(points=(p, q), kind=Kind.GUIDE))
    return items


def track(p: XY, q: XY, fence: float | None = None) -> list[Item]:
    """The line that a blade or a tip runs along, shown where it leaves the paper at both ends, but for a fence there.

    `fence` is the height of the far edge that lies against a fence.
    """
    along = unit(minus(q, p))
    return [
        Line(points=(plus(end, times(way, 0.6)), plus(end, times(way, TRACK))), kind=Kind.TRACK)
        for end, way in ((p, times(along, -1)), (q, along)) if fence is None or end[1] < fence - 1e-6
    ]


def tick(at: XY, inward: XY) -> list[Item]:
    """A pencil mark on an edge: a short stroke inward."""
    return [Line(points=(at, plus(at, times(inward, 2.6))), kind=Kind.STRONG)]


def cross_mark(at: XY) -> list[Item]:
    """A pencil mark inside the paper: a small cross."""
    return [Line(points=(plus(at, (-x, -y)), plus(at, (x, y))), kind=Kind.STRONG) for x, y in ((1.3, 0.0), (0.0, 1.3))]


def inward_at(at: XY, ring: Sequence[XY]) -> XY:
    """The direction into a ring, square to its side that is nearest to a point; the ring may turn either way."""
    sign = 1.0 if area_of(ring) > 0 else -1.0
    best: tuple[float, XY] | None = None
    for p, q in zip(ring, [*ring[1:], ring[0]], strict=True):
        d = minus(q, p)
        size = d[0] * d[0] + d[1] * d[1]
        if size == 0:
            continue
        t = min(max(((at[0] - p[0]) * d[0] + (at[1] - p[1]) * d[1]) / size, 0.0), 1.0)
        away = length(minus(at, between(p, q, t)))
        if best is None or away < best[0]:
            best = (away, times(unit((-d[1], d[0])), sign))
    return best[1] if best else (0.0, 1.0)
