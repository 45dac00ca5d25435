"""Fractions in a printed drawing look like fractions, as read off its dots, and are copied as they are said."""

import io

import numpy as np
import pypdfium2  # type: ignore[import-untyped, unused-ignore]
import pytest
from pypdf import PdfReader

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


def test_a_fraction_in_a_drawing_is_copied_with_its_blank() -> None:
    svg = to_svg(Scene(width=80.0, height=30.0, items=(
        Label(text="5 1/2 × 11 3/16 in", at=(40.0, 20.0), pt=8.5), Label(text="1/8 in", at=(40.0, 10.0), pt=8.5))))
    page = (f"<!doctype html><html lang='en'><head><title>Fractions</title><style>{FONT_RULES}</style></head>"
            "<body><p><img alt='two sizes' src='foldproof:drawing/a.svg'></p></body></html>")
    found = PdfReader(io.BytesIO(to_pdf(page, {"drawing/a.svg": ("image/svg+xml", svg.encode())})))
    words = " ".join(found.pages[0].extract_text().replace("\u2044", "/").split())
    # the blank matters: "51/2" is another number
    assert "5 1/2" in words and "11 3/16" in words and "1/8 in" in words and "51/2" not in words
    fonts = {str(font.get_object()["/BaseFont"]) for font in found.pages[0]["/Resources"]["/Font"].values()}  # type: ignore[index]
    assert all(any(name.endswith(part) for name in fonts) for part in ("Raised", "Stroke", "Lowered")), fonts
