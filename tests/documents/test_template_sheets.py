"""The template: read back from its PDF and its SVG, millimetre by millimetre.

Letter is 8 1/2 x 11 in (ANSI/ASME Y14.1, size A); A4 is 210 x 297 mm (ISO 216). A PDF point is 1/72 in (ISO 32000-1,
8.3.2.3).
"""

import re
import shutil
import subprocess
from fractions import Fraction
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.documents.telling import Drawn, tell
from foldproof.documents.template_sheets import (
    FOOT_MM,
    LABEL_MM,
    MARGIN_MM,
    OVERLAP_MM,
    PAPER_MM,
    lay_out,
    template_files,
    template_pdf,
    tiles,
)
from foldproof.documents.theme import load_theme
from foldproof.drawing.true_size import TrueShape, template_svg, true_shapes
from foldproof.folding.card import Card
from foldproof.measures.quantity import Unit
from foldproof.paper.polygon import bounding_box
from foldproof.pipeline import prove

RECIPES = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))
POINT_MM = 25.4 / 72
Rect = tuple[float, float, float, float]


@cache
def card_of(name: str) -> Card:
    card = prove(next(path for path in RECIPES if path.stem == name)).card
    assert card is not None
    return card


def printed(name: str, paper: str, tmp_path: Path) -> Path:
    proof = prove(next(path for path in RECIPES if path.stem == name))
    assert proof.card is not None and proof.making is not None
    view = tell(proof.card, proof.making, drawn=Drawn(), photos={}, revision="12345678", version="0")
    path = tmp_path / f"{name}.pdf"
    path.write_bytes(template_pdf(proof.card, view, load_theme("plain"), paper))
    return path


def strokes(pdf: Path, page: int) -> list[Rect]:
    """The bounding rectangle, in millimetres, of each line that is drawn on a page and not filled."""
    if shutil.which("pdftocairo") is None:
        pytest.fail("pdftocairo is missing: install poppler-utils")
    svg = subprocess.run(
        ["pdftocairo", "-svg", "-noshrink", "-nocenter", "-f", str(page), "-l", str(page), str(pdf), "-"],
        check=True, capture_output=True, text=True).stdout
    found = []
    for element in ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}path"):
        if "fill:none" not in element.get("style", ""):
            continue
        a, b, c, d, e, f = map(float, re.findall(r"-?[\d.]+(?:e-?\d+)?", element.get("transform", "1,0,0,1,0,0")))
        numbers = list(map(float, re.findall(r"-?[\d.]+", element.get("d", ""))))
        points = [(a * x + c * y + e, b * x + d * y + f) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        xs, ys = [x * POINT_MM for x, _ in points], [y * POINT_MM for _, y in points]
        found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


def sizes(rects: list[Rect]) -> list[tuple[float, float]]:
    return [(right - left, bottom - top) for left, top, right, bottom in rects]


def has(found: list[tuple[float, float]], width: float, height: float) -> bool:
    """Within a hundredth of a millimetre."""
    return any(abs(w - width) < 0.01 and abs(h - height) < 0.01 for w, h in found)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_gate_card_measures_true_on_paper(paper: str, tmp_path: Path) -> None:
    """8 1/2 x 5 1/2 in lying on its side, scores 2 1/8 in from either end; mats 4 x 5 1/4, 1 7/8 x 5 1/4; band."""
    pdf = printed("tide-gate", paper, tmp_path)
    first, second = sizes(strokes(pdf, 1)), sizes(strokes(pdf, 2))
    assert has(first, 5.5 * 25.4, 8.5 * 25.4)
    edges = next(r for r in strokes(pdf, 1) if abs(r[3] - r[1] - 8.5 * 25.4) < 0.01)
    scores = [r for r in strokes(pdf, 1) if abs(r[2] - r[0] - 5.5 * 25.4) < 0.01 and r[3] - r[1] < 0.01]
    assert sorted(round((r[1] - edges[1]) / 25.4, 3) for r in scores) == [2.125, 6.375]
    assert has(second, 4 * 25.4, 5.25 * 25.4)
    assert has(second, 1.875 * 25.4, 5.25 * 25.4)
    assert has(second, 3.5 * 25.4, 1.75 * 25.4)


def test_the_ruler_is_six_inches_or_fifteen_centimetres(tmp_path: Path) -> None:
    assert has(sizes(strokes(printed("tide-gate", "letter", tmp_path), 1)), 152.4, 5.0)
    assert has(sizes(strokes(printed("coast-road", "a4", tmp_path), 1)), 150.0, 5.0)


@pytest.mark.parametrize("name", [path.stem for path in RECIPES])
def test_the_vector_template_has_every_outline_and_every_score_in_its_group(name: str) -> None:
    card = card_of(name)
    mm = card.recipe.unit.millimetres
    root = ElementTree.fromstring(template_svg(card))
    width, height = (float(root.get(side, "").removesuffix("mm")) for side in ("width", "height"))
    assert root.get("viewBox") == f"0 0 {width:g} {height:g}"
    groups = {group.get("id"): group for group in root if group.get("id")}
    outlines = [e for e in groups["cut"].iter() if e.tag.endswith(("polygon", "circle"))]
    kinds = {(p.paper, p.outline, tuple((s.segment, s.fold) for s in p.scores)): p
             for p in card.pieces if p.paper and not p.bought}
    assert len(outlines) == sum(1 + len(piece.windows) for piece in kinds.values())
    slits = [e for e in groups["cut"].iter() if e.tag.endswith("line")]
    assert len(slits) == sum(len(piece.slits) for piece in kinds.values())
    lines = {kind: sum(e.tag.endswith("line") for e in groups[f"score-{kind}"].iter())
             for kind in ("valley", "mountain", "unfolded")}
    folds = [fold for _, _, scores in kinds for _, fold in scores]
    assert lines == {"valley": sum(f.value == "valley" for f in folds),
                     "mountain": sum(f.value == "mountain" for f in folds),
                     "unfolded": sum(f.value == "none" for f in folds)}
    for shape in true_shapes(card):
        piece = card.piece(shape.names[0])
        assert piece is not None
        box = bounding_box(piece.outline)
        assert (shape.width_mm, shape.height_mm) == (float(box.width * mm), float(box.height * mm))


def shape_of(width: float, height: float) -> TrueShape:
    return TrueShape(names=("a",), paper="b", size="", width_mm=width, height_mm=height, strokes=(), words=())


sides = st.floats(5, 600)


@given(st.lists(st.tuples(sides, sides), min_size=1, max_size=12), st.sampled_from(["letter", "a4"]))
def test_every_shape_is_on_the_sheets_whole_or_tiled_and_nothing_runs_over(
    wanted: list[tuple[float, float]], paper: str,
) -> None:
    width, height = PAPER_MM[paper]
    shapes = [shape_of(*size) for size in wanted]
    placed = [tile for sheet in lay_out(shapes, paper) for tile in sheet.tiles]
    for tile in placed:
        assert tile.x >= MARGIN_MM and tile.y >= MARGIN_MM
        assert tile.x + tile.width <= width - MARGIN_MM + 1e-6
        assert tile.y + tile.height + LABEL_MM <= height - FOOT_MM + 1e-6
    for shape in shapes:
        own = [tile for tile in placed if tile.shape is shape]
        assert len(own) == own[0].columns * own[0].rows
        if own[0].turned:
            assert (own[0].width, own[0].height) == (shape.height_mm, shape.width_mm)


@given(st.floats(200, 900), st.floats(260, 900))
def test_tiles_overlap_by_the_same_strip_and_cover_the_shape(width: float, height: float) -> None:
    found = tiles(shape_of(width, height), (190.0, 240.0))
    for one in found:
        for other in found:
            if one.row == other.row and other.column == one.column + 1:
                assert abs(one.left + one.width - other.left - OVERLAP_MM) < 1e-6
    assert abs(max(t.left + t.width for t in found) - width) < 1e-6
    assert abs(max(t.top + t.height for t in found) - height) < 1e-6
    assert min(t.left for t in found) == 0 == min(t.top for t in found)


def test_a_shape_larger_than_a_sheet_is_tiled_with_crosses_that_lie_on_each_other(tmp_path: Path) -> None:
    """The base of the roll fold, 297 x 210 mm on A4: two sheets; each cross is as far from the base's left edge."""
    pdf = printed("coast-road", "a4", tmp_path)
    sheets = lay_out(true_shapes(card_of("coast-road")), "a4")
    (left, right) = [sheet for sheet in sheets if sheet.tiles[0].columns == 2]
    pages = [3, 4]
    crosses = []
    for page, sheet in zip(pages, (left, right), strict=True):
        tile = sheet.tiles[0]
        crosses.append(sorted(
            (round((r[0] + r[2]) / 2 - tile.x + tile.left, 2), round((r[1] + r[3]) / 2 - tile.y + tile.top, 2))
            for r in strokes(pdf, page) if abs(r[2] - r[0] - 6) < 0.01 and abs(r[3] - r[1] - 6) < 0.01))
    assert crosses[0] == crosses[1]
    assert len(crosses[0]) == 2


def test_files_are_named_like_the_handouts() -> None:
    assert template_files(Unit.INCH) == {"letter": "template.pdf", "a4": "template-a4.pdf"}
    assert template_files(Unit.MM) == {"letter": "template-letter.pdf", "a4": "template.pdf"}
    assert Fraction(str(PAPER_MM["letter"][0])) / Fraction("25.4") == Fraction(17, 2)
