"""After a slip: the ways out, reckoned by hand on the gate card of the demos.

Tide gate: base 8 1/2 x 5 1/2, doors of 2 1/8, scored back up; mats 1/4 smaller than what they lie on.
"""

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from foldproof.pipeline import Proof, prove
from foldproof.recipe.actions import CutOut, ScoreAt
from foldproof.rescue.search import Option, options
from foldproof.rescue.slip import slips_like

RECIPES = Path(__file__).parents[2] / "recipes"


@cache
def proof_of(name: str) -> Proof:
    return prove(RECIPES / f"{name}.yaml")


def ways(name: str, step: int, meant: str, made: str) -> tuple[Option, ...]:
    proof = proof_of(name)
    assert proof.card is not None and proof.making is not None
    slip = next(slips_like(proof.making, step, Fraction(meant), Fraction(made)))
    return options(proof.card, proof.making, slip)


def test_a_score_too_far_in_makes_a_narrower_card_of_the_same_sheet() -> None:
    """Scored at 2 1/4 from the stop. With w the width, the door is w/2 and the other score 3w/2 further along.

    8 1/2 holds 2w and the waste before the first score, 2 1/4 - w/2, when w <= 4 1/6: the widest in 32nds that can be
    trimmed in 32nds is 4 1/8, waste 3/16 at the stop's end and 1/16 at the other. The back was up, so the stop's end is
    the right edge of the front.
    """
    (way,) = ways("tide-gate", 2, "17/8", "9/4")
    assert (way.changed, way.after) == ("width", Fraction(33, 8))
    assert [(trim.piece, dict(trim.sides)) for trim in way.saved.trims] == [
        ("base", {"left": Fraction(1, 16), "right": Fraction(3, 16)})]
    actions = [action for step in way.recipe.steps for action in step.actions]
    assert [action.at.value for action in actions if isinstance(action, ScoreAt)] == [Fraction(33, 16)]
    assert [action.size[0].value for action in actions if isinstance(action, CutOut)] == [
        Fraction(31, 8), Fraction(29, 16), Fraction(29, 16), Fraction(7, 2)]
    assert way.card.closed is not None and way.card.closed.width == Fraction(33, 8)
    assert way.warnings == ()


def test_a_score_too_near_the_edge_is_made_good_by_a_trim_at_the_far_end_only() -> None:
    """Scored at 2: a door of 2 belongs to a width of 4, which takes 8 of the 8 1/2."""
    (way,) = ways("tide-gate", 2, "17/8", "2")
    assert (way.changed, way.after) == ("width", Fraction(4))
    assert [dict(trim.sides) for trim in way.saved.trims] == [{"left": Fraction(1, 2)}]


def test_a_piece_cut_too_long_is_trimmed_and_nothing_else_changes() -> None:
    (way,) = ways("tide-gate", 1, "17/2", "137/16")
    assert way.changed is None
    assert [dict(trim.sides) for trim in way.saved.trims] == [{"right": Fraction(1, 16)}]
    assert way.card.closed is not None and way.card.closed.width == Fraction(17, 4)


def test_a_piece_cut_too_short_makes_a_narrower_card_without_a_trim() -> None:
    """8 7/16 is twice 4 7/32."""
    (way, *_) = ways("tide-gate", 1, "17/2", "135/16")
    assert (way.changed, way.after) == ("width", Fraction(135, 32))
    assert way.saved.trims == ()


def test_a_mat_cut_too_narrow_is_cut_again_or_has_wider_side_borders() -> None:
    again, kept = ways("tide-gate", 4, "4", "63/16")
    assert (again.saved.anew, again.changed) == (("inside mat",), None)
    assert (kept.saved.anew, kept.changed) == ((), None)
    mat = kept.card.piece("inside mat")
    assert mat is not None and max(corner.x for corner in mat.outline) == Fraction(63, 16)


def test_a_band_glued_a_little_to_the_right_may_stay() -> None:
    (way,) = ways("tide-gate", 8, "1/4", "3/8")
    assert way.changed is None and way.saved.trims == ()


def test_a_band_glued_far_out_cannot_be_saved() -> None:
    """At 1 1/4 the band, 3 1/2 wide, ends 3/4 in outside the card, 4 1/4 wide less a border of 1/8 on its left."""
    assert ways("tide-gate", 8, "1/4", "5/4") == ()


def test_a_way_with_a_caveat_is_told_with_it() -> None:
    """The coat's hinge 1/16 too far: the card is 5 1/16 wide, 3/16 less than the A7 envelope's 5 1/4."""
    (way,) = ways("harbour-coat", 3, "5", "81/16")
    assert way.card.closed is not None and way.card.closed.width == Fraction(81, 16)
    assert [finding.name for finding in way.warnings] == ["tight in its envelope"]


@pytest.mark.parametrize("name", ["tide-gate", "lantern-lane"])
def test_what_is_trimmed_and_what_is_left_make_what_there_was(name: str) -> None:
    step, meant, made = {"tide-gate": (2, "17/8", "9/4"), "lantern-lane": (2, "9/2", "35/8")}[name]
    for way in ways(name, step, meant, made):
        whole = proof_of(name).card
        assert whole is not None
        for trim in way.saved.trims:
            before, after = whole.piece(trim.piece), way.saved.table.pieces[trim.piece]
            assert before is not None
            was = max(corner.x for corner in before.outline)
            assert was - max(corner.x for corner in after.outline) == trim.left + trim.right
