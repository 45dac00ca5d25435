"""Edges that meet, miss or overlap in a flat pose."""

from fractions import Fraction

import pytest
from plans import card_of, flat

GATE = """
pieces:
  base:
    paper: card
    size: [WIDTH, 4]
    scores: {l: {across: 2, fold: valley}, r: {across: 6, fold: valley}}
    panels: {left: left of l, middle: between l and r, right: right of r}
LAYERS
poses: {closed: {still: middle, folds: {r: 180, l: 180}}, open: {still: middle, folds: {}}}
"""


def _gate(width: str, layers: str = "") -> str:
    return GATE.replace("WIDTH", width).replace("LAYERS", f"layers: {{{layers}}}" if layers else "")


@pytest.mark.parametrize(("width", "gap"), [
    pytest.param("8", Fraction(0), id="the doors meet"),
    pytest.param("7 15/16", Fraction(1, 16), id="a sixteenth apart"),
    pytest.param("7 1/16", Fraction(15, 16), id="nearly a quarter of the card apart"),
    pytest.param("8 1/8", Fraction(-1, 8), id="an eighth over each other"),
])
def test_doors_of_a_gate(width: str, gap: Fraction) -> None:
    made = flat(card_of(_gate(width)))
    (meeting,) = made.meetings
    assert set(meeting.panels) == {"left", "right"} and meeting.gap == gap
    by_panel = dict(zip(meeting.panels, meeting.edges, strict=True))
    assert {p.x for p in (by_panel["left"].start, by_panel["left"].end)} == {2}
    assert {p.x for p in (by_panel["right"].start, by_panel["right"].end)} == {2 + gap}
    assert {p.y for p in (by_panel["left"].start, by_panel["left"].end)} == {0, 4}


def test_doors_that_are_seen_from_behind_only_meet_too() -> None:
    plan = _gate("8").replace("r: 180, l: 180}}", "r: 180, l: 180}, seen: back}")
    assert [meeting.gap for meeting in flat(card_of(plan)).meetings] == [0]


def test_edges_that_nobody_sees_do_not_meet() -> None:
    # two inner flaps beneath a cover
    made = flat(card_of("""
pieces:
  base:
    paper: card
    outline: [[0, 4], [2, 4], [2, 0], [6, 0], [6, 4], [8, 4], [8, 8], [0, 8]]
    scores: {l: {from: [2, 4], to: [2, 8], fold: valley}, r: {from: [6, 4], to: [6, 8], fold: valley},
             c: {from: [2, 4], to: [6, 4], fold: valley}}
    panels: {left: left of l, right: right of r, rear: [4, 6], cover: below c}
poses: {closed: {still: rear, folds: {l: 180, r: 180, c: 180}}}
"""))
    assert not [meeting for meeting in made.meetings if set(meeting.panels) == {"left", "right"}]


@pytest.mark.parametrize("width", ["9", "7"])
def test_edges_a_quarter_of_the_card_apart_do_not_meet(width: str) -> None:
    assert flat(card_of(_gate(width))).meetings == ()


def test_hinges_that_lie_flat_are_no_edges() -> None:
    assert flat(card_of(_gate("8")), "open").meetings == ()


def test_a_mat_within_its_door_has_no_edge_of_its_own() -> None:
    mats = ("one: {paper: card, size: [1 3/4, 3], upon: left back, at: {centred: both}},"
            "two: {paper: card, size: [1 3/4, 3], upon: right back, at: {centred: both}}")
    assert [meeting.gap for meeting in flat(card_of(_gate("8", mats))).meetings] == [0]


def test_a_mat_that_reaches_over_the_door_meets_the_other() -> None:
    mat = "one: {paper: card, size: [2, 3], upon: left back, at: {left: 1/4, top: 1/2}, overhangs: [right]}"
    gaps = {frozenset(meeting.panels): meeting.gap for meeting in flat(card_of(_gate("8", mat))).meetings}
    assert gaps[frozenset({"left", "right"})] == 0
    assert gaps[frozenset({"one", "right"})] == Fraction(-1, 4)


def test_only_the_stretch_that_faces_counts() -> None:
    made = flat(card_of("""
pieces:
  base:
    paper: card
    outline: [[0, 1], [2, 1], [2, 0], [8, 0], [8, 3], [6, 3], [6, 4], [0, 4]]
    scores: {l: {from: [2, 1], to: [2, 4], fold: valley}, r: {from: [6, 0], to: [6, 3], fold: valley}}
    panels: {left: left of l, middle: [4, 2], right: right of r}
poses: {closed: {still: middle, folds: {r: 180, l: 180}}}
"""))
    (meeting,) = (meeting for meeting in made.meetings if set(meeting.panels) == {"left", "right"})
    assert sorted(p.y for p in (meeting.edges[0].start, meeting.edges[0].end)) == [1, 3]


@pytest.mark.parametrize(("left", "gap"), [
    pytest.param("0", Fraction(0), id="they meet"),
    pytest.param("1/8", Fraction(1, 10), id="apart by four fifths of an eighth"),
])
def test_folded_edges_meet_on_a_slant(left: str, gap: Fraction) -> None:
    # two sheets of 3 x 4, each with a corner folded over along its diagonal, a 3-4-5 slant; together they fill a rear
    made = flat(card_of(f"""
pieces:
  rear: {{paper: card, size: [7, 4]}}
  low: {{paper: card, size: [3, 4], scores: {{s: {{from: top left, to: bottom right, fold: valley}}}},
        panels: {{low rest: below s, low turned: above s}}}}
  high: {{paper: card, size: [3, 4], scores: {{t: {{from: top left, to: bottom right, fold: valley}}}},
         panels: {{high turned: below t, high rest: above t}}}}
joins:
  one: {{put: low rest back, upon: rear front, at: {{left: 0, bottom: 0}}}}
  two: {{put: high rest back, upon: rear front, at: {{left: {left}, bottom: 0}}}}
poses: {{closed: {{still: rear, folds: {{s: 180, t: 180}}}}}}
"""))
    slanted = {frozenset(meeting.panels): meeting.gap for meeting in made.meetings}
    assert slanted[frozenset({"low turned", "high turned"})] == gap
