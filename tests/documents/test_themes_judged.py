"""Every theme before judges from outside: a handout by the rules of PDF/UA-1, a page in both schemes by axe-core."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from browser import Outside, a_browser, needs_browser
from outside import needs_judges, page_faults, pdf_faults

from foldproof.documents.handout import handout
from foldproof.documents.page import page
from foldproof.documents.theme import load_theme
from foldproof.documents.theme_folders import theme_names
from foldproof.documents.view import View

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.fixture(scope="module")
def browser() -> "Iterator[Browser]":
    with a_browser() as found:
        yield found


@needs_judges
def test_no_handout_fails_a_machine_rule_of_pdf_ua(view: View, tmp_path: Path) -> None:
    handouts = {f"{name}.pdf": handout(view, load_theme(name), "letter") for name in theme_names()}
    assert pdf_faults(handouts, tmp_path) == []


@needs_judges
@needs_browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("name", sorted(theme_names()))
def test_a_page_is_accessible_as_far_as_a_machine_sees(
    view: View, browser: "Browser", tmp_path: Path, name: str, scheme: str,
) -> None:
    path = tmp_path / "page.html"
    path.write_text(page(view, load_theme(name)), encoding="utf-8")
    outside = Outside()
    shown = browser.new_page(viewport={"width": 390, "height": 844}, color_scheme=scheme)  # type: ignore[arg-type]
    outside.watch(shown)
    shown.goto(path.as_uri())
    assert page_faults(shown) == []
    assert outside == []
    shown.close()
