"""A recipe whose every word is a known trick: it is built, and nothing of it runs, is fetched or becomes a formula."""

import csv
import io
import json
import re
from collections import Counter
from collections.abc import Mapping
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree

import pytest
from browser import Outside, a_browser, needs_browser
from tricks import RAN, recipe_of_tricks

from foldproof.documents.gallery import make_gallery
from foldproof.documents.placing import place
from foldproof.documents.theme import Theme
from foldproof.findings.finding import has_errors
from foldproof.pipeline import Options, Proof, documents, prove, with_class_plan

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Dialog

HARMLESS = frozenset([
    "p", "div", "span", "strong", "em", "code", "a", "time", "li", "ul", "dt", "dd", "br", "h3", "h4", "g", "path",
    "text", "tspan", "tr", "td", "th", "small", "meta", "link", "svg", "figure", "figcaption", "img", "line", "rect"])
"""What there may be more of because there are more words, a correction, or a drawing that is lettered otherwise."""


@pytest.fixture(scope="module")
def hostile(proof: Proof, tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, bytes]:
    """Every file of the set, with a class plan."""
    path = tmp_path_factory.mktemp("hostile") / "hostile.yaml"
    path.write_text(recipe_of_tricks(proof.reading.source), encoding="utf-8")
    found = prove(path)
    assert not has_errors(found.findings), [(one.name, one.message) for one in found.findings]
    sound, plan = with_class_plan(found)
    assert plan is not None
    return documents(sound, Options(dated="2026-03-01"), plan)


class Seen(HTMLParser):
    """Elements and what they ask for."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: Counter[str] = Counter()
        self.handlers: list[str] = []
        self.addresses: list[tuple[str, str, str]] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements[tag] += 1
        for name, value in attrs:
            if name.startswith("on"):
                self.handlers.append(f"{tag} {name}")
            if name in ("href", "src", "srcset", "data", "action", "xlink:href", "style", "poster"):
                self.addresses.append((tag, name, value or ""))


@pytest.mark.parametrize("name", ["page.html", "paste-in.html"])
def test_no_word_becomes_an_element_or_an_address(
    name: str, hostile: Mapping[str, bytes], files: Mapping[str, bytes],
) -> None:
    """The same elements as those of the harmless card, but for those that Markdown and more words make."""
    seen, usual = Seen(hostile[name].decode()), Seen(files[name].decode())
    more = {tag: n for tag, n in seen.elements.items() if n != usual.elements[tag] and tag not in HARMLESS}
    assert more == {}
    assert seen.handlers == []
    fetched = [value for tag, name, value in seen.addresses if tag not in ("a", "link") and name != "style"]
    assert [one for one in fetched if not one.startswith(("data:image/", "pictures/"))] == []
    assert [value for _, name, value in seen.addresses if name == "style" and re.search(r"url\(|//|@", value)] == []
    links = [value for tag, name, value in seen.addresses if tag == "a" and name == "href"]
    assert [one for one in links if not re.match(r"https?://|mailto:|#|[a-z0-9-]+\.pdf$", one)] == []


def test_what_it_says_to_machines_is_one_value(hostile: Mapping[str, bytes]) -> None:
    (data,) = re.findall(
        r'<script type="application/ld\+json">(.*?)</script>', hostile["page.html"].decode(), re.DOTALL)
    told = json.loads(data)
    assert told["name"].startswith("=<script>window.ran=1</script> </script>")
    assert len(told["step"]) == 2


def test_every_drawing_is_whole_and_runs_nothing(hostile: Mapping[str, bytes]) -> None:
    drawings = [name for name in hostile if name.endswith(".svg")]
    assert len(drawings) > 5
    for name in drawings:
        for element in ElementTree.fromstring(hostile[name].decode()).iter():
            tag = element.tag.split("}")[-1]
            assert tag not in ("script", "foreignObject", "image", "a", "use", "iframe"), name
            assert not [key for key in element.attrib if key.split("}")[-1].startswith("on")], name


def test_no_cell_is_a_formula(hostile: Mapping[str, bytes]) -> None:
    tables = {name: data.decode() for name, data in hostile.items() if name.endswith(".csv")}
    assert tables.keys() == {"shots.csv", "class.csv"}
    for name, text in tables.items():
        rows = list(csv.reader(io.StringIO(text, newline="")))
        assert len({len(row) for row in rows}) == 1, "no cell breaks its row"
        cells = [cell for row in rows for cell in row]
        assert not [cell for cell in cells if cell.lstrip()[:1] in ("=", "+", "-", "@") and cell.strip()], name
    assert "'=HYPERLINK" in tables["shots.csv"]


def test_files_stay_within_their_set(hostile: Mapping[str, bytes]) -> None:
    assert all(re.fullmatch(r"(?:pictures/)?[a-z0-9.-]+", name) for name in hostile)


@needs_browser
def test_nothing_runs_and_nothing_leaves_in_a_browser(
    hostile: Mapping[str, bytes], plain_theme: Theme, tmp_path: Path,
) -> None:
    """The page as it is; the text of a post in a page; the gallery; a drawing by itself; and the page's own policy,
    seen to hold by putting a script into it that should not be there.
    """
    folder = place(hostile, tmp_path, "hostile")
    make_gallery(tmp_path, plain_theme)
    post = tmp_path / "post.html"
    post.write_bytes(b"<!doctype html><meta charset=utf-8><title>post</title>" + hostile["paste-in.html"])
    broken = tmp_path / "broken.html"
    broken.write_text(hostile["page.html"].decode().replace(
        "<h1>", f"<script>{RAN}</script><img src=x onerror={RAN}><img src=http://outside.example/p.png><h1>", 1))
    with a_browser() as browser:
        for path in (
            folder / "page.html", post, tmp_path / "index.html", folder / "pictures" / "step-01.svg", broken,
        ):
            assert _happened(browser, path) == [], path.name


def _happened(browser: "Browser", path: Path) -> list[str]:
    """What happens at a page that should not, as the browser itself tells it."""
    page, outside, told = browser.new_page(), Outside(), list[str]()

    def dismissed(dialog: "Dialog") -> None:
        told.append("a dialog opened")
        dialog.dismiss()

    outside.watch(page)
    page.on("dialog", dismissed)
    page.on("pageerror", lambda error: told.append(str(error)))
    page.goto(path.as_uri())
    page.wait_for_load_state()
    page.evaluate("document.querySelectorAll('*').forEach(e => e.dispatchEvent(new Event('mouseover')))")
    if path.name == "page.html":
        page.locator("figure.opening input").press("ArrowRight")
        page.locator("p.copy button").click()
    if page.evaluate("window.ran"):
        told.append("a script ran")
    told += outside
    page.close()
    return told
