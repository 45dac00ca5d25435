"""Cards that stand: angles given and angles found."""

from math import acos, degrees, sqrt

import pytest
from plans import built, card_of, names_of, stack, standing

from foldproof.folding.card import FlatPose

EASEL = """
finished: {size: [6, 5]}
pieces:
  stand:
    paper: card
    size: [6, 10]
    scores: {top: {up: 5, fold: valley}, half: {up: 7 1/2, fold: mountain}}
    panels: {base: below top, strut: above top and below half, flap: above half}
layers:
  front: {paper: card, size: [6, 5], upon: flap front, at: {centred: across, top: 0}, overhangs: [strut, base]}
  stop: {paper: card, size: [4, 1/2], upon: base front, at: {centred: across, bottom: STOP}}
poses:
  closed: {still: base, folds: {half: -180, top: 180}}
  standing: {still: base, folds: {top: found, half: found}, rests: {foot: front bottom, against: stop top}}
"""


def test_an_easel_stands_as_its_triangle_says() -> None:
    # strut 2 1/2 from the fold at 5; the front's foot, 2 1/2 from the half fold, rests at 2: a triangle of 5/2, 5/2, 3
    pose = standing(card_of(EASEL.replace("STOP", "1 1/2")), "standing")
    assert pose.angles["top"] == pytest.approx(180 - degrees(acos(3 / 5)))
    assert pose.angles["half"] == pytest.approx(-degrees(acos(7 / 25)))
    assert pose.height == pytest.approx(4)  # 5 along the front's slope of 4 in 5
    assert pose.misfit < 1e-9
    front = pose.frames["front"]
    assert front.origin == pytest.approx((0, 2, 0), abs=1e-9)
    assert front.up == pytest.approx((0, 0.6, 0.8), abs=1e-9)
    assert front.right == pytest.approx((1, 0, 0))


def test_an_easel_cannot_reach_a_stop_that_is_too_far_and_says_by_how_much() -> None:
    # stretched out flat, strut and front reach 2 1/2 + 2 from the fold at 5, to 1/2; the top of the stop is at 1/4
    plan = EASEL.replace("STOP", "-1/4").replace("front: {paper: card, size: [6, 5]",
                                                 "front: {paper: card, size: [6, 4 1/2]")
    card, findings = built(plan)
    assert [finding.name for finding in findings] == ["foot does not reach"]
    assert "1/4 in" in findings[0].message and "bottom edge of front" in findings[0].message
    assert card is not None and [pose.name for pose in card.poses] == ["closed"]


TENT = """
finished: {size: [4, 6]}
pieces:
  tent: {paper: card, size: [4, 6], scores: {ridge: {up: 3, fold: mountain}},
         panels: {one: below ridge, two: above ridge}}
poses:
  closed: {still: one, folds: {ridge: -180}}
  standing: {still: one, folds: {ridge: ANGLE} REST}
"""


@pytest.mark.parametrize(("angle", "seen", "turned", "height", "tip"), [
    pytest.param("-90", "front", "none", 0, (0, 3, -3), id="the back flap hangs down"),
    pytest.param("-90", "back", "none", 3, (4, 3, 3), id="seen from behind it stands up, turned like a page"),
    pytest.param("-60", "back", "none", 3 * sqrt(3) / 2, (4, 4.5, 3 * sqrt(3) / 2), id="by sixty degrees"),
    pytest.param("-90", "back", "quarter clockwise", 3, (3, 0, 3), id="and turned"),
])
def test_given_angles(angle: str, seen: str, turned: str, height: float, tip: tuple[float, float, float]) -> None:
    plan = TENT.replace("ANGLE", angle).replace("REST", f", seen: {seen}, turned: {turned}")
    pose = standing(card_of(plan), "standing")
    two = pose.frames["two"]
    corner = tuple(o + 6 * u for o, u in zip(two.origin, two.up, strict=True))  # the upper left corner: 0 across, 6 up
    assert corner == pytest.approx(tip, abs=1e-9)
    assert pose.height == pytest.approx(height)
    assert pose.angles["ridge"] == float(angle)


def test_what_is_not_named_lies_flat() -> None:
    pose = standing(card_of("""
pieces:
  strip: {paper: card, size: [9, 4], scores: {one: {across: 3, fold: valley}, two: {across: 6, fold: valley}},
          panels: {a: left of one, b: between one and two, c: right of two}}
poses: {closed: {folds: {}}, up: {still: b, folds: {one: 90}}}
"""), "up")
    assert pose.angles == {"one": 90.0, "two": 0.0}
    assert pose.frames["c"] == pose.frames["b"]
    assert pose.height == pytest.approx(3)


def test_an_angle_that_nothing_fixes_is_told() -> None:
    assert names_of(TENT.replace("ANGLE", "found").replace("REST", "")) == ["angle that nothing fixes"]


ARM = """
pieces:
  strip:
    paper: card
    size: [20, 4]
    scores: {tip: {across: 3, fold: mountain}, elbow: {across: 6, fold: valley}, root: {across: 9, fold: valley}}
    panels: {hand: left of tip, fore: between tip and elbow, upper: between elbow and root, base: right of root}
layers: {stop: {paper: card, size: [1, 4], upon: base front, at: {left: 7, bottom: 0}}}
poses:
  closed: {still: base, folds: {}}
  up: {still: base, folds: {root: found, elbow: ELBOW, tip: found}, rests: {foot: hand left, against: stop left}}
"""


def test_a_card_that_can_stand_in_two_ways_is_told_both() -> None:
    # upper and fore, 3 each and square to each other, act as one leg of 3 root 2; with the hand of 3 it spans 7, the
    # hand bent to either side of the line, and both are mountains at the tip
    card, (finding,) = built(ARM.replace("ELBOW", "90"))
    assert finding.name == "stands in several ways" and "2 ways" in finding.message
    bend = degrees(acos((49 - 27) / (2 * 3 * 3 * sqrt(2))))
    assert card is not None
    assert abs(standing(card, "up").angles["tip"] + 45) == pytest.approx(bend)


def test_a_card_that_can_still_move_is_told() -> None:
    assert names_of(ARM.replace("ELBOW", "found")) == ["angle that nothing fixes"]


def test_a_foot_that_has_no_straight_edge() -> None:
    plan = """
finished: {size: [4, 6]}
pieces:
  tent: {paper: card, outline: [[0, 0], [4, 0], [4, 4], [2, 6], [0, 4]], scores: {ridge: {up: 3, fold: mountain}},
         panels: {one: below ridge, two: above ridge}}
poses:
  closed: {still: one, folds: {ridge: -180}}
  standing: {still: one, folds: {ridge: found}, rests: {foot: two top, against: one bottom}}
"""
    assert names_of(plan) == ["no edge there"]


def test_a_foot_that_comes_down_beside_its_edge() -> None:
    plan = EASEL.replace("size: [4, 1/2], upon: base front, at: {centred: across, bottom: STOP}",
                         "size: [1, 1/2], upon: base front, at: {left: 0, bottom: 1 1/2}")
    plan = plan.replace("size: [6, 5], upon: flap front, at: {centred: across, top: 0}",
                        "size: [4, 5], upon: flap front, at: {right: 0, top: 0}")
    assert names_of(plan) == ["foot beside its edge"]


STEP = """
pieces:
  base: {paper: card, size: [8, 4], scores: {s: {across: 4, fold: valley}}, panels: {a: left of s, b: right of s}}
  step:
    paper: card
    size: [5, 1]
    scores: {u: {across: 1, fold: valley}, v: {across: PEAK, fold: mountain}, w: {across: 4, fold: valley}}
    panels: {heel: left of u, riser: between u and v, tread: between v and w, toe: right of w}
joins:
  low: {put: heel back, upon: a front, at: {right: 2, bottom: 1}}
  high: {put: toe back, upon: b front, at: {left: 1, bottom: 1}}
poses: {closed: {folds: {}}, up: {still: a, folds: {s: ANGLE, u: found, v: found, w: found}}}
"""


@pytest.mark.parametrize("angle", [30, 90, 150])
def test_a_step_stands_parallel_to_its_card_at_every_opening(angle: int) -> None:
    # glued 2 from the spine on one side and 1 on the other, with a riser of 1 and a tread of 2: a parallelogram
    pose = standing(card_of(STEP.replace("PEAK", "2").replace("ANGLE", str(angle))), "up")
    assert pose.misfit < 1e-9
    assert [pose.angles[name] for name in "uvw"] == pytest.approx([angle, -angle, angle])
    assert pose.frames["tread"].right == pytest.approx((1, 0, 0), abs=1e-9)
    assert pose.frames["riser"].right == pytest.approx(pose.frames["b"].right, abs=1e-9)


def test_a_step_that_is_no_parallelogram_stands_too_but_does_not_fold_flat() -> None:
    # a riser of 1 1/2 and a tread of 1 1/2 meet over a right angle, but cannot close with the card
    plan = STEP.replace("PEAK", "2 1/2").replace("ANGLE", "90")
    pose = standing(card_of(plan), "up")
    assert pose.misfit < 1e-9 and pose.angles["u"] > 0 > pose.angles["v"]
    shut = plan.replace("closed: {folds: {}}", "closed: {still: a, folds: {s: 180, u: 180, v: -180, w: 180}}")
    assert names_of(shut) == ["loop does not close"]


def test_a_step_folds_flat_in_the_order_that_its_glue_allows() -> None:
    plan = STEP.replace("PEAK", "2").replace("ANGLE", "90")
    card = card_of(plan.replace("closed: {folds: {}}", "closed: {still: a, folds: {s: 180, u: 180, v: -180, w: 180}}"))
    made = card.poses[0]
    assert isinstance(made, FlatPose)
    order = [name for name in stack(made) if name in ("a", "heel", "riser", "tread", "toe", "b")]
    assert order == ["a", "heel", "riser", "tread", "toe", "b"]
