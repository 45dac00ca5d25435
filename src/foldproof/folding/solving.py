"""Least squares in a box, in floats: how angles are found that close a standing card."""

from collections.abc import Callable, Sequence

from foldproof.frozen import dataclass

Numbers = tuple[float, ...]
_STEP = 1e-6
_MOST_STEPS = 100
_CLOSED = 1e-20


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """Where the residuals are least, from one start."""

    at: Numbers
    residuals: Numbers
    felt: "Felt"
    """What small moves do there."""

    @property
    def fixed(self) -> bool:
        """Whether a small move of any kind would be felt: no unknown is left open there."""
        return not self.felt.free

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
        slopes = slopes_at(residuals, at)
        size = len(at)
        square = [[sum(slopes[i][k] * slopes[j][k] for k in range(len(now))) for j in range(size)] for i in range(size)]
        pull = [-sum(slopes[i][k] * now[k] for k in range(len(now))) for i in range(size)]
        for i in range(size):  # an unknown that is pushed against its bound stays there
            if (at[i] <= low[i] and pull[i] < 0) or (at[i] >= high[i] and pull[i] > 0):
                pull[i] = 0.0
                for j in range(size):
                    square[i][j] = square[j][i] = 0.0
                square[i][i] = 1.0
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
                moved = _energy(there) < _energy(now) * (1 - 1e-6)
                at, now, damping = trial, there, max(damping / 10, 1e-14)
                break
            damping *= 10
        if not moved:
            break
    return Solution(at=at, residuals=now, felt=felt(slopes_at(residuals, at)))


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


def slopes_at(residuals: Callable[[Numbers], Numbers], at: Numbers) -> list[list[float]]:
    """For each unknown how the residuals change with it."""
    slopes = []
    for i in range(len(at)):
        ahead = residuals(tuple(v + _STEP if i == j else v for j, v in enumerate(at)))
        back = residuals(tuple(v - _STEP if i == j else v for j, v in enumerate(at)))
        slopes.append([(a - b) / (2 * _STEP) for a, b in zip(ahead, back, strict=True)])
    return slopes


def _energy(values: Numbers) -> float:
    return sum(value * value for value in values)


@dataclass(frozen=True, slots=True, kw_only=True)
class Felt:
    """What small moves of the unknowns do, to first order."""

    rank: int
    """How many independent moves are felt."""
    free: tuple[Numbers, ...]
    """As many moves as are not felt: a basis, each with a greatest part of 1."""

    def moving(self, least: float = 1e-3) -> tuple[int, ...]:
        """The unknowns that have a part in a move that is not felt."""
        return tuple(sorted({i for move in self.free for i, part in enumerate(move) if abs(part) > least}))


def felt(slopes: Sequence[Sequence[float]], share: float = 1e-5) -> Felt:
    """The rank of the slopes and the moves that they do not feel.

    Columns are made orthogonal one by one, the longest that is left first (Golub 1965: QR with column pivoting), until
    what is left is shorter than `share` of the longest at the start.
    """
    count = len(slopes)
    left = [list(slope) for slope in slopes]
    order: list[int] = []
    basis: list[list[float]] = []
    upper: list[list[float]] = []
    longest = max((_energy(tuple(slope)) ** 0.5 for slope in slopes), default=0.0)
    while len(order) < count:
        rest = [i for i in range(count) if i not in order]
        best = max(rest, key=lambda i: _energy(tuple(left[i])))
        size = _energy(tuple(left[best])) ** 0.5
        if size <= max(share * longest, 1e-12):
            break
        unit = [value / size for value in left[best]]
        order.append(best)
        basis.append(unit)
        for i in rest:
            part = sum(a * b for a, b in zip(left[i], unit, strict=True))
            left[i] = [a - part * b for a, b in zip(left[i], unit, strict=True)]
    upper = [[sum(a * b for a, b in zip(slopes[i], unit, strict=True)) for i in range(count)] for unit in basis]
    free: list[Numbers] = []
    for loose in (i for i in range(count) if i not in order):
        move = [0.0] * count
        move[loose] = 1.0
        for row in reversed(range(len(order))):
            pull = sum(upper[row][i] * move[i] for i in range(count) if i != order[row])
            move[order[row]] = -pull / upper[row][order[row]]
        most = max(abs(part) for part in move)
        free.append(tuple(part / most for part in move))
    return Felt(rank=len(order), free=tuple(free))
