"""The template read again after printing: every shape must measure true on paper, and so must the ruler."""

from collections.abc import Iterator, Mapping

from foldproof.documents.pdf_marks import Marks, marks_of
from foldproof.documents.template_sheets import Tile, lay_out, template_files
from foldproof.drawing.true_size import true_shapes
from foldproof.folding.card import Card
from foldproof.measures.quantity import Unit

POINT_MM = 25.4 / 72
"""A PDF point is 1/72 in (ISO 32000-1, 8.3.2.3)."""
OFF_MM = 0.02
"""How far off a stroke may stand: what is lost by writing it down."""
RULER_MM = {Unit.INCH: 152.4, Unit.MM: 150.0, Unit.CM: 150.0}
"""Six inches, or fifteen centimetres."""


def audit_templates(card: Card, files: Mapping[str, bytes]) -> Iterator[str]:
    """What in the printed templates does not measure true; each problem names the file.

    A shape that is cut into tiles is not measured whole: its tiles and their ruler are.
    """
    shapes = true_shapes(card)
    for paper, name in template_files(card.recipe.unit).items():
        sheets, pages = lay_out(shapes, paper), marks_of(files[name])
        if len(sheets) != len(pages):
            yield f"{name}: it has {len(pages)} sheets, not {len(sheets)}"
            continue
        for number, (sheet, page) in enumerate(zip(sheets, pages, strict=True), start=1):
            ruler = RULER_MM[card.recipe.unit]
            if not any(abs(wide - ruler) < OFF_MM for _, _, wide, _ in _strokes(page)):
                yield f"{name}: sheet {number} has no ruler of {ruler:g} mm"
            for tile in sheet.tiles:
                if tile.columns == tile.rows == 1 and not _stands(tile, page):
                    names = " and ".join(tile.shape.names)
                    yield (f"{name}: sheet {number}: {names} does not measure {tile.width:g} x {tile.height:g} mm "
                           "where it should stand")


def _strokes(page: Marks) -> Iterator[tuple[float, float, float, float]]:
    """Left and top from the sheet's top left corner, width and height, in millimetres."""
    for one in page.strokes:
        yield (one.left * POINT_MM, (page.height - one.top) * POINT_MM, (one.right - one.left) * POINT_MM,
               (one.top - one.bottom) * POINT_MM)


def _stands(tile: Tile, page: Marks) -> bool:
    wanted = (tile.x, tile.y, tile.width, tile.height)
    return any(all(abs(a - b) < OFF_MM for a, b in zip(found, wanted, strict=True)) for found in _strokes(page))
