"""Findings as notes: the line, what is meant in it, and the spot on the page."""

from pathlib import Path

import pytest

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.preview.notes import spot_of, told
from foldproof.recipe.reader import read_text
from foldproof.recipe.records import Recipe

SOURCE = (Path(__file__).parents[2] / "recipes" / "tide-gate.yaml").read_text(encoding="utf-8")
LINES = SOURCE.splitlines()


@pytest.fixture(scope="module")
def recipe() -> Recipe:
    reading = read_text(SOURCE, "card.yaml")
    assert reading.recipe is not None
    return reading.recipe


def at(words: str, step: str | None = None) -> Finding:
    line = next(number for number, text in enumerate(LINES, start=1) if words in text)
    place = Place(file="card.yaml", line=line, column=LINES[line - 1].index(words) + 1, length=len(words))
    return Finding(name="a fault", severity=Severity.WARNING, message="It is wrong.", place=place, step=step)


def test_a_note_has_its_line_and_what_is_meant_in_it(recipe: Recipe) -> None:
    finding = at("title")
    aside = Aside(text="the plan", place=Place(file="other.yaml", line=3, column=1))
    note = told([finding], {"card.yaml": SOURCE}, recipe)["notes"][0]
    assert note["place"] == {"file": "card.yaml", "line": 1, "text": LINES[0], "start": 0, "end": 5}
    assert (note["severity"], note["message"], note["mend"], note["asides"]) == ("warning", "It is wrong.", None, [])
    with_aside = Finding(name="x", severity=Severity.ERROR, message="y", asides=(aside,))
    assert told([with_aside], {"card.yaml": SOURCE}, recipe)["notes"][0]["asides"] == [
        {"text": "the plan", "place": None}]


def test_a_place_beyond_the_text_breaks_nothing(recipe: Recipe) -> None:
    far = Finding(name="x", severity=Severity.ERROR, message="y", place=Place(file="card.yaml", line=9999, column=80))
    note = told([far], {"card.yaml": SOURCE}, recipe)
    assert note["count"] == "1 error." and note["notes"][0]["place"]["text"] == ""


def test_findings_lead_to_the_step_or_the_part_of_the_page_that_they_are_about(recipe: Recipe) -> None:
    sources = {"card.yaml": SOURCE}
    first, last = recipe.steps[0], recipe.steps[-1]
    assert spot_of(at("title:"), sources, recipe) == "views"
    assert spot_of(at("pieces:"), sources, recipe) == "measurements"
    assert spot_of(at("poses:"), sources, recipe) == "views"
    assert spot_of(at("tools:"), sources, recipe) == "needed"
    assert spot_of(at("title:", step=last.id), sources, recipe) == last.id
    inside = Place(file="card.yaml", line=last.place.line, column=1)
    finding = Finding(name="x", severity=Severity.ERROR, message="y", place=inside)
    assert spot_of(finding, sources, recipe) == last.id != first.id
    assert spot_of(Finding(name="x", severity=Severity.ERROR, message="y"), sources, recipe) is None
    assert spot_of(at("title:", step="gone"), sources, recipe) == "views"
