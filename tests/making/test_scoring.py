"""Scores and marks land where hands put them."""

from fractions import Fraction

import pytest
from small_steps import make

from foldproof.making.table import Making
from foldproof.paper.vector import Point


def line(making: Making, piece: str = "base") -> set[frozenset[Point]]:
    return {frozenset((c.segment.start, c.segment.end)) for c in making.end.pieces[piece].creases}


def p(x: str, y: str) -> Point:
    return Point(Fraction(x), Fraction(y))


@pytest.mark.parametrize(("actions", "start", "end"), [
    pytest.param("cut: [8, 6]\nscore: 3", p("3", "0"), p("3", "6"), id="from the left end"),
    pytest.param("cut: [8, 6]\nturn: half\nscore: 3", p("5", "0"), p("5", "6"), id="after half a turn"),
    pytest.param("cut: [8, 6]\nturn: quarter clockwise\nscore: 2", p("0", "2"), p("8", "2"), id="quarter clockwise"),
    pytest.param("cut: [8, 6]\nturn: quarter anticlockwise\nscore: 2", p("0", "4"), p("8", "4"), id="quarter back"),
    pytest.param("cut: [8, 6]\nturn over: book page\nscore: 3", p("5", "0"), p("5", "6"), id="over like a page"),
    pytest.param("cut: [8, 6]\nturn over: top to bottom\nscore: 3", p("3", "0"), p("3", "6"), id="over top to bottom"),
    pytest.param("cut: [8, 6]\nlay: {edge: long}\nscore: 3", p("3", "0"), p("3", "6"), id="long edge is there already"),
    pytest.param("cut: [8, 6]\nlay: {edge: short}\nscore: 2", p("0", "2"), p("8", "2"), id="short edge, turned"),
    pytest.param("cut: [8, 6]\nlay: {edge: right}\nscore: 2", p("0", "4"), p("8", "4"), id="right edge to the fence"),
    pytest.param("cut: [6, 8]\nlay: {edge: left}\nscore: 3", p("3", "0"), p("3", "6"), id="cut the other way round"),
    pytest.param("cut: [8, 6]\nmark: {at: 3, edge: top, from: left, name: a}\nscore: {from: a, to: bottom left}",
                 p("3", "6"), p("0", "0"), id="from a mark to a corner"),
    pytest.param("cut: [8, 6]\nmark: {at: 3, edge: top, from: right, name: a}\nscore: {from: a, to: bottom left}",
                 p("5", "6"), p("0", "0"), id="a mark from the other end"),
    pytest.param("cut: [8, 6]\nmark: {at: 1, edge: left, from: top, name: a}\nscore: {from: a, to: bottom right}",
                 p("0", "5"), p("8", "0"), id="a mark down from the top"),
    pytest.param("cut: [8, 6]\nturn: half\nmark: {at: 3, edge: top, from: left, name: a}\n"
                 "score: {from: a, to: bottom right}", p("5", "0"), p("0", "6"), id="marked after half a turn"),
    pytest.param("cut: [8, 6]\nscore: {from: top middle, to: bottom middle}", p("4", "6"), p("4", "0"), id="middles"),
])
def test_a_score_lands(actions: str, start: Point, end: Point) -> None:
    assert line(make(actions)) == {frozenset((start, end))}


def test_a_score_through_folded_paper_marks_every_layer() -> None:
    making = make("cut: [8, 6]\nscore: 4\nfold: {score: spine, fold: valley}\nscore: 1")
    # folded, the front lies on the rear, 4 wide: 1 from its left end is 5 and, through the front beneath, 3
    assert line(making) == {frozenset((p(x, "0"), p(x, "6"))) for x in ("4", "5", "3")}


def test_the_face_that_was_pressed_is_the_one_that_was_up() -> None:
    making = make("cut: [8, 6]\nturn over: book page\nscore: 4")
    assert [crease.pressed.value for crease in making.end.pieces["base"].creases] == ["back"]


@pytest.mark.parametrize(("actions", "width", "height"), [
    pytest.param("cut: [8, 6]\nscore: 4\nfold: {score: spine, fold: valley}\nmeasure: [4, 6]", 4, 6, id="folded"),
    pytest.param("cut: [8, 6]\nmeasure: [8, 6]", 8, 6, id="flat"),
    pytest.param("cut: [8, 6]\nturn: quarter clockwise\nmeasure: [6, 8]", 6, 8, id="as it lies"),
])
def test_a_ruler_check_that_is_right_is_silent(actions: str, width: int, height: int) -> None:
    making = make(actions)
    assert "measures otherwise" not in [finding.name for finding in making.findings]
    assert [d.measure.value for d in making.steps[0].done[-1].dimensions] == [width, height]
