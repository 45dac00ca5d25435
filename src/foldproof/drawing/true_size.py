"""Pieces at their true size in millimetres: what is cut, what is scored, and what is written beside it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from html import escape

from foldproof.folding.card import Card, CardPiece
from foldproof.measures.writing import write_length, write_size
from foldproof.paper.face import Fold
from foldproof.paper.polygon import bounding_box, centre_of
from foldproof.paper.vector import Point, Ring, Segment

CUT, VALLEY, MOUNTAIN, PRESSED, WORDS = "cut", "score-valley", "score-mountain", "score-unfolded", "words"
GROUPS = (CUT, VALLEY, MOUNTAIN, PRESSED, WORDS)
"""The groups of the vector template, by their ids."""
_STROKES = {
    CUT: 'stroke="#000" stroke-width="0.3"',
    VALLEY: 'stroke="#000" stroke-width="0.25" stroke-dasharray="3 1.5"',
    MOUNTAIN: 'stroke="#000" stroke-width="0.25" stroke-dasharray="4 1 0.6 1 0.6 1"',
    PRESSED: 'stroke="#000" stroke-width="0.15"',
}
_GROUP_OF = {Fold.VALLEY: VALLEY, Fold.MOUNTAIN: MOUNTAIN, Fold.NONE: PRESSED}
TEXT_MM = 3.2
"""About 9 points: read at arm's length."""
GAP_MM = 14.0
"""Between shapes: room for their words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line, a ring or a circle of a group."""

    group: str
    markup: str
    """An SVG element without its stroke, in millimetres, the shape's own corner at the origin, y down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueShape:
    """One shape to cut, front up."""

    names: tuple[str, ...]
    """Pieces and layers that are cut and scored alike."""
    paper: str
    size: str
    """In the recipe's unit, in words."""
    width_mm: float
    height_mm: float
    strokes: tuple[Stroke, ...]
    words: tuple[tuple[float, float, str], ...]
    """Names of panels, centred at a place inside it, and at the end of each score its distance from the edge."""

    @property
    def title(self) -> tuple[str, str]:
        """The two lines that are written beneath it."""
        count = f"{len(self.names)} × " if len(self.names) > 1 else ""
        return f"{count}{', '.join(self.names)}", f"{self.paper}, {self.size}, front up"

    @property
    def title_mm(self) -> float:
        """How wide those lines are, about."""
        return max(map(len, self.title)) * TEXT_MM * 0.52


def true_shapes(card: Card) -> tuple[TrueShape, ...]:
    """Every shape that is cut from paper, in the recipe's order; those that are alike once."""
    found: dict[tuple[str, tuple[Stroke, ...]], TrueShape] = {}
    for piece in card.pieces:
        if piece.bought or piece.paper is None:
            continue
        shape = _shape(card, piece)
        key = (shape.paper, shape.strokes)
        before = found.get(key)
        names = (*before.names, *shape.names) if before is not None else shape.names
        found[key] = TrueShape(
            names=names, paper=shape.paper, size=shape.size, width_mm=shape.width_mm, height_mm=shape.height_mm,
            strokes=shape.strokes, words=shape.words if len(names) == 1 else ())
    return tuple(found.values())


def elements(shape: TrueShape, group: str, x: float, y: float) -> Iterator[str]:
    """The SVG elements of one group with the shape's top left corner at a place; the words beneath it with WORDS."""
    if group == WORDS:
        for across, down, text in shape.words:
            yield text_at(x + across, y + down, text, anchor="middle")
        yield from title_at(shape, x, y + shape.height_mm)
        return
    inside = "".join(stroke.markup for stroke in shape.strokes if stroke.group == group)
    if inside:
        yield f'<g transform="translate({number(x)} {number(y)})" fill="none" {_STROKES[group]}>{inside}</g>'


def title_at(shape: TrueShape, x: float, y: float) -> Iterator[str]:
    """The two lines beneath a shape whose lower edge is at y."""
    for row, line in enumerate(shape.title, start=1):
        yield text_at(x, y + row * TEXT_MM * 1.15 + 1, line)


def text_at(x: float, y: float, text: str, *, anchor: str = "start", size: float = TEXT_MM) -> str:
    """A line of text with its baseline at a place."""
    return (f'<text x="{number(x)}" y="{number(y)}" font-size="{number(size)}" text-anchor="{anchor}" '
            f'font-family="Source Sans Pro, sans-serif" fill="#000">{escape(text)}</text>')


def template_svg(card: Card) -> str:
    """All shapes of a card in one SVG in millimetres, the lines to cut and to score in groups of their own."""
    shapes = true_shapes(card)
    places, width, height = _in_rows(shapes)
    groups = "\n".join(
        f'<g id="{group}">' + "".join(
            element for shape, (x, y) in zip(shapes, places, strict=True) for element in elements(shape, group, x, y))
        + "</g>" for group in GROUPS)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(width)}mm" height="{number(height)}mm" '
        f'viewBox="0 0 {number(width)} {number(height)}">\n<title>{escape(str(card.recipe.title))}: template at true '
        f"size</title>\n{groups}\n</svg>\n")


def number(value: float) -> str:
    """Millimetres to a thousandth, without needless zeros."""
    return f"{value:.3f}".rstrip("0").rstrip(".") if value else "0"


def _in_rows(shapes: Sequence[TrueShape]) -> tuple[list[tuple[float, float]], float, float]:
    """One below the other, a gap between: the corners, then the width and height of the whole."""
    places: list[tuple[float, float]] = []
    y, widest = GAP_MM, 0.0
    for shape in shapes:
        places.append((GAP_MM, y))
        y += shape.height_mm + GAP_MM
        widest = max(widest, shape.width_mm, shape.title_mm)
    return places, widest + 2 * GAP_MM, y


def _shape(card: Card, piece: CardPiece) -> TrueShape:
    unit = card.recipe.unit
    mm = unit.millimetres
    box = bounding_box(piece.outline)

    def place(point: Point) -> tuple[float, float]:
        return float((point.x - box.left) * mm), float((box.top - point.y) * mm)

    def closed(ring: Ring, round_: bool) -> str:
        if round_:
            around = bounding_box(ring)
            (x, y), radius = place(around.centre), float(around.width * mm / 2)
            return f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"/>'
        return f'<polygon points="{" ".join(f"{number(x)},{number(y)}" for x, y in map(place, ring))}"/>'

    def line(segment: Segment) -> str:
        (x1, y1), (x2, y2) = place(segment.start), place(segment.end)
        return f'<line x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"/>'

    strokes = [Stroke(group=CUT, markup=closed(piece.outline, piece.round))]
    strokes += [Stroke(group=CUT, markup=closed(window.ring, window.round)) for window in piece.windows]
    strokes += [Stroke(group=CUT, markup=line(slit.segment)) for slit in piece.slits]
    strokes += [Stroke(group=_GROUP_OF[score.fold], markup=line(score.segment)) for score in piece.scores]
    words = [
        (*place(centre_of(card.panels[name].ring)), name) for name in piece.panels
        if len(piece.panels) > 1 and _has_room(card.panels[name].ring, name, mm)]
    for score in piece.scores:
        start, end = score.segment.start, score.segment.end
        if start.x == end.x:
            (x, y), told = place(max(start, end, key=lambda p: p.y)), write_length(start.x - box.left, unit)
            words.append((x - len(told) * TEXT_MM * 0.3 - 1, y + TEXT_MM + 1, told))
        elif start.y == end.y:
            (x, y), told = place(min(start, end, key=lambda p: p.x)), write_length(start.y - box.bottom, unit)
            words.append((x + len(told) * TEXT_MM * 0.3 + 1.5, y - 1, told))
    return TrueShape(
        names=(piece.name,), paper=piece.paper or "", size=write_size((box.width, box.height), unit),
        width_mm=float(box.width * mm), height_mm=float(box.height * mm), strokes=tuple(strokes), words=tuple(words))


def _has_room(ring: Ring, name: str, mm: Fraction) -> bool:
    """Whether a name fits into a panel with room to spare."""
    return float(bounding_box(ring).width * mm) > len(name) * TEXT_MM * 0.6 + 4
