"""A recipe without its prose: no words are left, and places are left only in their order."""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from foldproof.findings.finding import Place
from foldproof.recipe.reader import read_file
from foldproof.recipe.records import Recipe
from foldproof.recipe.wordless import wordless

RECIPES = Path(__file__).parents[2] / "recipes"


def read(path: Path) -> Recipe:
    recipe = read_file(path).recipe
    assert recipe is not None
    return recipe


def pairs(one: Any, other: Any) -> Iterator[tuple[Place, Place]]:
    """The places at the same spots of two recipes."""
    if isinstance(one, Place) and isinstance(other, Place):
        yield one, other
    elif isinstance(one, tuple) and isinstance(other, tuple):
        for parts in zip(one, other, strict=False):  # one of them holds less
            yield from pairs(*parts)
    elif type(one) is type(other):
        for name in getattr(one, "__dataclass_fields__", ()):
            yield from pairs(getattr(one, name), getattr(other, name))


@pytest.mark.parametrize("name", ["tide-gate", "four-winds"])
def test_places_keep_their_order_and_stay_apart(name: str) -> None:
    recipe = read(RECIPES / f"{name}.yaml")
    found = sorted(set(pairs(recipe, wordless(recipe))), key=lambda pair: (
        pair[0].line, pair[0].column, pair[0].length))
    assert len(found) > 100
    for (before, now), (after, then) in pairwise(found):
        assert (before == after) is (now == then) and now.line <= then.line, (before, after)


def test_longer_words_and_lines_between_make_no_other_recipe(tmp_path: Path) -> None:
    text = (RECIPES / "tide-gate.yaml").read_text(encoding="utf-8")
    changed = text.replace("Sharpen both folds", "Sharpen\n      both of the folds").replace(
        "title: Cut the base", "title: Cut out the base\n    id: cut-the-base").replace("steps:", "# by hand\n\nsteps:")
    recipes = []
    for number, written in enumerate((text, changed, text.replace("2 1/8", "2 1/16"))):
        (tmp_path / str(number)).mkdir()
        (tmp_path / str(number) / "card.yaml").write_text(written, encoding="utf-8")
        recipes.append(wordless(read(tmp_path / str(number) / "card.yaml")))
    assert recipes[0] == recipes[1] and hash(recipes[0]) == hash(recipes[1])
    assert recipes[0] != recipes[2]


def test_nothing_is_left_of_what_only_a_reader_meets() -> None:
    recipe = read(RECIPES / "tide-gate.yaml")
    told = repr(wordless(recipe))
    words = [recipe.title, recipe.summary, *(
        text for step in recipe.steps for text in (step.title, step.text, step.say, step.tip, step.caution))]
    assert [str(text) for text in words if text is not None and repr(text.value) in told] == []
    assert "Keep your fingers" not in told and "left hinge" in told and wordless(recipe).texts == {}
