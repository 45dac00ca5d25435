"""Steps told anew: another measure in the plan, and steps, words and promises still agree with it."""

from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from foldproof.checks.catalogue import run_checks
from foldproof.findings.finding import Severity
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.measures.quantity import Unit
from foldproof.pipeline import Proof, prove
from foldproof.recipe.actions import Attach, CutOut, ScoreAt
from foldproof.recipe.records import Recipe
from foldproof.refit.numbers import number_like
from foldproof.refit.referents import same_size
from foldproof.refit.steps import refit_promise, refit_steps
from foldproof.rescue.search import with_measure

RECIPES = Path(__file__).parents[2] / "recipes"


@cache
def proof_of(name: str) -> Proof:
    return prove(RECIPES / f"{name}.yaml")


def refit(name: str, measure: str, value: Fraction) -> tuple[Card, Recipe, list[str]]:
    """A demo with another measure, and the names of what is wrong with it."""
    proof = proof_of(name)
    assert proof.card is not None and proof.making is not None
    spec = next(one for one in proof.card.recipe.measures if one.name.value == measure)
    recipe = with_measure(proof.card.recipe, spec.value, value)
    assert recipe is not None
    card, faults = build_card(recipe)
    assert card is not None
    steps = refit_steps(proof.card, card, proof.making.steps).steps
    recipe = replace(recipe, steps=steps, finished=refit_promise(recipe.finished, card))
    card = replace(card, recipe=recipe)
    found = (*faults, *run_checks(card, carry_out(card)))
    return card, recipe, [f.name for f in found if f.severity is not Severity.ADVICE]


@pytest.mark.parametrize(("name", "measure", "value"), [
    pytest.param("tide-gate", "width", Fraction(4), id="narrower gate"),
    pytest.param("tide-gate", "height", Fraction(21, 4), id="lower gate"),
    pytest.param("harbour-coat", "width", Fraction(39, 8), id="narrower coat with slanted scores"),
    pytest.param("harbour-coat", "flap", Fraction(25, 8), id="a narrower flap"),
    pytest.param("lantern-lane", "width", Fraction(35, 8), id="narrower side fold"),
    pytest.param("lantern-lane", "strip height", Fraction(5, 4), id="a higher strip"),
    pytest.param("rope-walk", "width", Fraction(39, 8), id="narrower z fold"),
    pytest.param("beacon", "height", Fraction(39, 8), id="lower easel, which stands lower"),
    pytest.param("coast-road", "width", Fraction(98), id="metric roll fold"),
])
def test_a_card_of_another_measure_is_as_sound_as_the_first(name: str, measure: str, value: Fraction) -> None:
    _, _, wrong = refit(name, measure, value)
    assert wrong == []


def test_each_number_is_found_from_what_it_stands_for() -> None:
    """Tide gate, 4 in wide: doors of 2, mats 1/4 narrower than doors and middle, the band of 3 1/2 centred."""
    _, recipe, _ = refit("tide-gate", "width", Fraction(4))
    actions = [action for step in recipe.steps for action in step.actions]
    assert [action.at.value for action in actions if isinstance(action, ScoreAt)] == [2, 2]
    assert [action.size[0].value for action in actions if isinstance(action, CutOut)] == [
        8, Fraction(15, 4), Fraction(7, 4), Fraction(7, 4), Fraction(7, 2)]
    band = next(action for action in actions if isinstance(action, Attach) and action.bond == "band")
    assert band.at.left is not None and band.at.left.value == Fraction(1, 8)
    assert band.at.top is not None and band.at.top.value == Fraction(7, 4)
    assert [side.value for side in recipe.finished.size] == [4, Fraction(11, 2)]


def test_words_follow_in_their_own_dress() -> None:
    _, recipe, _ = refit("tide-gate", "width", Fraction(33, 8))
    step = recipe.steps[1]
    assert step.text.value.count("2 1/16 in") == 2
    assert step.say is not None and step.say.value.count("two and a sixteenth") == 2
    closed = recipe.steps[2].say
    assert closed is not None and "four and an eighth by five and" in closed.value


@pytest.mark.parametrize(("written", "said"), [
    pytest.param("2 1/8 in", "6 3/8 in", id="figures with a unit"),
    pytest.param("2 1/8", "6 3/8", id="figures alone"),
    pytest.param("two and one eighth", "six and three eighths", id="words alone"),
    pytest.param("Two and an eighth inches", "Six and three eighths inches", id="words with a unit and a capital"),
])
def test_a_number_keeps_its_dress(written: str, said: str) -> None:
    assert number_like(written, Fraction(51, 8), Unit.INCH) == said


@pytest.mark.parametrize(("said", "size"), [
    pytest.param((Fraction(4), Fraction(21, 4)), (Fraction(15, 4), Fraction(21, 4)), id="the piece itself"),
    pytest.param((Fraction(21, 4), Fraction(4)), (Fraction(21, 4), Fraction(15, 4)), id="the other way round"),
    pytest.param((Fraction(8), Fraction(21, 4)), (Fraction(15, 2), Fraction(21, 4)), id="two in one strip"),
    pytest.param((Fraction(9, 2), Fraction(6)), (Fraction(17, 4), Fraction(6)), id="cut too large and trimmed later"),
])
def test_a_size_to_cut(said: tuple[Fraction, Fraction], size: tuple[Fraction, Fraction]) -> None:
    card, _, _ = refit("tide-gate", "width", Fraction(4))
    before = proof_of("tide-gate").card
    assert before is not None
    old, new = before.piece("inside mat"), card.piece("inside mat")
    assert old is not None and new is not None
    assert same_size(old, new, said) == size
