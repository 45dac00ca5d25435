"""The work is drawn as it lies: right to the right, away from the maker upward."""

from fractions import Fraction

import pytest

from foldproof.drawing.picture import Looking
from foldproof.making.lying import turned, turned_over
from foldproof.making.table import UPRIGHT, Lie
from foldproof.paper.vector import Point

CORNER = Point(Fraction(0), Fraction(0))
RIGHT, TOP = Point(Fraction(1), Fraction(0)), Point(Fraction(0), Fraction(1))


@pytest.mark.parametrize(("lie", "right", "top"), [
    # where the right end and the top edge of the upright piece come to lie, by hand
    pytest.param(UPRIGHT, (1, 0), (0, 1), id="upright"),
    pytest.param(turned(UPRIGHT, "half"), (-1, 0), (0, -1), id="half turn"),
    pytest.param(turned(UPRIGHT, "quarter clockwise"), (0, -1), (1, 0), id="quarter clockwise"),
    pytest.param(turned(UPRIGHT, "quarter anticlockwise"), (0, 1), (-1, 0), id="quarter anticlockwise"),
    pytest.param(turned_over(UPRIGHT, "book page"), (-1, 0), (0, 1), id="like a book page"),
    pytest.param(turned_over(UPRIGHT, "top to bottom"), (1, 0), (0, -1), id="top to bottom"),
])
def test_a_turned_piece_is_drawn_turned(lie: Lie, right: tuple[int, int], top: tuple[int, int]) -> None:
    looking = Looking(lie=lie, scale=10.0)
    assert looking.at(CORNER) == (0.0, 0.0)
    assert looking.at(RIGHT) == pytest.approx((10.0 * right[0], 10.0 * right[1]))
    assert looking.at(TOP) == pytest.approx((10.0 * top[0], 10.0 * top[1]))
