"""Faces are called as a maker calls them, where the closed card has an inside and an outside."""

from pathlib import Path

import pytest

from foldproof.documents.cutting import cuts, face_called
from foldproof.paper.face import Face
from foldproof.pipeline import prove

RECIPES = Path(__file__).resolve().parents[2] / "recipes"


@pytest.mark.parametrize(("recipe", "panel", "face", "called"), [
    pytest.param("tide-gate", "left door", Face.BACK, "the outside of the left door", id="front is inside"),
    pytest.param("tide-gate", "middle", Face.FRONT, "the inside of the middle", id="the same card's inside"),
    pytest.param("lantern-lane", "cover", Face.FRONT, "the outside of the cover", id="front is outside"),
    pytest.param("lantern-lane", "rear", Face.BACK, "the inside of the rear", id="back is inside"),
    pytest.param("tide-gate", "left mat", Face.FRONT, "the left mat", id="a layer by its name"),
    pytest.param("quay-stairs", "front", Face.FRONT, "the face-up side of the front panel", id="a name and a face"),
    pytest.param("rope-walk", "page", Face.FRONT, "the front of the page", id="both faces end up outside"),
])
def test_a_face_is_called(recipe: str, panel: str, face: Face, called: str) -> None:
    card = prove(RECIPES / f"{recipe}.yaml").card
    assert card is not None
    assert face_called(card, panel, face, True) == called


@pytest.mark.parametrize(("recipe", "piece", "said"), [
    pytest.param("tide-gate", "base", "its front is the inside of the card", id="gate"),
    pytest.param("lantern-lane", "base", "its back is the inside of the card", id="side fold"),
])
def test_the_cutting_box_says_which_face_is_inside(recipe: str, piece: str, said: str) -> None:
    card = prove(RECIPES / f"{recipe}.yaml").card
    assert card is not None
    row = next(row for row in cuts(card) if piece in row.names)
    assert row.scores[-1] == said
