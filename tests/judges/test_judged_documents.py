"""Finished documents before judges from outside: PDF/UA-1, HTML, and WCAG in a real browser."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from browser import Outside, a_browser, needs_browser
from outside import html_faults, needs_judges, page_faults, pdf_faults

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
    found = {
        str(path.relative_to(into)): path.read_bytes()
        for card in CARDS for path in sorted((into / card).rglob("*")) if path.is_file()}
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
    good = sets.files["tide-gate/cues.pdf"]
    bad = good.replace(b"/Lang", b"/Lnag").replace(b"/DisplayDocTitle", b"/DisplayDocTltle")
    assert bad != good and pdf_faults({"bad.pdf": bad}, tmp_path)


@needs_judges
def test_every_page_is_sound_html(sets: Sets, tmp_path: Path) -> None:
    pages = {name: data.decode() for name, data in sets.ending(".html").items()}
    assert pages and html_faults(pages, tmp_path) == []
    assert html_faults({"bad.html": "<!doctype html><title>x</title><p><div></p>"}, tmp_path)


@needs_judges
@needs_browser
@pytest.mark.parametrize("width", [390, 1280], ids=["phone", "desk"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_page_is_accessible_as_far_as_a_machine_sees(
    sets: Sets, browser: "Browser", width: int, scheme: str,
) -> None:
    for card in CARDS:
        outside = Outside()
        page = browser.new_page(viewport={"width": width, "height": 844}, color_scheme=scheme)  # type: ignore[arg-type]
        outside.watch(page)
        page.goto((sets.folder / card / "page.html").as_uri())
        assert page_faults(page) == [], card
        assert outside == []
        page.evaluate("document.querySelector('h1').style.color = 'rgba(128, 128, 128, 0.2)'")
        assert page_faults(page) != [], "a seeded fault is found"
        page.close()
