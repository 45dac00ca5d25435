"""How far lines stay away from numbers, held against Shapely's distances."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, box

from foldproof.drawing.nearest import away, offs
from foldproof.drawing.plane import XY, Box

SPOT = st.tuples(st.floats(-30, 30), st.floats(-30, 30))
BOX = st.tuples(SPOT, st.floats(0.1, 20), st.floats(0.1, 8)).map(
    lambda told: Box(told[0][0], told[0][1], told[0][0] + told[1], told[0][1] + told[2]))
PATH = st.lists(SPOT, min_size=2, max_size=8).map(tuple)


@given(st.lists(BOX, min_size=1, max_size=5), PATH)
def test_the_distance_of_a_broken_line_is_that_of_geometry(boxes: list[Box], path: tuple[XY, ...]) -> None:
    wanted = [box(one.left, one.bottom, one.right, one.top).distance(LineString(path)) for one in boxes]
    assert offs(boxes, path).tolist() == pytest.approx(wanted, abs=1e-6)
    for one, distance in zip(boxes, wanted, strict=True):
        assert min(away(one, p, q) for p, q in pairwise(path)) == pytest.approx(distance, abs=1e-6)


def test_a_line_through_a_box_or_along_it_is_not_away() -> None:
    room = Box(0.0, 0.0, 4.0, 2.0)
    assert away(room, (-1.0, 1.0), (5.0, 1.0)) == 0
    assert away(room, (-1.0, -1.0), (5.0, 4.0)) == 0
    assert away(room, (0.0, 2.0), (4.0, 2.0)) == 0
    assert away(room, (-3.0, 5.0), (7.0, 5.0)) == 3
    assert offs([room], ((-1.0, 1.0), (5.0, 1.0))).tolist() == [0.0]
    assert offs([room], ((-3.0, 5.0), (-3.0, 5.0), (7.0, 5.0))).tolist() == [3.0]
