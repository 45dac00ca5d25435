"""References to measures in prose."""

import pytest
from small_recipe import SOUND, spoilt, told

from foldproof.recipe.reader import read_text
from foldproof.recipe.records import Recipe
from foldproof.recipe.references import fill, references


def recipe(text: str) -> Recipe:
    reading = read_text(text, "small.yaml")
    assert reading.findings == () and reading.recipe is not None
    return reading.recipe


@pytest.mark.parametrize(
    ("text", "filled"),
    [
        ("Cut it {width} wide.", "Cut it 4 1/4 in wide."),
        ("{band width} and {door}", "3 1/2 in and 2 1/8 in"),
        ("{ band   width }", "3 1/2 in"),
        ("{Width} and {nothing} stay", "{Width} and {nothing} stay"),
        ("no reference", "no reference"),
        ("{angle}, {share}, {wait}, {twice}, {long}", "45 degrees, 1/4, 5 min, 90 degrees, 600 s"),
    ],
)
def test_references_are_filled_in(text: str, filled: str) -> None:
    more = "  angle: 45 degrees\n  share: width / width / 4\n  wait: 5 min\n  twice: 2 * angle\n  long: 2 * wait\n"
    assert fill(text, recipe(SOUND.replace("papers:\n", more + "papers:\n"))) == filled


def test_metric_recipes_fill_in_metric() -> None:
    text = SOUND.replace("unit: inch", "unit: mm").replace("[1/2, 1/2]", "[2, 2]")
    assert fill("{width}", recipe(text)) == "4.25 mm"


def test_the_prose_of_the_recipe_keeps_its_references() -> None:
    summary = recipe(SOUND).summary
    assert summary is not None and summary.value == "A gate fold, {width} wide."


def test_references_come_in_order_of_mention() -> None:
    assert references("{b} then {a} then { b }") == ("b", "a", "b")


@pytest.mark.parametrize("key", ["text", "say", "tip", "caution"])
def test_every_passage_of_a_step_is_looked_at(key: str) -> None:
    passage = "    text: Glue the mat to the left door.\n"
    new = f"    {key}: See {{this}}.\n" + ("" if key == "text" else passage)
    assert told(spoilt(passage, new)) == [("unknown name", "{this}")]


def test_the_lines_of_a_shot_are_looked_at() -> None:
    assert told(spoilt("seconds: 20", 'seconds: 20, say: "See {this}"')) == [("unknown name", "{this}")]


def test_a_passage_of_several_lines_is_followed_to_the_name() -> None:
    found = told(spoilt("    text: Cut one base.", "    text: >\n      Cut one\n      {bsae}."))
    assert found == [("unknown name", "{bsae}")]


def test_a_reference_to_a_measure_that_is_broken_stays_silent() -> None:
    assert told(spoilt("  width: 4 1/4", "  width: wide")) == [("unknown measure", "wide")]


def test_the_nearest_measure_is_offered() -> None:
    finding = read_text(spoilt("{width} wide", "{band with} wide"), "small.yaml").findings[0]
    assert finding.mend == "Did you mean `{band width}`?"
