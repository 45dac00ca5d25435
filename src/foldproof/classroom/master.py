"""The two questions put to the linear solver: shares of patterns, and whole numbers of patterns.

scipy's HiGHS works in floating point: its answers are proposals. What they prove is reckoned again in whole numbers.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np

Columns = Sequence[tuple[int, ...]]


def shares(columns: Columns, demand: Sequence[int]) -> tuple[float, list[float], list[float]]:
    """Fewest sheets when patterns may be cut in fractions: sheets, sheets per pattern, worth of each kind."""
    from scipy.optimize import linprog
    from scipy.sparse import csc_array

    matrix = csc_array(np.array(columns, dtype=float).T)
    answer: Any = linprog(
        np.ones(len(columns)), A_ub=-matrix, b_ub=-np.array(demand, dtype=float), bounds=(0, None), method="highs-ds"
    )
    if answer.status != 0:
        raise RuntimeError(f"the linear solver gave up: {answer.message}")
    return float(answer.fun), [float(x) for x in answer.x], [max(0.0, -float(y)) for y in answer.ineqlin.marginals]


def whole(columns: Columns, demand: Sequence[int], *, most: int, seconds: float) -> list[int] | None:
    """A whole number of sheets per pattern, together at most `most`; None when nothing was found in the time."""
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csc_array

    matrix = csc_array(np.array(columns, dtype=float).T)
    answer: Any = milp(
        np.ones(len(columns)),
        constraints=[
            LinearConstraint(matrix, lb=np.array(demand, dtype=float)),
            LinearConstraint(np.ones((1, len(columns))), ub=float(most)),
        ],
        integrality=np.ones(len(columns)),
        bounds=Bounds(lb=0),
        options={"time_limit": max(seconds, 0.1)},
    )
    if answer.x is None:
        return None
    found = [round(float(x)) for x in answer.x]
    given = np.array(columns).T @ np.array(found)
    return found if bool((given >= np.array(demand)).all()) and sum(found) <= most else None
