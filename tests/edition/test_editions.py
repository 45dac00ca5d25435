"""Editions in other units: every demo is proved in each, borders and doors hold, wrong marks are found."""

from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from foldproof.checks.catalogue import run_checks
from foldproof.checks.parameters import parameters
from foldproof.edition.both import both_units, other_unit
from foldproof.edition.measures import Measures, own_measures
from foldproof.edition.plan import exactly
from foldproof.edition.records import with_lengths
from foldproof.edition.roundings import FINEST
from foldproof.findings.finding import Severity, has_errors
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.rounding import decimal, half_even
from foldproof.pipeline import Proof, in_edition, prove
from foldproof.recipe.actions import Attach, CutOut, ScoreAt
from foldproof.recipe.records import StepSpec
from foldproof.refit.hands import distances

RECIPES = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))
demos = pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
MM_IN_INCH = Fraction("25.4")
"""Yard and pound agreement, 1959; NIST SP 811 (2008), appendix B."""


@cache
def proved(path: Path) -> Proof:
    return prove(path)


def card_of(proof: Proof) -> tuple[Card, Making]:
    assert proof.card is not None and proof.making is not None
    return proof.card, proof.making


@cache
def other(path: Path) -> Proof:
    """The edition in the other unit."""
    proof = proved(path)
    card, _ = card_of(proof)
    inches = own_measures(card.recipe.unit) is Measures.INCHES
    return in_edition(proof, Measures.METRIC if inches else Measures.INCHES)


def demo(name: str) -> Path:
    return next(path for path in RECIPES if path.stem == name)


@demos
def test_a_sound_card_is_as_quiet_in_the_other_unit(path: Path) -> None:
    proof = other(path)
    assert [(f.name, f.message) for f in proof.findings if f.severity is not Severity.ADVICE] == []
    assert proof.sound
    before, after = card_of(proved(path))[0].recipe, card_of(proof)[0].recipe
    assert after.unit is (Unit.MM if before.unit is Unit.INCH else Unit.INCH)
    assert after.name == before.name + ("-metric" if after.unit is Unit.MM else "-inches")


@demos
def test_every_number_that_hands_set_is_a_mark_and_near_what_it_was(path: Path) -> None:
    """Half a millimetre or a sixteenth; sums of rounded parts may be off by a few of them, never by more than 4 mm."""
    before, after = card_of(proved(path))[0].recipe, card_of(other(path))[0].recipe
    for old, new in zip(before.steps, after.steps, strict=True):
        was = {(one.action, one.what): one for one in parameters(old) if one.kind is Kind.LENGTH}
        now = {(one.action, one.what): one for one in parameters(new) if one.kind is Kind.LENGTH}
        assert was.keys() == now.keys()
        for key, one in now.items():
            assert (one.value / FINEST[after.unit]).denominator == 1, (old.title, one.what)
            off = one.value * after.unit.millimetres - was[key].value * before.unit.millimetres
            assert abs(off) <= 4, (str(old.title), one.what, float(off))
            assert (one.value == 0) == (was[key].value == 0)


@demos
def test_borders_stay_borders_and_doors_meet(path: Path) -> None:
    before, after = card_of(proved(path))[0], card_of(other(path))[0]
    for old, new in zip(before.bonds, after.bonds, strict=True):
        was, now = distances(before, old), distances(after, new)
        for side, value in was.items():
            assert (now[side] > 0, now[side] < 0) == (value > 0, value < 0), (old.name, side)
    for meets in after.recipe.finished.meets:
        pair = {name.value for name in meets.panels}
        assert after.closed is not None
        assert [one.gap for one in after.closed.meetings if set(one.panels) == pair] == [0]
    assert before.closed is not None and after.closed is not None
    assert [f.name for f in other(path).findings if "envelope" in f.name] == []


@demos
def test_both_units_are_said_and_are_right(path: Path) -> None:
    proof = in_edition(proved(path), Measures.BOTH)
    assert [(f.name, f.message) for f in proof.findings if f.severity is not Severity.ADVICE] == []
    card, _ = card_of(proof)
    before = card_of(proved(path))[0].recipe
    inches = before.unit is Unit.INCH
    told = " ".join(step.text.value for step in card.recipe.steps)
    assert told.count(" mm" if inches else " in)") > " ".join(s.text.value for s in before.steps).count(" mm)")
    assert [step.say for step in card.recipe.steps] == [step.say for step in before.steps]


def steps_of(name: str) -> tuple[StepSpec, ...]:
    return card_of(other(demo(name)))[0].recipe.steps


def test_the_gate_by_hand() -> None:
    """Tide gate: 107.95 x 139.7 mm, not to grow: 107 x 139. Doors of 53.5, a border of 3 for 3.175: mats of 101 x 133
    and 47.5 x 133. The band of 88.9 x 44.45 is 89 x 44; centred on 107 it starts at 9, 6 inside the mat."""
    actions = [action for step in steps_of("tide-gate") for action in step.actions]
    assert [[side.value for side in action.size] for action in actions if isinstance(action, CutOut)] == [
        [214, 139], [101, 133], [Fraction("47.5"), 133], [Fraction("47.5"), 133], [89, 44]]
    assert [action.at.value for action in actions if isinstance(action, ScoreAt)] == [Fraction("53.5")] * 2
    band = next(action for action in actions if isinstance(action, Attach) and action.bond == "band")
    assert band.at.left is not None and band.at.left.value == 6
    assert band.at.top is not None and band.at.top.value == Fraction("44.5")


def test_words_go_with_the_hands() -> None:
    steps = steps_of("tide-gate")
    assert "Cut one piece of slate card 214 x 139 mm." in steps[0].text.value
    assert steps[1].text.value.count("53.5 mm") == 2 and " in " not in steps[1].text.value.replace("in again", "")
    assert steps[0].say is not None and "214 by 139 millimeters" in steps[0].say.value
    button = card_of(other(demo("harbour-coat")))[0].recipe.steps[11].say
    assert button is not None and "A 25 millimeter circle" in button.value
    stairs = card_of(other(demo("quay-stairs")))[0].recipe.summary
    assert stairs is not None and "107 x 139 mm" in stairs.value


def test_sheets_are_those_that_are_sold_there() -> None:
    """Letter becomes A4 (ISO 216); a 12 x 12 in sheet stays what it is, 304.8 mm, never more."""
    papers = {paper.name.value: paper.sheet for paper in card_of(other(demo("tide-gate")))[0].recipe.papers}
    assert {name: tuple(side.value for side in sheet or ()) for name, sheet in papers.items()} == {
        "slate": (210, 297), "waves": (Fraction("304.8"), Fraction("304.8")), "chalk": (210, 297)}
    sand = {p.name.value: p.sheet for p in card_of(other(demo("coast-road")))[0].recipe.papers}["sand"]
    assert sand is not None and [side.value for side in sand] == [Fraction(33, 4), Fraction(187, 16)]


@pytest.mark.parametrize(("inches", "said"), [
    pytest.param("17/8", "54.0 mm", id="53.975: up"),
    pytest.param("3/4", "19.0 mm", id="19.05, exactly half: to the even digit"),
    pytest.param("1/4", "6.4 mm", id="6.35, exactly half: to the even digit"),
    pytest.param("1/8", "3.2 mm", id="3.175"),
    pytest.param("5", "127 mm", id="exact"),
])
def test_brackets_round_half_to_even(inches: str, said: str) -> None:
    """NIST SP 811 (2008), B.7.1."""
    assert other_unit([Fraction(inches)], Unit.INCH) == said
    exact = Fraction(inches) * MM_IN_INCH
    assert said in (f"{decimal(half_even(exact, 1), 1)} mm", f"{exact} mm")


@pytest.mark.parametrize(("line", "told"), [
    pytest.param("Score 2 1/8 in from the stop", "Score 2 1/8 in (54.0 mm) from the stop", id="a length"),
    pytest.param("Cut the base 8 1/2 × 5 1/2 in", "Cut the base 8 1/2 × 5 1/2 in (215.9 × 139.7 mm)", id="a size"),
    pytest.param("Fold it in half and press it in 2 steps", "Fold it in half and press it in 2 steps", id="no length"),
    pytest.param("4 1/4 × 5 1/2 in (108.0 × 139.7 mm)", "4 1/4 × 5 1/2 in (108.0 × 139.7 mm)", id="said already"),
])
def test_lines_of_the_program_get_their_brackets(line: str, told: str) -> None:
    assert both_units(line, Unit.INCH) == told


def test_a_wrong_mark_is_found() -> None:
    """Each length that a step of the metric gate sets, half a millimetre off: the proof says so."""
    card, _ = card_of(other(demo("tide-gate")))
    missed = []
    for number, step in enumerate(card.recipe.steps):
        for at, action in enumerate(step.actions):
            if not isinstance(action, CutOut | ScoreAt):
                continue
            off = Fraction(1, 2)
            wrong = replace(action, at=replace(action.at, value=action.at.value + off)) if isinstance(
                action, ScoreAt) else replace(action, size=(replace(
                    action.size[0], value=action.size[0].value + off), action.size[1]))
            steps = list(card.recipe.steps)
            steps[number] = replace(step, actions=(*step.actions[:at], wrong, *step.actions[at + 1:]))
            slipped = replace(card, recipe=replace(card.recipe, steps=tuple(steps)))
            if not has_errors(carry_out(slipped).findings):
                missed.append((number, at))
    assert missed == []


def test_a_plan_rounded_number_by_number_is_no_plan() -> None:
    """Every length rounded for itself: the band of 88.9 to 89 and the 6.35 mm beside it to 6 are not on the middle of
    a card of 108."""
    card, _ = card_of(proved(demo("tide-gate")))

    def to_whole(one: Quantity) -> Quantity:
        return replace(one, value=Fraction(round(one.value)))

    recipe = with_lengths(exactly(card.recipe, Unit.MM), to_whole)
    made, faults = build_card(recipe)
    assert made is not None
    found = (*faults, *run_checks(made, carry_out(made)))
    assert {f.name for f in found} >= {"tight in its envelope"} or has_errors(found)
