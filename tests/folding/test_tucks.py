"""Flaps tucked in a ring, choices, and what is asked where the folds settle nothing."""

import pytest
from plans import built, card_of, flat, names_of, stack

from foldproof.folding.clash import smallest_clash
from foldproof.folding.ordering import Condition, Question, broken, find_order
from foldproof.folding.overlay import listed
from foldproof.paper.polygon import area

FLAPS = """
pieces:
  sheet:
    paper: card
    outline: [OUTLINE]
    scores:
      low: {from: [3, 3], to: [6, 3], fold: valley}
      right: {from: [6, 3], to: [6, 6], fold: valley}
      high: {from: [6, 6], to: [3, 6], fold: valley}
      left: {from: [3, 6], to: [3, 3], fold: valley}
    panels:
      {middle: [4, 4], low flap: below low, right flap: right of right, high flap: above high, left flap: left of left}
poses: {closed: {still: middle, folds: {low: 180, right: 180, high: 180, left: 180}ORDER}}
"""
HALVES = FLAPS.replace("OUTLINE", "[6, 0], [6, 3], [9, 6], [6, 6], [3, 9], [3, 6], [0, 3], [3, 3]")
"""Each flap covers half of the middle; three flaps share no more than a point."""
WHOLE = FLAPS.replace(
    "OUTLINE", "[3, 0], [6, 0], [6, 3], [9, 3], [9, 6], [6, 6], [6, 9], [3, 9], [3, 6], [0, 6], [0, 3], [3, 3]")
"""Each flap covers the middle."""
RING = {("right flap", "low flap"), ("high flap", "right flap"), ("left flap", "high flap")}


def test_the_last_flap_tucked_under_the_first_closes_a_ring() -> None:
    made = flat(card_of(HALVES.replace("ORDER", ", tucks: [{flap: left flap, under: low flap}]")))
    assert {*RING, ("low flap", "left flap")} <= made.over
    assert listed(tuple(made.placements), made.over) is None
    flaps = [region for region in made.seen if region.panel.endswith("flap")]
    assert sorted({region.panel for region in flaps}) == ["high flap", "left flap", "low flap", "right flap"]
    sizes = {region.panel: float(area(region.ring)) for region in flaps}
    assert len(set(sizes.values())) == 1  # each hides as much of the next one as the one before hides of it


def test_without_the_tuck_the_flap_folded_last_lies_on_top() -> None:
    made = flat(card_of(HALVES.replace("ORDER", "")))
    assert {*RING, ("left flap", "low flap")} <= made.over
    assert listed(tuple(made.placements), made.over) is not None


def test_turning_a_ring_over_reverses_every_pair() -> None:
    front = flat(card_of(HALVES.replace("ORDER", ", tucks: [{flap: left flap, under: low flap}]")))
    back = flat(card_of(HALVES.replace("ORDER", ", seen: back, tucks: [{flap: low flap, under: left flap}]")))
    assert back.over == {(b, a) for a, b in front.over}


def test_flaps_that_share_a_point_cannot_be_tucked_in_a_ring() -> None:
    # where three lie over each other at one point, the relation is transitive
    ring = ", over: [[right flap, low flap], [high flap, right flap]], tucks: [{flap: high flap, under: low flap}]"
    _, findings = built(WHOLE.replace("ORDER", ring))
    assert [finding.name for finding in findings] == ["order that cannot be kept"]
    told = sorted(aside.text for aside in findings[0].asides)
    assert told == ["the recipe lays high flap over right flap", "the recipe lays right flap over low flap",
                    "the recipe tucks high flap under low flap"]


def test_a_flap_tucked_under_the_first_slides_under_all_that_cover_it() -> None:
    made = flat(card_of(WHOLE.replace("ORDER", ", tucks: [{flap: left flap, under: low flap}]")))
    assert stack(made) == ("middle", "left flap", "low flap", "right flap", "high flap")


MAP = """
pieces:
  sheet:
    paper: card
    size: [3, 2]
    scores:
      half one: {from: [0, 1], to: [1, 1], fold: valley}
      half two: {from: [1, 1], to: [2, 1], fold: valley}
      half three: {from: [2, 1], to: [3, 1], fold: valley}
      low left: {from: [1, 0], to: [1, 1], fold: valley}
      high left: {from: [1, 1], to: [1, 2], fold: mountain}
      low right: {from: [2, 0], to: [2, 1], fold: valley}
      high right: {from: [2, 1], to: [2, 2], fold: mountain}
    panels: {a: [0.5, 0.5], b: [1.5, 0.5], c: [2.5, 0.5], d: [0.5, 1.5], e: [1.5, 1.5], f: [2.5, 1.5]}
poses: {closed: {still: e, folds: {FOLDS}OVER}}
"""
HALF = "half one: 180, half two: 180, half three: 180"
THIRDS = "low left: 180, high left: -180, low right: 180, high right: -180"


def test_a_visible_pair_that_nothing_settles_is_asked_in_words() -> None:
    # a sheet folded in half and then in thirds, but written thirds first: those folds cannot be made one by one
    plan = MAP.replace("FOLDS", f"{THIRDS}, {HALF}")
    _, (finding,) = built(plan.replace("OVER", ""))
    assert finding.name == "order of papers left open"
    assert "either of c and a could lie over the other, and it shows: which one lies on top?" in finding.message
    assert finding.mend is not None and "`over: [[c, a]]`" in finding.mend
    assert names_of(plan.replace("OVER", ", over: [[a, c]]")) == []
    up, down = (flat(card_of(plan.replace("OVER", f", over: [[{pair}]]"))).over for pair in ("a, c", "c, a"))
    assert ("a", "c") in up and ("c", "a") in down


def test_folds_written_in_an_order_that_can_be_made_ask_nothing() -> None:
    made = flat(card_of(MAP.replace("FOLDS", f"{HALF}, {THIRDS}").replace("OVER", "")))
    assert ("c", "a") in made.over or ("a", "c") in made.over


def test_a_clash_is_told_with_all_that_it_needs_and_no_more() -> None:
    _, findings = built("""
pieces:
  strip:
    paper: card
    size: [13, 4]
    scores: {one: {across: 4, fold: valley}, two: {across: 9, fold: valley}}
    panels: {a: left of one, b: between one and two, c: right of two}
poses: {closed: {still: b, folds: {one: 180, two: 180}, over: [[a, c]]}}
""")
    assert findings == ()
    _, findings = built("""
pieces:
  strip:
    paper: card
    size: [14, 4]
    scores: {one: {across: 4, fold: valley}, two: {across: 8, fold: valley}}
    panels: {a: left of one, b: between one and two, c: right of two}
poses: {closed: {still: b, folds: {one: 180, two: 180}, over: [[a, c]]}}
""")
    (finding,) = findings
    assert finding.name == "order that cannot be kept" and finding.place is not None and finding.place.line == 12
    assert {aside.text for aside in finding.asides} == {
        "the fold on two lays c over b", "the recipe lays a over c",
        "c reaches 2 in across the fold on one, so it cannot lie between a and b"}


@pytest.mark.parametrize("spare", range(3))
def test_a_smallest_clash_can_spare_nothing(spare: int) -> None:
    ring = tuple(Condition(pairs=(pair,), odd=True) for pair in (("a", "b"), ("b", "c"), ("c", "a")))
    more = tuple(Condition(pairs=((name, "a"),), odd=True) for name in "def")
    names = "abcdef"
    pairs = tuple((a, b) for i, a in enumerate(names) for b in names[i + 1:])
    question = Question(pairs=pairs, conditions=(*more, *ring), triples=(("a", "b", "c"),))
    clash = smallest_clash(question)
    assert set(clash) == set(ring)
    rest = tuple(condition for i, condition in enumerate(clash) if i != spare)
    left = find_order(Question(pairs=pairs, conditions=rest, triples=question.triples))
    assert left.over is not None and not broken(Question(pairs=pairs, conditions=rest, triples=()), left.over)


def test_a_search_that_runs_out_says_so() -> None:
    # pigeons: nine papers at one point, each pair tied so that no order does, which takes many steps to show
    names = "abcdefghi"
    pairs = tuple((a, b) for i, a in enumerate(names) for b in names[i + 1:])
    triples = tuple((a, b, c) for i, a in enumerate(names) for j, b in enumerate(names[i + 1:], i + 1)
                    for c in names[j + 1:])
    odd = tuple(Condition(pairs=tuple(pairs[(i * 7 + k * k) % len(pairs)] for k in range(4)), odd=bool(i % 3))
                for i in range(60))
    question = Question(pairs=pairs, conditions=odd, triples=triples)
    full, short = find_order(question), find_order(question, steps=3)
    assert full.decided
    assert short.decided is False and short.over is None and not short.impossible


def test_a_join_that_holds_the_card_shut_is_told_as_such() -> None:
    _, findings = built("""
pieces:
  strip:
    paper: card
    size: [12, 4]
    scores: {one: {across: 4, fold: valley}, two: {across: 8, fold: valley}}
    panels: {a: left of one, b: between one and two, c: right of two}
joins: {seam: {put: c front, upon: a back, at: {centred: both}}}
poses:
  closed: {still: b, folds: {one: 180, two: 180}}
  open: {still: b, folds: {}}
""")
    (finding,) = findings
    assert finding.name == "glued shut" and finding.place is not None and finding.place.line == 12
    assert "as they lie in the pose closed; in the pose open the two have to part" in finding.message


def test_paper_across_a_score_that_lies_flat_lies_over_both_its_panels() -> None:
    plan = """
pieces:
  strip:
    paper: card
    size: [16, 4]
    scores: {one: {across: 8, fold: valley}, two: {across: 12, fold: valley}}
    panels: {wide: left of one, a: between one and two, b: right of two}
poses: {closed: {still: a, folds: {one: 180}, over: [[PAIR]]}}
"""
    assert names_of(plan.replace("PAIR", "wide, b")) == []
    _, (finding,) = built(plan.replace("PAIR", "b, wide"))
    assert finding.name == "order that cannot be kept"
    assert {aside.text for aside in finding.asides} == {
        "the fold on one lays wide over a", "the recipe lays b over wide",
        "wide lies across two, which is flat here: over both a and b, or under both"}
