"""Rotations about hinges, held against matrices by numpy, and against exact flat folding."""

from fractions import Fraction
from math import cos, pi, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from plans import card_of
from scipy.spatial.transform import Rotation

from foldproof.folding.place import place_panels
from foldproof.folding.space import Linkage, Motion, about, flat_motion, inverse, length, lifted, minus
from foldproof.paper.isometry import quarter_turns, reflection
from foldproof.paper.vector import Point, Segment

numbers = st.integers(-40, 40).map(lambda n: Fraction(n, 8))
points = st.builds(Point, numbers, numbers)
lines = st.tuples(points, points).filter(lambda pair: pair[0] != pair[1]).map(lambda pair: Segment(*pair))
angles = st.floats(-pi, pi)


def _matrix(line: Segment, angle: float) -> np.ndarray:
    """The turn about a line of the plane as a 4 by 4 matrix: shift, turn the axis on to x, turn, and back."""
    d = np.array([float(line.along.x), float(line.along.y)])
    c, s = d / np.linalg.norm(d)
    shift, axis, turn = np.eye(4), np.eye(4), np.eye(4)
    shift[:2, 3] = [-float(line.start.x), -float(line.start.y)]
    axis[:2, :2] = [[c, s], [-s, c]]
    turn[1:3, 1:3] = [[cos(angle), -sin(angle)], [sin(angle), cos(angle)]]
    matrix: np.ndarray = np.linalg.inv(shift) @ axis.T @ turn @ axis @ shift
    return matrix


def _as_matrix(m: Motion) -> np.ndarray:
    matrix = np.eye(4)
    for column, v in enumerate((m.right, m.up, m.out, m.origin)):
        matrix[:3, column] = v
    return matrix


@given(line=lines, angle=angles)
def test_a_turn_about_a_hinge_is_the_product_of_plain_matrices(line: Segment, angle: float) -> None:
    assert _as_matrix(about(line, angle)) == pytest.approx(_matrix(line, angle), abs=1e-9)


@given(one=lines, two=lines, a=angles, b=angles)
def test_motions_multiply_as_matrices(one: Segment, two: Segment, a: float, b: float) -> None:
    both = about(one, a).after(about(two, b))
    assert _as_matrix(both) == pytest.approx(_matrix(one, a) @ _matrix(two, b), abs=1e-9)
    assert _as_matrix(inverse(both)) == pytest.approx(np.linalg.inv(_as_matrix(both)), abs=1e-9)


@given(line=lines, p=points)
def test_half_a_turn_is_the_flat_fold(line: Segment, p: Point) -> None:
    folded = about(line, pi).point(lifted(p))
    assert folded == pytest.approx(lifted(reflection(line).point(p)), abs=1e-9)
    flat = flat_motion(reflection(line))
    assert flat.point(lifted(p)) == pytest.approx(folded, abs=1e-9)
    assert flat.out == pytest.approx(about(line, pi).out, abs=1e-9)


def test_a_turn_in_the_plane_keeps_the_front_up() -> None:
    assert flat_motion(quarter_turns(1)).out == (0, 0, 1)


STRIP = card_of("""
pieces:
  strip:
    paper: card
    size: [9, 4]
    scores: {one: {from: [3, 0], to: [2, 4], fold: valley}, two: {across: 6, fold: mountain}}
    panels: {a: left of one, b: between, c: right of two}
layers: {dot: {paper: card, size: [1, 1], upon: c back, at: {centred: both}}}
""".replace("b: between", "b: [4, 2]"))


@pytest.mark.parametrize(("fold", "height"), [
    pytest.param({"one": 90.0}, 1, id="a valley lifts the left panel"),
    pytest.param({"two": -90.0}, -1, id="a mountain drops the right panel"),
])
def test_a_valley_goes_up_and_a_mountain_goes_down(fold: dict[str, float], height: int) -> None:
    linkage = Linkage(STRIP.panels, STRIP.hinges, STRIP.bonds, "b")
    placed = linkage.frames({name: radians(angle) for name, angle in fold.items()})
    panel, across = {"one": ("a", 0), "two": ("c", 9)}[next(iter(fold))]
    assert placed[panel].point((across, 2, 0))[2] * height > 2


@given(one=st.floats(0, pi), two=st.floats(-pi, 0), still=st.sampled_from(["a", "b", "c", "dot"]))
def test_panels_stay_rigid_and_hinges_together(one: float, two: float, still: str) -> None:
    linkage = Linkage(STRIP.panels, STRIP.hinges, STRIP.bonds, still)
    placed = linkage.frames({"one": one, "two": two})
    for hinge in STRIP.hinges:
        for p in (hinge.segment.start, hinge.segment.end):
            a, b = (placed[name].point(lifted(p)) for name in hinge.panels)
            assert a == pytest.approx(b, abs=1e-9)
    for name, motion in placed.items():
        p, q = STRIP.panels[name].ring[:2]
        assert length(minus(motion.point(lifted(p)), motion.point(lifted(q)))) == pytest.approx(
            float((p - q).square) ** 0.5)


def test_flat_angles_give_the_exact_flat_placing() -> None:
    exact = place_panels(STRIP.panels, STRIP.hinges, STRIP.bonds, {"one": Fraction(180), "two": Fraction(-180)}, "b")
    placed = Linkage(STRIP.panels, STRIP.hinges, STRIP.bonds, "b").frames({"one": pi, "two": -pi})
    for name, motion in placed.items():
        for p in STRIP.panels[name].ring:
            assert motion.point(lifted(p)) == pytest.approx(lifted(exact.placements[name].point(p)), abs=1e-9)


@given(one=lines, two=lines, a=angles, b=angles)
def test_turns_multiply_as_rotations_do(one: Segment, two: Segment, a: float, b: float) -> None:
    # scipy.spatial.transform.Rotation, from rotation vectors
    vectors = [
        angle * np.array([float(line.along.x), float(line.along.y), 0.0]) / length(lifted_along(line))
        for line, angle in ((one, a), (two, b))]
    product = Rotation.from_rotvec(vectors[0]) * Rotation.from_rotvec(vectors[1])
    assert _as_matrix(about(one, a).after(about(two, b)))[:3, :3] == pytest.approx(product.as_matrix(), abs=1e-9)


def lifted_along(line: Segment) -> tuple[float, float, float]:
    return (float(line.along.x), float(line.along.y), 0.0)


@given(one=lines, two=lines, a=angles, b=angles, p=points, q=points)
def test_folding_keeps_every_length_and_unfolding_undoes_it(
    one: Segment, two: Segment, a: float, b: float, p: Point, q: Point,
) -> None:
    folded = about(one, a).after(about(two, b))
    here, there = folded.point(lifted(p)), folded.point(lifted(q))
    assert length(minus(here, there)) == pytest.approx(length(minus(lifted(p), lifted(q))), abs=1e-9)
    back = about(two, -b).after(about(one, -a))
    assert back.point(here) == pytest.approx(lifted(p), abs=1e-9)
