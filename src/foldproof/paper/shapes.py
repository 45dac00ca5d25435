"""Outlines of the plain shapes, with rational corners, the bounding rectangle's bottom left corner at the origin."""

from fractions import Fraction

from foldproof.paper.vector import Point, Ring

CORNERS = ("bottom left", "bottom right", "top right", "top left")
"""The corners of a rectangle, anticlockwise."""

_OCTANT = (
    (Fraction(1), Fraction(0)), (Fraction(63, 65), Fraction(16, 65)),
    (Fraction(15, 17), Fraction(8, 17)), (Fraction(21, 29), Fraction(20, 29)),
)
# right triangles with whole sides; the widest step between neighbours is 15.53 degrees
QUARTER = (*_OCTANT, *((y, x) for x, y in reversed(_OCTANT)))
"""Points (cosine, sine) on a quarter of the unit circle from (1, 0) to (0, 1), both included; the same mirrored."""


def rectangle(width: Fraction, height: Fraction) -> Ring:
    """A rectangle, from its bottom left corner."""
    zero = Fraction(0)
    return (Point(zero, zero), Point(width, zero), Point(width, height), Point(zero, height))


def right_triangle(width: Fraction, height: Fraction, right_angle: str) -> Ring:
    """Three corners of a rectangle: the one with the right angle and its two neighbours."""
    corners = rectangle(width, height)
    index = CORNERS.index(right_angle)
    return (corners[index - 1], corners[index], corners[(index + 1) % 4])


CIRCLE_CORNERS = 28
"""Of the polygon that stands for a circle."""


def disc(across: Fraction) -> Ring:
    """A polygon of 28 corners on a circle that touches both axes.

    It is as wide and as high as the circle, the same turned by a quarter and mirrored, and lies within 1/200 of the
    diameter inside the circle: the sagitta of the widest step, 15.53 degrees, is 0.0046 of the diameter.
    """
    half = across / 2
    eighth = (*_OCTANT, *((y, x) for x, y in reversed(_OCTANT[1:])))
    round_: list[Point] = []
    for c, s in ((1, 0), (0, 1), (-1, 0), (0, -1)):
        round_ += [Point(half + half * (c * x - s * y), half + half * (s * x + c * y)) for x, y in eighth]
    return tuple(round_)
