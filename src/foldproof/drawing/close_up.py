"""A close-up: what lies round a point, drawn larger in a circle beside the picture, with a line that leads there."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from foldproof.drawing.lettering import cap_height
from foldproof.drawing.motions import arc
from foldproof.drawing.plane import XY, Box, between, length, minus, plus, times, unit
from foldproof.drawing.scene import Area, Arrow, Fill, Hatch, HeadKind, Item, Kind, Label, Line

RADIUS = 7.0
"""Of the circle, in millimetres."""
WIDE = 3.6
"""How wide a border is drawn in it."""
SMALL = 1.7
"""A border that is drawn narrower than this deserves a close-up."""
AWAY = 4.0
"""From the picture to the circle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """A border, as wide on all four sides, round something with upright and level edges."""

    inner: Box
    """What it runs round, on the drawing."""
    wide: float
    """On the drawing, in millimetres."""
    text: str


def border_close_up(border: Border, items: Iterable[Item], box: Box, pt: float, side: str) -> list[Item]:
    """The upper corner of a border on a `side` of the work, drawn larger, with its width both ways.

    `items` are what is drawn so far, `box` is the room of the work.
    """
    sense = 1.0 if side == "right" else -1.0
    corner = (border.inner.right if side == "right" else border.inner.left, border.inner.top)
    middle = plus(corner, (sense * border.wide / 2, border.wide / 2))
    zoom = WIDE / border.wide
    edge = box.right if side == "right" else box.left
    at = (edge + sense * (AWAY + RADIUS), max(min(middle[1], box.top) - RADIUS * 0.6, box.bottom + RADIUS * 0.4))
    small = max(border.wide * 1.3, 1.3)
    ring = arc(at, RADIUS, 0, 360, 48)[:-1]
    toward = unit(minus(at, middle))
    found: list[Item] = [Area(rings=(ring,), fill=Fill.BLANK)]
    found += enlarged(items, middle, zoom, at, ring)
    half = WIDE / 2
    # the outer edges, which may be creases that stop short, or stop elsewhere
    for p, q in (((sense * half, -RADIUS), (sense * half, half)), ((-sense * RADIUS, half), (sense * half, half))):
        edge_line = cut_line(plus(at, p), plus(at, q), ring)
        if edge_line is not None:
            found.append(Line(points=edge_line, kind=Kind.MEASURE))
    across, up = (at[0] - sense * half, at[1] - RADIUS * 0.5), (at[0] - sense * RADIUS * 0.5, at[1] - half)
    for start, way in ((across, (sense * WIDE, 0.0)), (up, (0.0, WIDE))):
        found.append(Arrow(
            points=(start, between(start, plus(start, way), 0.5), plus(start, way)), head=HeadKind.SLIM,
            kind=Kind.MEASURE, size=1.3, both=True))
    found += [
        Line(points=ring, kind=Kind.EDGE, closed=True),
        Line(points=arc(middle, small, 0, 360, 20)[:-1], kind=Kind.MEASURE, closed=True),
        Line(points=(plus(middle, times(toward, small)), minus(at, times(toward, RADIUS))), kind=Kind.MEASURE),
        Label(text=border.text, at=(at[0], at[1] - RADIUS - 1.4 - cap_height(pt) / 2), pt=pt),
    ]
    return found


def enlarged(
    items: Iterable[Item], centre: XY, zoom: float, at: XY, ring: Sequence[XY],
) -> Iterator[Item]:
    """What lies round a point, larger, moved to another and cut off at a convex ring that runs anticlockwise."""
    def moved(p: XY) -> XY:
        return plus(at, times(minus(p, centre), zoom))

    for item in items:
        match item:
            case Area(rings=rings) | Hatch(rings=rings):
                cut = tuple(part for one in rings if len(part := cut_area([moved(p) for p in one], ring)) > 2)
                if cut:
                    yield replace(item, rings=cut, edge=None) if isinstance(item, Area) else replace(item, rings=cut)
            case Line(points=points, closed=closed):
                way = [moved(p) for p in ((*points, points[0]) if closed else points)]
                for p, q in pairwise(way):
                    inside = cut_line(p, q, ring)
                    if inside is not None:
                        yield replace(item, points=inside, closed=False)
            case _:
                pass


def cut_line(p: XY, q: XY, ring: Sequence[XY]) -> tuple[XY, XY] | None:
    """The stretch of a segment inside a convex ring that runs anticlockwise (Cyrus and Beck's way)."""
    low, high = 0.0, 1.0
    for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
        start, end = _depth(p, a, b), _depth(q, a, b)
        if start < 0 and end < 0:
            return None
        if (start < 0) != (end < 0):
            share = start / (start - end)
            low, high = (max(low, share), high) if start < 0 else (low, min(high, share))
    return (between(p, q, low), between(p, q, high)) if low < high else None


def cut_area(points: Sequence[XY], ring: Sequence[XY]) -> tuple[XY, ...]:
    """The part of an area inside a convex ring that runs anticlockwise (Sutherland and Hodgman's way)."""
    left = list(points)
    for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
        kept: list[XY] = []
        for p, q in zip(left, (*left[1:], *left[:1]), strict=True):
            start, end = _depth(p, a, b), _depth(q, a, b)
            if start >= 0:
                kept.append(p)
            if (start < 0) != (end < 0):
                kept.append(between(p, q, start / (start - end)))
        left = kept
        if not left:
            break
    return tuple(left)


def _depth(p: XY, a: XY, b: XY) -> float:
    """How far a point lies to the left of a line, times the line's length."""
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def is_upright(ring: Sequence[XY], box: Box) -> bool:
    """Whether a ring is its box."""
    return len(ring) == 4 and all(min(length(minus(p, corner)) for corner in box.corners) < 1e-6 for p in ring)
