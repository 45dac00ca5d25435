"""Areas, places and parts of polygons; overlap and clipping are held against shapely."""

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from plane import exact, on_grid, point, points, ring, segment, segments

from foldproof.paper import polygon
from foldproof.paper.polygon import Where
from foldproof.paper.vector import Point, Ring, Segment

SQUARE = ring((0, 0), (4, 0), (4, 4), (0, 4))
NOTCHED = ring((0, 0), (6, 0), (6, 4), (4, 4), (4, 1), (2, 1), (2, 4), (0, 4))
"""A rectangle with a bay from above."""
WINDOW = ring((1, 1), (1, 3), (3, 3), (3, 1))
"""Clockwise, as a hole runs."""
ZOO = {"square": SQUARE, "notched": NOTCHED, "triangle": ring((1, 0), (5, 2), (0, 5)),
       "thin": ring((0, 0), (7, 0), (7, 0.125), (0, 0.125)), "far": ring((20, 20), (21, 20), (20, 21))}
rings = st.lists(on_grid, min_size=3, max_size=7, unique=True).map(tuple).filter(polygon.is_simple).map(
    polygon.anticlockwise)


def _shapely(one: Ring) -> shapely.Polygon:
    return shapely.Polygon([(float(p.x), float(p.y)) for p in one])


@given(one=rings)
def test_area_is_shapelys(one: Ring) -> None:
    assert float(polygon.area(one)) == pytest.approx(_shapely(one).area)


def test_area_is_negative_clockwise_and_mended() -> None:
    assert polygon.area(WINDOW) == -4
    assert polygon.anticlockwise(WINDOW) == ring((1, 1), (3, 1), (3, 3), (1, 3))


@pytest.mark.parametrize(("corners", "where"), [
    pytest.param(ring((0, 0), (4, 0), (0, 4), (4, 4)), point(2, 2), id="bow tie"),
    pytest.param(ring((0, 0), (4, 0), (4, 4), (2, 0), (0, 4)), point(2, 0), id="a corner on a side"),
    pytest.param(ring((0, 0), (4, 0), (2, 0), (2, 4)), point(2, 0), id="doubles back on itself"),
    pytest.param(ring((0, 0), (4, 0), (4, 0), (0, 4)), point(4, 0), id="a corner twice"),
])
def test_outlines_that_cross_themselves(corners: Ring, where: Point) -> None:
    assert polygon.crossing(corners) == where
    assert not polygon.is_simple(corners)


@pytest.mark.parametrize("corners", ZOO.values(), ids=ZOO)
def test_sound_outlines_are_simple(corners: Ring) -> None:
    assert polygon.is_simple(corners)


@given(corners=st.lists(on_grid, min_size=3, max_size=6, unique=True).map(tuple))
def test_simple_is_what_shapely_calls_simple(corners: Ring) -> None:
    assert (polygon.crossing(corners) is None) == _shapely(corners).exterior.is_simple


@pytest.mark.parametrize(("p", "where"), [
    pytest.param(point(1, 3), Where.IN, id="in an arm"),
    pytest.param(point(3, 3), Where.OUT, id="in the bay"),
    pytest.param(point(3, 1), Where.ON, id="on the floor of the bay"),
    pytest.param(point(4, 4), Where.ON, id="on a corner"),
    pytest.param(point(7, 1), Where.OUT, id="beside, level with a corner"),
    pytest.param(point(-1, 4), Where.OUT, id="beside, level with an edge"),
])
def test_places_in_a_notched_rectangle(p: Point, where: Where) -> None:
    assert polygon.locate(p, NOTCHED) is where


@pytest.mark.parametrize(("p", "where"), [
    pytest.param(point(2, 2), Where.OUT, id="in the window"),
    pytest.param(point(1, 2), Where.ON, id="on the window's edge"),
    pytest.param(point(0.5, 2), Where.IN, id="in the frame"),
])
def test_places_round_a_hole(p: Point, where: Where) -> None:
    assert polygon.locate(p, SQUARE, (WINDOW,)) is where


@given(one=rings, p=on_grid)
def test_places_are_shapelys(one: Ring, p: Point) -> None:
    where, spot = polygon.locate(p, one), shapely.Point(float(p.x), float(p.y))
    assert (where is Where.ON) == _shapely(one).touches(spot)
    assert (where is Where.IN) == _shapely(one).contains(spot)


@given(one=rings)
def test_an_interior_point_lies_inside(one: Ring) -> None:
    assert polygon.locate(polygon.interior_point(one), one) is Where.IN


def test_an_interior_point_avoids_holes() -> None:
    assert polygon.locate(polygon.interior_point(SQUARE, (WINDOW,)), SQUARE, (WINDOW,)) is Where.IN


@pytest.mark.parametrize(("s", "parts"), [
    pytest.param(segment(-1, 3, 8, 3), [(0, 2), (4, 6)], id="across both arms"),
    pytest.param(segment(-1, 1, 8, 1), [(0, 6)], id="along the floor of the bay"),
    pytest.param(segment(-1, 4, 8, 4), [(0, 2), (4, 6)], id="along the top edges"),
    pytest.param(segment(2.5, 3, 3.5, 3), [], id="in the bay"),
])
def test_clipping_a_level_segment(s: Segment, parts: list[tuple[int, int]]) -> None:
    assert [(part.start.x, part.end.x) for part in polygon.clip(s, NOTCHED)] == [exact(*part) for part in parts]


@given(one=rings, s=segments)
def test_clipping_is_shapelys(one: Ring, s: Segment) -> None:
    line = shapely.LineString([(float(p.x), float(p.y)) for p in (s.start, s.end)])
    long = sum(float(part.along.square) ** 0.5 for part in polygon.clip(s, one))
    assert long == pytest.approx(line.intersection(_shapely(one)).length, abs=1e-9)


@given(one=rings, two=rings)
def test_overlap_is_shared_area(one: Ring, two: Ring) -> None:
    assert polygon.overlap(one, two) == (_shapely(one).intersection(_shapely(two)).area > 1e-9)
    assert polygon.touch(one, two) == _shapely(one).intersects(_shapely(two))


@given(corners=st.lists(on_grid, min_size=4, max_size=9), two=rings)
def test_the_common_part_of_convex_areas_is_shapelys(corners: list[Point], two: Ring) -> None:
    hull = shapely.MultiPoint([(float(p.x), float(p.y)) for p in corners]).convex_hull
    assume(hull.geom_type == "Polygon" and polygon.is_convex(two))
    one = polygon.anticlockwise(tuple(point(x, y) for x, y in hull.exterior.coords[:-1]))
    part = polygon.clip_convex(one, two)
    assert float(polygon.area(part) if part else 0) == pytest.approx(hull.intersection(_shapely(two)).area, abs=1e-9)


@given(one=rings)
def test_convex_is_the_hull(one: Ring) -> None:
    assert polygon.is_convex(one) == (abs(_shapely(one).convex_hull.area - _shapely(one).area) < 1e-9)


@given(p=points, s=segments)
def test_distances_by_squares_are_shapelys(p: Point, s: Segment) -> None:
    line = shapely.LineString([(float(q.x), float(q.y)) for q in (s.start, s.end)])
    assert float(polygon.square_distance(p, s)) ** 0.5 == pytest.approx(
        line.distance(shapely.Point(float(p.x), float(p.y))), abs=1e-9)
    assert polygon.square_distance_to_line(p, s) <= polygon.square_distance(p, s)


@pytest.mark.parametrize(("corners", "left"), [
    pytest.param(ring((0, 0), (1, 0), (4, 0), (4, 4), (0, 4)), SQUARE, id="straight on"),
    pytest.param(ring((0, 0), (4, 0), (4, 4), (4, 6), (4, 4), (0, 4)), SQUARE, id="out and back"),
    pytest.param(ring((2, 0), (4, 0), (4, 4), (0, 4), (0, 0)), ring((4, 0), (4, 4), (0, 4), (0, 0)),
                 id="straight on at the start"),
])
def test_straight_corners_go(corners: Ring, left: Ring) -> None:
    assert polygon.without_straight_corners(corners) == left


def test_boxes() -> None:
    box = polygon.bounding_box(ZOO["triangle"])
    assert (box.left, box.bottom, box.right, box.top) == exact(0, 0, 5, 5)
    assert (box.width, box.height) == exact(5, 5)
    assert box.centre == point("5/2", "5/2")
    assert not box.meets(polygon.bounding_box(ZOO["far"]))


def test_a_side_looks_out() -> None:
    assert polygon.outward(polygon.edges(SQUARE)[0]) == point(0, -4) - point(0, 0)


@given(points, points, points)
def test_the_sign_of_a_bend_is_that_of_the_turn(a: Point, b: Point, c: Point) -> None:
    bent, turned = polygon.bend(a, b, c), polygon.turn(a, b, c)
    assert ((bent > 0) - (bent < 0)) == ((turned > 0) - (turned < 0))
    assert isinstance(bent, int)


@given(st.lists(points, min_size=1, max_size=6))
def test_the_box_round_points_is_the_least(some: list[Point]) -> None:
    box = polygon.bounding_box(some)
    assert (box.left, box.right) == (min(p.x for p in some), max(p.x for p in some))
    assert (box.bottom, box.top) == (min(p.y for p in some), max(p.y for p in some))
