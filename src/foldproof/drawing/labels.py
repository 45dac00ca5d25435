"""Places for words: candidates scored by what they would run into, the best taken, one label after another."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from foldproof.drawing.lettering import cap_height, text_width
from foldproof.drawing.plane import XY, Box, box_inside, box_round, inside, length, length_inside, middle_of, minus
from foldproof.drawing.scene import Area, Fill, Item, Kind, Label, Line, parts

CLEAR = 0.7
"""What a label keeps free round itself, in millimetres."""
CROSSED = 30.0
"""What a crossing of two thin lines weighs against millimetres of strokes run into."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacles:
    """What labels keep away from."""

    strokes: tuple[tuple[XY, XY], ...] = ()
    boxes: tuple[Box, ...] = ()
    hatched: tuple[tuple[XY, XY], ...] = ()
    """Strokes that a label may stand on, with a patch."""

    def with_box(self, box: Box) -> "Obstacles":
        """These and one more."""
        return replace(self, boxes=(*self.boxes, box))


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """A label that wants a place."""

    label: Label
    places: tuple[tuple[XY, str, bool], ...]
    """Candidates, the best first: where, the anchor, and whether upright."""
    room: tuple[XY, ...] | None = None
    """A ring that it must lie inside."""
    must: bool = True
    """Whether it is set even where it runs into something; else it is left out."""
    about: XY | None = None
    """The point that it speaks of: a thin line leads there from far away."""
    area: tuple[XY, ...] = ()
    """The ring round that point: no line is needed from within it."""


def obstacles_of(items: Iterable[Item]) -> Obstacles:
    """The strokes and boxes that items put in the way."""
    strokes: list[tuple[XY, XY]] = []
    boxes: list[Box] = []
    hatched: list[tuple[XY, XY]] = []
    for item in items:
        for part in parts(item):
            match part:
                case Line(kind=Kind.HATCH):
                    hatched += _steps(part.points, part.closed)
                case Line():
                    strokes += _steps(part.points, part.closed)
                case Area(fill=Fill.INK):
                    boxes.append(box_round(part.rings[0]))
                case Area(edge=edge) if edge is not None:
                    for ring in part.rings:
                        strokes += _steps(ring, True)
                case Label():
                    boxes.append(part.box)
    return Obstacles(strokes=tuple(strokes), boxes=tuple(boxes), hatched=tuple(hatched))


def _steps(points: Sequence[XY], closed: bool) -> list[tuple[XY, XY]]:
    pairs = list(pairwise(points))
    return [*pairs, (points[-1], points[0])] if closed else pairs


def set_labels(wishes: Iterable[Wish], obstacles: Obstacles) -> tuple[Item, ...]:
    """The labels in their places, and the thin lines that lead from them; those that may be left out come last."""
    placed: list[Item] = []
    leads: list[Line] = []
    for wish in sorted(wishes, key=lambda one: not one.must):
        best: tuple[tuple[float, int], Label] | None = None
        for rank, (at, anchor, upright) in enumerate(wish.places):
            label = replace(wish.label, at=at, anchor=anchor, upright=upright)
            cost = _cost(label, wish, obstacles, best[0][0] if best else float("inf"))
            cost += _crossed(label, wish, leads, obstacles)
            if best is None or (cost, rank) < best[0]:
                best = ((cost, rank), label)
            if cost == 0:
                break
        if best is None or (best[0][0] > 0 and not wish.must):
            continue
        label = best[1]
        room = label.box.grown(CLEAR)
        if any(length_inside(p, q, room) > 0 for p, q in obstacles.hatched):
            label = replace(label, patch=True)
        if wish.about is not None and not (wish.area and box_inside(label.box, wish.area)):
            lead = _lead(label, wish.about)
            if lead is not None:
                placed.append(lead)
                leads.append(lead)
                obstacles = replace(obstacles, strokes=(*obstacles.strokes, *_steps(lead.points, False)))
        placed.append(label)
        obstacles = obstacles.with_box(label.box)
    return tuple(placed)


def _cost(label: Label, wish: Wish, obstacles: Obstacles, most: float) -> float:
    """What a label would run into: shared areas and lengths of strokes; reckoned no further than `most`."""
    box = label.box.grown(CLEAR)
    cost = 0.0 if wish.room is None or box_inside(box, wish.room) else 50.0
    cost += sum(box.share(other) for other in obstacles.boxes)
    for p, q in obstacles.strokes:
        if cost >= most:
            break
        cost += length_inside(p, q, box)
    return cost


def _crossed(label: Label, wish: Wish, leads: Sequence[Line], obstacles: Obstacles) -> float:
    """What it costs that the thin line from a label crosses earlier ones, or runs through what is written already."""
    if wish.about is None or (wish.area and box_inside(label.box, wish.area)):
        return 0.0
    lead = _lead(label, wish.about)
    if lead is None:
        return 0.0
    way = (lead.points[0], lead.points[1])
    crossings = sum(_cross(way, (one.points[0], one.points[1])) for one in leads)
    return CROSSED * crossings + sum(length_inside(*way, box) for box in obstacles.boxes)


def _cross(one: tuple[XY, XY], other: tuple[XY, XY]) -> bool:
    """Whether two stretches cross within both."""
    def side(a: XY, b: XY, p: XY) -> float:
        return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])

    return (side(*one, other[0]) * side(*one, other[1]) < 0) and (side(*other, one[0]) * side(*other, one[1]) < 0)


def _lead(label: Label, about: XY) -> Line | None:
    box = label.box.grown(0.5)
    near = (min(max(about[0], box.left), box.right), min(max(about[1], box.bottom), box.top))
    return Line(points=(near, about), kind=Kind.MEASURE) if length(minus(about, near)) > 2.5 else None


def places_inside(
    ring: Sequence[XY], text: str, pt: float, *, bold: bool = False, covered: Sequence[Sequence[XY]] = (),
) -> Iterator[tuple[XY, str, bool]]:
    """Candidates on a lattice in a ring, outside what covers it, from the middle of the rest outward.

    Upright ones come first where the ring is narrow.
    """
    box = box_round(ring)
    width = text_width(text, pt, bold=bold) + 2 * CLEAR
    lattice = [
        (box.left + box.width * (i + 0.5) / 11, box.bottom + box.height * (j + 0.5) / 13)
        for i in range(11) for j in range(13)
    ]
    free = [p for p in lattice if inside(p, ring) and not any(inside(p, over) for over in covered)]
    middle = middle_of(ring)
    if free and len(free) < len(lattice):
        middle = (sum(p[0] for p in free) / len(free), sum(p[1] for p in free) / len(free))
    if not any(inside(middle, over) for over in covered):
        free.append(middle)
    near = sorted(free, key=lambda p: length(minus(p, middle)))
    ways = (False, True) if width <= box.width * 0.96 else (True, False)
    for upright in ways:
        for p in near:
            yield (p, "middle", upright)


def places_round(
    p: XY, pt: float, reach: Sequence[float] = (1.6, 4.0, 7.0, 11.0, 16.0, 22.0),
) -> Iterator[tuple[XY, str, bool]]:
    """Candidates round a point: to the right, left, above and below, nearer first."""
    half = cap_height(pt) / 2
    for r in reach:
        for dx, dy, anchor in (
            (r, 0, "start"), (-r, 0, "end"), (0, r + half, "middle"), (0, -r - half, "middle"),
            (r, r, "start"), (-r, r, "end"), (r, -r, "start"), (-r, -r, "end"),
        ):
            yield ((p[0] + dx, p[1] + dy), anchor, False)


def places_along(path: Sequence[XY], pt: float) -> Iterator[tuple[XY, str, bool]]:
    """Candidates on both sides of a curve, nearer first, its middle before its ends."""
    half = cap_height(pt) / 2
    count = len(path)
    for away in (1.6, 3.0, 5.0, 8.0, 12.0):
        for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95):
            x, y = path[round(share * (count - 1))]
            yield ((x, y + away + half), "middle", False)
            yield ((x, y - away - half), "middle", False)
            yield ((x + away, y), "start", False)
            yield ((x - away, y), "end", False)
