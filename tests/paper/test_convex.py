"""Areas in convex parts."""

from fractions import Fraction

import pytest

from foldproof.paper.convex import convex_parts
from foldproof.paper.polygon import anticlockwise, area, is_convex, overlap
from foldproof.paper.vector import Point, Ring


def ring(*corners: tuple[int, int]) -> Ring:
    return anticlockwise(tuple(Point(Fraction(x), Fraction(y)) for x, y in corners))


SQUARE = ring((0, 0), (8, 0), (8, 8), (0, 8))
WINDOW = ring((2, 2), (4, 2), (4, 4), (2, 4))[::-1]
SLOT = ring((5, 1), (7, 1), (7, 7), (5, 7))[::-1]


@pytest.mark.parametrize(("outer", "holes"), [
    pytest.param(SQUARE, (), id="a square"),
    pytest.param(ring((0, 0), (8, 0), (8, 2), (2, 2), (2, 8), (0, 8)), (), id="an L"),
    pytest.param(ring((0, 0), (4, 0), (4, 3), (4, 6), (0, 6), (2, 3)), (), id="a notch and a straight corner"),
    pytest.param(SQUARE, (WINDOW,), id="a window"),
    pytest.param(SQUARE, (WINDOW, SLOT), id="two windows"),
])
def test_the_parts_are_convex_and_make_the_whole(outer: Ring, holes: tuple[Ring, ...]) -> None:
    parts = convex_parts(outer, holes)
    assert all(is_convex(part) for part in parts)
    assert sum(area(part) for part in parts) == area(outer) - sum(abs(area(hole)) for hole in holes)
    assert not any(overlap(a, b) for i, a in enumerate(parts) for b in parts[i + 1:])
    assert not any(overlap(part, hole[::-1]) for part in parts for hole in holes)
