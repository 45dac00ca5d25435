"""A scene: what is to be drawn, in millimetres on paper, as plain records.

The origin is the bottom left corner of the drawing; x runs to the right, y up. Later items lie on earlier ones.
Composite items (`Arrow`, `Dimension`, `Hatch`) are taken apart into strokes, areas and labels by `parts`, so that
the ink and the check of legibility see the same marks.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from foldproof.drawing.lettering import cap_height, drop, line_step, text_width
from foldproof.drawing.plane import XY, Box, box_round, clip_to_box, joined, left_of, minus, plus, stripes, times, unit


class Kind(StrEnum):
    """What a stroke stands for (facts: folding notation and technical drawing)."""

    CUT = "cut"
    """A cut that is made now: solid, heavy."""
    GUIDE = "guide"
    """The edge that lies against the fence: solid, heaviest."""
    EDGE = "edge"
    """The edge of paper: solid."""
    STRONG = "strong"
    """The edge of what is put on now: solid, heavier."""
    QUIET = "quiet"
    """The edge of something that only gives bearings: thin, grey."""
    VALLEY = "valley"
    """Even dashes."""
    MOUNTAIN = "mountain"
    """Dash, dot, dot."""
    PRESSED = "pressed"
    """A score for looks that never folds: long dashes."""
    CREASE = "crease"
    """A score or crease that is there already: thin, solid, stops short of the edge."""
    HIDDEN = "hidden"
    """An edge that lies out of sight: dotted."""
    MEASURE = "measure"
    """Dimension and extension lines: thin, solid."""
    TRACK = "track"
    """The line that a blade or a tip runs along, beyond the paper: thin, long dashes."""
    HATCH = "hatch"
    """Adhesive, or the body of a tool: thin."""
    MOTION = "motion"
    """The shaft of an arrow."""


class Fill(StrEnum):
    """What an area stands for."""

    FRONT = "front"
    BACK = "back"
    BLANK = "blank"
    """The ground itself: covers what lies below."""
    GONE = "gone"
    """Paper that is cut away."""
    INK = "ink"
    TOOL = "tool"


class HeadKind(StrEnum):
    """The head of an arrow."""

    SOLID = "solid"
    HOLLOW_HALF = "hollow half"
    SLIM = "slim"
    """The narrow head of a dimension."""
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A stroke through points."""

    points: tuple[XY, ...]
    kind: Kind
    closed: bool = False
    within: bool = False
    """Whether a straight stroke is inked wholly to the left of its way, inside the paper whose edge it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A filled area: an outline and holes, by the even-odd rule."""

    rings: tuple[tuple[XY, ...], ...]
    fill: Fill
    tone: str | None = None
    """The paper's own tone, a colour word or #rrggbb: an extra, never the only sign."""
    edge: Kind | None = None
    shade: float = 0.0
    """How much darker it is for lying away from the light, 0 to 1."""
    part: bool = False
    """Whether it is a part of a larger area that was cut for sorting: inked so that no seam shows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words, centred on a point (the middle of their capitals) or set from their left or right end.

    A line break parts them into lines, the block as a whole about the point; only level labels have several.
    """

    text: str
    at: XY
    pt: float
    anchor: str = "middle"
    """`start`, `middle` or `end`."""
    upright: bool = False
    """Whether it reads from the bottom up."""
    bold: bool = False
    italic: bool = False
    quiet: bool = False
    patch: bool = False
    """Whether it stands on a blank patch, so that hatching and thin lines below don't disturb it."""

    @property
    def lines(self) -> tuple[str, ...]:
        """Its lines, from the top."""
        return tuple(self.text.split("\n"))

    @property
    def box(self) -> Box:
        """The room that its letters take."""
        lines = self.lines
        width = max(text_width(line, self.pt, bold=self.bold, italic=self.italic) for line in lines)
        half = cap_height(self.pt) / 2 + (len(lines) - 1) * line_step(self.pt) / 2
        start = {"start": 0.0, "middle": -width / 2, "end": -width}[self.anchor]
        low, high = -half - drop(self.pt), half
        x, y = self.at
        if self.upright:
            return Box(x - high, y + start, x - low, y + start + width)
        return Box(x + start, y + low, x + start + width, y + high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrow:
    """A stroke through points with a head at its end."""

    points: tuple[XY, ...]
    head: HeadKind = HeadKind.SOLID
    kind: Kind = Kind.MOTION
    size: float = 2.4
    """Of the head, in millimetres."""
    both: bool = False
    """Whether its start carries the same head: there and back again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A length: two extension lines, a line with two heads, and the number."""

    start: XY
    end: XY
    """The two points on the work, whose distance is the length at the drawing's scale."""
    row: tuple[XY, XY]
    """Where the dimension line runs: the feet of start and end on it."""
    label: Label
    outward: bool = False
    """Whether the heads stand outside and point inward, where there is no room between."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """Slanted strokes that fill an area."""

    rings: tuple[tuple[XY, ...], ...]
    spacing: float = 1.6
    slope: XY = (1.0, 1.0)


Item = Line | Area | Label | Arrow | Dimension | Hatch
Part = Line | Area | Label


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Everything that is to be drawn."""

    width: float
    height: float
    items: tuple[Item, ...]


HEAD = 1.7
HALF_HEAD = 0.45
GAP = 0.9
"""Between the work and an extension line."""
BEYOND = 1.0
"""How far an extension line runs past the dimension line."""


def parts(item: Item) -> Iterator[Part]:
    """The strokes, areas and labels that an item is made of, in drawing order."""
    match item:
        case Line() | Area() | Label():
            yield item
        case Hatch():
            for stroke in stripes(item.rings, item.spacing, item.slope):
                yield Line(points=stroke, kind=Kind.HATCH)
        case Arrow():
            yield from _arrow_parts(item)
        case Dimension():
            yield from _dimension_parts(item)


def all_parts(scene: Scene) -> Iterator[Part]:
    """The parts of every item."""
    for item in scene.items:
        yield from parts(item)


def _arrow_parts(arrow: Arrow) -> Iterator[Part]:
    tip, before = arrow.points[-1], arrow.points[-2]
    along = unit(minus(tip, before))
    side = left_of(along)
    foot = minus(tip, times(along, arrow.size))
    wide = times(side, arrow.size * 0.42)
    if arrow.head is HeadKind.NONE:
        yield Line(points=arrow.points, kind=arrow.kind)
        return
    if arrow.head is HeadKind.HOLLOW_HALF:
        yield Line(points=arrow.points, kind=arrow.kind)
        wide = times(side, arrow.size * 0.55)
        yield Area(rings=((tip, plus(foot, wide), foot),), fill=Fill.BLANK, edge=arrow.kind)
        return
    if arrow.both:
        middle = len(arrow.points) // 2
        yield from _arrow_parts(replace(arrow, both=False, points=arrow.points[middle:]))
        yield from _arrow_parts(replace(arrow, both=False, points=arrow.points[middle::-1]))
        return
    yield Line(points=(*arrow.points[:-1], minus(tip, times(along, arrow.size * 0.7))), kind=arrow.kind)
    if arrow.head is HeadKind.SLIM:
        wide = times(side, HALF_HEAD)
    yield Area(rings=((tip, plus(foot, wide), minus(foot, wide)),), fill=Fill.INK)


def _dimension_parts(dimension: Dimension) -> Iterator[Part]:
    p, q = dimension.row
    for on_work, on_row in ((dimension.start, p), (dimension.end, q)):
        away = unit(minus(on_row, on_work))
        if away != (0.0, 0.0):
            yield Line(points=(plus(on_work, times(away, GAP)), plus(on_row, times(away, BEYOND))), kind=Kind.MEASURE)
    along = unit(minus(q, p))
    if dimension.outward:
        for tip, way in ((p, along), (q, times(along, -1))):
            tail = minus(tip, times(way, HEAD + 1.6))
            yield from _arrow_parts(Arrow(points=(tail, tip), head=HeadKind.SLIM, kind=Kind.MEASURE, size=HEAD))
    else:
        # the line is broken for a number that stands on it
        gap = clip_to_box(p, q, dimension.label.box.grown(0.6)) or (times(plus(p, q), 0.5),) * 2
        for tip, tail in ((p, gap[0]), (q, gap[1])):
            yield from _arrow_parts(Arrow(points=(tail, tip), head=HeadKind.SLIM, kind=Kind.MEASURE, size=HEAD))
    yield dimension.label


def part_box(part: Part) -> Box:
    """The room that a part takes, without the width of its stroke."""
    match part:
        case Line():
            return box_round(part.points)
        case Area():
            return box_round(p for ring in part.rings for p in ring)
        case Label():
            return part.box


def items_box(items: tuple[Item, ...]) -> Box:
    """The room that items take; there is at least one."""
    return joined(part_box(part) for item in items for part in parts(item))


def moved(item: Item, by: XY) -> Item:
    """The item somewhere else."""
    match item:
        case Line() | Arrow():
            return replace(item, points=tuple(plus(p, by) for p in item.points))
        case Area() | Hatch():
            return replace(item, rings=tuple(tuple(plus(p, by) for p in ring) for ring in item.rings))
        case Label():
            return replace(item, at=plus(item.at, by))
        case Dimension():
            return replace(
                item, start=plus(item.start, by), end=plus(item.end, by),
                row=(plus(item.row[0], by), plus(item.row[1], by)),
                label=replace(item.label, at=plus(item.label.at, by)),
            )


def framed(items: tuple[Item, ...], margin: float = 1.5) -> Scene:
    """A scene just large enough for the items, with a margin."""
    box = items_box(items)
    by = (margin - box.left, margin - box.bottom)
    return Scene(
        width=box.width + 2 * margin, height=box.height + 2 * margin, items=tuple(moved(item, by) for item in items)
    )
