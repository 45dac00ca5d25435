"""Themes are found where they are installed, and a broken one is told by template and line."""

from pathlib import Path

import pytest

from foldproof.documents.handout import handout_html
from foldproof.documents.revision import revision
from foldproof.documents.theme import Theme, load_theme, read_theme
from foldproof.documents.theme_folders import theme_names, themes_folder
from foldproof.documents.trouble import ThemeError
from foldproof.documents.view import View


def theme(folder: Path, template: str) -> Theme:
    (folder / "handout.html").write_text(template, encoding="utf-8")
    (folder / "handout.css").write_text("", encoding="utf-8")
    return read_theme(folder)


def test_themes_are_found_from_any_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "themes" / "trap").mkdir(parents=True)
    monkeypatch.chdir(tmp_path)
    assert "plain" in theme_names()
    assert "trap" not in theme_names()
    assert themes_folder().is_absolute()
    assert {"handout.html", "page.html", "shots.html"} <= set(load_theme("plain").files)


@pytest.mark.parametrize("name", ["none", "../plain", "", "/etc", "plain/.."])
def test_an_unknown_theme(name: str) -> None:
    with pytest.raises(ThemeError, match=r"there is no theme .* plain"):
        load_theme(name)


@pytest.mark.parametrize(("template", "told"), [
    pytest.param("one\n{% if view.title %}\n", r"handout\.html, line 2", id="an open block"),
    pytest.param("one\ntwo\n{{ view.titel }}", r"handout\.html, line 3: .*titel", id="an unknown word"),
    pytest.param("{{ 1 // 0 }}", r"handout\.html, line 1", id="a sum that fails"),
    pytest.param("one\n{{ ''.__class__.__mro__ }}", r"handout\.html, line 2", id="reaching out of the sandbox"),
    pytest.param("{% include 'gone.html' %}", r"gone\.html is missing", id="a part that is missing"),
    pytest.param("{% include '../secret.html' %}", r"secret\.html is missing", id="a part outside the theme"),
])
def test_a_broken_theme_is_told_by_template_and_line(tmp_path: Path, view: View, template: str, told: str) -> None:
    (tmp_path / "secret.html").write_text("secret")
    folder = tmp_path / "mine"
    folder.mkdir()
    with pytest.raises(ThemeError, match=told):
        handout_html(view, theme(folder, template), "letter")


def test_values_are_escaped(tmp_path: Path, view: View) -> None:
    assert handout_html(view, theme(tmp_path, "{{ view.title }}"), "letter") == "=Quiet &lt;card&gt;"


def test_a_missing_style_sheet(tmp_path: Path, view: View) -> None:
    made = theme(tmp_path, "x")
    (tmp_path / "handout.css").unlink()
    with pytest.raises(ThemeError, match=r"handout\.css is missing"):
        handout_html(view, read_theme(made.folder), "letter")


def test_the_revision_changes_with_each_of_its_parts() -> None:
    parts = ("text", [("a.css", b"x"), ("b.css", b"y")], "1.0")
    stamps = {
        revision(*parts), revision("text2", parts[1], "1.0"), revision("text", [("a.css", b"x")], "1.0"),
        revision("text", [("a.css", b"xy"), ("b.css", b"")], "1.0"), revision("text", parts[1], "1.1"),
        revision("text", [("c.css", b"x"), ("b.css", b"y")], "1.0"),
    }
    assert len(stamps) == 6
    assert revision("text", parts[1][::-1], "1.0") == revision(*parts), "the order of a listing is no part of it"
    assert all(len(stamp) == 8 and int(stamp, 16) >= 0 for stamp in stamps)
