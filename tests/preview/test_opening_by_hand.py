"""The opening view in a browser: by keyboard, by touch, calm, and without scripts."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from browser import Outside, a_browser, needs_browser

from foldproof.documents.opening_picture import with_opening
from foldproof.documents.page import page as page_of
from foldproof.documents.telling import Drawn, tell
from foldproof.documents.theme import load_theme
from foldproof.drawing.opening import draw_opening
from foldproof.pipeline import prove

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

RECIPE = Path(__file__).parents[2] / "recipes" / "coast-road.yaml"
PHONE = {"width": 360, "height": 740}
pytestmark = needs_browser


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A page with nothing drawn but the card that opens."""
    proof = prove(RECIPE)
    assert proof.card is not None and proof.making is not None
    view = tell(proof.card, proof.making, drawn=Drawn(), photos={}, revision="0123abcd", version="9.9")
    path = tmp_path_factory.mktemp("page") / "page.html"
    path.write_text(page_of(with_opening(view, draw_opening(proof.card)), load_theme("plain")), encoding="utf-8")
    return path.as_uri()


@pytest.fixture(scope="module")
def browser() -> "Iterator[Browser]":
    with a_browser() as one:
        yield one


@pytest.fixture
def page(browser: "Browser", address: str) -> "Iterator[Page]":
    context = browser.new_context(  # what playwright waits for is a script that the page's own policy would not let run
        viewport={"width": 360, "height": 740}, has_touch=True, reduced_motion="reduce", bypass_csp=True)
    one, outside, wrong = context.new_page(), Outside(), list[str]()
    outside.watch(one)
    one.on("pageerror", lambda error: wrong.append(str(error)))
    one.goto(address)
    yield one
    assert outside == [] and wrong == []
    context.close()


def said(page: "Page") -> tuple[str | None, str]:
    slider = page.locator(".opening input")
    assert slider.get_attribute("aria-valuetext") is not None
    return slider.get_attribute("aria-valuetext"), page.locator(".opening figcaption").inner_text()


def shown(page: "Page") -> str:
    return page.locator(".opening svg g").inner_html()


def test_by_keyboard_from_pose_to_pose(page: "Page") -> None:
    slider = page.get_by_label("Open and close it")
    slider.focus()
    page.keyboard.press("Home")
    closed = shown(page)
    assert said(page) == ("Closed", "Closed: 100 × 210 mm")
    page.keyboard.press("ArrowRight")
    assert said(page)[0] == "Between closed and half open" and shown(page) != closed
    page.keyboard.press("PageUp")
    assert said(page)[0] == "Half open"
    page.keyboard.press("PageUp")
    assert said(page)[0] == "Open"
    page.keyboard.press("PageDown")
    assert said(page)[0] == "Half open"
    page.keyboard.press("PageDown")
    assert said(page)[0] == "Closed" and shown(page) == closed
    page.keyboard.press("End")
    assert said(page)[0] == "Open"


def test_the_focus_is_seen_and_the_buttons_tell_which_is_shown(page: "Page") -> None:
    page.get_by_label("Open and close it").focus()
    page.keyboard.press("Tab")
    button = page.locator(".opening button").first
    assert button.evaluate("e => e === document.activeElement && getComputedStyle(e).outlineStyle") == "solid"
    page.keyboard.press("Enter")
    assert said(page)[0] == "Closed"
    assert page.locator(".opening button[aria-pressed=true]").all_inner_texts() == ["Closed"]


def test_on_a_phone_it_fits_and_comes_to_rest_in_a_pose(page: "Page") -> None:
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    for control in page.locator(".opening button, .opening input").all():
        box = control.bounding_box()
        assert box is not None and box["height"] >= 44 and box["x"] >= 0 and box["x"] + box["width"] <= PHONE["width"]
    page.get_by_role("button", name="Half open").tap()
    assert said(page)[0] == "Half open"
    slider = page.locator(".opening input")
    slider.scroll_into_view_if_needed()
    box = slider.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + 20)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] - 14, box["y"] + 20)
    page.mouse.up()
    page.wait_for_function("document.querySelector('.opening input').getAttribute('aria-valuetext') === 'Open'")


def test_it_moves_where_motion_is_welcome(browser: "Browser", address: str) -> None:
    page = browser.new_page(bypass_csp=True)
    page.goto(address)
    page.evaluate("""() => {
      window.seen = new Set();
      new MutationObserver(() => seen.add(document.querySelector('.opening input').value)).observe(
        document.querySelector('.opening svg g'), {childList: true});
    }""")
    page.get_by_role("button", name="Closed").click()
    page.wait_for_function("document.querySelector('.opening input').value === '0'")
    assert page.evaluate("seen.size") > 4
    page.close()


def test_without_scripts_a_still_stands_there(browser: "Browser", address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address)
    assert page.locator(".opening svg path").count() > 5
    assert not page.locator(".opening input").is_visible()
    assert page.locator(".opening figcaption").inner_text() == "Between closed and half open"
    context.close()
