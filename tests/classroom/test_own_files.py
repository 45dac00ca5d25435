"""The teacher's own two files: nonsense in them is told with its place, and what they say goes into the plan."""

from fractions import Fraction
from pathlib import Path

import pytest
from lessons import lesson, planned

from foldproof.classroom.class_plan import plan_class
from foldproof.classroom.lesson import Wanted
from foldproof.classroom.own_files import DeskProfile, Stock, read_desk, read_stock
from foldproof.findings.finding import Finding


def _names(findings: tuple[Finding, ...]) -> list[tuple[str, int]]:
    return [(one.name, one.place.line if one.place else 0) for one in findings]


@pytest.mark.parametrize(("text", "found"), [
    pytest.param("papers:\n  slate: {on hand: a lot}\n", [("no number", 2)], id="no number"),
    pytest.param("papers:\n  slate: {on hand: -3}\n", [("less than zero", 2)], id="less than none"),
    pytest.param("papers:\n  slate: {on hand: 2 1/2}\n", [("not a whole number", 2)], id="half a sheet"),
    pytest.param("papers:\n  slate: {price: 8}\n", [("unit missing", 2)], id="a price without currency"),
    pytest.param("papers:\n  slate: {holds: 25, of: bushel}\n", [("unknown word", 2)], id="no such unit"),
    pytest.param("suplies:\n  twine: {on hand: 3}\n", [("unknown key", 1)], id="a slip"),
    pytest.param("- slate\n- chalk\n", [("wrong kind of value", 1)], id="a list"),
    pytest.param(
        "papers:\n  slate: {on hand: x}\n  chalk: {on hand: -1}\n", [("no number", 2), ("less than zero", 3)],
        id="all in one go",
    ),
])
def test_nonsense_in_the_stock_file(text: str, found: list[tuple[str, int]], tmp_path: Path) -> None:
    path = tmp_path / "shelf.yaml"
    path.write_text(text, encoding="utf-8")
    stock, own = read_stock(path)
    assert _names(own.findings) == found
    assert stock == Stock()
    assert all("recipe" not in one.message + (one.mend or "") for one in own.findings)


@pytest.mark.parametrize(("text", "found"), [
    pytest.param("trimmer: {shortest strip: -1}\n", [("less than zero", 1)], id="less than nothing"),
    pytest.param("trimmer: {longest cut: long}\n", [("no number", 1)], id="no number"),
    pytest.param("trimmer: {longest cut: 0}\n", [("not more than zero", 1)], id="cuts nothing"),
    pytest.param("measured sheets: {waves: 6}\n", [("wrong kind of value", 1)], id="one length for two"),
    pytest.param("edge trim: 1 kg\n", [("unknown unit", 1)], id="a weight"),
    pytest.param("colour: red\n", [("unknown key", 1)], id="a slip"),
])
def test_nonsense_in_the_desk_file(text: str, found: list[tuple[str, int]], tmp_path: Path) -> None:
    path = tmp_path / "desk.yaml"
    path.write_text(text, encoding="utf-8")
    desk, own = read_desk(path)
    assert _names(own.findings) == found
    assert desk == DeskProfile()


def test_a_file_that_is_not_there_or_a_folder(tmp_path: Path) -> None:
    assert _names(read_stock(tmp_path / "none.yaml")[1].findings) == [("file missing", 0)]
    assert _names(read_desk(tmp_path)[1].findings) == [("not a file", 0)]


def test_lengths_of_the_desk_file_are_in_its_own_unit(tmp_path: Path) -> None:
    path = tmp_path / "desk.yaml"
    path.write_text("unit: mm\ntrimmer: {cuts long: 1, longest cut: 310}\nedge trim: 1/8 in\n", encoding="utf-8")
    desk, own = read_desk(path)
    assert own.findings == ()
    assert (desk.cuts_long, desk.longest_cut, desk.edge_trim) == (Fraction(1), Fraction(310), Fraction(127, 40))


def test_a_measured_sheet_is_planned_as_it_measures() -> None:
    """8 x 6 from a sheet that measures 8 1/2 x 10 7/8; from one that measures 7 15/16 wide it can't be cut upright."""
    inch = Fraction(127, 5)
    plan, _ = planned(lesson(), desk=DeskProfile(measured={"plain": (Fraction(17, 2) * inch, Fraction(87, 8) * inch)}))
    assert plan.papers[0].size == (Fraction(17, 2), Fraction(87, 8))
    small = DeskProfile(measured={"plain": (Fraction(127, 16) * inch, Fraction(127, 16) * inch)})
    none, findings = plan_class([lesson()], Wanted(people=3), stock=Stock(), desk=small, seconds=1)
    assert none is None
    told = next(one for one in findings if one.name == "part larger than its sheet")
    assert "The base, 8 × 6 in" in told.message and "the sheet measures 7 15/16 × 7 15/16 in" in told.message


def test_trimming_that_costs_sheets_is_told() -> None:
    """Two halves of 8 1/2 x 5 1/2 fill a letter sheet; with its edges trimmed off there is room for one."""
    card = lesson(steps=HALVES_STEPS)
    _, findings = planned(card, people=6, desk=DeskProfile(edge_trim=Fraction(1)))
    assert [one.name for one in findings if "trimming" in one.name] == ["trimming the edges costs sheets"]
    assert "trimming the edges costs sheets" not in [one.name for one in planned(card, people=6)[1]]


HALVES_STEPS = """  - {title: Cut the base, piece: base, minutes: 2, do: [cut: [8 1/2, 5 1/2]]}
"""
