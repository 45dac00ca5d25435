"""The guide and the README are true: their recipes are sound, and what a slip is said to print is what it prints."""

import re
from pathlib import Path

import pytest

from foldproof.findings.finding import Severity
from foldproof.findings.show import render
from foldproof.pipeline import prove

ROOT = Path(__file__).parents[1]
GUIDE = ROOT / "recipes" / "guide"
README = (ROOT / "README.md").read_text(encoding="utf-8")
FIRST = re.search(r"```yaml\n(title: .*?)```", README, flags=re.S)
PAGES = sorted(path for path in GUIDE.glob("*.md") if path.name not in ("README.md", "keys.md"))
WITHOUT_RECIPE = {"from-old-notes", "after-filming", "after-a-slip"}
"""Pages about what is done with a recipe, not about its grammar."""


def recipes_of(page: Path) -> list[str]:
    return re.findall(r"```yaml recipe\n(.*?)```", page.read_text(encoding="utf-8"), flags=re.S)


RECIPES = [pytest.param(text, id=page.stem) for page in PAGES for text in recipes_of(page)]


def test_every_page_of_the_grammar_has_a_recipe_and_is_in_the_contents() -> None:
    assert [page.stem for page in PAGES if not recipes_of(page)] == sorted(WITHOUT_RECIPE)
    contents = (GUIDE / "README.md").read_text(encoding="utf-8")
    for page in PAGES:
        assert f"]({page.name})" in contents
        assert f"](recipes/guide/{page.name})" in README


def test_links_between_the_pages_lead_somewhere() -> None:
    for page in (*GUIDE.glob("*.md"), ROOT / "README.md"):
        for link in re.findall(r"\]\(([^)#:]+?)(?:#[^)]*)?\)", page.read_text(encoding="utf-8")):
            assert (page.parent / link).exists(), (page.name, link)


@pytest.mark.parametrize("text", RECIPES)
def test_a_recipe_of_the_guide_is_sound_and_quiet(text: str, tmp_path: Path) -> None:
    recipe = tmp_path / "shown.yaml"
    recipe.write_text(text, encoding="utf-8")
    proof = prove(recipe)
    assert proof.sound, proof.findings
    assert [found.message for found in proof.findings if found.severity is not Severity.ADVICE] == []


def test_a_look_of_the_guide_is_sound_and_quiet(tmp_path: Path) -> None:
    page = GUIDE / "looks.md"
    (base,) = recipes_of(page)
    looks = re.findall(r"```yaml look\n(.*?)```", page.read_text(encoding="utf-8"), flags=re.S)
    (tmp_path / "window-seat.yaml").write_text(base, encoding="utf-8")
    assert looks
    for look in looks:
        recipe = tmp_path / "shown.yaml"
        recipe.write_text(look, encoding="utf-8")
        proof = prove(recipe)
        assert proof.sound, proof.findings
        assert [found.message for found in proof.findings if found.severity is not Severity.ADVICE] == []


def test_the_walk_in_the_readme_goes_as_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert FIRST
    monkeypatch.chdir(tmp_path)
    recipe = Path("recipes/first.yaml")
    recipe.parent.mkdir()
    recipe.write_text(FIRST[1], encoding="utf-8")
    proof = prove(recipe)
    assert proof.sound and [found.message for found in proof.findings if found.severity is not Severity.ADVICE] == []
    before, after = FIRST[1].rsplit("score: 2 1/8", 1)
    slipped = f"{before}score: 2 1/4{after}"
    recipe.write_text(slipped, encoding="utf-8")
    told = render(prove(recipe).findings[:1], {str(recipe): slipped}).rsplit("\n\n", 1)[0]
    shown = re.search(r"   ```\n(   ERROR: .*?)\n   ```", README, flags=re.S)
    assert shown and [line[3:] for line in shown[1].split("\n")] == told.split("\n")
