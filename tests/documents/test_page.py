"""The page and the text to paste into a post: what they hold, what they ask for, and that their numbers agree."""

import io
import json
import re
from collections.abc import Mapping
from dataclasses import replace
from html.parser import HTMLParser
from itertools import pairwise
from typing import Any

import pytest
from markupsafe import Markup
from PIL import Image

from foldproof.documents import page
from foldproof.documents.paste_in import NOT_IN_A_POST, PASTE_IN, UPLOADS, paste_in
from foldproof.documents.readback import audit
from foldproof.documents.structured import structured
from foldproof.documents.theme import Theme
from foldproof.documents.view import Correction, Listed, View
from foldproof.folding.card import Card

VOID = {"meta", "link", "img", "br", "hr", "input"}


class Elements(HTMLParser):
    """Every element with its attributes, and whether each is closed in its place."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []
        self.open: list[str] = []
        self.faults: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {name: value or "" for name, value in attrs}))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.faults.append(tag)

    def of(self, tag: str) -> list[dict[str, str]]:
        return [named for found, named in self.found if found == tag]


@pytest.fixture(scope="module")
def told(view: View) -> View:
    """With a correction, a link, a price, an address, and words that try to break out."""
    one = Correction(day="2026-03-01", when="March 1, 2026", text="<p>It stood at 2 1/4 in; the doors overlap.</p>")
    supplies = (Listed(
        name='glue "><script>', note="to be had until June 30, 2026", offer="bottle for 40 cards, 3.20 USD",
        link="https://example.org/?a=1&b=\"2"),)
    return replace(
        view, steps=(replace(view.steps[0], corrections=(one,)), *view.steps[1:]), supplies=supplies,
        published="https://example.org/cards/quiet/page.html")


@pytest.fixture(scope="module")
def texts(told: View, plain_theme: Theme) -> Mapping[str, str]:
    return {"page.html": page.page(told, plain_theme), PASTE_IN: paste_in(told, plain_theme)}


@pytest.mark.parametrize("name", ["page.html", PASTE_IN])
def test_elements_are_closed_and_words_cannot_break_out(texts: Mapping[str, str], name: str) -> None:
    seen = Elements(texts[name])
    assert (seen.faults, seen.open) == ([], [])
    assert "glue &#34;&gt;&lt;script&gt;" in texts[name] or "glue &quot;&gt;&lt;script&gt;" in texts[name]
    assert [named["href"] for named in seen.of("a") if "?a=1" in named["href"]] == ['https://example.org/?a=1&b="2']
    assert not [key for _, named in seen.found for key in named if key.startswith("on")]


@pytest.mark.parametrize("name", ["page.html", PASTE_IN])
def test_nothing_is_asked_for_from_outside(texts: Mapping[str, str], name: str) -> None:
    """What a browser fetches by itself: sources, sheets, icons, addresses in styles (HTML standard, 4.2.4 and 4.8)."""
    seen = Elements(texts[name])
    for _, named in seen.found:
        for key in ("src", "srcset", "data", "poster", "background", "action"):
            assert not named.get(key) or named[key].startswith(("data:", "pictures/")), named
    assert {named["rel"] for named in seen.of("link")} <= {"canonical"}
    assert all(address.startswith("data:") for address in re.findall(r"url\(['\"]?([^)]{0,9})", texts[name]))
    assert "@import" not in texts[name]


def test_the_page_in_order(texts: Mapping[str, str]) -> None:
    text = texts["page.html"]
    seen = Elements(text)
    assert [named.get("lang") for named in seen.of("html")] == ["en-US"]
    levels = [int(tag[1]) for tag, _ in seen.found if re.fullmatch("h[1-6]", tag)]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert text.index('id="measurements"') < text.index('id="needed"') < text.index('id="steps"'), "no chat before"
    assert all("alt" in named for named in seen.of("img"))
    headers = seen.of("th")
    assert headers and all(named["scope"] in ("col", "row") for named in headers)
    ids = [named["id"] for _, named in seen.found if "id" in named]
    assert len(ids) == len(set(ids))
    inside = [named["href"][1:] for named in seen.of("a") if named["href"].startswith("#")]
    assert inside and set(inside) <= set(ids)


def test_the_post_holds_what_a_post_can(texts: Mapping[str, str], told: View) -> None:
    seen = Elements(texts[PASTE_IN])
    tags = {tag for tag, _ in seen.found}
    assert not tags & NOT_IN_A_POST
    assert not [named for _, named in seen.found if "class" in named]
    levels = [int(tag[1]) for tag, _ in seen.found if re.fullmatch("h[1-6]", tag)]
    assert min(levels) == levels[0] == 2, "the post's title stands above"
    assert all(after <= before + 1 for before, after in pairwise(levels))
    ids = [named["id"] for _, named in seen.found if "id" in named]
    assert ids == [f"quiet-{step.id}" for step in told.steps], "two posts on one page must not share ids"


def test_a_correction_stands_beside_its_step_with_its_day(texts: Mapping[str, str]) -> None:
    text = texts["page.html"]
    step = text[text.index('id="base"'):text.index('id="mat"')]
    assert 'Corrected <time datetime="2026-03-01">March 1, 2026</time>' in step and "2 1/4" in step.replace(
        '<span class="fraction">1/4</span>', "1/4")
    head = text[:text.index("<main")]
    assert 'href="#base">step 1</a>' in head
    assert "Corrected March 1, 2026." in texts[PASTE_IN]


# Open Graph protocol, ogp.me: the address and the picture are whole addresses.
def test_an_address_is_told_only_where_the_recipe_gives_one(told: View, plain_theme: Theme, files: Mapping[str, bytes],
                                                            card: Card) -> None:
    def properties(text: str) -> dict[str, str]:
        return {named["property"]: named["content"] for named in Elements(text).of("meta") if "property" in named}

    with_scenes = page.page(replace(told, photo=None), plain_theme)
    assert properties(with_scenes)["og:url"] == "https://example.org/cards/quiet/page.html"
    assert 'rel="canonical" href="https://example.org/cards/quiet/page.html"' in with_scenes
    plain = properties(files["page.html"].decode())
    assert plain == {
        "og:type": "article", "og:title": "=Quiet <card>", "og:description": "A folded card with one mat & no fuss."}
    assert "example.org" not in files["page.html"].decode()
    data = json.loads(structured(told, card.recipe, None))
    assert data["url"] == "https://example.org/cards/quiet/page.html"
    assert data["dateModified"] == "2026-03-01"


def test_the_preview_picture(files: Mapping[str, bytes]) -> None:
    picture = Image.open(io.BytesIO(files["pictures/preview.png"])).convert("L")
    assert picture.size == (1200, 630)
    darkest, lightest = picture.getextrema()
    assert isinstance(darkest, int | float) and darkest < 60 and lightest == 255


def test_every_picture_of_the_post_is_there_and_listed(files: Mapping[str, bytes]) -> None:
    seen = Elements(files[PASTE_IN].decode())
    shown = [named["src"] for named in seen.of("img")]
    assert shown and len(shown) == len(set(shown))
    listed = files[UPLOADS].decode()
    for named in seen.of("img"):
        assert f"  {named['src']}   " in listed
        picture = Image.open(io.BytesIO(files[named["src"]]))
        assert picture.format == "PNG"
        across = picture.width / int(named["width"])
        assert across == pytest.approx(picture.height / int(named["height"]), rel=0.02), "not stretched"
        assert across > 1.5, "sharp on a screen of twice the density"
    for name in ("handout.pdf", "template.pdf", "pictures/preview.png"):
        assert name in listed


def test_drawings_of_dots_are_the_same_every_time(files: Mapping[str, bytes], card: Card) -> None:
    from foldproof.documents.page import STYLE
    from foldproof.drawing.cutting import draw_cutting_list
    from foldproof.drawing.dots import to_png

    drawn = draw_cutting_list(card, STYLE)
    assert drawn.scene is not None
    assert to_png(drawn.scene, STYLE) == files["pictures/cutting-list.png"]


@pytest.mark.parametrize(("old", "new", "problem"), [
    pytest.param("score at 4", "score at 5", "it says 5 1/4 that the card does not", id="a number"),
    pytest.param("8 1/2 × 5 1/2 in", "8 1/2 × 5 1/4 in", "“8 1/2 × 5 1/2 in” is missing", id="a size"),
    pytest.param("pictures/step-01.png", "pictures/step-99.png", "shows pictures/step-99.png", id="a picture"),
    pytest.param("<h2>Steps</h2>", "<h2>Steps</h2><script>x</script>", "it has <script>", id="a script"),
    pytest.param('id="quiet-mat"', 'id="quiet-other"', "step 2: “2” is missing", id="a step"),
])
def test_the_audit_reads_the_post_again(
    view: View, files: Mapping[str, bytes], plain_theme: Theme, old: str, new: str, problem: str,
) -> None:
    def plain(text: str) -> str:
        return re.sub(r"<span[^>]*>|</span>", "", text)

    text = plain(paste_in(view, plain_theme)).replace(".svg", ".png")
    made = {**files, PASTE_IN: text.encode(), **dict.fromkeys(re.findall('src="([^"]+)"', text), b"")}
    made[UPLOADS] = " ".join(re.findall('(?:src|href)="([^"]+)"', text)).encode()
    assert [one for one in audit(view, made) if one.startswith(PASTE_IN)] == []
    assert old in text
    wrong = {**made, PASTE_IN: text.replace(old, new).encode()}
    assert any(problem in one for one in audit(view, wrong) if one.startswith(PASTE_IN)), audit(view, wrong)


def test_what_is_said_to_machines_cannot_leave_its_element(told: View, card: Card) -> None:
    text: Any = structured(told, card.recipe, None)
    assert isinstance(text, Markup) and "<" not in text
    (supply,) = [one for one in json.loads(text)["supply"] if one["name"].startswith("glue")]
    assert supply["url"] == 'https://example.org/?a=1&b="2'
