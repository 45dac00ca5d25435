"""A layout as numbered work at the trimmer: one setting of the stop at a time, long strips before short ones."""

from collections.abc import Iterable
from fractions import Fraction

from foldproof.classroom.sheets import Cut, Line, Node, Offcut, Taken, taken
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """Cuts of one setting on rectangles that are all alike."""

    number: int
    """From 1, in the order of work."""
    takes: str
    """`the sheet`, or the letter of a strip."""
    takes_size: tuple[Fraction, Fraction]
    """Width and height as it lies on the sheet's drawing."""
    takes_count: int
    """How many such rectangles there are from one sheet."""
    line: Line
    at: Fraction
    """What is cut off each time: the setting, as it is to come out."""
    cuts: int
    """On each rectangle."""
    gives: str
    """The part's name, a strip's letter, or `offcut`."""
    gives_size: tuple[Fraction, Fraction]
    gives_count: int
    """From each rectangle."""
    rest: str
    """What the last cut leaves beyond it: a part, a letter, `offcut`; empty while another row goes on with it."""
    rest_size: tuple[Fraction, Fraction] | None
    turned: bool
    """Whether the part that it gives lies on its side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corners:
    """The last work on a sheet: rectangles that are cut apart from corner to corner."""

    number: int
    part: str
    count: int
    """Rectangles on one sheet."""


def corner_to_corner(root: Node, triangles: Iterable[str]) -> tuple[Corners, ...]:
    """What is cut along its diagonal after all other work, one row to a part."""
    got, first = taken(root), len(work_through(root)[0]) + 1
    names = [name for name in triangles if got[name]]
    return tuple(Corners(number=first + at, part=name, count=got[name]) for at, name in enumerate(names))


def work_through(root: Node) -> tuple[tuple[Work, ...], dict[Node, str]]:
    """The work on one sheet, and the letter of each strip that is cut on."""
    letters: dict[Node, str] = {}
    rows: list[Work] = []
    waiting: list[tuple[Node, str, int]] = [(root, "the sheet", 1)]
    while waiting:
        node, name, count = waiting.pop(0)
        if not isinstance(node, Cut):
            continue
        found: dict[Node, int] = {}
        here: Node = node
        while isinstance(here, Cut) and here.line is node.line:
            first, cuts = here, 0
            while isinstance(here, Cut) and here.line is node.line and (here.at, here.near) == (first.at, first.near):
                cuts += 1
                here = here.far
            gives_count = cuts + int(here == first.near)
            found[first.near] = found.get(first.near, 0) + gives_count
            over = not (isinstance(here, Cut) and here.line is node.line)
            rest = "" if not over or here == first.near else _name(here, letters)
            if over and here != first.near:
                found[here] = found.get(here, 0) + 1
            rows.append(
                Work(
                    number=len(rows) + 1,
                    takes=name,
                    takes_size=(node.width, node.height),
                    takes_count=count,
                    line=node.line,
                    at=first.at,
                    cuts=cuts,
                    gives=_name(first.near, letters),
                    gives_size=(first.near.width, first.near.height),
                    gives_count=gives_count,
                    rest=rest,
                    rest_size=(here.width, here.height) if rest else None,
                    turned=isinstance(first.near, Taken) and first.near.turned,
                )
            )
            if over:
                break
        for child, times in found.items():
            if isinstance(child, Cut):
                waiting.append((child, letters[child], times * count))
    return tuple(rows), letters


def _name(node: Node, letters: dict[Node, str]) -> str:
    if isinstance(node, Taken):
        return node.part
    if isinstance(node, Offcut):
        return "offcut"
    if node not in letters:
        letters[node] = _letter(len(letters))
    return letters[node]


def _letter(number: int) -> str:
    """A, B, ..., Z, AA, AB, ..."""
    return (_letter(number // 26 - 1) if number >= 26 else "") + chr(ord("A") + number % 26)
