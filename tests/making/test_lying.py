"""Turning paper on the table."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.making.lying import SIDES, brought_to_fence, direction, side_facing, turned, turned_over
from foldproof.making.table import UPRIGHT, Lie
from foldproof.paper.face import Face
from foldproof.paper.vector import Vector

TURNS = ("none", "half", "quarter clockwise", "quarter anticlockwise")
WAYS = ("book page", "top to bottom")
lies = st.lists(st.sampled_from((*TURNS, *WAYS)), max_size=6).map(
    lambda moves: _moved(UPRIGHT, moves))


def _moved(lie: Lie, moves: list[str]) -> Lie:
    for move in moves:
        lie = turned_over(lie, move) if move in WAYS else turned(lie, move)
    return lie


def v(x: int, y: int) -> Vector:
    return Vector(Fraction(x), Fraction(y))


@pytest.mark.parametrize(("moves", "right", "away", "up"), [
    pytest.param([], v(1, 0), v(0, 1), Face.FRONT, id="as cut"),
    pytest.param(["half"], v(-1, 0), v(0, -1), Face.FRONT, id="half round"),
    pytest.param(["quarter clockwise"], v(0, 1), v(-1, 0), Face.FRONT, id="the left edge goes to the far side"),
    pytest.param(["quarter anticlockwise"], v(0, -1), v(1, 0), Face.FRONT, id="the right edge goes to the far side"),
    pytest.param(["book page"], v(-1, 0), v(0, 1), Face.BACK, id="like a page, the top stays at the top"),
    pytest.param(["top to bottom"], v(1, 0), v(0, -1), Face.BACK, id="top to bottom, the left stays at the left"),
    pytest.param(["book page", "quarter clockwise"], v(0, 1), v(1, 0), Face.BACK, id="over, then a quarter"),
])
def test_where_the_piece_points(moves: list[str], right: Vector, away: Vector, up: Face) -> None:
    lie = _moved(UPRIGHT, moves)
    assert (lie.right, lie.away, lie.up) == (right, away, up)


@given(lie=lies)
def test_four_quarters_make_a_whole_turn(lie: Lie) -> None:
    assert _moved(lie, ["quarter clockwise"] * 4) == lie


@given(lie=lies)
def test_a_quarter_back_undoes_a_quarter(lie: Lie) -> None:
    assert _moved(lie, ["quarter clockwise", "quarter anticlockwise"]) == lie


@given(lie=lies, way=st.sampled_from(WAYS))
def test_turning_over_twice_the_same_way_changes_nothing(lie: Lie, way: str) -> None:
    assert _moved(lie, [way, way]) == lie


@given(lie=lies)
def test_over_one_way_and_back_the_other_is_half_a_turn(lie: Lie) -> None:
    assert _moved(lie, ["book page", "top to bottom"]) == turned(lie, "half")


@given(lie=lies, side=st.sampled_from(SIDES))
def test_the_side_that_is_named_goes_to_the_fence(lie: Lie, side: str) -> None:
    named = direction(lie, side)
    laid = brought_to_fence(lie, side)
    assert laid.away == named
    assert laid.up is lie.up


@given(lie=lies, side=st.sampled_from(SIDES))
def test_a_direction_faces_its_own_side(lie: Lie, side: str) -> None:
    assert side_facing(lie, direction(lie, side)) == side
