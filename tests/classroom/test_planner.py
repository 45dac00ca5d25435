"""Sources: cases b, c, d reckoned by hand (C); the open data in data/cutdata, whose README names the papers."""

import csv
import json
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foldproof.classroom.layout import lay_out
from foldproof.classroom.planner import CannotBeCut, plan_cuts
from foldproof.classroom.replay import replay
from foldproof.classroom.richest import Grid
from foldproof.classroom.search import Search
from foldproof.classroom.sheets import Layout, MayTurn, Part, Plan, Sheet
from foldproof.classroom.task import Kind, Task, count_kinds, task_of
from foldproof.classroom.within import worth_more

DATA = Path(__file__).parent / "data" / "cutdata"


def _known(chosen: str) -> dict[tuple[str, str], str]:
    with (DATA / "known.csv").open(encoding="utf-8") as file:
        return {(row["name"], row["variant"]): row["value"] for row in csv.DictReader(file) if row["set"] == chosen}


def _sheet(width: str, height: str, **more: Fraction) -> Sheet:
    return Sheet(name="sheet", width=Fraction(width), height=Fraction(height), **more)


def _part(width: str, height: str, count: int, turn: MayTurn = MayTurn.ANY, name: str = "part") -> Part:
    return Part(name=name, width=Fraction(width), height=Fraction(height), count=count, may_turn=turn)


@pytest.mark.parametrize(
    ("sheet", "parts", "sheets"),
    [
        pytest.param(_sheet("17/2", "11"), [_part("11/2", "17/2", 2)], 1, id="facts 11 b: two halves of letter"),
        pytest.param(_sheet("17/2", "11"), [_part("17/4", "11/2", 4)], 1, id="facts 11 b: four quarters of letter"),
        pytest.param(_sheet("17/2", "11"), [_part("10", "7", 4)], 4, id="facts 11 c: the area bound says 3"),
        pytest.param(_sheet("12", "12"), [_part("17/4", "11", 5)], 3, id="facts 11 d: the area bound says 2"),
        pytest.param(
            _sheet("3", "3"), [_part("2", "1", 4, name="bar"), _part("1", "1", 1, name="tile")], 1, id="facts 11 a"
        ),
        pytest.param(_sheet("3", "2"), [_part("2", "3", 1, MayTurn.ANY)], 1, id="turned to fit"),
        pytest.param(_sheet("12", "12", trim=Fraction(1, 8)), [_part("4", "12", 1)], None, id="no room for the trim"),
        pytest.param(_sheet("12", "12", trim=Fraction(1, 8)), [_part("47/4", "47/8", 2)], 1, id="just inside the trim"),
        pytest.param(_sheet("12", "12", kerf=Fraction(1, 16)), [_part("6", "12", 2)], 2, id="the blade takes paper"),
        pytest.param(_sheet("12", "12"), [_part("6", "12", 2)], 1, id="the blade shears"),
        pytest.param(_sheet("3", "2"), [_part("2", "3", 1, MayTurn.HALF)], None, id="stripes may not lie across"),
        pytest.param(_sheet("12", "12", longest_cut=Fraction(9)), [_part("4", "4", 1)], None, id="beyond the trimmer"),
        pytest.param(
            _sheet("10", "20", longest_cut=Fraction(15)), [_part("5", "14", 4, MayTurn.NONE)], 2, id="cut down first"
        ),
    ],
)
def test_class_sized_cases(sheet: Sheet, parts: list[Part], sheets: int | None) -> None:
    if sheets is None:
        with pytest.raises(CannotBeCut):
            plan_cuts(sheet, parts, seconds=1)
        return
    plan = plan_cuts(sheet, parts, seconds=5)
    assert (plan.count, plan.least) == (sheets, sheets)
    assert replay(plan) == ()


def test_equal_strips_share_a_layout_and_a_setting() -> None:
    plan = plan_cuts(_sheet("17/2", "11"), [_part("4", "5", 24)], seconds=5)
    assert plan.count == plan.least == 6
    assert [layout.times for layout in plan.layouts] == [6]


def test_a_class_of_twelve_kinds_is_proved_in_seconds() -> None:
    parts = [_part(f"{16 + i * 7}/8", f"{20 + i * 5}/8", 33, name=f"part {i}") for i in range(12)]
    plan = plan_cuts(_sheet("12", "12"), parts, seconds=20)
    assert plan.proven
    assert plan.seconds < 15


@pytest.mark.parametrize("seed", [0, 1, 2, 5, 7])
def test_classes_of_any_sizes_are_proved(seed: int) -> None:
    """Twelve kinds, about 370 parts, sizes at random in eighths of an inch."""
    random = Random(seed)
    turn = random.choice([MayTurn.ANY, MayTurn.NONE])
    sheet = random.choice([_sheet("17/2", "11"), _sheet("12", "12")])
    parts = [
        _part(
            f"{random.randint(8, 64)}/8",
            f"{random.randint(8, 64)}/8",
            random.choice([15, 30, 33, 45]),
            turn,
            f"part {i}",
        )
        for i in range(12)
    ]
    task, _ = task_of(sheet, parts)
    answer = Search(task, seconds=20).run()
    assert answer.count == answer.least


@pytest.mark.parametrize("name", ["A1", "A3", "A7", "A17", "A42"])
def test_furniture_plant(name: str) -> None:
    known = _known("csp_macedo")
    data = json.loads((DATA / "csp_macedo" / f"{name}.json").read_text())
    for variant, turn in (("O", MayTurn.NONE), ("R", MayTurn.ANY)):
        if (name, variant) not in known:
            continue
        parts = [_part(str(w), str(h), n, turn, f"part {i}") for i, (w, h, n) in enumerate(data["pieces"])]
        plan = plan_cuts(_sheet(*map(str, data["sheet"])), parts, seconds=20)
        assert plan.count == int(known[name, variant])
        assert plan.proven


@pytest.mark.parametrize("name", ["cl_01_020_04", "cl_03_020_07", "cl_08_020_09", "cl_09_020_06"])
@pytest.mark.parametrize("variant", ["O", "R"])
def test_single_copies(name: str, variant: str) -> None:
    """Three of these need more sheets than worth with copies unlimited can prove."""
    data = json.loads((DATA / "bpp_class" / f"{name}.json").read_text())
    turn = MayTurn.ANY if variant == "R" else MayTurn.NONE
    sheet = _sheet(*map(str, data["sheet"]))
    parts = [_part(str(w), str(h), n, turn, f"part {i}") for i, (w, h, n) in enumerate(data["pieces"])]
    task, _ = task_of(sheet, parts)
    answer = Search(task, seconds=20).run()
    best = int(_known("bpp_class")[name, variant])
    assert (answer.count, answer.least) == (best, best)
    layouts = tuple(Layout(root=lay_out(tree, sheet, parts), times=times) for tree, times in answer.trees)
    plan = Plan(sheet=sheet, parts=tuple(parts), layouts=layouts, least=answer.least, reason="", seconds=0.0)
    assert replay(plan) == ()


@pytest.mark.parametrize("name", ["gcut2", "gcut4", "gcut7", "gcut11", "gcut12"])
@pytest.mark.parametrize("variant", ["O", "R"])
def test_the_richest_sheet(name: str, variant: str) -> None:
    """Beasley, JORS 36 (1985) 297-306; best values of Cintra et al., EJOR 191 (2008) 61-85."""
    numbers = [int(word) for word in (DATA / "kp_gcut" / f"{name}.txt").read_text().split()]
    kinds, values = [], []
    for i in range(numbers[0]):
        w, h, value = numbers[3 + 3 * i : 6 + 3 * i]
        kinds.append(Kind(width=w, height=h, count=10**6, turns=variant == "R"))
        values.append(value)
    grid = Grid(Task(width=numbers[1], height=numbers[2], kinds=tuple(kinds), longest=None))
    table = grid.solve(values)
    assert int(table[-1, -1]) == int(_known("kp_gcut")[name, variant])
    tree = grid.unpick(table, values)
    assert tree is not None
    assert sum(c * v for c, v in zip(count_kinds(tree, len(kinds)), values, strict=True)) == int(table[-1, -1])


kinds = st.builds(
    Kind, width=st.integers(1, 7), height=st.integers(1, 7), count=st.integers(1, 2), turns=st.booleans()
)


def _most(task: Task, values: list[int]) -> int:
    """The most value of one sheet by trying every cut and every sharing out of the copies: slow and plain."""
    memo: dict[tuple[int, int, tuple[int, ...]], int] = {}

    def best(w: int, h: int, left: tuple[int, ...]) -> int:
        key = (w, h, left)
        if key in memo:
            return memo[key]
        top = 0
        for i, kind in enumerate(task.kinds):
            if left[i] and any(a <= w and b <= h for a, b, _ in kind.ways()):
                top = max(top, values[i])
        shares: list[tuple[int, ...]] = [()]
        for n in left:
            shares = [(*share, k) for share in shares for k in range(n + 1)]
        for share in shares:
            other = tuple(n - k for n, k in zip(left, share, strict=True))
            if any(share) and any(other):
                for at in range(1, w):
                    top = max(top, best(at, h, share) + best(w - at, h, other))
                for at in range(1, h):
                    top = max(top, best(w, at, share) + best(w, h - at, other))
        memo[key] = top
        return top

    return best(task.width, task.height, task.demand)


@settings(max_examples=30, deadline=None)
@given(chosen=st.lists(kinds, min_size=1, max_size=3), worth=st.lists(st.integers(1, 9), min_size=3, max_size=3))
def test_copies_limited_agrees_with_trying_everything(chosen: list[Kind], worth: list[int]) -> None:
    task = Task(width=7, height=6, kinds=tuple(chosen), longest=None)
    values = worth[: len(chosen)]
    if not any(task.fits(kind) for kind in chosen):
        return
    most = _most(task, values)
    grid = Grid(task)
    assert worth_more(grid, values, task.demand, most, labels=10_000, until=float("inf")) == []
    assert int(grid.solve(values)[-1, -1]) >= most
    found = worth_more(grid, values, task.demand, most - 1, labels=10_000, until=float("inf"))
    assert found
    for tree in found:
        counts = count_kinds(tree, len(chosen))
        assert all(c <= n for c, n in zip(counts, task.demand, strict=True))


@settings(max_examples=25, deadline=None)
@given(
    chosen=st.lists(
        st.builds(
            _part,
            st.sampled_from(["1", "3/2", "2", "15/8", "7/2"]),
            st.sampled_from(["1", "5/4", "3", "21/4"]),
            st.integers(1, 9),
            st.sampled_from(list(MayTurn)),
        ),
        min_size=1,
        max_size=4,
    ),
    trim=st.sampled_from([Fraction(0), Fraction(1, 8)]),
    kerf=st.sampled_from([Fraction(0), Fraction(1, 16)]),
)
def test_every_plan_gives_the_parts(chosen: list[Part], trim: Fraction, kerf: Fraction) -> None:
    parts = [_part(str(p.width), str(p.height), p.count, p.may_turn, f"part {i}") for i, p in enumerate(chosen)]
    plan = plan_cuts(_sheet("17/2", "11", trim=trim, kerf=kerf), parts, seconds=1)
    assert replay(plan) == ()
    assert plan.count >= plan.least
