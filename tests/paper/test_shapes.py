"""Outlines of the plain shapes."""

from fractions import Fraction

import pytest
from plane import exact, point, ring

from foldproof.paper.polygon import area, bounding_box, edges, is_convex, square_distance
from foldproof.paper.shapes import CORNERS, disc, rectangle, right_triangle
from foldproof.paper.vector import Ring


@pytest.mark.parametrize("across", [Fraction(1), Fraction(7, 2), Fraction(80)])
def test_a_disc_lies_on_its_circle_within_a_two_hundredth(across: Fraction) -> None:
    outline, half = disc(across), across / 2
    middle = point(half, half)
    assert all((p - middle).square == half * half for p in outline)
    assert all(square_distance(middle, side) >= (half - across / 200) ** 2 for side in edges(outline))
    box = bounding_box(outline)
    assert (box.left, box.bottom, box.width, box.height) == exact(0, 0, across, across)
    assert is_convex(outline) and area(outline) > 0


def test_a_disc_is_the_same_mirrored_and_turned() -> None:
    outline = set(disc(Fraction(2)))
    assert {point(2 - p.x, p.y) for p in outline} == outline == {point(p.y, p.x) for p in outline}


@pytest.mark.parametrize(("corner", "outline"), [
    pytest.param("bottom left", ring((0, 3), (0, 0), (4, 0)), id="bottom left"),
    pytest.param("bottom right", ring((0, 0), (4, 0), (4, 3)), id="bottom right"),
    pytest.param("top right", ring((4, 0), (4, 3), (0, 3)), id="top right"),
    pytest.param("top left", ring((4, 3), (0, 3), (0, 0)), id="top left"),
])
def test_right_triangles(corner: str, outline: Ring) -> None:
    assert right_triangle(Fraction(4), Fraction(3), corner) == outline
    assert area(outline) == 6


def test_corners_are_named_in_the_order_of_the_rectangle() -> None:
    corners = dict(zip(CORNERS, rectangle(Fraction(4), Fraction(3)), strict=True))
    assert corners["top left"] == point(0, 3) and corners["bottom right"] == point(4, 0)
