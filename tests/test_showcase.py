"""The README is true: its pictures are of today's output, its table is the catalogue, its recipe builds."""

import json
import re
from pathlib import Path

import pytest

from foldproof.pipeline import prove
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


IN_README = re.findall(r"```yaml\n(title: .*?)```", README.read_text(encoding="utf-8"), flags=re.S)


@pytest.mark.parametrize("shown", IN_README, ids=lambda text: text.split("\n")[0])
def test_the_recipes_in_the_readme_are_sound(shown: str, tmp_path: Path) -> None:
    assert len(IN_README) >= 2
    recipe = tmp_path / "shown.yaml"
    recipe.write_text(shown, encoding="utf-8")
    proof = prove(recipe)
    assert proof.sound, proof.findings
    assert [finding.name for finding in proof.findings if finding.severity != "advice"] == []
