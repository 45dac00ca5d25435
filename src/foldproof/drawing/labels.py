"""Places for words: candidates scored by what they would run into; each takes its best, then all give way in turn."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from random import Random

import numpy as np

from foldproof.drawing.plane import XY, Box, box_inside, box_round, length, length_inside, minus
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


class _Strokes:
    """Strokes in a form in which many rooms are held against all of them at once."""

    def __init__(self, strokes: Sequence[tuple[XY, XY]]) -> None:
        ends = np.array(strokes, dtype=float).reshape(-1, 2, 2)
        self._start, self._way = ends[:, 0], ends[:, 1] - ends[:, 0]
        self._length = np.hypot(self._way[:, 0], self._way[:, 1])

    def inside(self, rooms: Sequence[Box]) -> list[float]:
        """The length of strokes inside each room (Liang and Barsky's way)."""
        bounds = np.array([((room.left, room.right), (room.bottom, room.top)) for room in rooms])
        low, high = np.zeros((len(rooms), len(self._start))), np.ones((len(rooms), len(self._start)))
        with np.errstate(divide="ignore", invalid="ignore"):
            for axis in (0, 1):
                start, way = self._start[:, axis], self._way[:, axis]
                least, most = bounds[:, axis, :1] - start, bounds[:, axis, 1:] - start
                shares = least / way, most / way
                beside = (way == 0) & ((least > 0) | (most < 0))
                low = np.maximum(low, np.where(way == 0, np.where(beside, 2.0, 0.0), np.minimum(*shares)))
                high = np.minimum(high, np.where(way == 0, 1.0, np.maximum(*shares)))
        found: list[float] = (np.maximum(high - low, 0.0) @ self._length).tolist()
        return found


def _steps(points: Sequence[XY], closed: bool) -> list[tuple[XY, XY]]:
    pairs = list(pairwise(points))
    return [*pairs, (points[-1], points[0])] if closed else pairs


def set_labels(wishes: Iterable[Wish], obstacles: Obstacles) -> tuple[Item, ...]:
    """The labels in their places, and the thin lines that lead from them; those that may be left out come last.

    Each takes the best of its places in turn. Those that then run into something are moved again, the places of the
    others weighed against each other, until all are clear or nothing gets better; labels that may be left out stand
    only where they are clear.
    """
    every = sorted(wishes, key=lambda one: not one.must)
    strokes = _Strokes(obstacles.strokes)
    needed = [_Choice(wish, obstacles, strokes) for wish in every if wish.must and wish.places]
    for i, choice in enumerate(needed):
        choice.take_best(needed[:i])
    _settle(needed)
    placed = list(needed)
    for wish in every:
        if not wish.must and wish.places:
            choice = _Choice(wish, obstacles, strokes)
            if choice.take_best(placed) == 0:
                placed.append(choice)
    return tuple(item for choice in placed for item in choice.items)


AT_ONCE = 24
"""Places of a label that are worked out together."""
PATIENCE = 40
"""How often labels are moved without anything getting better before they are left as they are."""


class _Choice:
    """A label while its place is being chosen."""

    def __init__(self, wish: Wish, obstacles: Obstacles, strokes: _Strokes) -> None:
        self.wish = wish
        self.obstacles = obstacles
        self.strokes = strokes
        self.at = 0
        self.spots: dict[int, _Spot] = {}

    def spot(self, index: int) -> "_Spot":
        """A place, worked out when it is first looked at: the first by itself, the rest by the dozen."""
        if index not in self.spots:
            first = index and 1 + (index - 1) // AT_ONCE * AT_ONCE
            self._work_out(range(first, min(first + AT_ONCE, len(self.wish.places)) if index else 1))
        return self.spots[index]

    def _work_out(self, indexes: Sequence[int]) -> None:
        about, area = self.wish.about, self.wish.area
        labels = [replace(self.wish.label, at=at, anchor=anchor, upright=upright)
                  for at, anchor, upright in map(self.wish.places.__getitem__, indexes)]
        rooms = [label.box.grown(CLEAR) for label in labels]
        run_into = self.strokes.inside(rooms)
        for index, label, room, cost in zip(indexes, labels, rooms, run_into, strict=True):
            lead = None if about is None or (area and box_inside(label.box, area)) else _lead(label, about)
            self.spots[index] = _Spot(
                label=label, lead=lead, room=room, cost=cost + _cost(room, lead, self.wish, self.obstacles))

    @property
    def taken(self) -> "_Spot":
        """The place that is taken now."""
        return self.spot(self.at)

    def cost_at(self, index: int, others: Sequence["_Choice"]) -> float:
        """What a place costs while the others stand where they do."""
        spot = self.spot(index)
        return spot.cost + sum(_clash(spot, other.taken) for other in others if other is not self)

    def take_best(self, others: Sequence["_Choice"]) -> float:
        """Take the first of the cheapest places, and tell what it costs."""
        best: tuple[float, int] | None = None
        for index in range(len(self.wish.places)):
            cost = self.spot(index).cost
            if best is not None and cost >= best[0]:
                continue
            cost = self.cost_at(index, others)
            if best is None or cost < best[0]:
                best = (cost, index)
            if cost == 0:
                break
        assert best is not None
        self.at = best[1]
        return best[0]

    @property
    def items(self) -> tuple[Item, ...]:
        """The label, on a patch where hatching is beneath, after the line that leads from it."""
        spot = self.taken
        hatched = any(length_inside(p, q, spot.room) > 0 for p, q in self.obstacles.hatched)
        label = replace(spot.label, patch=True) if hatched else spot.label
        return (label,) if spot.lead is None else (spot.lead, label)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """A label at one of its places."""

    label: Label
    lead: Line | None
    room: Box
    """The label's box and what it keeps free round itself."""
    cost: float
    """What it runs into, the other labels aside."""


def _settle(choices: Sequence[_Choice]) -> None:
    """Move labels that run into others: each to its cheapest place, or those out of its way.

    Its chance is seeded, so that a drawing comes out the same every time; the best arrangement seen is kept.
    """
    def hurt() -> list[_Choice]:
        return [one for one in choices if one.cost_at(one.at, choices) > 0]

    def total() -> float:
        return sum(one.cost_at(one.at, choices) for one in choices)

    best, kept = total(), [one.at for one in choices]
    chance = Random(1)
    patience = PATIENCE
    while patience and (moving := hurt()):
        patience -= 1
        one = chance.choice(moving)
        before = one.at
        one.take_best(choices)
        if one.at == before:
            # it stands as well as it can: push one of those that it runs into
            crowd = [other for other in choices if other is not one and _clash(one.taken, other.taken) > 0]
            if not crowd:
                continue
            other = chance.choice(crowd)
            free = [i for i in range(len(other.wish.places))
                    if other.spot(i).cost + _clash(other.spot(i), one.taken) == 0]
            if free:
                other.at = chance.choice(free[:12])
        now = total()
        if now < best:
            best, kept, patience = now, [choice.at for choice in choices], PATIENCE
    for choice, at in zip(choices, kept, strict=True):
        choice.at = at


def _cost(room: Box, lead: Line | None, wish: Wish, obstacles: Obstacles) -> float:
    """What a label and its line run into but for strokes: shared areas, and lines that run through words."""
    cost = 0.0 if wish.room is None or box_inside(room, wish.room) else 50.0
    cost += sum(room.share(other) for other in obstacles.boxes)
    if lead is not None:
        cost += sum(length_inside(lead.points[0], lead.points[1], box) for box in obstacles.boxes)
    return cost


def _clash(one: _Spot, other: _Spot) -> float:
    """What it costs that two labels stand where they do: shared room, lines through words, lines that cross."""
    cost = one.room.share(other.label.box)
    if one.lead is not None:
        way = (one.lead.points[0], one.lead.points[1])
        cost += length_inside(*way, other.room)
        if other.lead is not None and cross(way, (other.lead.points[0], other.lead.points[1])):
            cost += CROSSED
    if other.lead is not None:
        cost += length_inside(other.lead.points[0], other.lead.points[1], one.room)
    return cost


def cross(one: tuple[XY, XY], other: tuple[XY, XY]) -> bool:
    """Whether two stretches cross within both."""
    def side(a: XY, b: XY, p: XY) -> float:
        return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])

    return (side(*one, other[0]) * side(*one, other[1]) < 0) and (side(*other, one[0]) * side(*other, one[1]) < 0)


def _lead(label: Label, about: XY) -> Line | None:
    box = label.box.grown(0.5)
    near = (min(max(about[0], box.left), box.right), min(max(about[1], box.bottom), box.top))
    return Line(points=(near, about), kind=Kind.MEASURE) if length(minus(about, near)) > 2.5 else None
