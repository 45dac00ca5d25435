"""Themes are found where they are installed, and a broken one is told by template and line."""

from dataclasses import replace
from pathlib import Path

import pytest

from foldproof.documents.erratum import Erratum
from foldproof.documents.handout import handout_html
from foldproof.documents.revision import revision
from foldproof.documents.theme import Theme, load_theme, read_theme
from foldproof.documents.theme_chosen import chosen
from foldproof.documents.theme_folders import theme_names, themes_folder
from foldproof.documents.trouble import ThemeError
from foldproof.documents.view import View
from foldproof.measures.quantity import Unit
from foldproof.pipeline import prove

SHEET = Erratum(title="Card", language="en", unit=Unit.INCH, of="it", dated="", places=())


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


@pytest.mark.parametrize("name", ["none", "../plain", "./none", "plain/.."])
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


def test_a_folder_of_ones_own_by_its_path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "mine").mkdir()
    monkeypatch.chdir(tmp_path)
    with pytest.raises(ThemeError, match=r"theme mine: \S*mine holds no \.css and no \.html file"):
        load_theme("./mine")
    (tmp_path / "mine" / "page.css").write_text("h1 { font-weight: 400; }", encoding="utf-8")
    assert load_theme("./mine").name == "mine"
    with pytest.raises(ThemeError, match="there is no theme 'mine'"):
        load_theme("mine")


def test_what_a_theme_leaves_out_is_plains(tmp_path: Path) -> None:
    (tmp_path / "handout.css").write_text("h1 { font-weight: 400; }", encoding="utf-8")
    (tmp_path / "erratum.html").write_text("{% include 'plain/erratum.html' %}", encoding="utf-8")
    plain, mine = load_theme("plain"), read_theme(tmp_path)
    assert mine.style("handout.css") == plain.style("handout.css") + "\nh1 { font-weight: 400; }"
    assert mine.style("page.css") == plain.style("page.css")
    assert set(mine.files) == {*plain.files, f"{mine.name}/handout.css", f"{mine.name}/erratum.html"}
    assert "put this right" in mine.render("erratum.html", sheet=SHEET, css="")
    assert revision("x", mine.files.items(), "1") != revision("x", plain.files.items(), "1")


def test_a_link_out_of_a_themes_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "secret.css").write_text("p { margin: 0; }", encoding="utf-8")
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "page.css").symlink_to(tmp_path / "secret.css")
    with pytest.raises(ThemeError, match=r"theme mine: page\.css leads out of the theme's folder"):
        read_theme(tmp_path / "mine")


@pytest.mark.parametrize(("named", "told"), [
    pytest.param("ledger", [], id="one that is shipped"),
    pytest.param("mine", [], id="a folder beside the recipe"),
    pytest.param("gone", ["theme missing"], id="no such folder"),
    pytest.param("../mine", ["theme elsewhere"], id="a folder above"),
    pytest.param("/etc", ["theme elsewhere"], id="a folder of the machine"),
    pytest.param("out", ["theme elsewhere"], id="a link that leads out"),
])
def test_a_recipes_own_theme_lies_beside_it(recipe_file: Path, named: str, told: list[str]) -> None:
    folder = recipe_file.parent
    (folder / "mine").mkdir()
    (folder / "out").symlink_to(folder.parent)
    recipe_file.write_text(f"theme: {named}\n" + recipe_file.read_text(encoding="utf-8"), encoding="utf-8")
    findings = [one for one in prove(recipe_file).findings if "theme" in one.name]
    assert [one.name for one in findings] == told
    assert all(one.place is not None and one.place.line == 1 and one.mend for one in findings)


def test_the_option_comes_before_the_recipe(recipe_file: Path) -> None:
    recipe_file.write_text("theme: mine\n" + recipe_file.read_text(encoding="utf-8"), encoding="utf-8")
    (recipe_file.parent / "mine").mkdir()
    (recipe_file.parent / "mine" / "page.css").write_text("h1 { font-weight: 400; }", encoding="utf-8")
    recipe = prove(recipe_file).reading.recipe
    assert recipe is not None
    assert chosen("", recipe, recipe_file.parent).name == "mine"
    assert chosen("studio", recipe, recipe_file.parent).name == "studio"
    assert chosen("", replace(recipe, theme=None), recipe_file.parent).name == "plain"


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
