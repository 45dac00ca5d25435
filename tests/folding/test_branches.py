"""Loops that close off the table: degree-4 vertices, V-folds, steps, what is free and what cannot be."""

from math import acos, cos, degrees, pi, radians, sin, tan

import pytest
from plans import built, card_of, exact, flat, names_of, standing

from foldproof.folding.card import StandingPose


def close(*values: float) -> object:
    return pytest.approx(values, abs=2e-4)


def vertex(sectors: tuple[int, ...], folds: str, angles: str) -> str:
    """A sheet with four creases from its middle, sector after sector; every corner to a billionth of the unit."""
    def spots(turns: list[float], away: float) -> list[tuple[float, float]]:
        return [(away * cos(radians(turn)), away * sin(radians(turn))) for turn in turns]

    rims = spots([sum(sectors[:i]) for i in range(4)], 10)
    left, low = (min(p[i] for p in rims) for i in (0, 1))

    def told(p: tuple[float, float]) -> str:
        return f"[{p[0] - left:.9f}, {p[1] - low:.9f}]"

    scores = ", ".join(
        f"c{i + 1}: {{from: {told((0, 0))}, to: {told(rim)}, fold: {'valley' if fold == 'V' else 'mountain'}}}"
        for i, (rim, fold) in enumerate(zip(rims, folds, strict=True)))
    corners = [told(rim) for rim in rims]
    middles = [f"p{i}: {told(p)}" for i, p in enumerate(
        spots([sum(sectors[:i]) + sectors[i] / 2 for i in range(4)], 1))]
    return f"""
pieces:
  sheet: {{paper: card, outline: [{', '.join(corners)}], scores: {{{scores}}}, panels: {{{', '.join(middles)}}}}}
poses:
  open: {{folds: {{}}}}
  up: {{still: p0, folds: {{{angles}}}}}
finished: {{size: [20, 20], pose: open}}
"""


# Fold angles of flat-foldable degree-4 vertices: tan(rho1/2) = Q tan(rho2/2), rho3 = -rho1, rho4 = rho2 (mode I), and
# tan(rho2/2) = -P tan(rho1/2) with rho3 = rho1, rho4 = -rho2 (mode II); Huffman 1976 (IEEE Trans. Computers C-25(10)),
# multipliers as in Lang and Howell 2018 (J. Mech. Robotics 10(2) 021004). Values reckoned by closing the rotations.
MODE_II = [
    ((45, 45, 135, 135), {30: 21.457166, 90: 70.528779, 150: 138.492858}),
    ((60, 60, 120, 120), {60: 32.204228, 90: 53.130102, 120: 81.786789}),
    ((80, 80, 100, 100), {30: 5.327975, 90: 19.702152}),
    ((60, 80, 120, 100), {30: 10.633013, 90: 38.303856, 150: 104.697548}),
    ((100, 70, 80, 110), {60: 5.964195, 120: 17.765055}),
    ((90, 45, 90, 135), {30: 12.666469, 90: 45.0, 150: 114.203428}),
]
MODE_I = [
    ((60, 80, 120, 100), {30: 5.669372, 90: 20.939448, 150: 69.184573}),
    ((100, 70, 80, 110), {60: 17.061536, 120: 48.455502}),
    ((90, 45, 90, 135), {30: 12.666469, 90: 45.0, 150: 114.203428}),
]


@pytest.mark.parametrize(("sectors", "given", "found"), [
    pytest.param(sectors, given, found, id=f"{sectors} at {given}")
    for sectors, row in MODE_II for given, found in row.items()])
def test_a_vertex_of_four_creases_in_its_second_mode(sectors: tuple[int, ...], given: int, found: float) -> None:
    card = card_of(vertex(sectors, "VMVV", f"c1: {given}, c2: found, c3: found, c4: found"))
    angles = standing(card, "up").angles
    assert tuple(angles[f"c{i}"] for i in (1, 2, 3, 4)) == close(given, -found, given, found)


@pytest.mark.parametrize(("sectors", "given", "found"), [
    pytest.param(sectors, given, found, id=f"{sectors} at {given}")
    for sectors, row in MODE_I for given, found in row.items()])
def test_a_vertex_of_four_creases_in_its_first_mode(sectors: tuple[int, ...], given: int, found: float) -> None:
    a, b, *_ = (radians(s) for s in sectors)
    sign = 1 if sin((a - b) / 2) / sin((a + b) / 2) > 0 else -1  # Q
    folds = "VVMV" if sign > 0 else "MVVV"
    card = card_of(vertex(sectors, folds, f"c1: found, c2: {given}, c3: found, c4: found"))
    angles = standing(card, "up").angles
    assert tuple(angles[f"c{i}"] for i in (1, 2, 3, 4)) == close(sign * found, given, -sign * found, given)


def test_a_vertex_that_cannot_fold_flat_still_folds() -> None:
    # sectors 100, 70, 100, 90: closure of the rotations gives these; spherical law of cosines on the diagonals
    card = card_of(vertex((100, 70, 100, 90), "VMVV", "c1: 60, c2: found, c3: found, c4: found"))
    angles = standing(card, "up").angles
    assert tuple(angles[f"c{i}"] for i in (1, 2, 3, 4)) == close(60, -6.091921, 62.101212, 5.905203)


def test_a_miura_vertex_by_its_own_relation() -> None:
    # tan(spine / 2) = cos(alpha) tan(zigzag / 2), the Miura relation (K. Miura 1985; as in Lang and Howell 2018)
    card = card_of(vertex((60, 60, 120, 120), "VMVV", "c1: 100, c2: found, c3: found, c4: found"))
    spine = degrees(2 * acos(1 / (1 + (cos(pi / 3) * tan(radians(50))) ** 2) ** 0.5))
    assert abs(standing(card, "up").angles["c2"]) == pytest.approx(spine, abs=1e-4)


def test_valley_and_mountain_leave_two_ways_only_where_both_modes_can_be() -> None:
    # with all four angles of one kind no vertex can fold (Maekawa: the two kinds differ by two)
    card, findings = built(vertex((60, 80, 120, 100), "VVVV", "c1: 60, c2: found, c3: found, c4: found"))
    assert [finding.name for finding in findings] == ["loop does not close"]
    assert "c1" in findings[0].message and card is not None


def vee(foot: str, on: tuple[str, str], angle: str) -> str:
    """A V-fold glued across the gutter of a side fold: feet along `foot` in its own piece, along `on` on the card."""
    return f"""
pieces:
  base: {{paper: card, size: [16, 16], scores: {{gutter: {{across: 8, fold: valley}}}},
         panels: {{a: left of gutter, b: right of gutter}}}}
  vee:
    paper: card
    outline: [[0, 0], [9, 0], [10, 5], [11, 0], [20, 0], [20, 20], [0, 20]]
    scores:
      left foot: {{from: {foot}, to: [10, 5], fold: valley}}
      right foot: {{from: [10, 5], to: MIRRORED, fold: valley}}
      nose: {{from: [10, 5], to: [10, 20], fold: mountain}}
    panels: {{left tab: [1, 1/8], right tab: [19, 1/8], left wing: [9 7/8, 19], right wing: [10 1/8, 19]}}
joins:
  left join: {{put: left tab back, upon: a front, at: {{points: [{foot}, [10, 5]], lie on: [{on[0]}, [8, 2]]}}}}
  right join: {{put: right tab back, upon: b front, at: {{points: [[10, 5], MIRRORED], lie on: [[8, 2], {on[1]}]}}}}
poses:
  open: {{folds: {{}}}}
  up: {{still: a, folds: {{gutter: {angle}, left foot: found, right foot: found, nose: found}}}}
finished: {{size: [8, 16], pose: open}}
"""


def phi(a: float, b: float, theta: float) -> float:
    """The angle between the wings: sectors a of the card and b of the wings beside the gutter, the card open by theta.

    The spherical law of cosines, both ways across the diagonal (textbook; J. Todhunter, Spherical Trigonometry).
    """
    a, b, theta = radians(a), radians(b), radians(theta)
    return degrees(acos((cos(a) ** 2 + sin(a) ** 2 * cos(theta) - cos(b) ** 2) / sin(b) ** 2))


@pytest.mark.parametrize(("a", "b", "theta", "found"), [
    (45, 45, 90, 90), (45, 60, 90, 70.528779), (45, 60, 180, 109.471221), (30, 45, 120, 75.522488), (45, 90, 90, 60),
    (60, 75, 60, 53.267760)])
def test_the_formula_of_the_v_fold(a: float, b: float, theta: float, found: float) -> None:
    assert phi(a, b, theta) == pytest.approx(found, abs=1e-6)


@pytest.mark.parametrize(("foot", "other", "on", "slopes"), [
    pytest.param("[0, 5]", "[20, 5]", ("[2, 10]", "[14, 10]"), ((6, 8), (10, 0)), id="a level foot, card at 3 to 4"),
    pytest.param("[0, 15]", "[20, 15]", ("[-2, 12]", "[18, 12]"), ((10, 10), (10, 10)), id="forty-five on both"),
])
@pytest.mark.parametrize("opened", [40, 90, 130])
def test_a_v_fold_across_the_gutter(
    foot: str, other: str, on: tuple[str, str], slopes: tuple[tuple[int, int], tuple[int, int]], opened: int,
) -> None:
    plan = vee(foot, on, str(180 - opened)).replace("MIRRORED", other)
    card, findings = built(plan)
    assert card is not None and "up" in [pose.name for pose in card.poses], [f.message for f in findings]
    pose = standing(card, "up")
    (ax, ay), (bx, by) = slopes
    a = degrees(acos(ay / (ax * ax + ay * ay) ** 0.5))
    b = degrees(acos(by / (bx * bx + by * by) ** 0.5))
    assert 180 + pose.angles["nose"] == pytest.approx(phi(a, b, opened), abs=1e-6)
    assert pose.angles["left foot"] == pytest.approx(pose.angles["right foot"])


def test_points_that_are_not_as_far_apart() -> None:
    plan = vee("[0, 5]", ("[2, 10]", "[14, 11]"), "90").replace("MIRRORED", "[20, 5]")
    (finding,) = (found for found in built(plan)[1] if found.name == "points that cannot lie on each other")
    assert "10 in apart" in finding.message and "right join" in finding.message


BOX = """
pieces:
  base: {paper: card, size: [8, 6], scores: {gutter: {across: 4, fold: valley}},
         panels: {a: left of gutter, b: right of gutter}}
  box:
    paper: card
    size: [8, 2]
    scores:
      left foot: {across: 1, fold: valley}
      edge: {across: 1 in + SIDE in, fold: mountain}
      right foot: {across: 7, fold: valley}
    panels: {left tab: left of left foot, wall: between left foot and edge, lid: between edge and right foot,
             right tab: right of right foot}
joins:
  left join: {put: left tab back, upon: a front, at: {right: 3, bottom: 2}}
  right join: {put: right tab back, upon: b front, at: {left: 3, bottom: 2}}
poses:
  closed: {still: a, folds: {gutter: 180, left foot: 180, edge: -180, right foot: 180}}
  up: {still: a, folds: {gutter: 90, left foot: FOOT, edge: found, right foot: found}}
  open: {still: a, folds: {gutter: 0, left foot: found, edge: found, right foot: found}}
finished: {size: [4, 6]}
"""


def test_a_box_stands_square_and_lies_flat_when_the_card_is_laid_open() -> None:
    card = card_of(BOX.replace("SIDE", "3").replace("FOOT", "found"))
    pose = standing(card, "up")
    assert [pose.angles[name] for name in ("left foot", "edge", "right foot")] == pytest.approx([90, -90, 90])
    laid = flat(card, "open")  # found to be flat, and then folded exactly
    assert (laid.width, laid.height) == exact(8, 6)
    assert ("lid", "b") in laid.over and ("wall", "a") in laid.over


def test_a_given_angle_that_the_loop_does_not_allow() -> None:
    (finding,) = built(BOX.replace("SIDE", "3").replace("FOOT", "60"))[1]
    assert finding.name == "loop does not close"
    for name in ("gutter", "left foot", "edge", "right foot"):
        assert name in finding.message.split("The loop runs over")[1]


def test_a_pose_that_leaves_a_loop_free_names_the_folds_that_move() -> None:
    plan = BOX.replace("SIDE", "3").replace("gutter: 90, left foot: FOOT", "gutter: found, left foot: found")
    (finding,) = built(plan)[1]
    assert finding.name == "angle that nothing fixes" and "one more angle" in finding.message
    for name in ("gutter", "left foot", "edge", "right foot"):
        assert name in finding.message


def test_a_flag_on_one_edge_stands_square() -> None:
    plan = """
pieces:
  base: {paper: card, size: [6, 4]}
  flag: {paper: card, size: [2, 3]}
joins:
  seam: {put: flag back, upon: base FACE, at: {left: 1, bottom: 1}, stands: {edge: bottom, angle: 90}}
poses: {closed: {folds: {}}, up: {folds: {}}}
finished: {size: [6, 4]}
"""
    for face, up in (("front", 1), ("back", -1)):
        card = built(plan.replace("FACE", face))[0]
        assert card is not None
        pose = card.poses[1]
        assert isinstance(pose, StandingPose)
        frame = pose.frames["flag"]
        assert frame.up == close(0, 0, up)
        assert frame.origin[1] == pytest.approx(1)


def test_a_step_with_a_wrong_side_does_not_close_when_the_card_is_shut() -> None:
    assert "loop does not close" in names_of(BOX.replace("SIDE", "2 3/4").replace("FOOT", "found"))
