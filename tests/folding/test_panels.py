"""Pieces divided by their scores: panels, hinges, names, and what is wrong with a score."""

from fractions import Fraction

import pytest
from plans import built, card_of, names_of, recipe_of

from foldproof.folding.card import Card
from foldproof.folding.panels import divide
from foldproof.paper.face import Fold
from foldproof.paper.polygon import area
from foldproof.paper.vector import Point

GATE = """
pieces:
  base:
    paper: card
    size: [8 1/2, 5 1/2]
    scores:
      left hinge: {across: 2 1/8, fold: valley}
      right hinge: {across: 6 3/8, fold: valley}
    panels: {left door: left of left hinge, middle: between left hinge and right hinge,
             right door: right of right hinge}
"""


def _sheet(scores: str, panels: str = "", shape: str = "size: [4, 4]") -> str:
    named = f"\n    panels: {{{panels}}}" if panels else ""
    return f"pieces:\n  base:\n    paper: card\n    {shape}\n    scores: {{{scores}}}{named}\n"


def _areas(card: Card) -> dict[str, Fraction]:
    return {name: area(panel.ring) + sum(area(hole) for hole in panel.holes) for name, panel in card.panels.items()}


def test_a_gate_fold_has_three_panels_and_two_hinges() -> None:
    card = card_of(GATE)
    assert {name: [(p.x, p.y) for p in panel.ring][::2] for name, panel in card.panels.items()} == {
        "left door": [(0, 0), (Fraction(17, 8), Fraction(11, 2))],
        "middle": [(Fraction(17, 8), 0), (Fraction(51, 8), Fraction(11, 2))],
        "right door": [(Fraction(51, 8), 0), (Fraction(17, 2), Fraction(11, 2))],
    }
    assert [(hinge.score, hinge.panels, hinge.fold) for hinge in card.hinges] == [
        ("left hinge", ("left door", "middle"), Fold.VALLEY), ("right hinge", ("middle", "right door"), Fold.VALLEY)]
    assert card.hinges[0].segment.start == Point(Fraction(17, 8), Fraction(0))
    assert card.hinges[0].segment.end == Point(Fraction(17, 8), Fraction(11, 2))


@pytest.mark.parametrize(("scores", "panels", "sizes"), [
    pytest.param("s: {up: 1, fold: valley}", "low: below s, high: above s", {"low": 4, "high": 12}, id="level"),
    pytest.param("s: {from: bottom left, to: top right, fold: mountain}", "low: below s, high: above s",
                 {"low": 8, "high": 8}, id="diagonal, by above and below"),
    pytest.param("s: {from: bottom left, to: top right, fold: mountain}", "a: left of s, b: right of s",
                 {"a": 8, "b": 8}, id="diagonal, by left and right"),
    pytest.param("s: {from: [4, 3], to: bottom left, fold: mountain}", "low: below s, high: above s",
                 {"low": 6, "high": 10}, id="slanted, drawn from the right"),
    pytest.param("s: {from: top right, to: [1, 0], fold: mountain}", "a: left of s, b: right of s",
                 {"a": 10, "b": 6}, id="slanted, drawn from the top"),
    pytest.param("s: {from: [0, 3], to: top right, fold: valley}", "flap: [1, 3 1/2], rest: [1, 1]",
                 {"flap": 2, "rest": 14}, id="from an edge to a corner, by points"),
    pytest.param("s: {across: 1, fold: valley}, t: {across: 2, fold: mountain}, u: {across: 3, fold: valley}",
                 "a: left of s, b: between s and t, c: right of t, d: right of u", {"a": 4, "b": 4, "c": 4, "d": 4},
                 id="the panel beside the score is meant"),
    pytest.param("s: {across: 2, fold: valley}, t: {from: [2, 2], to: [4, 2], fold: valley}",
                 "a: left of s, b: right of s and below t, c: right of s and above t", {"a": 8, "b": 4, "c": 4},
                 id="a score that ends on another"),
    pytest.param("s: {across: 2, fold: none}", "", {"base": 16}, id="a score for looks divides nothing"),
    pytest.param("s: {across: 2, fold: none}, t: {up: 2, fold: valley}", "low: below t, high: above t",
                 {"low": 8, "high": 8}, id="a score for looks across a fold"),
])
def test_panels_by_their_names(scores: str, panels: str, sizes: dict[str, int]) -> None:
    assert _areas(card_of(_sheet(scores, panels))) == sizes


@pytest.mark.parametrize(("scores", "panels", "name"), [
    pytest.param("s: {across: 5, fold: valley}", "", "score outside its piece", id="across too far"),
    pytest.param("s: {up: 5, fold: valley}", "", "score outside its piece", id="up too far"),
    pytest.param("s: {from: [0, 2], to: [5, 2], fold: valley}", "", "score outside its piece", id="too long"),
    pytest.param("s: {from: [5, 2], to: [6, 2], fold: valley}", "", "score outside its piece", id="wholly outside"),
    pytest.param("s: {across: 4, fold: valley}", "", "score along an edge", id="on the right edge"),
    pytest.param("s: {from: [1, 0], to: [3, 0], fold: none}", "", "score along an edge", id="on a part of an edge"),
    pytest.param("s: {from: bottom left, to: [0, 0], fold: valley}", "", "score without length", id="no length"),
    pytest.param("s: {across: 2, fold: valley}, t: {from: [2, 1], to: [2, 3], fold: mountain}", "",
                 "two scores on one line", id="two on one stretch"),
    pytest.param("s: {from: [2, 0], to: [2, 3], fold: valley}", "", "score ends inside a panel", id="ends inside"),
    pytest.param("s: {from: [2, 1], to: [2, 3], fold: valley}", "", "score ends inside a panel", id="both ends inside"),
    pytest.param("s: {across: 2, fold: valley}, t: {from: [2, 2], to: [3, 2], fold: valley}", "",
                 "score ends inside a panel", id="from a score to nowhere"),
    pytest.param("s: {across: 2, fold: valley}", "", "panel without a name", id="no names"),
    pytest.param("s: {across: 2, fold: valley}", "a: left of s", "panel without a name", id="one name missing"),
    pytest.param("s: {across: 2, fold: valley}", "a: left of s, b: left of s", "two names for one panel",
                 id="two names"),
    pytest.param("s: {across: 2, fold: valley}", "a: left of s, b: above s", "side that a score has not",
                 id="above an upright score"),
    pytest.param("s: {up: 2, fold: valley}", "a: left of s, b: above s", "side that a score has not",
                 id="left of a level score"),
    pytest.param("s: {across: 2, fold: valley}", "a: left of s, b: [2, 1]", "name fits no panel", id="on a score"),
    pytest.param("s: {across: 2, fold: valley}", "a: left of s, b: [5, 1]", "name fits no panel", id="point outside"),
    pytest.param("s: {across: 1, fold: valley}, t: {across: 3, fold: valley}",
                 "a: left of s, b: between s and t, c: left of s and right of t", "name fits no panel",
                 id="sides that exclude each other"),
    pytest.param("s: {across: 2, fold: valley}, t: {up: 2, fold: valley}",
                 "a: left of s, b: [3, 1], c: [3, 3]", "name fits several panels", id="two panels on that side"),
])
def test_what_is_wrong_with_scores_and_names(scores: str, panels: str, name: str) -> None:
    assert set(names_of(_sheet(scores, panels))) == {name}


def test_a_stretch_between_the_same_two_panels_is_one_hinge() -> None:
    # a score that ends against another cuts its line in two places, but parts no panel
    recipe = recipe_of(_sheet("s: {across: 2, fold: valley}, t: {from: [2, 2], to: [3, 2], fold: valley}"))
    divided, findings = divide(recipe.pieces[0], recipe.unit)
    assert findings and divided is not None
    assert [hinge.segment for hinge in divided.hinges if hinge.score == "s"] == [divided.piece.scores[0].segment]


def test_each_finding_says_where_and_how_much() -> None:
    _, (finding,) = built(_sheet("s: {from: [2, 0], to: [2, 3], fold: valley}"))
    assert finding.place is not None and finding.place.line == 9
    assert "3 in up" in finding.message and "1 in short" in finding.message
    _, (finding,) = built(_sheet("s: {from: [0, 2], to: [5, 2], fold: valley}"))
    assert "1 in past" in finding.message
    _, (finding,) = built(_sheet("s: {across: 2, fold: valley}, t: {from: [2, 1], to: [2, 3], fold: mountain}"))
    assert "for 2 in" in finding.message and finding.asides


def test_all_faults_are_found_in_one_run() -> None:
    assert names_of(_sheet("s: {across: 5, fold: valley}, t: {up: 4, fold: valley}, u: {across: 9, fold: none}")) == [
        "score outside its piece", "score along an edge", "score outside its piece"]


@pytest.mark.parametrize(("shape", "name"), [
    pytest.param("outline: [[0, 0], [4, 4], [4, 0], [0, 4]]", "outline crosses itself", id="bow tie"),
    pytest.param("outline: [[1, 0], [4, 0], [4, 4]]", "outline off its origin", id="off the origin"),
    pytest.param("outline: [[0, 0], [4, 4], [2, 2]]", "outline crosses itself", id="all on one line"),
])
def test_what_is_wrong_with_outlines(shape: str, name: str) -> None:
    assert name in names_of(_sheet("", shape=shape))


def test_an_upright_score_crosses_a_bay_in_two_hinges() -> None:
    card = card_of(_sheet(
        "s: {up: 3, fold: valley}", "left tab: [1, 3 1/2], right tab: [5, 3 1/2], body: [1, 1]",
        "outline: [[0, 0], [6, 0], [6, 4], [4, 4], [4, 1], [2, 1], [2, 4], [0, 4]]"))
    assert [hinge.panels for hinge in card.hinges] == [("left tab", "body"), ("right tab", "body")]
    assert {hinge.score for hinge in card.hinges} == {"s"}


def test_scores_cross_in_four_hinges_with_left_before_right() -> None:
    card = card_of(_sheet("s: {across: 2, fold: valley}, t: {up: 2, fold: mountain}",
                          "a: [1, 1], b: [3, 1], c: [3, 3], d: [1, 3]"))
    assert {(hinge.score, hinge.panels) for hinge in card.hinges} == {
        ("s", ("a", "b")), ("s", ("d", "c")), ("t", ("d", "a")), ("t", ("c", "b"))}
