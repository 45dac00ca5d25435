"""Plane geometry of the drawings, held against shapely as a reference."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box

from foldproof.drawing.plane import (
    Box,
    area_of,
    box_inside,
    inside,
    length,
    length_inside,
    middle_of,
    minus,
    round_out,
    split_by_rings,
    stripes,
)

numbers = st.integers(-40, 40).map(float)
points = st.tuples(numbers, numbers)


def convex(corners: list[tuple[float, float]]) -> list[tuple[float, float]]:
    hull = Polygon(corners).convex_hull if len(set(corners)) > 2 else None
    assume(hull is not None and hull.geom_type == "Polygon" and hull.area > 1)
    assert hull is not None
    ring = list(hull.exterior.coords)[:-1]
    return ring if Polygon(ring).exterior.is_ccw else ring[::-1]


rings = st.lists(points, min_size=4, max_size=7).map(convex)


@settings(deadline=None)
@given(p=points, q=points, a=points, b=points)
def test_length_inside_a_box_agrees_with_the_reference(
    p: tuple[float, float], q: tuple[float, float], a: tuple[float, float], b: tuple[float, float],
) -> None:
    assume(p != q and a[0] != b[0] and a[1] != b[1])
    room = Box(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
    wanted = LineString([p, q]).intersection(box(room.left, room.bottom, room.right, room.top)).length
    assert length_inside(p, q, room) == pytest.approx(wanted, abs=1e-6)


@settings(deadline=None)
@given(ring=rings)
def test_area_and_middle_agree_with_the_reference(ring: list[tuple[float, float]]) -> None:
    reference = Polygon(ring)
    assert area_of(ring) == pytest.approx(reference.area)
    assert middle_of(ring) == pytest.approx((reference.centroid.x, reference.centroid.y))


@settings(deadline=None)
@given(p=points, q=points, first=rings, second=rings)
def test_what_two_rings_cover_of_a_segment_agrees_with_the_reference(
    p: tuple[float, float], q: tuple[float, float], first: list[tuple[float, float]], second: list[tuple[float, float]],
) -> None:
    assume(p != q)
    cut = split_by_rings(p, q, [first, second])
    assert sum(length(minus(b, a)) for a, b, _ in cut) == pytest.approx(length(minus(q, p)))
    covered = sum(length(minus(b, a)) for a, b, hidden in cut if hidden)
    line, cover = LineString([p, q]), Polygon(first).union(Polygon(second))
    # a stretch along an edge lies on the border: it may be told either way, here as not covered
    along_edge = max(line.intersection(ring.boundary).length for ring in (Polygon(first), Polygon(second)))
    assume(along_edge < 1e-6)
    assert covered == pytest.approx(line.intersection(cover).length, abs=1e-5)


@settings(deadline=None)
@given(ring=rings, spacing=st.sampled_from([1.1, 1.6, 3.0]))
def test_stripes_fill_a_ring_evenly_and_never_leave_it(ring: list[tuple[float, float]], spacing: float) -> None:
    reference = Polygon(ring).buffer(1e-6)
    strokes = stripes([ring], spacing)
    assert all(reference.covers(LineString(stroke)) for stroke in strokes)
    inked = sum(length(minus(q, p)) for p, q in strokes) * spacing
    assert inked == pytest.approx(Polygon(ring).area, abs=spacing * Polygon(ring).length)


def test_stripes_leave_a_hole_free() -> None:
    outer = ((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0))
    hole = ((5.0, 5.0), (15.0, 5.0), (15.0, 15.0), (5.0, 15.0))
    middles = [((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in stripes([outer, hole], 1.0)]
    assert middles
    assert not any(inside(p, hole) for p in middles)


@settings(deadline=None)
@given(ring=rings, p=points)
def test_a_box_in_a_ring_has_all_its_corners_there(ring: list[tuple[float, float]], p: tuple[float, float]) -> None:
    room = Box(p[0], p[1], p[0] + 4, p[1] + 3)
    if box_inside(room, ring):
        assert Polygon(ring).buffer(1e-6).covers(box(room.left, room.bottom, room.right, room.top))


def test_a_polygon_that_stands_for_a_circle_is_drawn_round() -> None:
    ring = [(10 + 5 * math.cos(math.tau * i / 28), 10 + 5 * math.sin(math.tau * i / 28)) for i in range(28)]
    smooth = round_out(ring, [((10.0, 10.0), 5.0)])
    assert area_of(smooth) == pytest.approx(math.pi * 25, rel=5e-4)
    assert area_of(ring) < math.pi * 25 * 0.995
