"""From readings of a ruler to the step that went off."""

from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foldproof.cli import main
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.pipeline import prove
from foldproof.tolerance.as_made import as_made, paper_work
from foldproof.tolerance.ruler import Diagnosis, diagnose, measurable
from foldproof.tolerance.settings import settings_of, with_setting

RECIPES = Path(__file__).parents[2] / "recipes"
GATE = str(RECIPES / "tide-gate.yaml")


@cache
def made(name: str) -> tuple[Card, Making]:
    proof = prove(RECIPES / f"{name}.yaml")
    assert proof.card is not None and proof.making is not None
    return proof.card, proof.making


def read_off(name: str, number: int, error: Fraction) -> tuple[str, Diagnosis]:
    """Make the card with one setting off, measure all of it, and say which setting it was and what is made of it."""
    card, making = made(name)
    setting = settings_of(making)[number]
    spoilt = as_made(card, paper_work(card, card.recipe.steps), with_setting(making, setting, error))
    assert spoilt is not None
    poses = tuple(pose for pose in card.recipe.poses if pose.name.value == "closed")
    whole, _ = build_card(replace(spoilt.card.recipe, poses=poses))
    assert whole is not None
    return setting.what, diagnose(card, making, {one.key: one.value for one in measurable(whole)})


@pytest.mark.parametrize("name", ["tide-gate", "lantern-lane"])
@settings(max_examples=6, deadline=None)
@given(data=st.data())
def test_the_setting_that_was_off_is_found_with_its_error(name: str, data: st.DataObject) -> None:
    number = data.draw(st.integers(0, len(settings_of(made(name)[1])) - 1))
    error = Fraction(data.draw(st.sampled_from([-6, -3, -2, 2, 3, 6])), 64)
    what, found = read_off(name, number, error)
    assert found.causes and [(setting.what, off) for setting, off in found.causes[0].errors] == [(what, error)]


def test_two_settings_are_found_where_one_does_not_do() -> None:
    card, making = made("tide-gate")
    found = diagnose(card, making, {
        "width left door": Fraction(33, 16), "width right door": Fraction(33, 16), "width base": Fraction(137, 16)})
    assert {(setting.what, off) for setting, off in found.causes[0].errors} == {
        ("width of the base", Fraction(1, 16)), ("score of the base", Fraction(-1, 16))}


def test_what_came_out_right_rules_causes_out() -> None:
    card, making = made("tide-gate")
    border = {"border right left mat": Fraction(1, 16)}
    open_ = diagnose(card, making, border)
    assert len(open_.causes) == 3 and open_.ask == "left border of left mat"
    narrowed = diagnose(card, making, {**border, "width left door": Fraction(17, 8), "width left mat": Fraction(15, 8)})
    assert [setting.what for setting, _ in narrowed.causes[0].errors] == ["place of the left mat from side to side"]
    assert len(narrowed.causes) == 1 and narrowed.ask is None


def test_what_a_ruler_cannot_tell_is_right() -> None:
    card, making = made("tide-gate")
    assert diagnose(card, making, {"width base": Fraction(17, 2) + Fraction(1, 64)}).causes == ()


@pytest.mark.parametrize(
    ("readings", "status", "said"),
    [
        pytest.param([], 0, "  width of left door: 2 1/8 in\n", id="list"),
        pytest.param(["width of base: 8 1/2"], 0, "Nothing is off", id="right"),
        pytest.param(["width of the left door: 2 1/16"], 0,
                     "step 2: the score of the base was 1/16 in too small, 2 1/16 in instead of 2 1/8 in", id="score"),
        pytest.param(["left border of inside mat: 3/16", "right border of inside mat: 1/16"], 0,
                     "place of the inside mat from side to side was 1/16 in too far to the right", id="laid askew"),
        pytest.param(
            ["width of left door: 2", "width of band: 3", "height of base: 5"], 1, "No error of one", id="lost"),
        pytest.param(["widht of base: 4"], 2, "did you mean width of base?", id="misspelt"),
        pytest.param(["width of base 4"], 2, "has no colon", id="no colon"),
        pytest.param(["width of base: four"], 2, "is no length", id="no length"),
    ],
)
def test_the_command(readings: list[str], status: int, said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ruler", GATE, *readings]) == status
    printed = capsys.readouterr()
    assert said in printed.out + printed.err
