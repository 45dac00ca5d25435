"""Least squares in a box, in floats: how angles are found that close a standing card."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

Numbers = tuple[float, ...]
_STEP = 1e-6
_MOST_STEPS = 100
_CLOSED = 1e-26


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """Where the residuals are least, from one start."""

    at: Numbers
    residuals: Numbers
    fixed: bool
    """Whether a small move of any kind would be felt: no unknown is left open there."""

    @property
    def worst(self) -> float:
        """The greatest residual."""
        return max((abs(value) for value in self.residuals), default=0.0)


def least_squares(
    residuals: Callable[[Numbers], Numbers], start: Numbers, low: Numbers, high: Numbers,
) -> Solution:
    """Damped Gauss-Newton steps, kept between `low` and `high` by clipping (Levenberg 1944, Marquardt 1963)."""
    at, now = start, residuals(start)
    damping = 1e-3
    for _ in range(_MOST_STEPS):
        if _energy(now) < _CLOSED:
            break
        slopes = _slopes(residuals, at, now)
        size = len(at)
        square = [[sum(slopes[i][k] * slopes[j][k] for k in range(len(now))) for j in range(size)] for i in range(size)]
        pull = [-sum(slopes[i][k] * now[k] for k in range(len(now))) for i in range(size)]
        moved = False
        while damping < 1e12:
            damped = [[v + (damping * (square[i][i] + 1e-12) if i == j else 0.0) for j, v in enumerate(row)]
                      for i, row in enumerate(square)]
            step = solve(damped, pull)
            trial = tuple(
                min(max(a + s, lo), hi) for a, s, lo, hi in zip(at, step or [0.0] * size, low, high, strict=True)
            )
            there = residuals(trial)
            if _energy(there) < _energy(now):
                moved = _energy(there) < _energy(now) * (1 - 1e-9)
                at, now, damping = trial, there, max(damping / 10, 1e-14)
                break
            damping *= 10
        if not moved:
            break
    return Solution(at=at, residuals=now, fixed=_fixed(_slopes(residuals, at, now)))


def solve(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float] | None:
    """Gauss' elimination with the greatest pivot; None where the matrix is singular."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size = len(rows)
    for column in range(size):
        pivot = max(range(column, size), key=lambda r: abs(rows[r][column]))
        if abs(rows[pivot][column]) < 1e-300:
            return None
        rows[column], rows[pivot] = rows[pivot], rows[column]
        for r in range(size):
            if r != column:
                factor = rows[r][column] / rows[column][column]
                rows[r] = [a - factor * b for a, b in zip(rows[r], rows[column], strict=True)]
    return [rows[i][size] / rows[i][i] for i in range(size)]


def _slopes(residuals: Callable[[Numbers], Numbers], at: Numbers, now: Numbers) -> list[list[float]]:
    """For each unknown how the residuals change with it."""
    slopes = []
    for i in range(len(at)):
        ahead = residuals(tuple(v + _STEP if i == j else v for j, v in enumerate(at)))
        back = residuals(tuple(v - _STEP if i == j else v for j, v in enumerate(at)))
        slopes.append([(a - b) / (2 * _STEP) for a, b in zip(ahead, back, strict=True)])
    return slopes


def _energy(values: Numbers) -> float:
    return sum(value * value for value in values)


def _fixed(slopes: Sequence[Sequence[float]]) -> bool:
    """Whether the slopes are independent (Gram and Schmidt, in the order of the unknowns)."""
    basis: list[list[float]] = []
    for slope in slopes:
        length = _energy(tuple(slope)) ** 0.5
        rest = list(slope)
        for unit in basis:
            share = sum(a * b for a, b in zip(rest, unit, strict=True))
            rest = [a - share * b for a, b in zip(rest, unit, strict=True)]
        left = _energy(tuple(rest)) ** 0.5
        if left <= 1e-6 * max(length, 1e-9):
            return False
        basis.append([a / left for a in rest])
    return True
