"""Sheets filled part by part in a changing order: parts that came last move forward and are tried again.

Quick and simple beside the tables of worth; good where everything has to go into very few sheets.
"""

from dataclasses import dataclass, field
from random import Random

from foldproof.classroom.sheets import Line
from foldproof.classroom.task import Leaf, Task, Tree, beside


@dataclass(slots=True)
class Room:
    """A rectangle of a sheet: free, holding one part, or divided in two."""

    width: int
    height: int
    leaf: Leaf | None = None
    line: Line = Line.UPRIGHT
    halves: tuple["Room", "Room"] | None = field(default=None)


def fill_in_order(task: Task, order: list[int], random: Random, most: int) -> tuple[list[Tree], list[int]]:
    """Sheets filled with the kinds of `order` one by one, at most `most` sheets; and the kinds that were left over.

    Each part goes where the least is left beside it; the rest of its rectangle is divided along the shorter side,
    now and then along the other.
    """
    sheets: list[Room] = []
    free: list[Room] = []
    left: list[int] = []
    for kind in order:
        ways = list(task.kinds[kind].ways())
        best: tuple[int, int, bool, Room] | None = None
        for room in free:
            for w, h, turned in ways:
                if w <= room.width and h <= room.height:
                    spare = min(room.width - w, room.height - h)
                    rest = room.width * room.height - w * h
                    if best is None or (spare, rest) < best[:2]:
                        best = (spare, rest, turned, room)
        if best is None:
            if len(sheets) == most:
                left.append(kind)
                continue
            room = Room(width=task.width, height=task.height)
            sheets.append(room)
            fitting = [turned for w, h, turned in ways if w <= room.width and h <= room.height]
            best = (0, 0, random.choice(fitting), room)
            free.append(room)
        _, _, turned, room = best
        free = [one for one in free if one is not room]
        free += _put(task, room, kind, turned, random)
    return [tree for room in sheets if (tree := _tree(room)) is not None], left


def _put(task: Task, room: Room, kind: int, turned: bool, random: Random) -> list[Room]:
    """Put a part into the corner of a room; the free rooms that remain."""
    part = task.kinds[kind]
    w, h = (part.height, part.width) if turned else (part.width, part.height)
    beside_it, above_it = room.width - w, room.height - h
    upright_first = (beside_it > above_it) != (random.random() < 0.25)
    rooms: list[Room] = []
    here = room
    for line in (Line.UPRIGHT, Line.LEVEL) if upright_first else (Line.LEVEL, Line.UPRIGHT):
        if line is Line.UPRIGHT and beside_it > 0:
            near, far = Room(width=w, height=here.height), Room(width=beside_it, height=here.height)
        elif line is Line.LEVEL and above_it > 0:
            near, far = Room(width=here.width, height=h), Room(width=here.width, height=above_it)
        else:
            continue
        here.line, here.halves = line, (near, far)
        rooms.append(far)
        here = near
    here.leaf = Leaf(kind=kind, turned=turned)
    return rooms


def _tree(room: Room) -> Tree | None:
    if room.halves is None:
        return room.leaf
    one, other = _tree(room.halves[0]), _tree(room.halves[1])
    return beside(room.line, one, other) if one is not None and other is not None else one or other


def first_order(task: Task, random: Random) -> list[int]:
    """All copies, by area or longest side falling, a little shaken."""
    by_side = random.random() < 0.5
    keys = [
        (max(kind.width, kind.height) if by_side else kind.width * kind.height) * random.uniform(0.85, 1.15)
        for kind in task.kinds
    ]
    return [i for i in sorted(range(len(keys)), key=lambda i: -keys[i]) for _ in range(task.kinds[i].count)]


def move_forward(order: list[int], left: list[int], random: Random) -> list[int]:
    """The order with the kinds that were left over some places further to the front."""
    new = list(order)
    for kind in left:
        at = len(new) - 1 - new[::-1].index(kind)
        del new[at]
        new.insert(random.randint(at // 3, at), kind)
    for _ in range(random.randint(0, 2)):
        a, b = random.randrange(len(new)), random.randrange(len(new))
        new[a], new[b] = new[b], new[a]
    return new
