"""The arrangement of segments, held against shapely's polygonizer and against laws."""

from fractions import Fraction

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from plane import grid_segments, point, ring, segment
from shapely.ops import polygonize, unary_union

from foldproof.paper.polygon import Where, area, edges, locate
from foldproof.paper.subdivision import common, merge, subdivide
from foldproof.paper.vector import Ring, Segment

SQUARE = ring((0, 0), (4, 0), (4, 4), (0, 4))
sets = st.lists(grid_segments, min_size=1, max_size=14)


def _line(s: Segment) -> shapely.LineString:
    return shapely.LineString([(float(s.start.x), float(s.start.y)), (float(s.end.x), float(s.end.y))])


@settings(max_examples=60, deadline=None)
@given(segments=sets)
def test_faces_are_those_of_shapelys_polygonizer(segments: list[Segment]) -> None:
    found = sorted(float(face.size) for face in subdivide(segments).faces)
    theirs = sorted(part.area for part in polygonize(unary_union([_line(s) for s in segments])))
    # shapely works in floats and may make slivers at crossings off the grid
    assert found == pytest.approx([size for size in theirs if size > 1e-9], abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(segments=sets)
def test_eulers_formula(segments: list[Segment]) -> None:
    whole = subdivide(segments)
    assert len(whole.corners) - len(whole.edges) + len(whole.faces) + 1 == 1 + whole.parts


@settings(max_examples=60, deadline=None)
@given(segments=sets)
def test_every_edge_lies_on_its_sources_and_has_its_faces_beside_it(segments: list[Segment]) -> None:
    whole = subdivide(segments)
    for edge in whole.edges:
        s = edge.segment
        assert s.start < s.end and edge.sources
        for source in edge.sources:
            d = segments[source].along
            assert d.cross(s.start - segments[source].start) == 0 == d.cross(s.end - segments[source].start)
        beside = [face.inside for face in whole.faces]
        for face, side in ((edge.left, 1), (edge.right, -1)):
            if face is None:
                continue
            area_ = whole.faces[face]
            assert locate(s.middle, area_.ring, area_.holes) is not Where.OUT
            assert locate(beside[face], area_.ring, area_.holes) is Where.IN
            nudge = s.middle + s.along.left * (Fraction(side, 10**9))
            assert locate(nudge, area_.ring, area_.holes) is Where.IN


@settings(max_examples=40, deadline=None)
@given(cuts=st.lists(grid_segments, max_size=10))
def test_scores_share_out_the_sheet(cuts: list[Segment]) -> None:
    sheet = ring((0, 0), (7, 0), (7, 7), (0, 7))
    whole = subdivide((*edges(sheet), *cuts))
    assert sum(face.size for face in whole.faces) == 49
    assert all(face.size > 0 and area(face.ring) > 0 for face in whole.faces)
    assert all(area(hole) < 0 for face in whole.faces for hole in face.holes)


@pytest.mark.parametrize(("cuts", "faces"), [
    pytest.param([segment(2, 0, 2, 4)], 2, id="one score across"),
    pytest.param([segment(2, 0, 2, 4), segment(0, 2, 4, 2)], 4, id="two that cross"),
    pytest.param([segment(2, 0, 2, 4), segment(2, 2, 4, 2)], 3, id="one that ends on another"),
    pytest.param([segment(2, 0, 2, 3), segment(2, 1, 2, 4)], 2, id="two that overlap"),
    pytest.param([segment(2, 0, 2, 4), segment(2, 4, 2, 0)], 2, id="the same twice, the other way"),
    pytest.param([segment(2, 0, 2, 2)], 1, id="one that stops inside"),
    pytest.param([segment(1, 2, 3, 2)], 1, id="a slit that touches nothing"),
    pytest.param([segment(0, 0, 4, 4), segment(4, 0, 0, 4)], 4, id="diagonals"),
    pytest.param([segment(0, 0, 4, 0)], 1, id="one along an edge"),
])
def test_cases_of_a_square_sheet(cuts: list[Segment], faces: int) -> None:
    whole = subdivide((*edges(SQUARE), *cuts))
    assert len(whole.faces) == faces
    assert sum(face.size for face in whole.faces) == 16


def test_a_slit_has_the_same_face_on_both_sides_and_leaves_the_ring_alone() -> None:
    whole = subdivide((*edges(SQUARE), segment(2, 0, 2, 2)))
    (slit,) = [edge for edge in whole.edges if edge.sources == (4,)]
    assert slit.left == slit.right == 0
    assert whole.faces[0].ring == SQUARE


def test_a_window_is_a_hole_and_a_face() -> None:
    window = ring((1, 1), (3, 1), (3, 3), (1, 3))
    whole = subdivide((*edges(SQUARE), *edges(window)))
    assert sorted(face.size for face in whole.faces) == [4, 12]
    frame = next(face for face in whole.faces if face.holes)
    assert area(frame.holes[0]) == -4
    assert whole.parts == 2


def test_squares_within_squares() -> None:
    nested = [ring((n, n), (8 - n, n), (8 - n, 8 - n), (n, 8 - n)) for n in (0, 1, 2, 3)]
    whole = subdivide([side for one in nested for side in edges(one)])
    assert sorted(face.size for face in whole.faces) == [4, 12, 20, 28]


def test_a_window_that_touches_the_edge_in_a_corner() -> None:
    window = ring((0, 2), (2, 1), (2, 3))
    whole = subdivide((*edges(SQUARE), *edges(window)))
    assert sorted(face.size for face in whole.faces) == [2, 14]
    assert area(next(face for face in whole.faces if face.size == 14).holes[0]) == -2


def test_a_bridge_to_a_window_belongs_to_the_frame() -> None:
    window = ring((1, 1), (3, 1), (3, 3), (1, 3))
    whole = subdivide((*edges(SQUARE), *edges(window), segment(0, 2, 1, 2)))
    frame = next(index for index, face in enumerate(whole.faces) if face.holes)
    bridge = next(edge for edge in whole.edges if edge.sources == (8,))
    assert (bridge.left, bridge.right) == (frame, frame)


def test_crossings_off_the_grid_are_exact() -> None:
    whole = subdivide((segment(0, 0, 3, 1), segment(0, 1, 2, 0)))
    assert point(Fraction(6, 5), Fraction(2, 5)) in whole.corners


@settings(max_examples=40, deadline=None)
@given(segments=sets)
def test_merging_all_faces_gives_their_union(segments: list[Segment]) -> None:
    whole = subdivide(segments)
    together = merge(whole, lambda _: "all")
    assert sum(part.size for _, part in together) == sum(face.size for face in whole.faces)
    assert len(together) <= len(whole.faces)


def test_merging_by_label_keeps_the_border_between_labels() -> None:
    whole = subdivide((*edges(SQUARE), segment(2, 0, 2, 4), segment(0, 2, 4, 2)))
    halves = dict(merge(whole, lambda face: "left" if whole.faces[face].inside.x < 2 else "right"))
    assert halves["left"].ring == ring((0, 0), (2, 0), (2, 4), (0, 4))
    assert halves["right"].ring == ring((2, 0), (4, 0), (4, 4), (2, 4))


NOTCHED = ring((0, 0), (6, 0), (6, 4), (4, 4), (4, 1), (2, 1), (2, 4), (0, 4))


@pytest.mark.parametrize(("a", "b", "size"), [
    pytest.param(SQUARE, ring((3, 3), (6, 3), (6, 6), (3, 6)), 1, id="corners"),
    pytest.param(SQUARE, ring((4, 0), (6, 0), (6, 4), (4, 4)), None, id="side by side"),
    pytest.param(NOTCHED, ring((0, 2), (6, 2), (6, 3), (0, 3)), 2, id="across the bay, the larger part"),
    pytest.param(NOTCHED, ring((2.5, 2), (3.5, 2), (3.5, 3), (2.5, 3)), None, id="in the bay"),
])
def test_common_parts(a: Ring, b: Ring, size: int | None) -> None:
    part = common(a, b)
    assert (None if part is None else area(part)) == size


def test_a_hundred_segments_are_divided_quickly() -> None:
    import time

    lines = [segment(i, 0, 30 - i, 31) for i in range(25)] + [segment(0, i, 31, (7 * i) % 29) for i in range(25)]
    lines += [segment(i, 0, i, 30) for i in range(25)] + [segment(0, i, 30, i) for i in range(25)]
    start = time.process_time()
    whole = subdivide(lines)
    assert len(whole.faces) > 1500
    assert time.process_time() - start < 10
