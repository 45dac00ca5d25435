"""Flat folds are reflections; held against sympy's exact geometry, an independent library."""

from fractions import Fraction

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from plane import point, points, ring, segment, segments

from foldproof.paper.face import Face
from foldproof.paper.isometry import IDENTITY, Isometry, quarter_turns, reflection, translation
from foldproof.paper.polygon import area
from foldproof.paper.vector import Point, Segment, Vector


@st.composite
def moves(draw: st.DrawFn) -> Isometry:
    """Up to three folds, a turn and a shift."""
    move = IDENTITY
    for line in draw(st.lists(segments, max_size=3)):
        move = reflection(line).after(move)
    shift = draw(points)
    return translation(Vector(shift.x, shift.y)).after(quarter_turns(draw(st.integers(0, 3))).after(move))


def _sympy(p: Point) -> sympy.Point:
    return sympy.Point(sympy.Rational(p.x.numerator, p.x.denominator), sympy.Rational(p.y.numerator, p.y.denominator))


@settings(max_examples=25, deadline=None)
@given(p=points, line=segments)
def test_a_fold_is_the_reflection_that_sympy_reckons(p: Point, line: Segment) -> None:
    mirrored = _sympy(p).reflect(sympy.Line(_sympy(line.start), _sympy(line.end)))
    assert reflection(line).point(p) == Point(
        Fraction(int(mirrored.x.p), int(mirrored.x.q)), Fraction(int(mirrored.y.p), int(mirrored.y.q)))


@pytest.mark.parametrize(("line", "start", "end"), [
    pytest.param(segment(3, 0, 3, 1), point(1, 5), point(5, 5), id="over an upright line"),
    pytest.param(segment(0, 2, 9, 2), point(1, 5), point(1, -1), id="over a level line"),
    pytest.param(segment(0, 0, 4, 4), point(1, 5), point(5, 1), id="over a line at 45 degrees"),
    pytest.param(segment(0, 0, 2, 1), point(0, 5), point(4, -3), id="over a 3-4-5 slant"),
])
def test_folds_worked_by_hand(line: Segment, start: Point, end: Point) -> None:
    assert reflection(line).point(start) == end


@given(p=points, q=points, move=moves())
def test_folding_never_stretches_paper(p: Point, q: Point, move: Isometry) -> None:
    assert (move.point(q) - move.point(p)).square == (q - p).square


@given(p=points, move=moves())
def test_unfolding_is_the_inverse(p: Point, move: Isometry) -> None:
    assert move.inverse.point(move.point(p)) == p
    assert move.inverse.after(move) == IDENTITY == move.after(move.inverse)


@given(p=points, first=moves(), second=moves())
def test_one_move_after_another(p: Point, first: Isometry, second: Isometry) -> None:
    assert second.after(first).point(p) == second.point(first.point(p))
    assert second.after(first).flips == (first.flips != second.flips)


@given(line=segments)
def test_a_fold_keeps_its_line_and_undoes_itself(line: Segment) -> None:
    fold = reflection(line)
    assert fold.segment(line) == line
    assert fold.after(fold) == IDENTITY
    assert fold.shows is Face.BACK


@given(move=moves())
def test_rings_stay_anticlockwise(move: Isometry) -> None:
    square = ring((0, 0), (2, 0), (2, 1), (0, 1))
    assert area(move.ring(square)) == 2


def test_a_quarter_turn_is_anticlockwise() -> None:
    assert quarter_turns(1).point(point(2, 1)) == point(-1, 2)
    assert quarter_turns(-1).point(point(2, 1)) == point(1, -2)
    assert quarter_turns(1).vector(Vector(Fraction(1), Fraction(0))) == Vector(Fraction(0), Fraction(1))


signs = st.sampled_from([Fraction(1), Fraction(-1)])


@given(signs, signs, points, points, points)
def test_without_a_turn_it_is_the_same_arithmetic(
    xx: Fraction, yy: Fraction, by: Point, other: Point, p: Point
) -> None:
    """The matrix multiplied out: the quick way for axes that stay axes must not differ."""
    one = Isometry(xx, Fraction(0), Fraction(0), yy, by.x, by.y)
    assert one.point(p) == Point(xx * p.x + by.x, yy * p.y + by.y)
    two = Isometry(yy, Fraction(0), Fraction(0), xx, other.x, other.y)
    assert one.after(two).point(p) == one.point(two.point(p))
    assert one.after(two) == Isometry(
        xx * yy, Fraction(0), Fraction(0), yy * xx, xx * other.x + by.x, yy * other.y + by.y)
