"""Least squares in a box."""

from collections.abc import Sequence
from math import cos, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize

from foldproof.folding.solving import felt, least_squares, solve


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


matrices = st.tuples(st.integers(1, 5), st.integers(1, 6), st.integers(0, 5), st.integers(0, 10 ** 6)).map(
    lambda t: _matrix(*t))


def _matrix(columns: int, rows: int, rank: int, seed: int) -> np.ndarray:
    """A matrix of the given rank at the most, its numbers of one size."""
    random = np.random.default_rng(seed)
    inner = min(rank, columns, rows)
    made: np.ndarray = random.integers(-3, 4, (rows, inner)) @ random.integers(-3, 4, (inner, columns)) * 1.0
    return made


@given(matrix=matrices)
def test_rank_and_moves_that_are_not_felt(matrix: np.ndarray) -> None:
    # against numpy's singular values
    found = felt([list(column) for column in matrix.T])
    assert found.rank == np.linalg.matrix_rank(matrix)
    assert len(found.free) == matrix.shape[1] - found.rank
    for move in found.free:
        assert matrix @ np.array(move) == pytest.approx(np.zeros(matrix.shape[0]), abs=1e-9)
    if found.free:
        assert np.linalg.matrix_rank(np.array(found.free)) == len(found.free)


@pytest.mark.parametrize("start", [(0.3, 0.4, 0.2), (1.0, 1.0, 1.0)])
def test_the_least_is_the_same_as_by_another_hand(start: tuple[float, float, float]) -> None:
    # scipy.optimize.least_squares in the same box, on a chain of three that cannot quite reach
    def misses(v: Sequence[float]) -> tuple[float, float]:
        a, b, c = v[0], v[0] + v[1], v[0] + v[1] + v[2]
        return (cos(a) + cos(b) + cos(c) - 3.5, sin(a) + sin(b) + sin(c) - 1.0)

    own = least_squares(misses, start, (0.0,) * 3, (3.0,) * 3)
    other = optimize.least_squares(misses, start, bounds=([0.0] * 3, [3.0] * 3), xtol=1e-14, ftol=1e-14, gtol=1e-14)
    assert sum(v * v for v in own.residuals) == pytest.approx(2 * other.cost, abs=1e-5)
