"""The demo recipes: sound, quiet, of different construction, and complete enough to teach from."""

import re
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from foldproof.folding.card import FlatPose, StandingPose
from foldproof.measures.quantity import Unit
from foldproof.paper.polygon import area
from foldproof.paper.vector import Point, Segment
from foldproof.recipe.records import StepSpec
from literals import quantities
from slips.verdict import Checked, check_text
from wrong_numbers import RECIPES

F = Fraction
ALL = [pytest.param(path, id=path.stem) for path in sorted(RECIPES.glob("*.yaml"))]


@cache
def _checked(path: Path) -> Checked:
    return check_text(path.read_text(encoding="utf-8"), path.name)


def _named(name: str) -> Checked:
    return _checked(RECIPES / f"{name}.yaml")


def _closed(name: str) -> FlatPose:
    card = _named(name).card
    assert card is not None and card.closed is not None
    return card.closed


def _steps(path: Path) -> tuple[StepSpec, ...]:
    recipe = _checked(path).recipe
    assert recipe is not None
    return recipe.steps


def test_every_construction_has_its_recipe() -> None:
    assert len(ALL) >= 7


@pytest.mark.parametrize("path", ALL)
def test_no_error_and_no_warning(path: Path) -> None:
    assert _checked(path).faults == frozenset()


@pytest.mark.parametrize("path", ALL)
def test_steps_end_in_the_plan(path: Path) -> None:
    checked = _checked(path)
    assert checked.card is not None and checked.making is not None
    end = checked.making.end
    assert set(end.pieces) == {piece.name for piece in checked.card.pieces}
    assert {bond.name: bond.fit for bond in end.bonds} == {bond.name: bond.fit for bond in checked.card.bonds}


# Reckoned by hand on paper before the plans were written.
@pytest.mark.parametrize(("name", "width", "height"), [
    pytest.param("tide-gate", F("4.25"), F("5.5"), id="gate: 8 1/2 with two doors of 2 1/8"),
    pytest.param("harbour-coat", F(5), F(7), id="coat: two pieces of 8 1/4 by 7"),
    pytest.param("lantern-lane", F("4.5"), F("6.25"), id="side fold: 9 by 6 1/4 in half"),
    pytest.param("rope-walk", F(5), F(7), id="Z: 2 1/2 and 2 1/2 on 5"),
    pytest.param("coast-road", F(100), F(210), id="roll of A4: 97 + 100 + 100 mm, a published fold"),
    pytest.param("beacon", F(7), F(5), id="easel: 7 by 10 in half"),
    pytest.param("lee-shore", F("4.25"), F("5.5"), id="side fold: 8 1/2 by 5 1/2 in half"),
])
def test_closed_size(name: str, width: Fraction, height: Fraction) -> None:
    closed = _closed(name)
    assert (closed.width, closed.height) == (width, height)


def test_gate_doors_meet_under_a_band_fixed_to_one_of_them() -> None:
    checked, closed = _named("tide-gate"), _closed("tide-gate")
    assert checked.card is not None
    assert [one.gap for one in closed.meetings if set(one.panels) == {"left door", "right door"}] == [0]
    fixed = [bond.under.panel for bond in checked.card.bonds if bond.over.panel == "band"]
    assert fixed == ["left mat"]
    assert ("band", "right door") in closed.over


def test_lapel_lines_cross_in_the_middle_of_the_coat() -> None:
    """By symmetry: from 3 1/4 - 1 1/2 = 1 3/4 at the top to 3 1/4 at the bottom, and the mirror image of that."""
    checked, closed = _named("harbour-coat"), _closed("harbour-coat")
    assert checked.card is not None
    lines = {
        hinge.score: closed.placements[hinge.panels[0]].segment(hinge.segment) for hinge in checked.card.hinges}
    left, right = lines["left lapel line"], lines["right lapel line"]
    assert {left.start, left.end} == {Point(F("1.75"), F(7)), Point(F("3.25"), F(0))}
    assert {right.start, right.end} == {Point(F("3.25"), F(7)), Point(F("1.75"), F(0))}
    assert left.middle == right.middle == Point(F("2.5"), F("3.5"))


def test_coat_wraps_right_over_left_with_both_lapels_out() -> None:
    closed = _closed("harbour-coat")
    assert {("left lapel", "left flap"), ("right flap", "left lapel"), ("right lapel", "right flap")} <= closed.over
    shown = {(region.panel, region.face.value) for region in closed.seen}
    assert {("left lapel", "front"), ("right lapel", "front"), ("right flap", "back"), ("shirt", "front")} <= shown


def test_lapels_stay_inside_the_closed_coat() -> None:
    """The corner of the lapel folds to (49 / 51.25) (3, 14) - (0, 7): 2.868 in of the 3 1/4 in flap."""
    closed = _closed("harbour-coat")
    assert (closed.width, closed.height) == (F(5), F(7))
    xs = [point.x for ring in closed.outline for point in ring]
    assert (min(xs), max(xs)) == (F(0), F(5))


def test_z_fold_flap_lies_the_same_way_up_at_the_spine() -> None:
    checked, closed = _named("rope-walk"), _closed("rope-walk")
    assert checked.card is not None
    flap = closed.placements["flap"]
    assert not flap.flips
    xs = [flap.point(corner).x for corner in checked.card.panels["flap"].ring]
    assert (min(xs), max(xs)) == (F(0), F("2.5"))
    assert ("plaque", "page") in closed.over


def test_roll_fold_tucks_three_millimetres_short() -> None:
    checked, closed = _named("coast-road"), _closed("coast-road")
    assert checked.card is not None
    edges = [closed.placements["tuck"].point(corner).x for corner in checked.card.panels["tuck"].ring]
    assert (min(edges), max(edges)) == (F(3), F(100))
    assert {("cover", "tuck"), ("tuck", "page")} <= closed.over


def test_easel_stands_on_a_three_four_five_triangle() -> None:
    """The front, 5 long, leans over a foot 3 from the fold, so its top is 4 high; 90 - atan(3/4) = 53.13 degrees."""
    card = _named("beacon").card
    assert card is not None
    standing = card.pose("standing")
    assert isinstance(standing, StandingPose)
    assert standing.height == pytest.approx(4, abs=1e-9)
    assert standing.angles["top fold"] == pytest.approx(180 - 53.13010235, abs=1e-6)
    assert standing.angles["half fold"] == pytest.approx(-(180 - 2 * 53.13010235), abs=1e-6)


def test_four_winds_hold_each_other_in_a_ring() -> None:
    """Each flap covers half of the square: three share no more than the middle point, so the ring is legal."""
    closed = _closed("four-winds")
    ring = ("south flap", "east flap", "north flap", "west flap", "south flap")
    assert {(b, a) for a, b in pairwise(ring)} <= closed.over
    assert not any((upper, lower) in closed.over for upper, lower in pairwise(ring))
    seen = {region.panel: region.ring for region in closed.seen}
    assert {name: abs(area(one)) for name, one in seen.items()} == dict.fromkeys(ring[:4], F(4))


def test_only_diagonal_scores_are_the_coats() -> None:
    slanted = set()
    for param in ALL:
        path = param.values[0]
        assert isinstance(path, Path)
        card = _checked(path).card
        assert card is not None
        slanted |= {path.stem for piece in card.pieces for score in piece.scores if _slants(score.segment)}
    assert slanted == {"harbour-coat"}


def _slants(segment: Segment) -> bool:
    return segment.along.x != 0 and segment.along.y != 0


@pytest.mark.parametrize("path", ALL)
def test_every_step_can_be_taught(path: Path) -> None:
    for step in _steps(path):
        assert step.actions and step.say and step.minutes and step.shots, step.title
        assert all(shot.seconds for shot in step.shots), step.title


@pytest.mark.parametrize("path", ALL)
def test_sentences_are_short(path: Path) -> None:
    """At most 20 words in an instruction (ASD-STE100, rules 5.1 to 5.5, by a secondary page); 26 when spoken."""
    for step in _steps(path):
        for text, most in ((step.text, 20), (step.tip, 20), (step.caution, 20), (step.say, 26)):
            for sentence in re.split(r"(?<=[.?!:])\s+", str(text or "").strip()):
                assert len(sentence.split()) <= most, f"{step.title}: {sentence}"


@pytest.mark.parametrize("path", ALL)
def test_lines_can_be_said_in_their_shots(path: Path) -> None:
    """130 words a minute for a demonstration by hand (planning value, from memory)."""
    for step in _steps(path):
        seconds = sum((shot.seconds.value for shot in step.shots if shot.seconds), F(0))
        assert F(len(str(step.say).split()) * 60, 130) <= seconds, step.title


@pytest.mark.parametrize("path", ALL)
def test_accounts_are_independent(path: Path) -> None:
    """Steps and finished size state their own numbers; a reference to a measure would be no witness."""
    recipe = _checked(path).recipe
    assert recipe is not None
    for quantity in (*quantities(recipe.finished), *(q for step in recipe.steps for q in quantities(step.actions))):
        assert quantity.witness, f"{path.name}:{quantity.place.line}: {quantity.written}"


@pytest.mark.parametrize("path", ALL)
def test_inch_editions_spell_as_in_the_us(path: Path) -> None:
    recipe = _checked(path).recipe
    assert recipe is not None
    if recipe.unit is not Unit.INCH:
        return
    words = " ".join(str(text) for step in recipe.steps for text in (step.title, step.text, step.say, step.tip))
    assert not re.search(r"\b(centre|colour|harbour|grey|metre|anticlockwise)", words, re.IGNORECASE)
