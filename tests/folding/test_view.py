"""What is seen of a flat pose, held against shapely, and its outline."""

from fractions import Fraction

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from plans import card_of, exact, flat, stack
from shapely.ops import unary_union

from foldproof.folding.card import FlatPose, Region
from foldproof.folding.overlay import ordered, overlay
from foldproof.paper.face import Face
from foldproof.paper.polygon import area
from foldproof.paper.vector import Ring

SLANTED = """
pieces:
  strip:
    paper: card
    size: [12, 4]
    scores: {one: {across: 3, fold: valley}, two: {from: [7, 0], to: [5, 4], fold: mountain},
             three: {across: 9, fold: valley}}
    panels: {a: left of one, b: [4, 2], c: [8, 2], d: right of three}
layers:
  label: {paper: card, circle: 2, upon: c back, at: {centred: both}}
  mat: {paper: card, size: [2, 3], upon: b front, at: {left: -1, bottom: 1/2}, overhangs: [a]}
poses: {closed: {still: STILL, folds: {FOLDS}}}
"""


def _polygon(ring: Ring, holes: tuple[Ring, ...] = ()) -> shapely.Polygon:
    return shapely.Polygon([(float(p.x), float(p.y)) for p in ring],
                           [[(float(p.x), float(p.y)) for p in hole] for hole in holes])


def _seen(made: FlatPose, rings: dict[str, Ring], order: tuple[str, ...]) -> dict[str, float]:
    """By shapely: the area of each panel that nothing earlier in the order hides."""
    hidden = shapely.Polygon()
    found = {}
    for name in order:
        shape = _polygon(made.placements[name].ring(rings[name]))
        found[name] = shape.difference(hidden).area
        hidden = unary_union([hidden, shape])
    return {name: size for name, size in found.items() if size > 1e-9}


def _sizes(regions: tuple[Region, ...]) -> dict[str, float]:
    sizes: dict[str, float] = {}
    for region in regions:
        size = area(region.ring) + sum((area(hole) for hole in region.holes), Fraction(0))
        assert size > 0
        sizes[region.panel] = sizes.get(region.panel, 0.0) + float(size)
    return sizes


FOLDS = st.permutations(["one: 180", "two: -180", "three: 180"]).flatmap(
    lambda order: st.integers(0, 3).map(lambda count: ", ".join(order[:count])))


@settings(max_examples=25, deadline=None)
@given(folds=FOLDS, still=st.sampled_from("abcd"))
def test_what_is_seen_is_what_shapely_finds_uncovered(folds: str, still: str) -> None:
    card = card_of(SLANTED.replace("STILL", still).replace("FOLDS", folds))
    made = flat(card)
    rings = {name: panel.ring for name, panel in card.panels.items()}
    assert _sizes(made.seen) == pytest.approx(_seen(made, rings, stack(made)[::-1]))
    assert _sizes(made.hidden_side) == pytest.approx(_seen(made, rings, stack(made)))
    whole = unary_union([_polygon(made.placements[name].ring(ring)) for name, ring in rings.items()])
    assert float(sum(area(ring) for ring in made.outline)) == pytest.approx(whole.area)
    assert (float(made.width), float(made.height)) == pytest.approx(whole.bounds[2:])
    assert all(made.placements[region.panel].shows is region.face for region in made.seen)
    assert all(made.placements[region.panel].shows is region.face.other for region in made.hidden_side)


@settings(max_examples=10, deadline=None)
@given(folds=FOLDS)
def test_overlapping_pairs_share_area_as_shapely_reckons(folds: str) -> None:
    card = card_of(SLANTED.replace("STILL", "b").replace("FOLDS", folds))
    made = flat(card)
    shapes = {name: _polygon(made.placements[name].ring(panel.ring)) for name, panel in card.panels.items()}
    laid = ordered(overlay(card.panels, made.placements), made.over)
    for a in shapes:
        for b in shapes:
            if a < b:
                shared = sum(float(cell.size) for cell, names in zip(laid.whole.faces, laid.layers, strict=True)
                             if a in names and b in names)
                assert shared == pytest.approx(shapes[a].intersection(shapes[b]).area, abs=1e-9)
                assert ((a, b) in made.over or (b, a) in made.over) == (shared > 1e-9)


def test_a_window_between_panels_is_an_opening_of_the_outline() -> None:
    made = flat(card_of("""
pieces:
  frame:
    paper: card
    outline: [[0, 0], [6, 0], [6, 4], [0, 4], [0, 3], [5, 3], [5, 1], [0, 1]]
  bar: {paper: card, size: [1, 4]}
joins: {seam: {put: bar back, upon: frame front, at: {left: 0, bottom: 0}}}
"""))
    outer, opening = made.outline
    assert (area(outer), area(opening)) == exact(24, -8)


def test_regions_of_a_gate_card_in_its_frame() -> None:
    made = flat(card_of("""
pieces:
  base:
    paper: card
    size: [8, 4]
    scores: {l: {across: 2, fold: valley}, r: {across: 6, fold: valley}}
    panels: {left: left of l, middle: between l and r, right: right of r}
layers: {dot: {paper: card, size: [1, 1], upon: left back, at: {centred: both}}}
poses: {closed: {still: middle, folds: {l: 180, r: 180}}}
"""))
    seen = {region.panel: region for region in made.seen}
    assert set(seen) == {"left", "right", "dot"}
    assert seen["left"].face is Face.BACK and seen["dot"].face is Face.FRONT
    assert area(seen["left"].ring) == 8 and {area(hole) for hole in seen["left"].holes} == {-1}
    assert [(p.x, p.y) for p in seen["right"].ring] == [exact(2, 0), exact(4, 0), exact(4, 4), exact(2, 4)]
    assert [region.panel for region in made.hidden_side] == ["middle"]
