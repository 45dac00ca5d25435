"""A recipe of tricks on the bench: margin, page and the recipe's own text are looked at, and nothing of it runs."""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
import yaml
from benches import PATIENCE, Running, running
from browser import Outside, a_browser, needs_browser
from tricks import RAN, TRICKS, recipe_of_tricks

if TYPE_CHECKING:
    from playwright.sync_api import Dialog, Frame, Page

QUIET = (Path(__file__).parents[1] / "documents" / "quiet.yaml").read_text(encoding="utf-8")
NAME = "=<img src=x onerror=window.ran=1>' onload='window.ran=1' \"{{7*7}}.yaml"
pytestmark = [needs_browser, pytest.mark.skipif(sys.platform == "win32", reason="needs SIGINT and such file names")]
ALLOWED = (
    "a aside body button code details div figcaption figure h1 h2 head header html iframe img li link main mark meta "
    "nav ol p pre script section span strong summary title")
"""The elements that the bench itself is made of."""
LOOKED_AT = """allowed => {
  const all = Array.from(document.querySelectorAll('*'));
  all.forEach(one => ['mouseover', 'focus', 'toggle'].forEach(what => one.dispatchEvent(new Event(what))));
  const own = 'script[src="/bench.js"], link[href="/bench.css"], link[href="data:,"]';
  return [
    ...all.filter(one => !allowed.includes(one.localName)).map(one => `an element ${one.localName}`),
    ...all.flatMap(one => one.getAttributeNames()).filter(name => name.startsWith('on')).map(name => `${name} is set`),
    ...all.filter(one => one.matches('script, link') && !one.matches(own)).map(one => one.outerHTML),
    ...all.map(one => one.src || one.href).filter(Boolean).map(String)
      .filter(address => !address.startsWith(location.origin + '/') && address !== 'data:,'),
    ...(window.ran ? ['a script ran'] : []),
  ];
}"""
"""What there is that should not be, once everything has been touched."""


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    recipe = tmp_path_factory.mktemp("tricks") / NAME
    recipe.write_text(recipe_of_tricks(QUIET), encoding="utf-8")
    said = tmp_path_factory.mktemp("said") / "errors"
    with said.open("w+", encoding="utf-8") as errors, running(recipe, errors) as bench:
        yield bench


@pytest.fixture
def told() -> list[str]:
    """What the browser itself tells that should not be."""
    return []


@pytest.fixture
def page(bench: Running, told: list[str]) -> "Iterator[Page]":
    def dismissed(dialog: "Dialog") -> None:
        told.append("a dialog opened")
        dialog.dismiss()

    outside = Outside()
    bench.recipe.write_text(recipe_of_tricks(QUIET), encoding="utf-8")
    with a_browser() as browser:
        page = browser.new_page(viewport={"width": 1200, "height": 800})
        page.set_default_timeout(PATIENCE * 1000)
        outside.watch(page)
        page.on("dialog", dismissed)
        page.on("pageerror", lambda error: told.append(str(error)))
        page.goto(f"http://127.0.0.1:{bench.port}/")
        page.get_by_text("As saved").wait_for()
        yield page
        assert outside == [] and told == []


def _spoilt(text: str) -> str:
    """With mistakes that are told in the author's own tricks."""
    recipe: dict[str, Any] = yaml.safe_load(text)
    first, second = recipe["steps"]
    first["do"][2] = {"score": f"1 {TRICKS[0]}"}
    second["do"][1]["attach"]["what"] = TRICKS[2]
    first["tools"].append(TRICKS[3])
    recipe["opening"].append(TRICKS[4])
    recipe[TRICKS[8]] = TRICKS[6]
    return str(yaml.safe_dump(recipe, sort_keys=False, allow_unicode=True))


def _inside(page: "Page") -> "Frame":
    frame = page.locator("#page iframe:not(.next)").element_handle().content_frame()
    assert frame is not None
    return frame


def test_nothing_of_it_becomes_an_element_or_runs(page: "Page", bench: Running) -> None:
    assert page.title().startswith(f"={TRICKS[0]} {TRICKS[1]}") and page.title().endswith("on the bench")
    for sheet in ("Page", "Handout", "Shots", "Cues", "Recipe"):
        page.get_by_role("button", name=sheet, exact=True).click()
        assert page.evaluate(LOOKED_AT, ALLOWED.split()) == [], sheet
    shown = page.locator("#recipe").inner_text()
    assert NAME in shown and TRICKS[0] in shown
    _inside(page).evaluate("document.querySelectorAll('*').forEach(e => e.dispatchEvent(new Event('mouseover')))")
    assert not _inside(page).evaluate("window.ran")

    bench.recipe.write_text(_spoilt(recipe_of_tricks(QUIET)), encoding="utf-8")
    page.locator(".note.error").first.wait_for()
    page.get_by_text("Mistakes in the recipe").wait_for()
    notes = page.locator("#notes").inner_text()
    for trick in (TRICKS[0], TRICKS[2], TRICKS[8]):
        assert trick in notes, trick
    for way in page.locator(".note .ways button:enabled").all():
        way.click()
    assert page.evaluate(LOOKED_AT, ALLOWED.split()) == []


def test_what_found_a_way_in_would_not_run(page: "Page") -> None:
    """The bench's own policy, seen to hold by putting into it what should not be there; and so the page's on it."""
    for frame in (page.main_frame, _inside(page)):
        frame.evaluate(f"""() => {{
          document.body.insertAdjacentHTML('beforeend', "<img src=x onerror='{RAN}'><svg onload='{RAN}'></svg>");
          const script = document.createElement('script');
          script.textContent = '{RAN}';
          document.body.append(script);
          return new Promise(done => setTimeout(done, 300));
        }}""")
        assert not frame.evaluate("window.ran")
