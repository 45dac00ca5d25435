"""A fraction in a printed drawing looks like one, as read off its dots, and copies as it is said."""

import numpy as np
import pypdfium2  # type: ignore[import-untyped, unused-ignore]
import pytest

from foldproof.documents.printing import FONT_RULES, to_pdf
from foldproof.drawing.ink import to_svg
from foldproof.drawing.scene import Label, Scene

SIDE, DPI = 30.0, 300


@pytest.mark.parametrize("upright", [False, True], ids=["level", "upright"])
def test_the_upper_figure_stands_higher_than_the_lower_one(upright: bool) -> None:
    scene = Scene(width=SIDE, height=SIDE, items=(
        Label(text="1/8", at=(SIDE / 2, SIDE / 2), pt=40, upright=upright),))
    page = (
        '<!doctype html><html lang="en"><title>x</title>'
        f"<style>{FONT_RULES} @page {{ size: {SIDE}mm; margin: 0 }} body {{ margin: 0 }} img {{ display: block }}"
        "</style>"
        '<img alt="x" src="foldproof:drawing/one.svg"></html>')
    printed = pypdfium2.PdfDocument(to_pdf(page, {"drawing/one.svg": ("image/svg+xml", to_svg(scene).encode())}))
    words = printed[0].get_textpage().get_text_bounded()
    dots = printed[0].render(scale=DPI / 72).to_numpy().min(axis=2) < 128
    printed.close()
    assert words.strip() == "1/8"
    dots = np.rot90(dots, -1) if upright else dots
    rows = np.flatnonzero(dots.any(axis=1))
    columns = np.flatnonzero(dots.any(axis=0))
    share = (columns[-1] - columns[0]) // 4
    over, under = (
        np.nonzero(dots[:, start:start + share])[0].mean() for start in (columns[0], columns[-1] - share + 1))
    assert over + 0.2 * (rows[-1] - rows[0]) < under
