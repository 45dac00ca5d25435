"""What hides what in space: drawn from far to near, the last sheet drawn at a point is the nearest there."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from foldproof.drawing.plane import inside
from foldproof.drawing.solid import XYZ, Camera, Sheet, add, far_to_near, normal_of, sheet
from foldproof.folding.space import cross, dot

numbers = st.integers(-6, 6).map(float)
spots = st.tuples(numbers, numbers, numbers)
CAMERA = Camera(azimuth=28.0, height=27.0)


@st.composite
def triangles(draw: st.DrawFn) -> tuple[XYZ, XYZ, XYZ]:
    a, b, c = draw(spots), draw(spots), draw(spots)
    n = cross(add(b, a, -1.0), add(c, a, -1.0))
    assume(math.sqrt(dot(n, n)) > 1.0)
    return a, b, c


def depth(one: Sheet, at: tuple[float, float]) -> float | None:
    """How near the sheet is at a spot of the drawing: along the sight, from its plane; None beside it."""
    if len(one.points) < 3 or not inside(at, [CAMERA.at(p, 1.0) for p in one.points]):
        return None
    facing = dot(one.normal, CAMERA.toward)
    if abs(facing) < 1e-3:
        return None
    a, e = math.radians(CAMERA.azimuth), math.radians(CAMERA.height)
    right: XYZ = (math.cos(a), math.sin(a), 0.0)
    up: XYZ = (-math.sin(a) * math.sin(e), math.cos(a) * math.sin(e), math.cos(e))
    on_screen = add(add((0.0, 0.0, 0.0), right, at[0]), up, at[1])
    return (dot(one.normal, one.points[0]) - dot(one.normal, on_screen)) / facing


@settings(max_examples=60, deadline=None)
@given(corners=st.lists(triangles(), min_size=2, max_size=5), looks=st.lists(st.tuples(numbers, numbers), min_size=6))
def test_the_last_sheet_drawn_is_the_nearest(
    corners: list[tuple[XYZ, XYZ, XYZ]], looks: list[tuple[float, float]],
) -> None:
    sheets = [sheet(str(i), ring, (True, True, True)) for i, ring in enumerate(corners)]
    drawn = list(far_to_near(sheets, CAMERA))
    for x, y in looks:
        at = (x / 2 + 0.137, y / 2 + 0.071)
        depths = [found for one in sheets if (found := depth(one, at)) is not None]
        seen = [found for one in drawn if (found := depth(one, at)) is not None]
        if depths and seen:
            assert seen[-1] == pytest.approx(max(depths), abs=1e-4)


def test_cuts_for_sorting_are_not_edges_of_paper() -> None:
    floor = sheet("floor", ((0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (4.0, 4.0, 0.0), (0.0, 4.0, 0.0)), (True,) * 4)
    wall = sheet("wall", ((2.0, 1.0, -1.0), (2.0, 3.0, -1.0), (2.0, 3.0, 1.0), (2.0, 1.0, 1.0)), (True,) * 4)
    drawn = list(far_to_near([floor, wall], CAMERA))
    assert len(drawn) == 3
    whole = {"floor": 16.0, "wall": 8.0}
    for name, rim in whole.items():
        length = sum(
            math.dist(p, q) for one in drawn if one.name == name
            for p, q, is_rim in zip(one.points, (*one.points[1:], one.points[0]), one.rims, strict=True) if is_rim)
        assert length == pytest.approx(rim)


def test_the_normal_points_to_the_side_from_which_a_ring_runs_anticlockwise() -> None:
    assert normal_of(((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))) == pytest.approx((0.0, 0.0, 1.0))


def test_the_camera_keeps_up_up_and_right_right() -> None:
    assert CAMERA.at((0.0, 0.0, 1.0), 1.0)[0] == pytest.approx(0.0)
    assert CAMERA.at((0.0, 0.0, 1.0), 1.0)[1] > 0
    assert CAMERA.at((1.0, 0.0, 0.0), 1.0)[0] > 0
    assert math.sqrt(dot(CAMERA.toward, CAMERA.toward)) == pytest.approx(1.0)


def _square(name: str, left: float, low: float, size: float) -> Sheet:
    ring = ((left, low, 0.0), (left + size, low, 0.0), (left + size, low + size, 0.0), (left, low + size, 0.0))
    return sheet(name, ring, (True,) * 4)


def _size(parts: list[Sheet], name: str) -> float:
    total = 0.0
    for one in parts:
        if one.name == name:
            for p, q, r in zip(one.points[1:], one.points[2:], [one.points[0]] * len(one.points), strict=False):
                n = cross(add(p, r, -1.0), add(q, r, -1.0))
                total += math.sqrt(dot(n, n)) / 2
    return total


UP: XYZ = (0.0, 0.0, 1.0)


def test_of_sheets_in_one_plane_only_what_is_not_covered_is_drawn() -> None:
    sheets = [_square("mat", 0, 0, 4), _square("card", -1, -1, 6)]
    drawn = list(far_to_near(sheets, CAMERA, {("mat", "card"): UP}))
    assert _size(drawn, "mat") == pytest.approx(16) and _size(drawn, "card") == pytest.approx(36 - 16)
    under = list(far_to_near(sheets, CAMERA, {("mat", "card"): (0.0, 0.0, -1.0)}))
    assert _size(under, "mat") == 0 and _size(under, "card") == pytest.approx(36)


def test_three_sheets_that_lie_over_each_other_in_a_ring() -> None:
    # each covers a corner of the next: no one list tells such an order
    sheets = [_square("a", 0, 0, 4), _square("b", 2, 1, 4), _square("c", 1, 3, 4)]
    ring = {("a", "b"): UP, ("b", "c"): UP, ("c", "a"): UP}
    drawn = list(far_to_near(sheets, CAMERA, ring))
    assert _size(drawn, "a") == pytest.approx(16 - 3)  # c covers 1..4 by 3..4 of it
    assert _size(drawn, "b") == pytest.approx(16 - 6)  # a covers 2..4 by 1..4
    assert _size(drawn, "c") == pytest.approx(16 - 6)  # b covers 2..5 by 3..5


def test_a_near_camera_sees_near_parts_larger_and_keeps_the_middle_in_scale() -> None:
    near = Camera(azimuth=0.0, height=30.0, target=(5.0, 5.0, 0.0), away=20.0)
    assert near.at((5.0, 5.0, 0.0), 3.0) == (0.0, 0.0)
    front = near.at((6.0, 0.0, 0.0), 1.0)[0] - near.at((4.0, 0.0, 0.0), 1.0)[0]
    back = near.at((6.0, 10.0, 0.0), 1.0)[0] - near.at((4.0, 10.0, 0.0), 1.0)[0]
    assert front > 2.0 > back
    # a sheet square to the sight just before the eye shows one face; one that stands behind the eye's plane the other
    assert near.sees((0.0, 0.0, 1.0), 0.0) and not near.sees((0.0, 0.0, 1.0), 50.0)
