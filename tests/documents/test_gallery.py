"""The gallery: every card that stands in an output folder, and nothing that does not."""

import json
import re
import threading
from html import unescape
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest

from foldproof.documents.gallery import NAME, make_gallery
from foldproof.documents.placing import ASIDE, CONTENTS, place
from foldproof.documents.theme import Theme
from foldproof.documents.trouble import PlacingError
from foldproof.shell import show_gallery

ADVICE = {"severity": "advice", "name": "often off", "message": "It may be off by 1/8 in <b>."}
WARNING = {"severity": "warning", "name": "uneven borders", "message": "They differ."}


def card(into: Path, name: str, *more: str, links: bool = True, **facts: Any) -> None:
    told = {
        "title": name.replace("-", " ").capitalize(), "unit": "inch", "revision": "0123abcd", "findings": [],
        "finished": {"size": {"width": {"exact": "17/4"}, "height": {"exact": "11/2"}}},
        "picture": {"file": "pictures/preview.png", "shows": f"{name} closed"}, **facts}
    files = ("page.html", "handout.pdf", "handout-a4.pdf", "template.svg", "pictures/preview.png", *more)
    into.mkdir(parents=True, exist_ok=True)
    place({"card.json": json.dumps(told).encode(), **dict.fromkeys(files, b"x")}, into, name, links=links)


def gallery(into: Path, theme: Theme) -> str:
    make_gallery(into, theme)
    return (into / NAME).read_text(encoding="utf-8")


def titles(text: str) -> list[str]:
    return [unescape(title) for title in re.findall(r"<h2>(.*?)</h2>", text)]


def leads_to(text: str) -> set[str]:
    return {unquote(unescape(name)) for name in re.findall(r'(?:href|src)="([^"]+)"', text)}


def test_cards_with_picture_size_state_and_documents(tmp_path: Path, plain_theme: Theme) -> None:
    card(tmp_path, "tide-gate", findings=[ADVICE, WARNING, ADVICE], dated="2026-03-01")
    card(tmp_path, "beacon")
    text = gallery(tmp_path, plain_theme)
    assert titles(text) == ["Beacon", "Tide gate"]
    beacon, tide = text.split('id="tide-gate"')
    assert "When it was built: nothing found" in beacon
    assert "When it was built: 1 warning and 2 pieces of advice" in tide
    assert "It may be off by" in tide and "&lt;b&gt;" in tide and "<b>" not in text
    assert re.sub(r"<[^>]+>", "", tide).count("4 1/4 × 5 1/2 in closed") == 1
    assert 'alt="tide-gate closed"' in tide and "revision 0123abcd, 2026-03-01" in tide
    assert "handout, A4</a>" in tide and "template (SVG)</a>" in tide
    assert leads_to(text) == {
        f"{name}/{file}" for name in ("beacon", "tide-gate") for file in (
            "page.html", "handout.pdf", "handout-a4.pdf", "template.svg", "pictures/preview.png", "card.json")}


def test_everything_that_it_leads_to_is_there(tmp_path: Path, plain_theme: Theme) -> None:
    card(tmp_path, "a b#c%20&d\"e")
    card(tmp_path / "winter" / "deep", "beacon", links=False)
    text = gallery(tmp_path, plain_theme)
    assert len(leads_to(text)) == 12
    assert all((tmp_path / name).is_file() for name in leads_to(text))
    assert "winter/deep/beacon/page.html" in leads_to(text)
    assert not re.search(r"https?:|@import|<script", text)


def test_what_is_gone_is_not_claimed(tmp_path: Path, plain_theme: Theme) -> None:
    card(tmp_path, "beacon")
    card(tmp_path, "tide-gate")
    assert len(titles(gallery(tmp_path, plain_theme))) == 2
    (tmp_path / "beacon").unlink()
    (tmp_path / "tide-gate" / "handout.pdf").unlink()
    text = gallery(tmp_path, plain_theme)
    assert titles(text) == ["Tide gate"]
    assert "tide-gate/handout.pdf" not in leads_to(text)
    assert "Of its files 1 is gone, handout.pdf the first" in text
    (tmp_path / "tide-gate").unlink()
    assert "0 cards" in gallery(tmp_path, plain_theme)


@pytest.mark.parametrize("facts", [
    b"", b"[]", b"{", b"\xff\xfe", b'{"findings": 3, "finished": [], "unit": "ell"}',
    b'{"title": ["x"], "findings": [3, {"severity": "loud"}], "finished": {"size": {"width": {"exact": "1/0"}}}}',
])
def test_a_set_whose_facts_cannot_be_read_is_shown_as_it_is(tmp_path: Path, plain_theme: Theme, facts: bytes) -> None:
    place({"card.json": facts, "page.html": b"x"}, tmp_path, "odd")
    text = gallery(tmp_path, plain_theme)
    assert len(titles(text)) == 1 and "odd/page.html" in leads_to(text)
    assert "closed</p>" not in text


def test_nothing_from_outside_the_folder_is_shown(tmp_path: Path, plain_theme: Theme) -> None:
    elsewhere = tmp_path / "elsewhere"
    card(elsewhere, "secret", links=False)
    into = tmp_path / "build"
    card(into, "beacon")
    (into / "way-out").symlink_to(elsewhere / "secret")
    (into / "ring").symlink_to(into)
    listed = into / "beacon" / CONTENTS
    listed.write_text(json.dumps(["page.html", "../../elsewhere/secret/page.html", "/etc/passwd", "..\\x"]))
    text = gallery(into, plain_theme)
    assert titles(text) == ["beacon"]
    assert leads_to(text) == {"beacon/page.html"}


def test_class_plans_stand_after_the_cards(tmp_path: Path, plain_theme: Theme) -> None:
    told = json.dumps({"people": 12, "cards": ["tide-gate", "beacon"], "revision": "0123abcd"}).encode()
    place({"class.json": told, "class.pdf": b"x", "class.csv": b"x"}, tmp_path, "class-both")
    card(tmp_path, "tide-gate", "class.pdf", "class.json")
    text = gallery(tmp_path, plain_theme)
    assert titles(text) == ["Tide gate", "Class of 12: tide gate, beacon"]
    assert "1 card and 1 class plan" in text


def test_it_is_made_again_only_where_something_has_changed(tmp_path: Path, plain_theme: Theme) -> None:
    card(tmp_path, "beacon")
    first = gallery(tmp_path, plain_theme)
    stamp = (tmp_path / NAME).stat().st_ino
    assert gallery(tmp_path, plain_theme) == first and (tmp_path / NAME).stat().st_ino == stamp
    card(tmp_path, "beacon", findings=[WARNING])
    assert "1 warning" in gallery(tmp_path, plain_theme)


def test_a_file_of_somebody_elses_is_left_alone(
    tmp_path: Path, plain_theme: Theme, capsys: pytest.CaptureFixture[str],
) -> None:
    card(tmp_path, "beacon")
    (tmp_path / NAME).write_text("<h1>My cards</h1>")
    with pytest.raises(PlacingError, match="is no gallery of Foldproof"):
        make_gallery(tmp_path, plain_theme)
    show_gallery(tmp_path, "plain")
    assert capsys.readouterr().err.count("\n") == 1
    assert (tmp_path / NAME).read_text() == "<h1>My cards</h1>"
    (tmp_path / NAME).unlink()
    (tmp_path / NAME).mkdir()
    with pytest.raises(PlacingError):
        make_gallery(tmp_path, plain_theme)


def test_an_empty_folder_gets_none(tmp_path: Path, plain_theme: Theme) -> None:
    make_gallery(tmp_path, plain_theme)
    make_gallery(tmp_path / "none", plain_theme)
    assert list(tmp_path.iterdir()) == []


def test_two_builds_at_once(tmp_path: Path, plain_theme: Theme) -> None:
    """Each switches its set in and makes the gallery; a reader meanwhile never sees half of one."""
    names = [f"card-{number}" for number in range(8)]
    card(tmp_path, "card-0")
    gallery(tmp_path, plain_theme)
    broken: list[str] = []
    done = threading.Event()

    def build(mine: list[str]) -> None:
        for name in mine:
            card(tmp_path, name)
            make_gallery(tmp_path, plain_theme)

    def look() -> None:
        while not done.is_set():
            text = (tmp_path / NAME).read_text(encoding="utf-8")
            if not text.rstrip().endswith("</html>"):
                broken.append(text[-50:])

    builders = [threading.Thread(target=build, args=(mine,)) for mine in (names[::2], names[1::2])]
    reader = threading.Thread(target=look)
    for thread in (reader, *builders):
        thread.start()
    for thread in builders:
        thread.join()
    done.set()
    reader.join()
    assert broken == []
    assert len(titles((tmp_path / NAME).read_text(encoding="utf-8"))) == 8
    assert not list((tmp_path / ASIDE).glob("*.draft"))
