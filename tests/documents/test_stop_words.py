"""The box before the first glue: when to look, what to look for on real paper, what the adhesive does."""

from dataclasses import replace
from pathlib import Path

import pytest

from foldproof.documents.stop_words import asked, mended, told_apart
from foldproof.drawing.stop_check import Stop, stop_of
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.pipeline import prove

RECIPES = Path(__file__).resolve().parents[2] / "recipes"


def stop_in(name: str) -> tuple[Card, Making, Stop]:
    proof = prove(RECIPES / f"{name}.yaml")
    assert proof.card is not None and proof.making is not None
    stop = stop_of(proof.card, proof.making)
    assert stop is not None
    return proof.card, proof.making, stop


@pytest.mark.parametrize(("recipe", "when", "look", "why"), [
    pytest.param("beacon", "When you have opened the work as this step says, and before any tape goes on: does it",
                 "Look for the folded edge: at the far edge in the first, at your right in the second.",
                 "Pulling tape off again may tear the paper.", id="opened in the step, taped"),
    pytest.param("quay-stairs", "When you have turned the work as this step says, and before any tape goes on: does it",
                 "Look where the scores lie: nearer you in the first, nearer your left in the second.",
                 "Pulling tape off again may tear the paper.", id="turned in the step, taped"),
    pytest.param("boat-house", "Before any wet glue goes on: does the work",
                 "Look for the folded edge: at your left in the first, at your right in the second.",
                 "Glue can't be undone.", id="blank both ways: the fold tells"),
    pytest.param("coast-road", "When you have opened the work as this step says, and before any wet glue goes on: does",
                 "they bend toward you (valley) in the first, away from you (mountain) in the second.",
                 "Glue can't be undone.", id="opened folds tell"),
    pytest.param("rope-walk", "When you have opened the work as this step says, and before any glue stick goes on:",
                 "Look where the scores lie: nearer your left in the first, nearer your right in the second.",
                 "Glue can't be undone.", id="where the folds lie tells"),
])
def test_the_maker_is_told_when_to_look_and_for_what(recipe: str, when: str, look: str, why: str) -> None:
    card, making, stop = stop_in(recipe)
    words = asked(card, making, stop)
    assert words.startswith(when) and words.endswith(look), words
    assert mended(card, stop).endswith(why)
    assert told_apart(card, stop)


def test_the_right_picture_is_of_the_table_just_before_the_glue() -> None:
    _, _, stop = stop_in("coast-road")
    assert stop.right.table == stop.glued.before and not stop.right.table.folded, "the roll lies open by then"


def test_two_lies_that_look_alike_are_not_told_apart() -> None:
    card, _, stop = stop_in("boat-house")
    assert not told_apart(card, replace(stop, wrong=stop.right))
