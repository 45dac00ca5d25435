"""The signs for what happens between two frames, and for folding (facts: folding notation)."""

import math

from foldproof.drawing.frame import Motion
from foldproof.drawing.lettering import line_step, wrap
from foldproof.drawing.plane import XY, between, left_of, length, minus, plus, times, unit
from foldproof.drawing.scene import Arrow, HeadKind, Item, Kind, Label, Line, items_box, moved

RADIUS = 3.8
WIDE = 16.0
"""The room for words beside a frame, in millimetres."""


def arc(centre: XY, radius: float, start: float, end: float, steps: int = 24) -> tuple[XY, ...]:
    """Points on a circle from one angle to another, in degrees, anticlockwise from the right when end is larger."""
    return tuple(
        (centre[0] + radius * math.cos(math.radians(start + (end - start) * i / steps)),
         centre[1] + radius * math.sin(math.radians(start + (end - start) * i / steps)))
        for i in range(steps + 1)
    )


def turn_sign(way: str) -> list[Item]:
    """A circle of two arrows that run the way of the turn."""
    sense = 1 if way == "quarter anticlockwise" else -1
    return [
        Arrow(points=arc((0, 0), RADIUS, start, start + sense * 138), size=2.2) for start in (70, 250)
    ]


def over_sign(way: str) -> list[Item]:
    """An arrow with one loop; level for turning like a page, upright for turning top to bottom."""
    loop = arc((0.0, 2.0), 2.0, -90, 270, 30)
    path: list[XY] = [(-6.5, 0.0), *loop, (6.5, 0.0)]
    if way == "top to bottom":
        path = [left_of(p) for p in path]
        path = [(x, -y) for x, y in path]
    return [Arrow(points=tuple(path), size=2.2)]


def then_sign() -> list[Item]:
    """A plain short arrow: what comes of it."""
    return [Arrow(points=((-3.5, 0.0), (3.5, 0.0)), size=2.6)]


def motion_items(motions: tuple[Motion, ...], pt: float) -> list[Item]:
    """The signs one under another, each with its words, in a column WIDE or less, round the origin."""
    items: list[Item] = []
    top = 0.0
    for motion in motions:
        match motion.kind:
            case "turn":
                sign = turn_sign(motion.way)
            case "over":
                sign = over_sign(motion.way)
            case _:
                sign = then_sign()
        box = items_box(tuple(sign))
        items += [moved(item, (-box.centre[0], top - box.top)) for item in sign]
        top -= box.height + 2.4
        for line in wrap(motion.words, pt, WIDE) if motion.words else ():
            items.append(Label(text=line, at=(0.0, top - 0.6), pt=pt))
            top -= line_step(pt)
        top -= 1.5
    return items


def fold_path(start: XY, end: XY) -> tuple[XY, ...]:
    """A curve from the part that moves to where it comes to lie, bulging away from the maker."""
    chord = minus(end, start)
    lift = times(left_of(unit(chord)), min(length(chord) * 0.22, 9.0))
    if lift[1] < 0:
        lift = times(lift, -1)
    # a parabola through both ends
    return tuple(plus(between(start, end, t), times(lift, 4 * t * (1 - t))) for t in (i / 20 for i in range(21)))


def fold_arrow(path: tuple[XY, ...], *, behind: bool, back: bool = False) -> list[Item]:
    """Over the paper with a solid head, or behind it, dotted, with a hollow half head; `back` points both ways.

    Heads are smaller on a short way, so that two of them leave some of it to be seen.
    """
    size = max(1.6, min(2.8, length(minus(path[-1], path[0])) * 0.27))
    if not behind:
        return [Arrow(points=path, head=HeadKind.SOLID, size=size, both=back)]
    half = len(path) // 2
    return [
        Arrow(points=path[half::-1], head=HeadKind.SOLID, size=size) if back
        else Line(points=path[:half + 1], kind=Kind.MOTION),
        Arrow(points=path[half:], head=HeadKind.HOLLOW_HALF, kind=Kind.HIDDEN, size=size * 1.07),
    ]
