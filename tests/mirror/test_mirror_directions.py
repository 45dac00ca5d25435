"""Which words of a sentence say a side, and what they become in the mirrored card."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.measures.quantity import Unit
from foldproof.mirror.directions import changed_directions
from foldproof.recipe.sides import other_side


@pytest.mark.parametrize(("said", "mirrored"), [
    pytest.param("Fold the left door over to the right.", "Fold the right door over to the left.", id="panel and way"),
    pytest.param("Right side first, left side over it.", "Left side first, right side over it.", id="at the start"),
    pytest.param("Score it, right across.", "Score it, right across.", id="right across"),
    pytest.param("They cross right in the middle.", "They cross right in the middle.", id="right in the middle"),
    pytest.param("the waves the right way up", "the waves the right way up", id="the right way up"),
    pytest.param("a right-angled corner, a right angle", "a right-angled corner, a right angle", id="right angle"),
    pytest.param("Use what is left.", "Use what is left.", id="what is left"),
    pytest.param("a strip left over from the mat", "a strip left over from the mat", id="left over"),
    pytest.param("one flap points left and one points right before",
                 "one flap points right and one points left before", id="pointing"),
    pytest.param("Pencil an L on the left piece.", "Pencil an R on the right piece.", id="letter for a side"),
    pytest.param("Turn it a quarter turn clockwise.", "Turn it a quarter turn anticlockwise.", id="clockwise"),
    pytest.param("Lay it with the left end at the stop, the flap at the left.",
                 "Lay it with the left end at the stop, the flap at the right.", id="the stop is a tool"),
    pytest.param("its right-hand edge", "its left-hand edge", id="right-hand edge"),
    pytest.param("Hold it with your left hand.", "Hold it with your left hand.", id="the hand that holds"),
])
def test_sides_change_over_and_nothing_else_does(said: str, mirrored: str) -> None:
    assert changed_directions(said, Unit.MM) == mirrored


def test_an_inch_recipe_turns_counterclockwise() -> None:
    assert changed_directions("clockwise, then anticlockwise", Unit.INCH) == "counterclockwise, then clockwise"


@given(st.lists(st.sampled_from(["left", "Left", "right", "top", "door", "quarter", "clockwise", "anticlockwise"])))
def test_a_name_mirrored_twice_is_itself(words: list[str]) -> None:
    name = " ".join(words)
    assert other_side(other_side(name)) == name
