"""A recipe whose every word is a known trick: it is built, and nothing of it runs, is fetched or becomes a formula.

The tricks are the usual ones of HTML, attributes, addresses, JSON in scripts, SVG, style sheets, templates,
spreadsheets and typesetting (from memory; the classes are those of the OWASP cheat sheets on cross-site scripting and
CSV injection).
"""

import csv
import io
import json
import re
from collections import Counter
from collections.abc import Mapping
from html.parser import HTMLParser
from itertools import cycle
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree

import pytest
import yaml
from browser import Outside, a_browser, needs_browser

from foldproof.documents.gallery import make_gallery
from foldproof.documents.placing import place
from foldproof.documents.theme import Theme
from foldproof.findings.finding import has_errors
from foldproof.pipeline import Options, Proof, documents, prove, with_class_plan

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Dialog

RAN = "window.ran=1"
TRICKS = (
    f"<script>{RAN}</script>", f"</script><script>{RAN}</script>", f"<img src=x onerror={RAN}>",
    f"\"><svg onload={RAN}>", f"' onmouseover='{RAN}", f"[press](javascript:{RAN})",
    f"<svg><script>{RAN}</script></svg>",
    "![](http://outside.example/p.png)", "[x](data:text/html,<script>window.ran=1</script>)", "[x](file:///etc/passwd)",
    "<http://outside.example/\"onclick=\"window.ran=1>", "]]><!-- --!><style>@import 'http://outside.example/s.css';",
    "</title></style></textarea></svg></text><iframe src=//outside.example>", "<base href=http://outside.example/>",
    "&lt;script&gt;window.ran=1&lt;/script&gt;", "<a href=\"java&#10;script:window.ran=1\">", "\\\"-window.ran=1//",
    "</script><!--<script>", "$\\frac12 $x^$ \\begin %s %n", "<%= 7*7 %>", "<!ENTITY x SYSTEM 'file:///etc/passwd'>",
    "`</code>`<object data=//outside.example>", "<details open ontoggle=window.ran=1>", "<xlink:href='javascript:1'>",
    "url(http://outside.example/u)", "<math><mtext></form><form><mglyph><style></math><img src onerror=window.ran=1>",
)
HARMLESS = frozenset([
    "p", "div", "span", "strong", "em", "code", "a", "time", "li", "ul", "dt", "dd", "br", "h3", "h4", "g", "path",
    "text", "tspan", "tr", "td", "th", "small", "meta", "link", "svg", "figure", "figcaption", "img", "line", "rect"])
"""What there may be more of because there are more words, a correction, or a drawing that is lettered otherwise."""
FORMULAS = ("=HYPERLINK(\"http://outside.example\")", "+1+cmd|' /C calc'!A0", "-2+3", "@SUM(1+1)", " =1+1")


def _hostile(text: str) -> str:
    """The quick card with tricks at the end of every sentence, and formulas at the start of what tables hold."""
    recipe = yaml.safe_load(text)
    tricks = cycle(TRICKS)
    recipe["title"] = f"={next(tricks)} {next(tricks)} {next(tricks)} {{{{ 7*7 }}}} {{% raw %}} ${{7*7}}"
    recipe["summary"] = f"{next(tricks)} {next(tricks)}"
    recipe["skill"] = next(tricks)
    recipe["published"] = "https://cards.example.org/a'b(c)/page.html"
    papers = recipe["papers"]
    names = {"slate": "s' onload='window.ran=1' x='", "waves": "w (window.ran=1) $x_2$ %n"}
    for paper in papers.values():
        paper["kind"] += f" {next(tricks)}"
    recipe["papers"] = {names[name]: paper for name, paper in papers.items()}
    recipe["pieces"]["base"]["paper"], recipe["layers"]["mat"]["paper"] = names["slate"], names["waves"]
    recipe["supplies"]["wet glue"]["amount"] = f"={next(tricks)}"
    recipe["tools"]["trimmer"] = {"caution": next(tricks)}
    recipe["class"] = {
        "people": 4, "paper packs": {names["slate"]: {
            "holds": 5, "price": "4.00 USD", "called": f"={next(tricks)}", "link": "https://example.org/?a=1&b='",
            "substitute": f"={next(tricks)}"}}}
    formulas = cycle(FORMULAS)
    for step in recipe["steps"]:
        step["title"] = f"{next(formulas)} {next(tricks)}"
        step["text"] += "".join(f" Now {trick}." for trick in TRICKS)
        step["say"] = f"{next(formulas)} {step.get('say', step['title'])} {next(tricks)}"
        step["say"] = step["say"].replace("-2+3", "").replace("+1+", "").replace("1+1", "")
        step["tip"] = f"{next(tricks)} {next(tricks)}"
        step["caution"] = next(tricks)
        step["corrections"] = [{"day": "2026-03-01", "text": f"{next(tricks)} {next(tricks)}"}]
    return str(yaml.safe_dump(recipe, sort_keys=False, allow_unicode=True))


@pytest.fixture(scope="module")
def hostile(proof: Proof, tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, bytes]:
    """Every file of the set, with a class plan."""
    path = tmp_path_factory.mktemp("hostile") / "hostile.yaml"
    path.write_text(_hostile(proof.reading.source), encoding="utf-8")
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
