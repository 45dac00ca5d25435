"""The README is true: its pictures are of today's output, its table is the catalogue."""

import json

import pytest

from showcase import FOLDER, README, RECIPES, SHOWN, STAMPS, checks_table, files_of, part_of, pictures_list, said
from wrong_numbers import KEPT, digest, readme_part
from wrong_numbers import RECIPES as RECIPES_OF_SLIPS

REMAKE = "run `python tests/showcase.py` and commit build/showcase and README.md"


@pytest.mark.parametrize("recipe", RECIPES)
def test_pictures_show_what_the_documents_say_today(recipe: str) -> None:
    assert json.loads(STAMPS.read_text(encoding="utf-8"))[recipe] == said(files_of(recipe)), REMAKE


def test_every_picture_is_there_and_shown() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {*(shown.picture for shown in SHOWN), STAMPS.name, KEPT.name}
    assert part_of(README.read_text(encoding="utf-8"), "pictures") == pictures_list(), REMAKE


def test_the_table_of_checks_is_the_catalogue() -> None:
    assert part_of(README.read_text(encoding="utf-8"), "checks") == checks_table(), REMAKE


def test_the_table_of_slips_is_of_todays_recipes() -> None:
    kept = json.loads(KEPT.read_text(encoding="utf-8"))
    assert part_of(README.read_text(encoding="utf-8"), "slips") == readme_part()
    assert kept["of"] == digest(list(RECIPES_OF_SLIPS.glob("*.yaml"))), "run `python tests/wrong_numbers.py --readme`"
