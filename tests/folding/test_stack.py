"""Who lies over whom, by folding in the order written."""


import pytest
from hypothesis import given
from hypothesis import strategies as st
from plans import built, card_of, flat, names_of, stack

Z = """
pieces:
  strip:
    paper: card
    size: [12, 4]
    scores: {one: {across: 4, fold: valley}, two: {across: 8, fold: SECOND}}
    panels: {a: left of one, b: between one and two, c: right of two}
"""
LETTER = Z.replace("SECOND", "valley")
ACCORDION = Z.replace("SECOND", "mountain")


@pytest.mark.parametrize(("plan", "pose", "wanted"), [
    pytest.param(LETTER, "still: b, folds: {one: 180, two: 180}", "bac", id="letter fold, the right third last"),
    pytest.param(LETTER, "still: b, folds: {two: 180, one: 180}", "bca", id="letter fold, the left third last"),
    pytest.param(LETTER, "still: a, folds: {two: 180, one: 180}", "acb", id="rolled up on the left third"),
    pytest.param(LETTER, "still: c, folds: {one: 180, two: 180}", "cab", id="rolled up on the right third"),
    pytest.param(ACCORDION, "still: b, folds: {one: 180, two: -180}", "cba", id="accordion"),
    pytest.param(ACCORDION, "still: a, folds: {one: 180, two: -180}", "abc", id="accordion from the left"),
    pytest.param(ACCORDION, "still: a, folds: {two: -180, one: 180}", "abc", id="accordion, the far fold first"),
    pytest.param(LETTER, "still: b, folds: {two: 180}", "bc", id="one fold"),
])
def test_stacks_of_a_strip(plan: str, pose: str, wanted: str) -> None:
    made = flat(card_of(f"{plan}poses: {{closed: {{{pose}}}}}"))
    assert [name for name in stack(made) if name in wanted] == list(wanted)
    assert made.over == {(upper, lower) for i, upper in enumerate(wanted) for lower in wanted[:i]}


MATS = """
pieces:
  base: {paper: card, size: [8, 4], scores: {spine: {across: 4, fold: FOLD}},
         panels: {a: left of spine, b: right of spine}}
layers:
  in a: {paper: card, size: [3, 3], upon: a front, at: {centred: both}}
  in b: {paper: card, size: [3, 3], upon: b front, at: {centred: both}}
  out a: {paper: card, size: [3, 3], upon: a back, at: {centred: both}}
  out b: {paper: card, size: [3, 3], upon: b back, at: {centred: both}}
  on out b: {paper: card, size: [1, 1], upon: out b front, at: {centred: both}}
poses: {closed: {still: a, folds: {spine: ANGLE}}, open: {still: a, folds: {}}}
"""


@pytest.mark.parametrize(("fold", "angle", "wanted"), [
    pytest.param("valley", "180", ["out a", "a", "in a", "in b", "b", "out b", "on out b"], id="insides face"),
    pytest.param("mountain", "-180", ["in b", "b", "out b", "out a", "a", "in a"], id="outsides face"),
])
def test_layers_keep_to_their_faces(fold: str, angle: str, wanted: list[str]) -> None:
    made = flat(card_of(MATS.replace("FOLD", fold).replace("ANGLE", angle)))
    assert [name for name in stack(made) if name in wanted] == wanted


def test_layers_of_an_open_card() -> None:
    over = flat(card_of(MATS.replace("FOLD", "valley").replace("ANGLE", "180")), "open").over
    assert over == {("in a", "a"), ("a", "out a"), ("in a", "out a"), ("in b", "b"), ("b", "out b"), ("in b", "out b"),
                    ("out b", "on out b"), ("b", "on out b"), ("in b", "on out b")}


def test_the_later_layer_lies_over_the_earlier_one() -> None:
    made = flat(card_of("""
pieces: {base: {paper: card, size: [6, 6]}}
layers:
  first: {paper: card, size: [3, 3], upon: base front, at: {left: 0, bottom: 0}}
  second: {paper: card, size: [3, 3], upon: base front, at: {left: 2, bottom: 2}}
  on first: {paper: card, size: [2, 2], upon: first front, at: {right: 0, top: 0}}
"""))
    assert stack(made) == ("base", "first", "second", "on first")
    assert ("on first", "second") in made.over


def test_a_layer_that_reaches_over_a_flat_score_lies_over_both_panels() -> None:
    made = flat(card_of("""
pieces:
  base: {paper: card, size: [8, 4], scores: {s: {across: 4, fold: valley}}, panels: {a: left of s, b: right of s}}
layers:
  mat: {paper: card, size: [3, 3], upon: b front, at: {centred: both}}
  band: {paper: card, size: [4, 1], upon: a front, at: {left: 2, bottom: 1}, overhangs: [b, mat]}
"""))
    assert {("band", "a"), ("band", "b"), ("band", "mat")} <= made.over


TURNED = st.sampled_from(["none", "half", "quarter clockwise", "quarter anticlockwise"])


@given(one=st.sampled_from([0, 180]), two=st.sampled_from([0, 180]), first=st.booleans(), turned=TURNED)
def test_turning_the_whole_card_over_reverses_the_stack(one: int, two: int, first: bool, turned: str) -> None:
    folds = f"one: {one}, two: {two}" if first else f"two: {two}, one: {one}"
    card = card_of(f"""{LETTER}poses:
  closed: {{still: b, folds: {{{folds}}}, turned: {turned}}}
  behind: {{still: b, folds: {{{folds}}}, seen: back, turned: {turned}}}""")
    front, back = flat(card), flat(card, "behind")
    assert back.over == {(lower, upper) for upper, lower in front.over}
    assert (back.width, back.height) == (front.width, front.height)
    assert all(back.placements[name].flips != move.flips for name, move in front.placements.items())
    assert {region.panel for region in back.seen} == {region.panel for region in front.hidden_side}


def _quarters(left: str, right: str) -> str:
    """A sheet folded up and then across; the second fold runs through two layers."""
    angle = {"valley": "180", "mountain": "-180"}
    return f"""
pieces:
  sheet:
    paper: card
    size: [8, 8]
    scores:
      up: {{up: 4, fold: valley}}
      low: {{from: [4, 0], to: [4, 4], fold: {left}}}
      high: {{from: [4, 4], to: [4, 8], fold: {right}}}
    panels: {{a: [1, 1], b: [5, 1], c: [1, 5], d: [5, 5]}}
poses: {{closed: {{still: a, folds: {{up: 180, low: {angle[left]}, high: {angle[right]}}}}}}}
"""


def test_a_fold_through_two_layers_goes_as_one() -> None:
    assert stack(flat(card_of(_quarters("valley", "mountain")))) == ("a", "c", "d", "b")
    assert stack(flat(card_of(_quarters("mountain", "valley")))) == ("d", "b", "a", "c")


@pytest.mark.parametrize(("left", "right"), [("valley", "valley"), ("mountain", "mountain")])
def test_a_corner_of_four_folds_of_one_kind_cannot_be_folded(left: str, right: str) -> None:
    # Maekawa's theorem: valleys and mountains at a corner differ by two; with all four alike, or two
    # of each, the paper is held fast
    assert names_of(_quarters(left, right)) == ["valleys and mountains out of balance"]


def test_a_pocket_glued_on_both_sides_is_stacked_in_the_order_that_holds() -> None:
    made = flat(card_of("""
pieces:
  one: {paper: card, size: [8, 4], scores: {s: {across: 4, fold: valley}}, panels: {a: left of s, b: right of s}}
  two: {paper: card, size: [8, 4], scores: {t: {across: 4, fold: valley}}, panels: {c: left of t, d: right of t}}
joins:
  low: {put: c back, upon: a front, at: {centred: both}}
  high: {put: d back, upon: b front, at: {centred: both}}
poses: {closed: {still: a, folds: {s: 180, t: 180}}}
"""))
    assert stack(made) == ("a", "c", "d", "b")


def test_faces_that_cannot_lie_on_each_other_are_told() -> None:
    # the second join closes by distance, but glues the outside of d to the inside of b
    assert names_of("""
pieces:
  one: {paper: card, size: [8, 4], scores: {s: {across: 4, fold: valley}}, panels: {a: left of s, b: right of s}}
  two: {paper: card, size: [8, 4], scores: {t: {across: 4, fold: mountain}}, panels: {c: left of t, d: right of t}}
joins:
  low: {put: c back, upon: a front, at: {centred: both}}
  high: {put: d back, upon: b front, at: {centred: both}}
poses: {closed: {still: a, folds: {s: 180, t: -180}}}
""") == ["glued faces apart"]


CHOICE = "poses: {{closed: {{still: b, folds: {{one: 180, two: 180}}, over: [[{0}, {1}]]}}}}"


def test_a_choice_overrides_the_written_order() -> None:
    assert stack(flat(card_of(LETTER + CHOICE.format("a", "c")))) == ("b", "c", "a")
    assert stack(flat(card_of(LETTER + CHOICE.format("c", "a")))) == ("b", "a", "c")


def test_a_choice_that_folding_forbids_is_told() -> None:
    _, findings = built(LETTER + CHOICE.format("b", "a"))
    assert [finding.name for finding in findings] == ["order that cannot be kept"]
    assert findings[0].place is not None and findings[0].place.line == 12


def test_a_choice_between_panels_that_lie_apart_is_told() -> None:
    pose = "poses: {closed: {still: b, folds: {one: 180}, over: [[c, a]]}}"
    assert names_of(LETTER + pose) == ["order of panels apart"]


def test_a_choice_seen_from_behind_is_as_the_viewer_sees_it() -> None:
    pose = "poses: {closed: {still: b, folds: {one: 180, two: 180}, seen: back, over: [[c, a]]}}"
    assert stack(flat(card_of(LETTER + pose))) == ("a", "c", "b")


def test_a_tuck_takes_the_layers_along() -> None:
    made = flat(card_of("""
pieces:
  base:
    paper: card
    outline: [[0, 0], [8, 0], [8, 4], [6, 4], [6, 6], [2, 6], [2, 4], [0, 4]]
    scores: {l: {from: [2, 0], to: [2, 4], fold: valley}, r: {from: [6, 0], to: [6, 4], fold: valley},
             f: {from: [2, 4], to: [6, 4], fold: valley}}
    panels: {left: left of l, right: right of r, low: [4, 1], flap: above f}
layers: {dot: {paper: card, size: [1, 1], upon: left back, at: {right: 0, top: 0}}}
poses: {closed: {still: low, folds: {l: 180, r: 180, f: 180}, over: [[left, flap]]}}
"""))
    assert {("left", "flap"), ("dot", "flap")} <= made.over


def test_folding_order_of_a_part_made_card_is_the_same_whichever_panel_is_still() -> None:
    for still in "abc":
        pose = f"poses: {{closed: {{still: {still}, folds: {{one: 180, two: -180}}}}}}"
        made = flat(card_of(ACCORDION + pose))
        assert stack(made) in (("a", "b", "c"), ("c", "b", "a"))
