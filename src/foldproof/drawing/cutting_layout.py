"""A sheet and how it is cut: every part in its place, what is left over hatched, cuts numbered as in the list."""

from collections.abc import Collection, Mapping
from fractions import Fraction
from math import cos, pi, sin

from foldproof.classroom.instructions import Work, corner_to_corner, work_through
from foldproof.classroom.sheets import Cut, Layout, Line, Node, Offcut, Sheet, Taken, taken
from foldproof.drawing.ink import to_svg
from foldproof.drawing.lettering import text_width
from foldproof.drawing.plane import Box
from foldproof.drawing.record import PLAIN, Drawing, DrawingStyle
from foldproof.drawing.rows import Wanted, set_in_rows
from foldproof.drawing.scene import Area, Fill, Hatch, Item, Kind, Label, framed
from foldproof.drawing.scene import Line as Stroke
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_length, write_size

WIDEST_MM = 58.0
TALLEST_MM = 70.0
_SMALLEST_WORDS = 7.5


def draw_layout(
    layout: Layout,
    sheet: Sheet,
    unit: Unit,
    *,
    name: str,
    tone: str | None,
    names: Mapping[str, str],
    rising: Mapping[str, bool],
    circles: Collection[str] = (),
    style: DrawingStyle = PLAIN,
) -> Drawing:
    """One layout. `names` gives the short words for a part, which may be as short as a letter.

    `rising` has the parts that are cut along a diagonal, and whether it rises to the right while the part lies upright.
    """
    scale = min(WIDEST_MM / float(sheet.width), TALLEST_MM / float(sheet.height))
    items: list[Item] = []
    works, _ = work_through(layout.root)
    words: list[Item] = []
    _paint(layout.root, (Fraction(0), Fraction(0)), scale, tone, names, unit, rising, items, words)
    items += _shapes(layout.root, scale, rising, circles)
    items += words
    for number, (start, end) in _numbered(layout.root, works):
        items += _cut_mark(number, _at(start, scale), _at(end, scale), style)
    box = Box(0.0, 0.0, float(sheet.width) * scale, float(sheet.height) * scale)
    items.append(Stroke(points=box.corners, kind=Kind.EDGE, closed=True))
    wanted = (
        Wanted(
            start=(0.0, box.top), end=(box.right, box.top), text=with_unit(sheet.width, unit), sides=("above",)
        ),
        Wanted(
            start=(box.right, 0.0), end=(box.right, box.top), text=with_unit(sheet.height, unit), sides=("right",)
        ),
    )
    items += set_in_rows(wanted, box, style.small_pt)
    scene = framed(tuple(items))
    return Drawing(
        svg=to_svg(scene, style),
        alt=_alt(layout, sheet, unit, works),
        width_mm=round(scene.width, 2),
        height_mm=round(scene.height, 2),
        name=name,
    )


def _shapes(
    root: Node, scale: float, rising: Mapping[str, bool], circles: Collection[str]
) -> list[Item]:
    """Diagonals, the first of each part with its number, and the circles that are cut from squares."""
    numbers = {one.part: one.number for one in corner_to_corner(root, rising)}
    items: list[Item] = []
    waiting: list[tuple[Node, tuple[Fraction, Fraction]]] = [(root, (Fraction(0), Fraction(0)))]
    while waiting:
        node, at = waiting.pop()
        if isinstance(node, Cut):
            near, far = _children(node, at)
            waiting += [(node.far, far), (node.near, near)]
        elif isinstance(node, Taken) and node.part in rising:
            box = _box(at, node, scale)
            low, high = (box.left, box.bottom), (box.right, box.top)
            if rising[node.part] == node.turned:
                low, high = (box.left, box.top), (box.right, box.bottom)
            items.append(Stroke(points=(low, high), kind=Kind.CUT))
            if (number := numbers.pop(node.part, None)) is not None:
                spot = (low[0] + (high[0] - low[0]) / 5, low[1] + (high[1] - low[1]) / 5)
                items.append(Label(text=str(number), at=spot, pt=_SMALLEST_WORDS, bold=True, patch=True))
        elif isinstance(node, Taken) and node.part in circles:
            box = _box(at, node, scale)
            (x, y), r = box.centre, min(box.width, box.height) / 2
            points = tuple((x + r * cos(2 * pi * k / 48), y + r * sin(2 * pi * k / 48)) for k in range(48))
            items.append(Stroke(points=points, kind=Kind.EDGE, closed=True))
    return items


def _alt(layout: Layout, sheet: Sheet, unit: Unit, works: tuple[Work, ...]) -> str:
    gives = ", ".join(f"{count} {part}" for part, count in taken(layout.root).items())
    return (
        f"A sheet of {sheet.name}, {write_size((sheet.width, sheet.height), unit)}, "
        f"cut in {len(works)} settings; it gives {gives}."
    )


def _paint(
    node: Node,
    at: tuple[Fraction, Fraction],
    scale: float,
    tone: str | None,
    names: Mapping[str, str],
    unit: Unit,
    rising: Collection[str],
    items: list[Item],
    words: list[Item],
) -> None:
    box = _box(at, node, scale)
    match node:
        case Taken():
            items.append(Area(rings=(box.corners,), fill=Fill.FRONT, tone=tone, edge=Kind.EDGE))
            words += _words(
                names.get(node.part, node.part), (node.width, node.height), box, unit, patch=node.part in rising
            )
        case Offcut():
            items.append(Area(rings=(box.corners,), fill=Fill.GONE, edge=Kind.QUIET))
            items.append(Hatch(rings=(box.corners,)))
        case Cut():
            near, far = _children(node, at)
            _paint(node.near, near, scale, tone, names, unit, rising, items, words)
            _paint(node.far, far, scale, tone, names, unit, rising, items, words)


def _children(cut: Cut, at: tuple[Fraction, Fraction]) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]:
    if cut.line is Line.UPRIGHT:
        return at, (at[0] + cut.width - cut.far.width, at[1])
    return at, (at[0], at[1] + cut.height - cut.far.height)


def _box(at: tuple[Fraction, Fraction], node: Node, scale: float) -> Box:
    left, bottom = _at(at, scale)
    return Box(left, bottom, left + float(node.width) * scale, bottom + float(node.height) * scale)


def _at(p: tuple[Fraction, Fraction], scale: float) -> tuple[float, float]:
    return float(p[0]) * scale, float(p[1]) * scale


def _words(
    name: str, size: tuple[Fraction, Fraction], box: Box, unit: Unit, *, patch: bool
) -> list[Item]:
    """The name and below it the size where they fit, level or upright; else the name alone, else nothing.

    They stand on a blank patch where a line runs below them.
    """
    pt = _SMALLEST_WORDS
    sized = f"{write_length(size[0], unit)} × {write_length(size[1], unit)}"
    for text in (f"{name}\n{sized}", name):
        lines = text.split("\n")
        wide = max(text_width(line, pt) for line in lines) + 1.6
        tall = 3.4 * len(lines) + 0.8
        if wide <= box.width and tall <= box.height:
            return [Label(text=text, at=box.centre, pt=pt, patch=patch)]
        if len(lines) == 1 and wide <= box.height and tall <= box.width:
            return [Label(text=text, at=box.centre, pt=pt, upright=True, patch=patch)]
    return []


def _numbered(
    root: Node, works: tuple[Work, ...]
) -> list[tuple[int, tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]]]:
    """The first cut of each numbered setting, from edge to edge of what it divides, found once for each number."""
    _, letters = work_through(root)
    found: list[tuple[int, tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]]] = []
    done: set[int] = set()

    def walk(node: Node, at: tuple[Fraction, Fraction], takes: str) -> None:
        if not isinstance(node, Cut):
            return
        here: Node = node
        where = at
        while isinstance(here, Cut) and here.line is node.line:
            for work in works:
                if (
                    work.number not in done
                    and work.takes == takes
                    and work.line is here.line
                    and work.at == here.at
                    and work.gives_size == (here.near.width, here.near.height)
                ):
                    done.add(work.number)
                    found.append((work.number, _stroke(here, where)))
                    break
            near, far = _children(here, where)
            walk(here.near, near, letters.get(here.near, ""))
            here, where = here.far, far
        walk(here, where, letters.get(here, ""))

    walk(root, (Fraction(0), Fraction(0)), "the sheet")
    return found


def _stroke(cut: Cut, at: tuple[Fraction, Fraction]) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]:
    if cut.line is Line.UPRIGHT:
        return (at[0] + cut.at, at[1]), (at[0] + cut.at, at[1] + cut.height)
    return (at[0], at[1] + cut.at), (at[0] + cut.width, at[1] + cut.at)


def _cut_mark(
    number: int, start: tuple[float, float], end: tuple[float, float], style: DrawingStyle
) -> list[Item]:
    """A heavy line with its number on a blank patch near its start."""
    length = abs(end[0] - start[0]) + abs(end[1] - start[1])
    along = min(3.2, length / 2)
    spot = (start[0] + along, start[1]) if start[1] == end[1] else (start[0], start[1] + along)
    return [
        Stroke(points=(start, end), kind=Kind.CUT),
        Label(text=str(number), at=spot, pt=_SMALLEST_WORDS, bold=True, patch=True),
    ]
