"""The reference page is of today's table, and says every key of every file."""

import re
from pathlib import Path

import pytest

from foldproof.grammar.page import value_in_words
from foldproof.grammar_command import FILES, page_text
from foldproof.recipe.keys import forms
from foldproof.recipe.kinds import Form

PAGE = Path(__file__).parents[2] / "recipes" / "guide" / "keys.md"
FORMS = [pytest.param(form, id=f"{name}: {form.name}") for name, root in FILES.items() for form in forms(root)]


def test_the_page_of_the_guide_is_of_today() -> None:
    assert PAGE.read_text(encoding="utf-8") == page_text(), "run `foldproof grammar --page recipes/guide/keys.md`"


@pytest.mark.parametrize("form", FORMS)
def test_every_key_of_a_form_has_its_row(form: Form) -> None:
    section = page_text().split(f"\n## {form.name}\n")[1].split("\n## ")[0]
    for key in form.keys:
        (row,) = [line for line in section.split("\n") if line.startswith(f"| `{key.name}`")]
        cells = row.replace("\\|", "").split(" | ")
        assert len(cells) == 4
        assert ("**needed**" in cells[0]) == key.required
        assert key.meaning in cells[2].replace("|", "") or "|" in key.meaning
        assert key.example in cells[3]
        assert value_in_words(key.kind).replace("|", "") in cells[1]


def test_links_in_the_page_lead_to_its_sections() -> None:
    text = page_text()
    sections = {line[3:].replace(" ", "-") for line in text.split("\n") if line.startswith("## ")}
    assert set(re.findall(r"\]\(#([^)]*)\)", text)) <= sections
