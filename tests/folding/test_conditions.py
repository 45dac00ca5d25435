"""Paper through paper: the conditions count the published numbers of ways to fold strips and maps."""

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plans import built, card_of, flat

from foldproof.folding.card import Card
from foldproof.folding.conditions import folded_pair, question_of
from foldproof.folding.ordering import Pair, broken, each_order, find_order
from foldproof.folding.overlay import listed, overlay
from foldproof.folding.place import place_panels
from foldproof.folding.stacking import Folding


def _map(columns: int, rows: int) -> Card:
    """A sheet of equal squares; folds of one line are separate scores."""
    scores = [f"v{x}-{y}: {{from: [{x}, {y}], to: [{x}, {y + 1}], fold: valley}}"
              for x in range(1, columns) for y in range(rows)]
    scores += [f"h{x}-{y}: {{from: [{x}, {y}], to: [{x + 1}, {y}], fold: valley}}"
               for y in range(1, rows) for x in range(columns)]
    panels = [f"p{x + columns * (rows - 1 - y) + 1}: [{x + 0.5}, {y + 0.5}]"
              for x in range(columns) for y in range(rows)]
    return card_of(f"""
pieces:
  sheet:
    paper: card
    size: [{columns}, {rows}]
    scores: {{{', '.join(scores)}}}
    panels: {{{', '.join(panels)}}}
""")


def _orders(card: Card) -> list[frozenset[Pair]]:
    """All orders of the card with every score folded over, whichever way, in which nothing passes through anything."""
    folds = dict.fromkeys((hinge.score for hinge in card.hinges), Fraction(180))
    placing = place_panels(card.panels, card.hinges, (), folds, "p1")
    assert not placing.misfits
    places = placing.placements
    free = Folding(panels=card.panels, hinges=card.hinges, bonds=(), folds=(), still="p1", placements=places)
    return list(each_order(question_of(free, overlay(card.panels, places))))


def _word(card: Card, over: frozenset[Pair]) -> str:
    """Which way each score of a strip is folded, from the left, the first panel's front up."""
    folds = dict.fromkeys((hinge.score for hinge in card.hinges), Fraction(180))
    places = place_panels(card.panels, card.hinges, (), folds, "p1").placements
    return "".join(
        "V" if folded_pair(hinge, Fraction(180), places) in over else "M"
        for hinge in sorted(card.hinges, key=lambda hinge: hinge.segment.start.x))


@pytest.mark.parametrize(("stamps", "ways"), [
    (1, 1), (2, 2), (3, 6), (4, 16), (5, 50), (6, 144), (7, 462), (8, 1392), (9, 4536)])
def test_strips_of_stamps(stamps: int, ways: int) -> None:
    # OEIS A000136: ways to fold a strip of n labelled stamps (P)
    assert len(_orders(_map(stamps, 1))) == ways


def test_strips_by_their_valleys_and_mountains() -> None:
    # reckoned (C, brute force over stackings): n = 3 and 4, every word
    three, four = _map(3, 1), _map(4, 1)
    assert Counter(_word(three, over) for over in _orders(three)) == {"MM": 2, "MV": 1, "VM": 1, "VV": 2}
    assert Counter(_word(four, over) for over in _orders(four)) == {
        "MMM": 3, "VVV": 3, "MMV": 2, "VVM": 2, "MVM": 1, "VMV": 1, "MVV": 2, "VMM": 2}


@pytest.mark.parametrize(("word", "ways"), [
    pytest.param("VMVMVMVMVMV", 1, id="accordion of twelve panels"),
    *(pytest.param("M" * k, k, id=f"{k} alike") for k in range(1, 8)),
    # M^a V^b (arXiv 2503.23661): ab + b^2 - b + 1 where a > b + 1 and b > 4, brute force for the others
    *(pytest.param("M" * a + "V" * b, n, id=f"{a} mountains, {b} valleys") for a, b, n in (
        (7, 5, 56), (8, 5, 61), (8, 6, 79), (6, 4, 37), (5, 3, 22), (4, 2, 11), (4, 1, 5), (3, 3, 11), (4, 4, 22),
        (2, 2, 4))),
    # m alternating blocks of two: Catalan(floor(m/2) + 1) x Catalan(ceil(m/2) + 1) (C)
    *(pytest.param(("MMVV" * 3)[:2 * m], n, id=f"{m} blocks of two") for m, n in enumerate((2, 4, 10, 25, 70, 196), 1)),
])
def test_strips_with_given_folds(word: str, ways: int) -> None:
    card = _map(len(word) + 1, 1)
    hinges = sorted(card.hinges, key=lambda hinge: hinge.segment.start.x)
    folds = tuple(
        (hinge.score, Fraction(180 if way == "V" else -180)) for hinge, way in zip(hinges, word, strict=True))
    places = place_panels(card.panels, card.hinges, (), dict(folds), "p1").placements
    folding = Folding(panels=card.panels, hinges=card.hinges, bonds=(), folds=folds, still="p1", placements=places)
    assert sum(1 for _ in each_order(question_of(folding, overlay(card.panels, places)))) == ways


@given(st.lists(st.sampled_from((180, -180)), min_size=11, max_size=11))
@settings(max_examples=20, deadline=None)
def test_a_strip_of_twelve_panels_takes_few_steps(angles: list[int]) -> None:
    # every word of a strip can be folded (Hull and others, arXiv 2503.23661)
    card = _map(12, 1)
    folds = tuple((hinge.score, Fraction(angle)) for hinge, angle in zip(card.hinges, angles, strict=True))
    places = place_panels(card.panels, card.hinges, (), dict(folds), "p1").placements
    folding = Folding(panels=card.panels, hinges=card.hinges, bonds=(), folds=folds, still="p1", placements=places)
    what = question_of(folding, overlay(card.panels, places))
    answer = find_order(what, steps=50_000)
    assert answer.over is not None and broken(what, answer.over) == ()


def test_the_eight_foldings_of_a_two_by_two_map() -> None:
    # OEIS A001418, example: the foldings of a 2 x 2 map in reading order (P)
    card = _map(2, 2)
    orders = (listed(sorted(card.panels), over) for over in _orders(card))
    found = {"".join(name[1:] for name in order) for order in orders if order is not None}
    assert found == {"1243", "1342", "2134", "2431", "3124", "3421", "4213", "4312"}


@pytest.mark.parametrize(("columns", "rows", "ways"), [
    pytest.param(3, 2, 60, id="2 x 3"), pytest.param(4, 2, 320, id="2 x 4"), pytest.param(5, 2, 1980, id="2 x 5"),
    pytest.param(3, 3, 1368, id="3 x 3"),
])
def test_maps(columns: int, rows: int, ways: int) -> None:
    # OEIS A001415 (2 x n) and A001418 (n x n), P
    assert len(_orders(_map(columns, rows))) == ways


ROLL = """
pieces:
  strip:
    paper: card
    size: [WIDTH, 210]
    scores: {cover: {across: 100, fold: valley}, tuck: {across: 200, fold: valley}}
    panels: {front: left of cover, middle: between cover and tuck, inner: right of tuck}
papers: {card: {kind: cardstock, thickness: 0.25 mm}}
poses: {closed: {still: middle, folds: {FOLDS}}}
"""


@pytest.mark.parametrize(("width", "folds", "found"), [
    pytest.param("297", "tuck: 180, cover: 180", [], id="three short"),
    pytest.param("300", "tuck: 180, cover: 180", [], id="just as wide"),
    pytest.param("300.2", "tuck: 180, cover: 180", [], id="wider by less than the paper is thick"),
    pytest.param("301", "tuck: 180, cover: 180", ["paper passes through paper"], id="a millimetre too wide"),
    pytest.param("301", "cover: 180, tuck: 180", [], id="the wide flap outside"),
])
def test_an_inner_flap_that_is_too_wide_for_its_fold(width: str, folds: str, found: list[str]) -> None:
    _, findings = built(ROLL.replace("WIDTH", width).replace("FOLDS", folds), "mm")
    assert [finding.name for finding in findings] == found
    assert all("1 mm across the score cover" in finding.message for finding in findings)


def test_a_layer_on_the_body_of_the_fold_is_left_to_the_checks_on_layers() -> None:
    flat(card_of("""
pieces:
  base: {paper: card, size: [8, 4], scores: {s: {across: 4, fold: valley}}, panels: {a: left of s, b: right of s}}
layers: {band: {paper: card, size: [4, 1], upon: a front, at: {left: 2, bottom: 1}, overhangs: [b]}}
poses: {closed: {still: a, folds: {s: 180}}}
"""))
