"""A few of the recipes made by chance; `tests/bench/legibility.py` draws two hundred in every style."""

import pytest
from drawn import LARGE_PRINT, card_of
from generated import recipe_text

from foldproof.checks.catalogue import run_checks
from foldproof.documents import handout, page
from foldproof.drawing.legible import faults
from foldproof.drawing.steps import step_scene
from foldproof.findings.finding import Severity

STYLES = {"handout": handout.STYLE, "page": page.STYLE, "large print": LARGE_PRINT}
CASES = [(number, style) for number in range(100, 118) for style in STYLES if number % 3 == list(STYLES).index(style)]


@pytest.mark.parametrize(("number", "style"), CASES)
def test_every_step_can_be_read(number: int, style: str) -> None:
    card, making = card_of(recipe_text(number), f"{number}.yaml")
    scenes = [scene for made in making.steps if (scene := step_scene(card, made, STYLES[style])) is not None]
    assert len(scenes) >= 4
    assert [fault for scene in scenes for fault in faults(scene, STYLES[style])] == []
    assert all(scene.width <= STYLES[style].width_mm for scene in scenes)


@pytest.mark.parametrize("number", range(100, 106))
def test_the_recipes_are_sound_but_for_their_words(number: int) -> None:
    card, making = card_of(recipe_text(number), f"{number}.yaml")
    assert [one.message for one in (*making.findings, *run_checks(card, making))
            if one.severity is Severity.ERROR] == []


def test_the_same_number_makes_the_same_recipe_and_others_differ() -> None:
    assert recipe_text(7) == recipe_text(7)
    assert len({recipe_text(number) for number in range(200)}) == 200
