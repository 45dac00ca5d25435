"""Finished documents before judges from outside: PDF/UA-1, HTML, and WCAG in a real browser."""

import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from browser import Outside, a_browser, needs_browser
from outside import html_faults, needs_judges, page_faults, pdf_faults
from pypdf import PdfWriter

from foldproof.documents.gallery import make_gallery
from foldproof.documents.paste_in import PASTE_IN
from foldproof.documents.theme import load_theme
from foldproof.pipeline import Options, build

if TYPE_CHECKING:
    from playwright.sync_api import Browser

RECIPES = Path(__file__).parents[2] / "recipes"
CARDS = ("tide-gate", "boat-house")
"""In inches, with a class plan; in millimetres, with views of a card that stands."""


@dataclass(frozen=True)
class Sets:
    """The built sets of the cards by path, and where they lie."""

    folder: Path
    files: Mapping[str, bytes]

    def ending(self, suffix: str) -> dict[str, bytes]:
        return {name: data for name, data in self.files.items() if name.endswith(suffix)}


@pytest.fixture(scope="module")
def sets(tmp_path_factory: pytest.TempPathFactory) -> Sets:
    into = tmp_path_factory.mktemp("judged")
    for card in CARDS:
        assert build(RECIPES / f"{card}.yaml", into, Options(dated="2026-03-01")).folder is not None
    make_gallery(into, load_theme("plain"))
    found = {
        str(path.relative_to(into)): path.read_bytes()
        for card in CARDS for path in sorted((into / card).rglob("*")) if path.is_file()}
    found["index.html"] = (into / "index.html").read_bytes()
    return Sets(folder=into, files=found)


@pytest.fixture(scope="module")
def browser() -> "Iterator[Browser]":
    with a_browser() as found:
        yield found


@needs_judges
def test_no_pdf_fails_a_machine_rule_of_pdf_ua(sets: Sets, tmp_path: Path) -> None:
    pdfs = sets.ending(".pdf")
    assert {Path(name).name for name in pdfs} >= {
        "handout.pdf", "handout-a4.pdf", "shots.pdf", "cues.pdf", "class.pdf", "template.pdf"}
    assert pdf_faults(pdfs, tmp_path) == []


@needs_judges
def test_the_judge_of_pdfs_finds_a_seeded_fault(sets: Sets, tmp_path: Path) -> None:
    bad = PdfWriter(clone_from=io.BytesIO(sets.files["tide-gate/cues.pdf"]))
    del bad.root_object["/Lang"]
    written = io.BytesIO()
    bad.write(written)
    assert [fault.split(":")[1].strip() for fault in pdf_faults({"bad.pdf": written.getvalue()}, tmp_path)] == [
        "7.2-2", "7.2-33", "7.2-34"]


@needs_judges
def test_every_page_is_sound_html(sets: Sets, tmp_path: Path) -> None:
    pages = {
        name: _as_posted(data.decode()) if name.endswith(PASTE_IN) else data.decode()
        for name, data in sets.ending(".html").items()}
    assert {Path(name).name for name in pages} == {"page.html", PASTE_IN, "index.html"}
    assert html_faults(pages, tmp_path) == []
    assert html_faults({"bad.html": _as_posted("<p><div></p>")}, tmp_path)


def _as_posted(fragment: str) -> str:
    """A fragment in a post as a blog would have it."""
    head = '<!doctype html>\n<html lang="en"><head><title>Post</title></head>'
    return f"{head}<body><h1>Post</h1>{fragment}</body></html>"


@needs_judges
@needs_browser
@pytest.mark.parametrize("width", [390, 1280], ids=["phone", "desk"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_page_is_accessible_as_far_as_a_machine_sees(
    sets: Sets, browser: "Browser", width: int, scheme: str,
) -> None:
    for name in ("index.html", *(f"{card}/page.html" for card in CARDS)):
        outside = Outside()
        page = browser.new_page(viewport={"width": width, "height": 844}, color_scheme=scheme)  # type: ignore[arg-type]
        outside.watch(page)
        page.goto((sets.folder / name).as_uri())
        assert page_faults(page) == [], name
        assert outside == []
        page.evaluate("document.querySelector('h1').style.color = 'rgba(128, 128, 128, 0.2)'")
        assert page_faults(page) != [], "a seeded fault is found"
        page.close()
