"""The whole plan of small classes, reckoned by hand, and what is said where there can be none."""

from fractions import Fraction
from pathlib import Path

import pytest
from lessons import heads, lesson, planned

from foldproof.classroom.advice import advice
from foldproof.classroom.class_plan import plan_class
from foldproof.classroom.instructions import corner_to_corner, work_through
from foldproof.classroom.lesson import Lesson, Wanted
from foldproof.classroom.own_files import DeskProfile, Stock
from foldproof.classroom.replay import replay
from foldproof.classroom.sheets import taken
from foldproof.documents.class_view import tell_class
from foldproof.pipeline import prove

RECIPES = Path(__file__).parent.parent.parent / "recipes"


def demo(name: str) -> Lesson:
    proof = prove(RECIPES / f"{name}.yaml")
    assert proof.card is not None and proof.making is not None
    return Lesson(card=proof.card, making=proof.making)


@pytest.mark.parametrize(("people", "name"), [
    pytest.param(0, "nobody comes", id="nobody"),
    pytest.param(-1, "nobody comes", id="fewer than nobody"),
    pytest.param(10_000, "more people than a class", id="ten thousand"),
    pytest.param(None, "people not said", id="not said"),
])
def test_no_plan_without_a_class(people: int | None, name: str) -> None:
    plan, findings = plan_class(
        [lesson()], Wanted(people=people), stock=Stock(), desk=DeskProfile(), seconds=1
    )
    assert plan is None
    assert [one.name for one in findings] == [name]
    assert findings[0].mend


def test_a_thousand_people_are_planned_with_proof() -> None:
    plan, _ = planned(lesson(), people=1000)
    one = plan.papers[0]
    assert one.ahead is not None and one.ahead.proven
    assert one.sheets == 1001  # with the teacher's; a base leaves 8 1/2 x 5, and the mat goes there on its side


def test_two_cards_share_sheets() -> None:
    """Two mats of each card come out of one sheet, which holds four; apart they would take two."""
    part = "  sample: none\n  cut ahead: [mat]"
    together, _ = planned(lesson(part), lesson(part, title="Other"), people=2)
    ahead = together.papers[0].ahead
    assert ahead is not None and ahead.count == 1
    assert dict(taken(ahead.layouts[0].root)) == {"mat, Small card": 2, "mat, Other": 2}


def test_people_share_a_sheet_for_what_they_cut_in_class() -> None:
    """Four mats to a sheet: 12 people share three sheets, they don't take twelve."""
    plan, _ = planned(lesson("  sample: none\n  cut ahead: [base]"))
    one = plan.papers[0]
    assert (one.together, one.groups, one.sheets) == (4, 3, 12 + 3)


def test_a_person_who_needs_a_whole_sheet_gets_one() -> None:
    plan, _ = planned(lesson("  sample: none\n  cut ahead: [mat]"))
    assert (plan.papers[0].together, plan.papers[0].groups) == (1, 12)


def test_halves_pairs_and_circles_of_the_lee_shore() -> None:
    plan, _ = planned(demo("lee-shore"), people=12, spares=2)
    assert plan.heads.kits == 15
    by_name = {one.need.name: one for one in plan.papers}
    sky = by_name["dawn"].need.parts[0]
    assert (sky.halves, sky.count(15), by_name["dawn"].sheets) == (True, 8, 2)  # 16 triangles; 4 rectangles to a sheet
    copper = {part.name: part for part in by_name["copper"].need.parts}
    assert set(copper) == {"top corner", "sun"}
    assert (copper["top corner"].others, copper["top corner"].halves) == (("bottom corner",), False)
    assert (copper["top corner"].count(15), copper["sun"].shape) == (15, "circle")
    root = by_name["dawn"].ahead.layouts[0].root  # type: ignore[union-attr]
    rows, corners = work_through(root)[0], corner_to_corner(root, ["sky"])
    assert [(one.number, one.part, one.count) for one in corners] == [(len(rows) + 1, "sky", 4)]


def test_the_words_of_the_lee_shores_plan() -> None:
    plan, _ = planned(demo("lee-shore"), people=12, spares=2)
    view = tell_class(plan, revision="r", version="0")
    copper = next(one for one in view.papers if one.name == "copper")
    assert copper.layouts[0].rows[-1].get == "16 × top corner and 16 × bottom corner, triangles"
    assert "one sheet serves 15 kits" in copper.own_note
    kit = {line.what: (line.size, line.count, line.total) for line in view.kit}
    assert kit["bottom corner, copper"] == kit["top corner, copper"] == ("1 1/4 × 1 1/4 in", "1", "15")
    # 2 x (5 1/2 + the closed card) + 3 + 2 x 4, up to the next quarter
    assert kit["ribbon"] == ("22 1/4 in", "1", "15")
    ribbon = next(row for row in view.bought if row.name == "ribbon")
    assert ribbon.need == "9.3 yards"  # 15 x 22.25 / 36 = 9.27
    assert [len(view.labels), view.labels[0], view.labels[-3:]] == [
        15, "Kit 1 of 12", ("Spare 1", "Spare 2", "Teacher's sample")]
    assert "1 ribbon 22 1/4 in" in view.label_lines


def test_a_page_of_labels_to_copy_for_a_large_class() -> None:
    plan, _ = planned(lesson("  sample: none"), people=67)
    view = tell_class(plan, revision="r", version="0")
    assert set(view.labels) == {"Kit __ of 67"} and view.copied
    fewer, _ = planned(lesson("  sample: none"), people=66)
    assert len(set(tell_class(fewer, revision="r", version="0").labels)) == 66


def test_numbered_cuts_name_the_stop_that_the_trimmer_needs() -> None:
    """A trimmer that cuts 1/32 long is set 1/32 short; the parts come out as they should."""
    desk = DeskProfile(cuts_long=Fraction(127, 160))
    plan, _ = planned(lesson("  sample: none\n  cut ahead: [mat]"), people=4, desk=desk)
    ahead = plan.papers[0].ahead
    assert ahead is not None and replay(ahead) == () and ahead.proven
    rows = tell_class(plan, revision="r", version="0").papers[0].layouts[0].rows
    assert [row.number for row in rows] == list(range(1, len(rows) + 1))
    assert all(row.stop.endswith("15/32") for row in rows)  # 7 - 1/32 would end in 31/32: only 3 1/2 and 5 1/2 are set
    assert rows[-1].get.startswith("2 × mat")


def test_a_bound_that_the_trimmers_hold_leaves_open_says_what_it_is_a_bound_of() -> None:
    """Four mats go to a letter sheet; where the trimmer must hold 5 1/2, a strip of 3 1/2 comes off 11, one mat off the
    strip, and the 7 1/2 that are left can't be cut at 3 1/2: a sheet for each mat."""
    hold = Fraction(11, 2) * Fraction(127, 5)
    card = lesson("  sample: none\n  cut ahead: [mat]")
    plan, _ = planned(card, people=2, desk=DeskProfile(shortest_strip=hold))
    assert tell_class(plan, revision="r", version="0").papers[0].proof == (
        "2 sheets; fewer than 1 is impossible even on a trimmer that holds any strip, and between the two nothing "
        "better was found."
    )


@pytest.mark.parametrize(("name", "steps"), [
    pytest.param("tide-gate", [2, 8], id="doors that must meet, a band glued by one end"),
    pytest.param("harbour-coat", [8, 12], id="backs taped edge on edge, a button on one flap only"),
    pytest.param("rope-walk", [8, 9], id="a plaque on the flap only"),
])
def test_where_people_go_wrong(name: str, steps: list[int]) -> None:
    plan, _ = planned(demo(name), people=4)
    assert [spot.number for spot in plan.trouble] == steps
    assert all(spot.reasons for spot in plan.trouble)


def test_steps_cut_before_the_class_are_no_trouble_in_it() -> None:
    plan, _ = planned(demo("lee-shore"), people=4)
    assert 4 not in [spot.number for spot in plan.trouble]  # its slanted cuts are made ahead


def test_advice_counts_from_the_time_line() -> None:
    """Everything cut ahead: 4, 2 and 2 minutes of work, at 1 1/2 times 12; 5 minutes of drying."""
    card = lesson("  pace: 1 1/2")
    plan, _ = planned(card, people=6, spares=2)
    told = {one.about: one.text for one in plan.advice}
    assert "12 minutes for work that the recipe does in 8 minutes (1.5 times as long)" in told["Who is new to this"]
    assert "about 4 minutes over" in told["Who is quick"]
    assert "waits once, 5 minutes in all" in told["While glue dries"]
    assert "the 2 spare kits" in told["When something goes wrong"]
    assert "no spare kit" in advice([card], heads(3), plan.moments, False)[-1].text


def test_cautions_are_gathered_on_one_sheet() -> None:
    plan, _ = planned(demo("tide-gate"), demo("harbour-coat"), people=4)
    trimmer = next(one for one in plan.cautions if one.about == "trimmer")
    assert trimmer.where == "Tide gate, step 1, Harbor coat, step 1"
    assert any("allergies" in word for word in plan.general)
    assert any("rules of the place" in word for word in plan.general)
