from dataclasses import replace
from fractions import Fraction

import pytest

from foldproof.classroom.replay import Lies, Spot, can_be_cut, replay
from foldproof.classroom.sheets import Cut, Layout, Line, MayTurn, Node, Offcut, Part, Plan, Sheet, Taken


def _f(number: str) -> Fraction:
    return Fraction(number)


def _spot(name: str, left: int, bottom: int, width: int, height: int) -> Spot:
    return Spot(name=name, lies=_lies(left, bottom, width, height))


def _lies(left: int, bottom: int, width: int, height: int) -> Lies:
    return Lies(left=Fraction(left), bottom=Fraction(bottom), width=Fraction(width), height=Fraction(height))


# four 2 x 1 pieces round one 1 x 1, a pinwheel in a 3 x 3 sheet (C)
PINWHEEL = (
    _spot("a", 0, 0, 2, 1),
    _spot("b", 2, 0, 1, 2),
    _spot("c", 1, 2, 2, 1),
    _spot("d", 0, 1, 1, 2),
    _spot("e", 1, 1, 1, 1),
)


def test_the_pinwheel_cannot_be_cut_edge_to_edge() -> None:
    assert not can_be_cut(PINWHEEL, _lies(0, 0, 3, 3))


def test_the_pinwheel_without_its_centre_still_cannot_be_cut() -> None:
    assert not can_be_cut(PINWHEEL[:4], _lies(0, 0, 3, 3))


def test_the_same_five_can_be_cut_in_another_layout() -> None:
    rows = (
        _spot("a", 0, 0, 2, 1),
        _spot("e", 2, 0, 1, 1),
        _spot("b", 0, 1, 1, 2),
        _spot("c", 1, 1, 1, 2),
        _spot("d", 2, 1, 1, 2),
    )
    assert can_be_cut(rows, _lies(0, 0, 3, 3))


def test_parts_that_overlap_or_leave_the_sheet_cannot_be_cut() -> None:
    assert not can_be_cut((_spot("a", 0, 0, 2, 2), _spot("b", 1, 1, 2, 2)), _lies(0, 0, 3, 3))
    assert not can_be_cut((_spot("a", 0, 0, 4, 1),), _lies(0, 0, 3, 3))


SHEET = Sheet(name="slate", width=_f("17/2"), height=_f("11"))
HALF = Part(name="base", width=_f("17/2"), height=_f("11/2"), count=2)
ROOT = Cut(
    width=_f("17/2"),
    height=_f("11"),
    line=Line.LEVEL,
    at=_f("11/2"),
    near=Taken(width=_f("17/2"), height=_f("11/2"), part="base"),
    far=Taken(width=_f("17/2"), height=_f("11/2"), part="base"),
)


def _plan(root: Node, part: Part = HALF, sheet: Sheet = SHEET, times: int = 1, least: int = 1) -> Plan:
    return Plan(
        sheet=sheet, parts=(part,), layouts=(Layout(root=root, times=times),), least=least, reason="", seconds=0.0
    )


def test_a_sheet_cut_in_half_gives_two_bases() -> None:
    assert replay(_plan(ROOT)) == ()


@pytest.mark.parametrize(
    ("plan", "fault"),
    [
        pytest.param(_plan(ROOT, replace(HALF, count=3)), "base: 2 cut, 3 needed", id="too few"),
        pytest.param(_plan(replace(ROOT, at=_f("5"))), "said to be", id="the stop is set wrong"),
        pytest.param(_plan(replace(ROOT, line=Line.UPRIGHT)), "said to be", id="cut the other way"),
        pytest.param(_plan(replace(ROOT, at=_f("11"))), "does not divide", id="a cut along the edge"),
        pytest.param(_plan(ROOT, replace(HALF, height=_f("5"))), "comes out", id="a part of another size"),
        pytest.param(_plan(ROOT, sheet=replace(SHEET, trim=_f("1/8"))), "trimmed off", id="into the trim"),
        pytest.param(_plan(ROOT, sheet=replace(SHEET, longest_cut=_f("8"))), "longer than", id="beyond the trimmer"),
        pytest.param(_plan(ROOT, sheet=replace(SHEET, least_hold=_f("6"))), "that the trimmer holds", id="no hold"),
        pytest.param(_plan(ROOT, sheet=replace(SHEET, kerf=_f("1/8"))), "said to be", id="a blade that takes paper"),
        pytest.param(_plan(ROOT, times=0), "cut 0 times", id="never cut"),
        pytest.param(_plan(ROOT, least=2), "fewer than the 2", id="against the proof"),
        pytest.param(_plan(ROOT, replace(HALF, name="mat")), "base is not a part", id="an unknown part"),
        pytest.param(
            _plan(replace(ROOT, near=Taken(width=_f("17/2"), height=_f("11/2"), part="base", turned=True))),
            "on its side",
            id="turned against the grain",
        ),
    ],
)
def test_a_wrong_plan_is_told(plan: Plan, fault: str) -> None:
    assert any(fault in said for said in replay(plan)), replay(plan)


def test_a_part_on_its_side_is_held_to_its_turned_size() -> None:
    part = Part(name="tag", width=_f("2"), height=_f("3"), count=1, may_turn=MayTurn.ANY)
    sheet = Sheet(name="s", width=_f("3"), height=_f("4"))
    tag = Taken(width=_f("3"), height=_f("2"), part="tag", turned=True)
    root = Cut(
        width=_f("3"),
        height=_f("4"),
        line=Line.LEVEL,
        at=_f("2"),
        near=tag,
        far=Offcut(width=_f("3"), height=_f("2")),
    )
    assert replay(_plan(root, part, sheet)) == ()
    assert replay(_plan(replace(root, near=replace(tag, turned=False)), part, sheet))
