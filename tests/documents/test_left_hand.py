"""The left-handed edition: words of hands change, sides of the card do not, numbers stay."""

import json
from pathlib import Path

import pytest

from foldproof.documents.left_hand import hand_lines, other_hand
from foldproof.pipeline import Options, build, prove

RECIPE = Path(__file__).parents[2] / "recipes" / "tide-gate.yaml"


@pytest.mark.parametrize(("said", "told"), [
    pytest.param("Hold it with your left hand.", "Hold it with your right hand.", id="the hand that holds"),
    pytest.param("Your right hand draws, the left hand holds.", "Your left hand draws, the right hand holds.",
                 id="two"),
    pytest.param("near its right-hand edge", "near its right-hand edge", id="a right-hand edge is a side"),
    pytest.param("along the left-hand end", "along the left-hand end", id="a left-hand end is a side"),
    pytest.param("Fold the left door.", "Fold the left door.", id="a side of the card"),
    pytest.param("Lay your left hands flat", "Lay your right hands flat", id="several hands"),
])
def test_only_a_hand_is_the_other_one(said: str, told: str) -> None:
    assert other_hand(said) == told


def test_each_kind_of_work_is_told_once_a_step() -> None:
    making = prove(RECIPE).making
    assert making is not None
    told = {step.spec.id: hand_lines(step) for step in making.steps}
    assert [len(told[name]) for name in ("cut-the-base", "score-the-doors", "cut-the-mats-and-the-band")] == [1, 1, 1]
    assert "right hand holds" not in " ".join(told["fold-the-doors"])
    assert all("left hand" in line or "right to left" in line for lines in told.values() for line in lines)


def test_the_edition_is_built_beside_the_other_with_the_same_numbers(tmp_path: Path) -> None:
    plain = build(RECIPE, tmp_path).folder
    left = build(RECIPE, tmp_path, Options(left_handed=True)).folder
    assert plain is not None and left is not None
    assert left.name == "tide-gate-left-handed"
    facts = [json.loads((folder / "card.json").read_text()) for folder in (plain, left)]
    assert facts[0]["steps"] == facts[1]["steps"]
    assert facts[0]["revision"] != facts[1]["revision"]
    page = (left / "page.html").read_text()
    assert "your left hand works the blade" in page
    assert "your left hand works the blade" not in (plain / "page.html").read_text()
