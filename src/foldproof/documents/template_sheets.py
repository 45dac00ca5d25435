"""The full-size template on letter or A4 paper: scored and cut from directly, with a ruler to check the printer by.

A shape that is larger than a sheet is cut into tiles that overlap; crosses in the overlap lie on each other when the
sheets are taped together.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from markupsafe import Markup

from foldproof.documents.handout import SHEETS, file_names
from foldproof.documents.printing import FONT_RULES, to_pdf
from foldproof.documents.theme import Theme
from foldproof.documents.view import View
from foldproof.drawing.true_size import (
    GROUPS,
    TEXT_MM,
    WORDS,
    TrueShape,
    elements,
    number,
    text_at,
    title_at,
    true_shapes,
)
from foldproof.folding.card import Card
from foldproof.measures.quantity import Unit

PAPER_MM = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
"""US letter 8 1/2 x 11 in; A4 by ISO 216."""
MARGIN_MM = 12.7
"""Common printers reach this far (common practice, no source)."""
FOOT_MM = 24.0
"""Room for the ruler and the line beneath it."""
OVERLAP_MM = 12.0
LABEL_MM = 10.0
"""The words beneath a shape."""
_GAP_MM = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """A part of a shape on a sheet; a shape that fits is one tile."""

    shape: TrueShape
    x: float
    y: float
    """Where the top left corner of the tile lies on the sheet, in millimetres from the sheet's own."""
    left: float
    top: float
    width: float
    height: float
    """The part of the shape that it shows, in the shape's own millimetres."""
    turned: bool = False
    """Whether the shape lies on its side, its top toward the right of the sheet; then it is whole."""
    column: int = 0
    row: int = 0
    columns: int = 1
    rows: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class TemplateSheet:
    """One sheet of paper."""

    tiles: tuple[Tile, ...]


def template_files(unit: Unit) -> dict[str, str]:
    """The papers, each with its file's name, as for the handout."""
    return {paper: name.replace("handout", "template") for paper, name in file_names(unit).items()}


def template_pdf(card: Card, view: View, theme: Theme, paper: str) -> bytes:
    """The template on a paper as a PDF whose millimetres are true."""
    sheets = lay_out(true_shapes(card), paper)
    drawn = {f"drawing/template-{n}.svg": ("image/svg+xml", sheet_svg(sheet, paper, card.recipe.unit).encode())
             for n, sheet in enumerate(sheets, start=1)}
    return to_pdf(template_html(view, theme, paper, sheets), drawn)


def template_html(view: View, theme: Theme, paper: str, sheets: Sequence[TemplateSheet]) -> str:
    """The template before it is printed."""
    width, height = PAPER_MM[paper]
    css = Markup("\n".join((
        FONT_RULES, theme.style("template.css"),
        f"@page {{ size: {SHEETS[paper]}; margin: 0; }} .sheet {{ width: {width}mm; height: {height}mm; }}")))
    told = [{"drawing": f"template-{n}", "alt": alt_of(sheet), "number": n} for n, sheet in enumerate(sheets, start=1)]
    return theme.render("template.html", view=view, css=css, sheets=told, margin=MARGIN_MM)


def lay_out(shapes: Sequence[TrueShape], paper: str) -> tuple[TemplateSheet, ...]:
    """Shapes in rows, the highest first, each on its side where only that fits; those that are too large in tiles."""
    room = _room(paper)
    small = sorted(
        ((s, s.width_mm, s.height_mm) if _fits(s.width_mm, s.height_mm, room) else (s, s.height_mm, s.width_mm)
         for s in shapes if _fits_somehow(s, room)), key=lambda laid: -laid[2])
    sheets: list[list[Tile]] = []
    x, y, row = room[0], room[1], 0.0
    for shape, width, height in small:
        needed = max(width, shape.title_mm)
        if x + needed > room[0]:
            x, y = 0.0, y + row
            row = height + LABEL_MM + _GAP_MM
            if y + height + LABEL_MM > room[1]:
                sheets.append([])
                y = 0.0
        sheets[-1].append(Tile(
            shape=shape, x=MARGIN_MM + x, y=MARGIN_MM + y, left=0, top=0, width=width, height=height,
            turned=width != shape.width_mm))
        x += needed + _GAP_MM
    tiled = [[tile] for shape in shapes if not _fits_somehow(shape, room) for tile in tiles(shape, room)]
    return tuple(TemplateSheet(tiles=tuple(placed)) for placed in (*sheets, *tiled))


def tiles(shape: TrueShape, room: tuple[float, float]) -> tuple[Tile, ...]:
    """A large shape cut into tiles of equal size that overlap."""
    height = room[1] - LABEL_MM
    columns, rows = (
        1 if length <= most else ceil((length - OVERLAP_MM) / (most - OVERLAP_MM))
        for length, most in ((shape.width_mm, room[0]), (shape.height_mm, height)))
    wide, high = ((length + (count - 1) * OVERLAP_MM) / count
                  for length, count in ((shape.width_mm, columns), (shape.height_mm, rows)))
    return tuple(
        Tile(shape=shape, x=MARGIN_MM, y=MARGIN_MM, left=column * (wide - OVERLAP_MM), top=row * (high - OVERLAP_MM),
             width=wide, height=high, column=column, row=row, columns=columns, rows=rows)
        for row in range(rows) for column in range(columns))


def _room(paper: str) -> tuple[float, float]:
    width, height = PAPER_MM[paper]
    return width - 2 * MARGIN_MM, height - MARGIN_MM - FOOT_MM


def _fits(width: float, height: float, room: tuple[float, float]) -> bool:
    return width <= room[0] and height + LABEL_MM <= room[1]


def _fits_somehow(shape: TrueShape, room: tuple[float, float]) -> bool:
    return _fits(shape.width_mm, shape.height_mm, room) or _fits(shape.height_mm, shape.width_mm, room)


def sheet_svg(sheet: TemplateSheet, paper: str, unit: Unit) -> str:
    """A whole sheet as one SVG in millimetres."""
    width, height = PAPER_MM[paper]
    parts: list[str] = []
    for count, tile in enumerate(sheet.tiles):
        parts += _tile(tile, f"part-{count}")
    parts += _ruler(MARGIN_MM, height - FOOT_MM + 6, width - 2 * MARGIN_MM, unit)
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(width)}mm" height="{number(height)}mm" '
            f'viewBox="0 0 {number(width)} {number(height)}">{"".join(parts)}</svg>')


def _tile(tile: Tile, name: str) -> list[str]:
    shape = tile.shape
    lines = [group for group in GROUPS if group != WORDS]
    title = list(title_at(shape, tile.x, tile.y + tile.height))
    if tile.turned:
        drawn = [element for group in lines for element in elements(shape, group, 0, 0)]
        words = [text_at(across, down, text, anchor="middle") for across, down, text in shape.words]
        turn = f'transform="translate({number(tile.x + shape.height_mm)} {number(tile.y)}) rotate(90)"'
        return [f"<g {turn}>{''.join((*drawn, *words))}</g>", *title]
    x, y = tile.x - tile.left, tile.y - tile.top
    drawn = [element for group in lines for element in elements(shape, group, x, y)]
    words = [text_at(x + across, y + down, text, anchor="middle") for across, down, text in shape.words
             if tile.left < across < tile.left + tile.width and tile.top < down < tile.top + tile.height]
    if tile.columns == tile.rows == 1:
        return [*drawn, *words, *title]
    hair = 0.2
    clip = (f'<clipPath id="{name}"><rect x="{number(tile.x - hair)}" y="{number(tile.y - hair)}" '
            f'width="{number(tile.width + 2 * hair)}" height="{number(tile.height + 2 * hair)}"/></clipPath>')
    place = f"row {tile.row + 1} of {tile.rows}, column {tile.column + 1} of {tile.columns}"
    told = text_at(tile.x + shape.title_mm + 6, tile.y + tile.height + TEXT_MM * 1.15 + 1,
                   f"{place}: lay the crosses on each other and tape")
    return [clip, f'<g clip-path="url(#{name})">{"".join((*drawn, *words))}</g>', *_crosses(tile), *title, told]


def _crosses(tile: Tile) -> list[str]:
    """Crosses in the middle of each overlap, at a quarter and three quarters of the tile's side."""
    marks: list[tuple[float, float]] = []
    half = OVERLAP_MM / 2
    for share in (0.25, 0.75):
        across, down = tile.x + share * tile.width, tile.y + share * tile.height
        marks += [(tile.x + half, down)] if tile.column else []
        marks += [(tile.x + tile.width - half, down)] if tile.column + 1 < tile.columns else []
        marks += [(across, tile.y + half)] if tile.row else []
        marks += [(across, tile.y + tile.height - half)] if tile.row + 1 < tile.rows else []
    return [
        f'<path d="M{number(x - 3)} {number(y)}H{number(x + 3)}M{number(x)} {number(y - 3)}V{number(y + 3)}" '
        'stroke="#000" stroke-width="0.2" fill="none" class="cross"/>' for x, y in marks]


def _ruler(x: float, y: float, room: float, unit: Unit) -> list[str]:
    """A ruler of 6 in, in eighths, or of 150 mm: in millimetres and centimetres."""
    inch = unit is Unit.INCH
    step, count = (25.4 / 8, 48) if inch else (1.0, 150)
    lengths = {8: 5.0, 4: 4.0, 2: 3.0, 1: 2.0} if inch else {10: 5.0, 5: 3.5, 1: 2.0}
    marks = []
    for n in range(count + 1):
        tall = next(length for every, length in lengths.items() if n % every == 0)
        marks.append(f"M{number(x + n * step)} {number(y)}v{number(tall)}")
    every = 8 if inch else 10
    figures = [text_at(x + n * step, y + 8.2, str(n // every), anchor="middle", size=2.8)
               for n in range(0, count + 1, every)]
    length = f"{count // every} {'in' if inch else 'cm'}"
    base = f"M{number(x)} {number(y)}h{number(count * step)}"
    assert count * step <= room
    return [f'<path class="ruler" d="{base}{"".join(marks)}" stroke="#000" stroke-width="0.2" fill="none"/>', *figures,
            text_at(x, y + 12.4, f"Print at 100 % (actual size). Lay a ruler here: it has to read {length} from end to "
                    "end. If it does not, do not cut by this sheet.", size=TEXT_MM)]


def alt_of(sheet: TemplateSheet) -> str:
    """The sheet in words."""
    told = []
    for tile in sheet.tiles:
        part = "" if tile.columns == tile.rows == 1 else (
            f", part in row {tile.row + 1} and column {tile.column + 1} of {tile.rows} × {tile.columns}")
        side = ", lying on its side" if tile.turned else ""
        told.append(f"{': '.join(tile.shape.title)}{part}{side}")
    return f"At true size: {'; '.join(told)}. Below them a ruler."

