"""All parts out of one sheet, or a proof that it can't be: tried against every cut; open data in data/cutdata."""

import csv
import json
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foldproof.classroom.divide import TooLong, one_sheet
from foldproof.classroom.richest import Grid
from foldproof.classroom.task import Kind, Task, count_kinds, needed

DATA = Path(__file__).parent / "data" / "cutdata"
FORWARD = float("inf")


def _known() -> list[tuple[str, str, str]]:
    with (DATA / "known.csv").open(encoding="utf-8") as file:
        return [(r["name"], r["variant"], r["value"]) for r in csv.DictReader(file) if r["set"] == "opp42"]


QUICK = ("E00N10", "E00N15", "E02F17", "E03N10", "E03N15", "E04F15", "E07N10", "E08N15", "E10N10", "E20X15")


@pytest.mark.parametrize(("name", "variant", "value"), [
    pytest.param(*row, id="-".join(row)) for row in _known() if row[0] in QUICK
])
def test_published_answers(name: str, variant: str, value: str) -> None:
    """Clautiaux, Carlier and Moukrim, EJOR 183 (2007) 1196-1211, by guillotine cuts (see the data's README)."""
    data = json.loads((DATA / "opp42" / f"{name}.json").read_text())
    kinds = tuple(Kind(width=w, height=h, count=n, turns=variant == "R") for w, h, n in data["pieces"])
    task = Task(width=data["sheet"][0], height=data["sheet"][1], kinds=kinds, longest=None)
    tree = one_sheet(task, FORWARD)
    assert (tree is not None) == (value == "fits")
    if tree is not None:
        assert count_kinds(tree, len(kinds)) == task.demand
        width, height = needed(tree, task)
        assert width <= task.width and height <= task.height


def test_the_clock_ends_it() -> None:
    data = json.loads((DATA / "opp42" / "E05F20.json").read_text())
    kinds = tuple(Kind(width=w, height=h, count=n, turns=False) for w, h, n in data["pieces"])
    with pytest.raises(TooLong):
        one_sheet(Task(width=20, height=20, kinds=kinds, longest=None), 0.0)


kinds = st.builds(
    Kind, width=st.integers(1, 5), height=st.integers(1, 5), count=st.integers(1, 2), turns=st.booleans()
)


def _most(task: Task) -> int:
    """The most area of one sheet by trying every cut in reach and every sharing out of the parts: slow and plain."""
    longest = task.longest if task.longest is not None else 10**9
    areas = [kind.width * kind.height for kind in task.kinds]

    @cache
    def best(w: int, h: int, left: tuple[int, ...]) -> int:
        top = max((areas[i] for i, kind in enumerate(task.kinds)
                   if left[i] and any((a, b) == (w, h) for a, b, _ in kind.ways())), default=0)
        shares: list[tuple[int, ...]] = [()]
        for n in left:
            shares = [(*share, k) for share in shares for k in range(n + 1)]
        for share in shares:
            other = tuple(n - k for n, k in zip(left, share, strict=True))
            if h <= longest:
                top = max([top, *(best(at, h, share) + best(w - at, h, other) for at in range(1, w))])
            if w <= longest:
                top = max([top, *(best(w, at, share) + best(w, h - at, other) for at in range(1, h))])
        return top

    return best(task.width, task.height, task.demand)


@settings(max_examples=25, deadline=None)
@given(
    chosen=st.lists(kinds, min_size=1, max_size=3), width=st.integers(3, 6), height=st.integers(3, 7),
    longest=st.one_of(st.none(), st.integers(2, 7)))
def test_agrees_with_trying_everything(chosen: list[Kind], width: int, height: int, longest: int | None) -> None:
    task = Task(width=width, height=height, kinds=tuple(chosen), longest=longest)
    if not all(task.fits(kind) for kind in chosen):
        return
    areas = [kind.width * kind.height for kind in chosen]
    most = _most(task)
    assert (one_sheet(task, FORWARD) is not None) == (
        most == sum(a * n for a, n in zip(areas, task.demand, strict=True)))
    assert int(Grid(task).solve(areas)[-1, -1]) >= most, "the bound would forbid what can be cut"


def test_a_sheet_is_cut_down_before_a_cut_that_is_too_long() -> None:
    """Of 10 x 20 with cuts up to 15: first 6 off the height, then 14 long down the middle."""
    task = Task(width=10, height=20, kinds=(Kind(width=5, height=14, count=2, turns=False),), longest=15)
    assert one_sheet(task, FORWARD) is not None
    grid = Grid(task)
    table = grid.solve([1])
    assert int(table[-1, -1]) == 2
    tree = grid.unpick(table, [1])
    assert tree is not None and count_kinds(tree, 1) == (2,)
