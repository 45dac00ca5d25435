"""Where panels lie when folded: laws of folding, and loops that do not close."""

from collections.abc import Mapping
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plans import built, card_of

from foldproof.folding.card import Bond, Card, Hinge
from foldproof.folding.place import place_panels
from foldproof.paper.isometry import IDENTITY, Isometry, reflection

STRIP = card_of("""
pieces:
  strip:
    paper: card
    size: [12, 4]
    scores:
      one: {across: 3, fold: valley}
      two: {from: [7, 0], to: [5, 4], fold: mountain}
      three: {across: 9, fold: valley}
    panels: {a: left of one, b: between, c: between, d: right of three}
layers:
  label: {paper: card, size: [1, 1], upon: c back, at: {centred: both}}
""".replace("b: between, c: between", "b: [4, 2], c: [8, 2]"))
SCORES = ("one", "two", "three")
angles = st.fixed_dictionaries({name: st.sampled_from([Fraction(0), Fraction(180)]) for name in SCORES})


def _placed(card: Card, folds: Mapping[str, Fraction], still: str = "b") -> Mapping[str, Isometry]:
    placing = place_panels(card.panels, card.hinges, card.bonds, folds, still)
    assert not placing.misfits
    return placing.placements


@given(folds=angles)
def test_folding_never_stretches_paper(folds: dict[str, Fraction]) -> None:
    for name, move in _placed(STRIP, folds).items():
        for p, q in combinations(STRIP.panels[name].ring, 2):
            assert (move.point(p) - move.point(q)).square == (p - q).square


@given(folds=angles)
def test_a_hinge_stays_together(folds: dict[str, Fraction]) -> None:
    placed = _placed(STRIP, folds)
    for hinge in STRIP.hinges:
        a, b = (placed[name].segment(hinge.segment) for name in hinge.panels)
        assert a == b
        assert (placed[hinge.panels[0]].flips != placed[hinge.panels[1]].flips) == (folds[hinge.score] != 0)


@given(folds=angles, still=st.sampled_from(["a", "b", "c", "d", "label"]))
def test_another_still_panel_moves_the_whole_card_as_one(folds: dict[str, Fraction], still: str) -> None:
    here, there = _placed(STRIP, folds), _placed(STRIP, folds, still)
    assert there[still] == IDENTITY
    assert {name: here[still].after(move) for name, move in there.items()} == here


def test_unfolding_lays_the_piece_flat_again() -> None:
    placed = _placed(STRIP, {})
    assert {placed[name] for name in "abcd"} == {IDENTITY}


def test_folds_multiply_from_the_still_panel_outward() -> None:
    lines = {hinge.score: hinge.segment for hinge in STRIP.hinges}
    placed = _placed(STRIP, {"two": Fraction(-180), "three": Fraction(180)})
    assert placed["d"] == reflection(lines["two"]).after(reflection(lines["three"]))
    assert placed["a"] == IDENTITY


def test_what_does_not_hang_together_is_not_placed() -> None:
    panels = {name: STRIP.panels[name] for name in ("b", "d", "label")}
    assert set(place_panels(panels, STRIP.hinges, STRIP.bonds, {}, "b").placements) == {"b"}


POCKET = """
pieces:
  sheet:
    paper: card
    size: [6, 4]
    scores: {half: {across: 3, fold: valley}}
    panels: {a: left of half, b: right of half}
joins: {seam: {put: a front, upon: b front, at: {AT}}}
poses: {closed: {still: b, folds: {half: 180}}}
"""


def test_a_loop_that_closes() -> None:
    card = card_of(POCKET.replace("AT", "left: 0, bottom: 0"))
    assert place_panels(card.panels, card.hinges, card.bonds, {"half": Fraction(180)}, "b").misfits == ()


@pytest.mark.parametrize(("at", "much"), [
    pytest.param("left: 1/8, bottom: 0", "1/8 in apart", id="an eighth to the side"),
    pytest.param("left: 0, bottom: 1/4", "1/4 in apart", id="a quarter up"),
    pytest.param("left: 3/16, bottom: 1/4", "5/16 in apart", id="aslant"),
    pytest.param("left: 1/8, bottom: 1/8", "about 11/64 in apart", id="by a distance that is not rational"),
])
def test_a_loop_that_does_not_close_says_by_how_much(at: str, much: str) -> None:
    card, findings = built(POCKET.replace("AT", at))
    assert [finding.name for finding in findings] == ["loop does not close"]
    assert much in findings[0].message and "seam" in findings[0].message
    assert card is not None and card.poses == ()


def test_a_misfit_names_the_link_and_both_ways() -> None:
    card, _ = built(POCKET.replace("AT", "left: 1/8, bottom: 0"))
    assert card is not None
    (misfit,) = place_panels(card.panels, card.hinges, card.bonds, {"half": Fraction(180)}, "b").misfits
    assert isinstance(misfit.link, Bond) and misfit.link.name == "seam"
    assert misfit.ways == (("b", "a"), ("b", "a"))
    assert misfit.apart is not None and abs(misfit.apart.x) == Fraction(1, 8) and misfit.apart.y == 0
    assert misfit.square == Fraction(1, 64)


def test_paper_cannot_fold_on_one_of_two_crossing_scores_alone_at_a_corner() -> None:
    # three creases that meet inside the sheet: folding only two of them tears it
    card, findings = built("""
pieces:
  sheet:
    paper: card
    size: [4, 4]
    scores:
      one: {from: [2, 2], to: [0, 0], fold: valley}
      two: {from: [2, 2], to: [4, 0], fold: valley}
      three: {from: [2, 2], to: [2, 4], fold: valley}
    panels: {low: [2, 1], right: [3, 3], left: [1, 3]}
poses: {closed: {still: low, folds: {one: 180, two: 180}}}
""")
    assert [finding.name for finding in findings] == ["corner that cannot lie flat"]
    assert "270° and the rest to 90°" in findings[0].message or "90° and the rest to 270°" in findings[0].message
    assert card is not None
    folds = {"one": Fraction(180), "two": Fraction(180)}
    (misfit,) = place_panels(card.panels, card.hinges, card.bonds, folds, "low").misfits
    assert isinstance(misfit.link, Hinge) and misfit.link.score == "three"
    assert misfit.apart is None and misfit.square > 0
