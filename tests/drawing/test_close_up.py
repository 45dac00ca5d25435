"""A close-up shows what lies round a point, larger, and nothing outside its circle."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.drawing.close_up import (
    RADIUS,
    WIDE,
    Border,
    border_close_up,
    cut_area,
    cut_line,
    enlarged,
    is_upright,
)
from foldproof.drawing.plane import XY, Box, area_of, length, minus
from foldproof.drawing.scene import Area, Arrow, Fill, Hatch, Item, Kind, Label, Line

SQUARE: tuple[XY, ...] = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
somewhere = st.tuples(st.floats(-20, 30), st.floats(-20, 30))


@pytest.mark.parametrize(("p", "q", "left"), [
    pytest.param((2.0, 3.0), (8.0, 3.0), ((2.0, 3.0), (8.0, 3.0)), id="inside"),
    pytest.param((-5.0, 3.0), (5.0, 3.0), ((0.0, 3.0), (5.0, 3.0)), id="coming in"),
    pytest.param((-5.0, 3.0), (15.0, 3.0), ((0.0, 3.0), (10.0, 3.0)), id="right through"),
    pytest.param((-5.0, 12.0), (15.0, 12.0), None, id="past it"),
    pytest.param((-4.0, 8.0), (4.0, 16.0), None, id="past a corner"),
])
def test_a_line_is_cut_off_at_the_edge(p: XY, q: XY, left: tuple[XY, XY] | None) -> None:
    assert cut_line(p, q, SQUARE) == left


@given(points=st.lists(somewhere, min_size=3, max_size=6))
def test_what_is_left_of_an_area_lies_inside(points: list[XY]) -> None:
    for x, y in cut_area(points, SQUARE):
        assert -1e-6 <= x <= 10 + 1e-6 and -1e-6 <= y <= 10 + 1e-6


def test_an_area_is_cut_to_the_common_part() -> None:
    cut = cut_area(((5.0, 5.0), (25.0, 5.0), (25.0, 8.0), (5.0, 8.0)), SQUARE)
    assert area_of(cut) == pytest.approx(5 * 3)
    assert cut_area(((20.0, 0.0), (30.0, 0.0), (30.0, 9.0)), SQUARE) == ()


def test_lengths_grow_by_the_zoom_about_the_point_that_is_looked_at() -> None:
    items: list[Item] = [Line(points=((1.0, 1.0), (2.0, 1.0)), kind=Kind.EDGE)]
    (line,) = enlarged(items, (1.0, 1.0), 3.0, (5.0, 5.0), SQUARE)
    assert isinstance(line, Line) and line.points == ((5.0, 5.0), (8.0, 5.0))


HOST: tuple[XY, ...] = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))
GUEST: tuple[XY, ...] = ((1.0, 1.0), (39.0, 1.0), (39.0, 29.0), (1.0, 29.0))


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_border_is_shown_at_a_corner_with_its_width_both_ways(side: str) -> None:
    drawn: list[Item] = [
        Area(rings=(HOST,), fill=Fill.FRONT), Area(rings=(GUEST,), fill=Fill.BACK), Hatch(rings=(GUEST,)),
        Line(points=GUEST, kind=Kind.STRONG, closed=True)]
    border = Border(inner=Box(1.0, 1.0, 39.0, 29.0), wide=1.0, text="1/8 in")
    found = border_close_up(border, drawn, Box(0.0, 0.0, 40.0, 30.0), 8.5, side)
    ring = next(item for item in found if isinstance(item, Line) and item.kind is Kind.EDGE and item.closed)
    at = tuple(sum(p[i] for p in ring.points) / len(ring.points) for i in (0, 1))
    assert (at[0] > 40 + RADIUS) if side == "right" else (at[0] < -RADIUS)
    arrows = [item for item in found if isinstance(item, Arrow)]
    assert [length(minus(arrow.points[-1], arrow.points[0])) for arrow in arrows] == pytest.approx([WIDE, WIDE])
    assert all(math.dist(p, at) <= RADIUS + 1e-6 for item in found if isinstance(item, Hatch)
               for one in item.rings for p in one)
    # each arrow runs from the enlarged edge of the mat to that of what it lies on
    edges = [item.points for item in found if isinstance(item, Line) and item.kind is Kind.STRONG]
    (across, up) = arrows
    assert any(p[0] == pytest.approx(across.points[0][0]) and q[0] == pytest.approx(p[0]) for p, q in edges)
    assert any(p[1] == pytest.approx(up.points[0][1]) and q[1] == pytest.approx(p[1]) for p, q in edges)
    assert (across.points[-1][0] > across.points[0][0]) is (side == "right") and up.points[-1][1] > up.points[0][1]
    assert [item.text for item in found if isinstance(item, Label)] == ["1/8 in"]


def test_only_a_ring_that_is_its_box_is_upright() -> None:
    assert is_upright(HOST, Box(0.0, 0.0, 40.0, 30.0))
    assert not is_upright(((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (1.0, 30.0)), Box(0.0, 0.0, 40.0, 30.0))
    assert not is_upright(((0.0, 0.0), (40.0, 0.0), (0.0, 30.0)), Box(0.0, 0.0, 40.0, 30.0))
