"""Paper through paper: the crossing conditions count the published numbers of ways to fold strips and maps."""

from fractions import Fraction
from itertools import permutations

import pytest
from plans import built, card_of, flat

from foldproof.folding.card import Card
from foldproof.folding.passing import passings
from foldproof.folding.place import place_panels


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


def _ways(card: Card) -> list[tuple[str, ...]]:
    """All stackings of the card with every score folded over in which nothing passes through anything."""
    folds = dict.fromkeys((hinge.score for hinge in card.hinges), Fraction(180))
    placing = place_panels(card.panels, card.hinges, (), folds, "p1")
    return [order for order in permutations(sorted(card.panels))
            if not passings(card.panels, card.hinges, placing.placements, order)]


@pytest.mark.parametrize(("stamps", "ways"), [(1, 1), (2, 2), (3, 6), (4, 16), (5, 50)])
def test_strips_of_stamps(stamps: int, ways: int) -> None:
    # OEIS A000136: ways to fold a strip of n labelled stamps (facts.md 5.3, P)
    assert len(_ways(_map(stamps, 1))) == ways


def test_the_eight_foldings_of_a_two_by_two_map() -> None:
    # OEIS A001418, example: the foldings of a 2 x 2 map in reading order (facts.md 5.3, P)
    found = {"".join(name[1:] for name in order) for order in _ways(_map(2, 2))}
    assert found == {"1243", "1342", "2134", "2431", "3124", "3421", "4213", "4312"}


def test_a_two_by_three_map() -> None:
    # OEIS A001415: 2 x n maps, n = 3 (facts.md 5.3, P)
    assert len(_ways(_map(3, 2))) == 60


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
