"""How thick a pose lies."""

from fractions import Fraction

import pytest
from plans import card_of, flat

from foldproof.folding.thickness import thickness_everywhere

PLAN = """
papers: {card: {kind: cardstock, THICK}, thin: {kind: paper, thickness: 0.005 in}}
pieces:
  base: {paper: card, size: [8, 4], scores: {s: {across: 4, fold: valley}}, panels: {a: left of s, b: right of s}}
layers:
  mat: {paper: thin, size: [3, 3], upon: a back, at: {centred: both}, adhesive: ADHESIVE}
  tag: {paper: thin, size: [1, 1], upon: b front, at: {left: 0, bottom: 0}}
  charm: {bought: [1, 1], upon: mat front, at: {centred: both}}
supplies: {foam squares: {kind: foam, thickness: 1/16}, glue: {kind: wet glue}, CHARM: {kind: ornament, thickness: 1/4}}
poses: {closed: {still: b, folds: {s: 180}}, open: {still: a, folds: {}}}
"""


def _plan(thick: str = "thickness: 0.01 in", adhesive: str = "glue", charm: str = "ribbon") -> str:
    return PLAN.replace("THICK", thick).replace("ADHESIVE", adhesive).replace("CHARM", charm)


@pytest.mark.parametrize(("plan", "closed", "open_"), [
    pytest.param(_plan(), "0.03", "0.015", id="two sheets, mat and tag where they overlap"),
    pytest.param(_plan(adhesive="foam squares"), "0.0925", "0.0775", id="a mat on foam"),
    pytest.param(_plan(charm="charm"), "0.275", "0.265", id="a bought shape as thick as its supply"),
])
def test_the_greatest_thickness(plan: str, closed: str, open_: str) -> None:
    card = card_of(plan)
    assert flat(card).thickness == Fraction(closed)
    assert flat(card, "open").thickness == Fraction(open_)


def test_thickness_everywhere_adds_up_to_all_the_paper() -> None:
    card = card_of(_plan(adhesive="foam squares"))
    made = flat(card)
    found = thickness_everywhere(card, made)
    assert max(thick for thick, _ in found) == made.thickness
    # two sheets of 4 x 4, a mat of 3 x 3 on its foam, a tag of 1 x 1 (the charm has no thickness)
    volume = 2 * 16 * Fraction("0.01") + 9 * (Fraction("0.005") + Fraction(1, 16)) + Fraction("0.005")
    assert sum(thick * part.size for thick, part in found) == volume
    assert sum(part.size for _, part in found) == 16


def test_foam_counts_only_where_it_lies() -> None:
    plan = _plan(adhesive="foam squares").replace("thickness: 1/16", "thickness: 0.001 in")
    plan = plan.replace("tag: {paper: thin, size: [1, 1]", "tag: {paper: card, size: [1/4, 4]")
    # beside the mat lie two sheets and the tag, 0.03; with the mat on its foam but without the tag it is 0.026
    assert flat(card_of(plan)).thickness == Fraction("0.03")


def test_a_thickness_that_is_not_given_is_estimated_from_the_weight() -> None:
    # 250 g/m2 x 1.3 cm3/g = 325 micrometres (bulk about 1.0 to 1.45, M; the middle is our choice)
    made = flat(card_of(_plan("weight: 250 gsm")), "open")
    assert made.thickness == Fraction(325, 1000) / Fraction(254, 10) + Fraction("0.005")


def test_no_thickness_where_a_paper_tells_nothing() -> None:
    assert flat(card_of(_plan("tone: white"))).thickness is None
