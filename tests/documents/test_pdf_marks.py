"""Marks on paper, read back. US letter is 612 x 792 points, a point being 1/72 in (ISO 32000-1, 8.3.2.3)."""

import io
from collections.abc import Mapping
from dataclasses import astuple, replace

import pytest
from pikepdf import Array, Dictionary, Name, Pdf

from foldproof.documents.pdf_marks import marks_of
from foldproof.documents.printing import FONT_RULES, to_pdf
from foldproof.documents.template_readback import audit_templates
from foldproof.folding.card import Card
from foldproof.paper.vector import Point

DRAWN = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="0 0 40 30">'
    '<path d="M1 2 H31 V12 H1 Z" fill="none" stroke="#000" stroke-width="0.5"/></svg>')
PAGE = (
    f"<html lang='en'><title>t</title><style>{FONT_RULES} @page {{ size: letter; margin: 0 }} body {{ margin: 0 }}"
    " p { margin: 0; font: 12pt 'Source Sans Pro' } img { width: 80mm; display: block }</style>"
    "<img src='foldproof:drawing/d.svg' alt='d'><p>Word</p></html>")


def test_a_stroke_and_a_word_lie_where_the_page_says_and_as_large() -> None:
    (page,) = marks_of(to_pdf(PAGE, {"drawing/d.svg": ("image/svg+xml", DRAWN.encode())}))
    assert [page.width, page.height] == pytest.approx([612, 792])
    (stroke,) = page.strokes
    mm = 72 / 25.4
    assert [stroke.left, page.height - stroke.top] == pytest.approx([2 * mm, 4 * mm], abs=0.01)
    assert stroke.right - stroke.left == pytest.approx(60 * mm, abs=0.01)
    assert stroke.top - stroke.bottom == pytest.approx(20 * mm, abs=0.01)
    assert stroke.line == pytest.approx(1.0 * mm, abs=0.01)
    assert {round(size, 2) for size, _, _ in page.letters} == {12.0}


def test_content_is_read_by_its_grammar_wherever_it_is_cut_in_two() -> None:
    """Operators within texts ink nothing, a list is no path, and a form lies where its matrix puts it."""
    pdf = Pdf.new()
    page = pdf.add_blank_page(page_size=(200, 150))
    form = pdf.make_stream(
        b"2 w 0 0 10 20 re S", Type=Name.XObject, Subtype=Name.Form, Matrix=Array([1, 0, 0, 1, 100, 60]))
    page.obj.Resources = Dictionary(XObject=Dictionary(X=form))
    page.obj.Contents = Array([
        pdf.make_stream(b"q 2 0 0 2 10 20 cm 3 w BT /F 5 Tf 1 0 0 1 7 8 Tm (a \\) 9 9 m 0 0 l S [) Tj ET [2 1] 0 d"),
        pdf.make_stream(b"5 5 m 15 5 l .5 .5 1 1 15 25 c W S 1 1 4 4 re f Q /X Do 0 0 m 50 50 m 60 70 l S 7 7 m S"),
    ])
    written = io.BytesIO()
    pdf.save(written)
    (read,) = marks_of(written.getvalue())
    assert (read.width, read.height) == (200, 150)
    assert read.letters == ((10.0, 24.0, 36.0),)
    assert [astuple(stroke) for stroke in read.strokes] == [
        (20.0, 30.0, 40.0, 70.0, 6.0), (100.0, 60.0, 110.0, 80.0, 2.0), (50.0, 50.0, 60.0, 70.0, 1.0)]


def test_the_printed_templates_measure_true(card: Card, files: Mapping[str, bytes]) -> None:
    assert list(audit_templates(card, files)) == []


def test_a_template_of_another_size_is_noticed(card: Card, files: Mapping[str, bytes]) -> None:
    """The same files held against a card whose mat is 1/16 in wider."""
    wider = tuple(
        replace(piece, outline=tuple(Point(p.x * 65 / 64, p.y) for p in piece.outline))
        if piece.name == "mat" else piece
        for piece in card.pieces)
    problems = list(audit_templates(replace(card, pieces=wider), files))
    assert problems
    assert all("mat does not measure 103.188" in problem for problem in problems)
