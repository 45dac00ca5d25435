"""Fractions in a printed drawing are set as fractions and copied as they are said."""

import io

from pypdf import PdfReader

from foldproof.documents.printing import FONT_RULES, to_pdf
from foldproof.drawing.ink import to_svg
from foldproof.drawing.scene import Label, Scene


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
    assert any("Fractions" in name for name in fonts), fonts
