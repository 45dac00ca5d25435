"""Least squares in a box."""

from math import cos, sin

import pytest

from foldproof.folding.solving import least_squares, solve


def test_elimination_with_a_zero_on_the_diagonal() -> None:
    assert solve([[0.0, 2.0], [3.0, 1.0]], [4.0, 5.0]) == pytest.approx([1.0, 2.0])
    assert solve([[1.0, 2.0], [2.0, 4.0]], [1.0, 2.0]) is None


def test_where_two_circles_meet() -> None:
    found = least_squares(lambda v: (v[0] ** 2 + v[1] ** 2 - 25, (v[0] - 6) ** 2 + v[1] ** 2 - 25),
                          (1.0, 1.0), (0.0, 0.0), (10.0, 10.0))
    assert found.at == pytest.approx((3, 4)) and found.worst < 1e-9 and found.fixed


def test_the_nearest_place_in_the_box_where_nothing_closes() -> None:
    found = least_squares(lambda v: (v[0] - 7.0,), (1.0,), (0.0,), (5.0,))
    assert found.at == pytest.approx((5.0,)) and found.worst == pytest.approx(2.0)


def test_an_unknown_that_nothing_feels_is_told() -> None:
    assert not least_squares(lambda v: (v[0] + v[1] - 1.0,), (0.2, 0.2), (0.0, 0.0), (1.0, 1.0)).fixed
    assert least_squares(lambda v: (cos(v[0]) - 0.5, sin(v[0] - v[1])), (1.0, 0.5), (0.0, 0.0), (2.0, 2.0)).fixed
