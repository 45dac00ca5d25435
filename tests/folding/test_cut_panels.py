"""Slits, windows, notches: the panels that they leave, the hinges that they interrupt, and what is wrong with them."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plans import built, card_of, names_of
from shapely.geometry import Polygon

from foldproof.folding.card import Card, FlatPose
from foldproof.paper.polygon import area
from foldproof.paper.vector import Ring

STEP = """
pieces:
  base:
    paper: card
    size: [4, 10]
    slits:
      one: {from: [1, 2], to: [1, 6]}
      two: {from: [3, 2], to: [3, 6]}
    scores:
      a: {from: [0, 2], to: [1, 2], fold: mountain}
      b: {from: [3, 2], to: [4, 2], fold: mountain}
      c: {from: [1, 3], to: [3, 3], fold: mountain}
      d: {from: [0, 5], to: [1, 5], fold: valley}
      e: {from: [3, 5], to: [4, 5], fold: valley}
      f: {from: [1, 6], to: [3, 6], fold: valley}
    panels: {front: [2, 1], back: [2, 9], step: [2, 4], left: [1/2, 4], right: [3 1/2, 4]}
poses:
  closed: {still: back, folds: {f: 180, d: 180, e: 180, c: -180, a: -180, b: -180}}
  up: {still: back, folds: {f: 60, d: 60, e: 60, c: -60, a: -60, b: -60}}
"""


def _size(card: Card, name: str) -> Fraction:
    panel = card.panels[name]
    return area(panel.ring) + sum((area(hole) for hole in panel.holes), Fraction(0))


def _sheet(cuts: str, scores: str = "", panels: str = "") -> str:
    more = (f"    scores: {{{scores}}}\n" if scores else "") + (f"    panels: {{{panels}}}\n" if panels else "")
    return f"pieces:\n  base:\n    paper: card\n    size: [4, 4]\n    {cuts}\n{more}"


def test_a_center_step_has_five_panels_and_six_hinges() -> None:
    card = card_of(STEP)
    assert {name: _size(card, name) for name in card.panels} == {
        "front": 2 * 4 + 2 * 1, "back": 4 * 4 + 2 * 1, "step": 2 * 3, "left": 3, "right": 3}
    assert sorted((hinge.score, *sorted(hinge.panels)) for hinge in card.hinges) == [
        ("a", "front", "left"), ("b", "front", "right"), ("c", "front", "step"), ("d", "back", "left"),
        ("e", "back", "right"), ("f", "back", "step")]


def test_its_loops_close_exactly_when_flat_and_off_the_table() -> None:
    card = card_of(STEP)
    closed = card.pose("closed")
    assert isinstance(closed, FlatPose)
    # by hand: the back and its legs reach from 10 down to 5; the front hangs from 5 + 3 - 2 down
    assert (closed.width, closed.height) == (Fraction(4), Fraction(5))
    up = card.pose("up")
    assert up is not None and not isinstance(up, FlatPose) and up.misfit < 1e-9


def test_a_step_that_is_scored_unlike_its_sides_does_not_close() -> None:
    wrong = STEP.replace("c: {from: [1, 3], to: [3, 3]", "c: {from: [1, 3 1/8], to: [3, 3 1/8]")
    _, findings = built(wrong)
    assert "loop does not close" in {finding.name for finding in findings}
    assert "1/4 in apart" in next(f.message for f in findings if f.name == "loop does not close")


@pytest.mark.parametrize(("cuts", "scores", "panels", "names"), [
    pytest.param("slits: {s: {from: [1, 1], to: [3, 1]}}", "", "", [], id="a slit in a panel"),
    pytest.param("slits: {s: {from: bottom middle, to: [2, 3]}}", "", "", [], id="a slit from an edge"),
    pytest.param("slits: {s: {from: [1, 1], to: [5, 1]}}", "", "", ["cut beside its piece"], id="past the edge"),
    pytest.param("slits: {s: {from: [0, 1], to: [0, 3]}}", "", "", ["slit along an edge"], id="along an edge"),
    pytest.param("slits: {s: {from: [0, 1], to: [4, 1]}}", "", "", ["piece falls apart"], id="right across"),
    pytest.param("slits: {s: {from: [0, 1], to: [2, 1]}, t: {from: [1, 1], to: [3, 1]}}", "", "",
                 ["two cuts on one line"], id="twice"),
    pytest.param("slits: {s: {from: [2, 1], to: [2, 3]}}", "f: {across: 2, fold: valley}",
                 "a: left of f, b: right of f", ["slit along a score"], id="along a score"),
    pytest.param("slits: {s: {from: [1, 1], to: [3, 1]}}", "f: {from: [2, 1], to: [2, 4], fold: valley}",
                 "", ["score ends inside a panel"], id="a score from a slit to an edge parts nothing"),
    pytest.param("slits: {s: {from: [0, 1], to: [2, 1]}}", "f: {from: [2, 1], to: [2, 0], fold: valley}",
                 "flap: [1, 1/2], rest: [3, 3]", [], id="a flap of two cuts and a score"),
    pytest.param("windows: {w: {size: [1, 1], at: [1, 1]}}", "", "", [], id="a window"),
    pytest.param("windows: {w: {circle: 1, at: [0, 1]}}", "", "", ["window over an edge"], id="a window on the edge"),
    pytest.param("windows: {w: {circle: 1, at: [5, 1]}}", "", "", ["window over an edge"], id="a window beside"),
    pytest.param("windows: {w: {circle: 1, at: [1, 1]}, v: {size: [1, 1], at: [1 1/2, 1]}}", "", "",
                 ["windows run together"], id="windows that overlap"),
    pytest.param("windows: {w: {outline: [[1, 1], [3, 3], [3, 1], [1, 3]]}}", "", "", ["outline crosses itself"],
                 id="a window like a bow tie"),
    pytest.param("notches: {thumb: {circle: 1, at: [1 1/2, 3 1/2]}}", "", "", [], id="a thumb notch"),
    pytest.param("notches: {thumb: {circle: 1, at: [1, 1]}}", "", "", ["notch inside its piece"], id="a notch inside"),
    pytest.param("notches: {thumb: {size: [1, 6], at: [1, -1]}}", "", "", ["piece falls apart"],
                 id="a notch right across"),
    pytest.param("rounded: 1/2", "", "", [], id="round corners"),
    pytest.param("rounded: 2 1/8", "", "", ["corner too round"], id="too round"),
    pytest.param("scallops: {edge: bottom, across: 1/2}", "", "", [], id="scallops"),
    pytest.param("scallops: {edge: bottom, across: 3/4}", "", "", ["scallops do not come out"], id="half a scallop"),
    pytest.param("windows: {w: {size: [1, 2], at: [2, 1]}}", "f: {across: 2, fold: valley}",
                 "a: left of f, b: right of f", ["score along an edge"], id="a score along a window"),
])
def test_what_is_wrong_with_a_cut_is_told(cuts: str, scores: str, panels: str, names: list[str]) -> None:
    assert names_of(_sheet(cuts, scores, panels)) == names


@settings(deadline=None, max_examples=40)
@given(
    x=st.integers(1, 20).map(lambda n: Fraction(n, 8)), y=st.integers(1, 20).map(lambda n: Fraction(n, 8)),
    fold=st.integers(1, 31).map(lambda n: Fraction(n, 8)), round_=st.booleans())
def test_panels_and_window_make_the_outline(x: Fraction, y: Fraction, fold: Fraction, round_: bool) -> None:
    shape = "circle: 1" if round_ else "size: [1, 1]"
    if not round_ and fold in (x, x + 1):
        return
    card, _ = built(_sheet(f"windows: {{w: {{{shape}, at: [{x}, {y}]}}}}", f"f: {{across: {fold}, fold: valley}}",
                           "a: [1/16, 1/16], b: [63/16, 1/16]"))
    assert card is not None
    (window,) = card.pieces[0].windows
    assert sum((_size(card, name) for name in card.panels), Fraction(0)) + area(window.ring) == 16
    paper = Polygon(_floats(card.pieces[0].outline), [_floats(window.ring)])
    assert float(sum((_size(card, name) for name in card.panels), Fraction(0))) == pytest.approx(paper.area)
    hinge = sum(float(h.segment.end.y - h.segment.start.y) for h in card.hinges)
    line = Polygon([(float(fold) - 1e-7, 0), (float(fold) + 1e-7, 0), (float(fold) + 1e-7, 4), (float(fold) - 1e-7, 4)])
    assert hinge == pytest.approx(paper.intersection(line).area / 2e-7, abs=1e-3)


def _floats(ring: Ring) -> list[tuple[float, float]]:
    return [(float(p.x), float(p.y)) for p in ring]


def test_names_survive_later_slits_and_windows() -> None:
    plan = _sheet("slits: {s: {from: [1, 1], to: [1, 3]}}\n    windows: {w: {circle: 1, at: [2 1/2, 2 1/2]}}",
                  "f: {across: 2, fold: valley}", "a: left of f, b: [3, 3]")
    card = card_of(plan)
    assert set(card.panels) == {"a", "b"}
    assert len(card.panels["b"].holes) == 1


def test_what_lies_behind_shows_through_a_window() -> None:
    card = card_of("""
pieces:
  base:
    paper: card
    size: [8, 4]
    windows: {w: {size: [1, 1], at: [1, 1]}}
    scores: {f: {across: 4, fold: valley}}
    panels: {cover: left of f, inside: right of f}
poses:
  closed: {still: inside, folds: {f: 180}}
""")
    closed = card.pose("closed")
    assert isinstance(closed, FlatPose)
    seen = {(region.panel, area(region.ring)) for region in closed.seen}
    assert seen == {("cover", Fraction(16)), ("inside", Fraction(1))}
    assert [region.holes != () for region in closed.seen if region.panel == "cover"] == [True]
