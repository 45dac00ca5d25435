"""The way from pose to pose: what passes through what, and in which order the folds must move."""

import pytest
from plans import card_of
from test_branches import BOX

from foldproof.folding.card import StandingPose
from foldproof.folding.motion import MOST_LOOKS, RESOLUTION_MM, Journey, crossings, journey, journeys

ROLL = """
pieces:
  strip:
    paper: card
    size: [9, 4]
    scores: {inner: {across: 6, fold: valley}, outer: {across: 3, fold: valley}}
    panels: {cover: left of outer, middle: between outer and inner, flap: right of inner}
poses:
  closed: {still: middle, folds: {inner: 180, outer: 180}}
  open: {still: middle, folds: {}FIRST}
opening: [closed, open]
finished: {size: [3, 4]}
"""


def only(plan: str) -> Journey:
    (found,) = journeys(card_of(plan))
    return found


def test_a_roll_opens_the_cover_first_where_nothing_is_said() -> None:
    way = only(ROLL.replace("FIRST", "").replace("size: [9, 4]", "size: [9, 4]"))
    assert way.free and way.passage is None
    assert way.step <= RESOLUTION_MM / 25.4 * 1.001


def test_a_flap_that_lies_under_the_cover_cannot_be_opened_first() -> None:
    way = only(ROLL.replace("FIRST", ", first: [inner]"))
    assert way.passage is not None and set(way.passage.panels) == {"cover", "flap"}
    assert way.passage.angles["outer"] == 180 and way.passage.angles["inner"] < 180
    assert only(ROLL.replace("FIRST", ", first: [outer]")).free


def test_closing_keeps_the_order_of_the_folds_too() -> None:
    card = card_of(ROLL.replace("FIRST", "").replace("opening: [closed, open]", "opening: [open, closed]"))
    (way,) = journeys(card)
    assert way.free
    flipped = ROLL.replace("FIRST", "").replace("opening: [closed, open]", "opening: [open, closed]").replace(
        "{inner: 180, outer: 180}", "{inner: 180, outer: 180}, first: [outer]")
    assert only(flipped).passage is not None


def test_contact_and_the_thickness_of_paper_are_no_passing() -> None:
    # the flap is as wide as the panel that it lies on: it touches the fold opposite and goes by
    assert only(ROLL.replace("FIRST", ", first: [outer, inner]")).free


def test_a_box_opens_with_the_card() -> None:
    plan = BOX.replace("SIDE", "3").replace("FOOT", "found") + "opening: [closed, up, open]\n"
    ways = journeys(card_of(plan))
    assert [(way.start, way.end, way.free) for way in ways] == [("closed", "up", True), ("up", "open", True)]


TALL = BOX.replace("SIDE", "3").replace("FOOT", "found") + """
layers:
  sign: {paper: card, size: [REACH, 1], upon: lid front, at: {left: 1, bottom: 1/2}, overhangs: [b, right tab]}
opening: [closed, up]
"""


def test_a_sign_on_the_lid_must_not_reach_past_the_fold_of_the_lid() -> None:
    # the lid is 3 deep: a sign that starts 1 in may be 2 long
    assert all(way.free for way in journeys(card_of(TALL.replace("REACH", "2"))))
    card = card_of(TALL.replace("REACH", "2 1/2"))
    (way,) = journeys(card)
    assert way.passage is not None and set(way.passage.panels) == {"b", "sign"}
    pose = card.pose("up")
    assert isinstance(pose, StandingPose)
    through = crossings(card, pose)
    assert through is not None and set(through.panels) == {"b", "sign"}
    assert through.depth == pytest.approx(0.5, abs=0.01)


def test_a_loop_that_cannot_stay_together_on_the_way_is_told() -> None:
    plan = BOX.replace("SIDE", "3").replace("FOOT", "found") + "opening: [closed, open]\n"
    card = card_of(plan)
    closed, open_ = card.pose("closed"), card.pose("open")
    assert closed is not None and open_ is not None
    assert journey(card, closed, open_).free
    stiff = plan.replace("gutter: 0, left foot: found", "gutter: 0, left foot: 0").replace(
        "opening: [closed, open]", "opening: [open, closed]").replace(
        "right foot: 180}", "right foot: 180}, first: [gutter]")
    assert only(stiff).free  # the loop ties all four folds together: one cannot move before the others


def test_tucks_and_bends_are_listed_as_not_checked() -> None:
    way = only(ROLL.replace("FIRST", ", first: [inner], bends: [flap]"))
    assert way.free and way.bent == ("flap",)


def test_the_work_is_bounded() -> None:
    way = only(ROLL.replace("FIRST", ""))
    assert way.moments < 400 <= MOST_LOOKS
