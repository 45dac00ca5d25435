"""Words as outlines. Where letters stand is held against the other way of setting them: matplotlib's own text."""

from typing import Any

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import fontManager

from foldproof.drawing.lettering import FRACTION_SIZE, MM_PER_PT, cap_height, font_files, text_width
from foldproof.drawing.outlines import outlined


def _extent(text: str, pt: float = 10.0, **how: Any) -> tuple[float, float, float, float]:
    box = outlined(text, (30.0, 20.0), pt, "black", **{"anchor": "start", **how}).get_path().get_extents()
    return (box.x0, box.y0, box.x1, box.y1)


@pytest.mark.parametrize("bold", (False, True))
@pytest.mark.parametrize(("anchor", "share"), (("start", 0.0), ("middle", 0.5), ("end", 1.0)))
def test_a_line_stands_where_its_anchor_says_on_its_own_width(anchor: str, share: float, bold: bool) -> None:
    left, bottom, right, top = _extent("Hold it H", anchor=anchor, bold=bold)
    start = 30.0 - share * text_width("Hold it H", 10.0, bold=bold)
    assert left == pytest.approx(start, abs=0.4) and left > start
    assert right == pytest.approx(start + text_width("Hold it H", 10.0, bold=bold), abs=0.4)
    assert bottom == pytest.approx(20.0, abs=0.06)
    assert _extent("H")[3] - 20.0 == pytest.approx(cap_height(10.0), abs=0.02)
    assert top == pytest.approx(20.0 + 0.712 * 10.0 * MM_PER_PT, abs=0.1), "as high as the stem of d"


def test_an_upright_line_runs_upward() -> None:
    left, bottom, right, top = _extent("score")
    assert _extent("score", upright=True) == pytest.approx((50.0 - top, left - 10.0, 50.0 - bottom, right - 10.0))


def test_fractions_are_set_in_small_figures() -> None:
    left, bottom, right, top = _extent("1/8", 10.0 * FRACTION_SIZE)
    assert right - left == pytest.approx(text_width("1/8", 10.0), abs=0.6), "a little white on each side"
    assert (left, bottom, right, top) == _extent("¹⁄₈", 10.0 * FRACTION_SIZE)
    assert right - left < 0.8 * (_extent("18/", 10.0 * FRACTION_SIZE)[2] - 30.0)


@pytest.mark.parametrize(("bold", "italic"), ((False, False), (True, False), (False, True)))
def test_letters_are_those_of_the_cut_that_is_asked_for(bold: bool, italic: bool) -> None:
    """Inked area and bounds of the outline, and of the same word as matplotlib sets it."""
    for file in font_files():
        fontManager.addfont(file)
    figure = Figure(figsize=(2, 1), dpi=400)
    canvas: Any = FigureCanvasAgg(figure)
    words = figure.text(
        0.1, 0.5, "valley", fontsize=20, family="Source Sans Pro", weight="bold" if bold else "normal",
        style="italic" if italic else "normal")
    box = words.get_window_extent(canvas.get_renderer())
    left, _, right, _ = _extent("valley", 20.0, bold=bold, italic=italic)
    assert (right - left) / 25.4 * 400 == pytest.approx(box.width, rel=0.03)


def test_words_without_ink_are_no_path_and_a_letter_that_the_family_lacks_is_there() -> None:
    assert len(outlined(" ", (0.0, 0.0), 10.0, "black", anchor="start").get_path().vertices) == 0
    assert len(outlined("", (0.0, 0.0), 10.0, "black", anchor="middle").get_path().vertices) == 0
    lacking = (outlined(one, (0.0, 0.0), 10.0, "black", anchor="start").get_path() for one in "\u2685\u2681")
    first, second = (path.vertices.tolist() for path in lacking)
    assert first != second
