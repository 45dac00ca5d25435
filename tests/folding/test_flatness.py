"""Corners of folds: the published theorems and counts, and what is told of corners that cannot lie flat.

Sources: T. C. Hull, "Counting Mountain-Valley Assignments for Flat Folds", Ars Combinatoria 67 (2003),
and "The Combinatorics of Flat Folds: a Survey" (arXiv 1307.1065); counts marked C by brute force over all stackings.
"""

from fractions import Fraction
from itertools import combinations, pairwise, permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plans import built, names_of, recipe_of

from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.folding.conditions import question_of
from foldproof.folding.corners import corners
from foldproof.folding.flatness import balanced, closes, folded_corners, unbalanced_runs
from foldproof.folding.ordering import Condition, Pair, Question, each_order
from foldproof.folding.overlay import overlay
from foldproof.folding.place import place_panels
from foldproof.folding.stacking import Folding


def _wheel(angles: list[int]) -> tuple[Question, list[tuple[str, str]]]:
    """The sectors round a corner as intervals on a line that runs back and forth: angles in whole degrees, so exact.

    Written without the arrangement of panels: cells are the stretches between folds, borders the folds.
    """
    count = len(angles)
    stops = [0]
    for place, angle in enumerate(angles):
        stops.append(stops[-1] + (angle if place % 2 == 0 else -angle))
    assert stops[-1] == 0
    spans = [sorted(stops[i:i + 2]) for i in range(count)]
    marks = sorted(set(stops))
    cells = [frozenset(str(i) for i, (low, high) in enumerate(spans) if low <= a and b <= high)
             for a, b in pairwise(marks)]
    folds = [(str((i - 1) % count), str(i)) for i in range(count)]
    conditions: list[Condition] = []
    for place, mark in enumerate(marks):
        left = cells[place - 1] if place else frozenset()
        right = cells[place] if place < len(cells) else frozenset()
        here = [fold for i, fold in enumerate(folds) if stops[i] == mark]
        for side in (left, right):
            turned = [fold for fold in here if fold[0] in side]
            conditions += [Condition(pairs=((t, a), (t, b)), odd=False) for t in left & right for a, b in turned]
            conditions += [Condition(pairs=((c, a), (c, b), (d, a), (d, b)), odd=False)
                           for (a, b), (c, d) in combinations(turned, 2)]
    pairs = sorted({tuple(sorted(pair)) for cell in cells for pair in combinations(cell, 2)})
    triples = sorted({tuple(sorted(three)) for cell in cells for three in combinations(cell, 3)})
    return Question(pairs=tuple((a, b) for a, b in pairs), conditions=tuple(conditions),
                    triples=tuple((a, b, c) for a, b, c in triples)), folds


def _assignment(folds: list[tuple[str, str]], over: frozenset[Pair]) -> str:
    """M or V for each fold: a sector at an even place shows its front."""
    return "".join("V" if ((b, a) in over) == (int(a) % 2 == 0) else "M" for a, b in folds)


def _lists(names: list[str], over: frozenset[Pair]) -> int:
    """How many lists of all sectors agree with the pairs."""
    return sum(
        all(order.index(a) > order.index(b) for a, b in over) for order in permutations(names)) if names else 1


@pytest.mark.parametrize(("angles", "assignments", "stackings"), [
    ([90] * 4, 8, 8), ([45, 45, 135, 135], 6, 6), ([45, 90, 135, 90], 4, 4), ([100, 70, 80, 110], 4, 4),
    ([60] * 6, 30, 48), ([45, 45, 90, 45, 45, 90], 18, 48), ([30, 30, 60, 90, 90, 60], 18, 18),
    ([40, 60, 80, 60, 60, 60], 12, 16), ([45] * 8, 112, 336),
])
def test_assignments_and_stackings_of_a_corner(angles: list[int], assignments: int, stackings: int) -> None:
    # worked vertex cases (C); 8, 30, 112 are also the published upper bounds 2 binom(2n, n - 1)
    question, folds = _wheel(angles)
    orders = list(each_order(question))
    words = {_assignment(folds, over) for over in orders}
    assert len(words) == assignments
    assert all(abs(word.count("M") - word.count("V")) == 2 for word in words)  # Maekawa
    whole = len(question.pairs) == len(angles) * (len(angles) - 1) // 2
    names = sorted({name for pair in question.pairs for name in pair})
    assert (len(orders) if whole else sum(_lists(names, over) for over in orders)) == stackings


@pytest.mark.parametrize(("angles", "words"), [
    ([90] * 4, "MMMV MMVM MVMM MVVV VMMM VMVV VVMV VVVM"), ([45, 90, 135, 90], "MVMM MVVV VMMM VMVV"),
    ([100, 70, 80, 110], "MMVM MVMM VMVV VVMV"),
])
def test_lists_of_assignments_at_a_corner_of_four(angles: list[int], words: str) -> None:
    # as in the head (C): crease i precedes sector i
    question, folds = _wheel(angles)
    assert {_assignment(folds, over) for over in each_order(question)} == set(words.split())


DIRECTIONS = {
    "90 x 4": [(1, 0), (0, 1), (-1, 0), (0, -1)],
    "45, 45, 135, 135": [(1, 0), (1, 1), (0, 1), (-1, -1)],
    "45, 90, 135, 90": [(1, 0), (1, 1), (-1, 1), (0, -1)],
    "45, 45, 90, 45, 45, 90": [(1, 0), (1, 1), (0, 1), (-1, 0), (-1, -1), (0, -1)],
    "45 x 8": [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)],
    # generic, as 100, 70, 80, 110: here 112.6, 53.1, 67.4, 126.9
    "generic": [(1, 0), (-5, 12), (-63, 16), (-3, -4)],
}


def _star(ways: list[tuple[int, int]], word: str) -> str:
    """A square sheet with scores from its middle to its edge; the word says how each folds."""
    scores, panels = [], []
    for i, ((x, y), fold) in enumerate(zip(ways, word, strict=True)):
        size = max(abs(x), abs(y))
        scores.append(f"s{i}: {{from: [4, 4], to: [{_at(x, size)}, {_at(y, size)}], "
                      f"fold: {'valley' if fold == 'V' else 'mountain'}}}")
        u, v = ways[(i + 1) % len(ways)]
        long, other = (x * x + y * y) ** 0.5, (u * u + v * v) ** 0.5
        middle = (x / long + u / other, y / long + v / other)
        if x * v - y * u < 0:
            middle = (-middle[0], -middle[1])
        half = max(abs(middle[0]), abs(middle[1])) * 2
        panels.append(f"p{i}: [{4 + middle[0] / half:.6f}, {4 + middle[1] / half:.6f}]")
    folds = ", ".join(f"s{i}: {180 if fold == 'V' else -180}" for i, fold in enumerate(word))
    return f"""
pieces:
  sheet: {{paper: card, size: [8, 8], scores: {{{', '.join(scores)}}}, panels: {{{', '.join(panels)}}}}}
poses: {{closed: {{still: p0, folds: {{{folds}}}}}}}
"""


def _at(step: int, size: int) -> str:
    return f"4 in + 4 in * {step} / {size}" if step >= 0 else f"4 in - 4 in * {-step} / {size}"


def _orders(card: Card, folds: tuple[tuple[str, Fraction], ...]) -> list[frozenset[Pair]]:
    places = place_panels(card.panels, card.hinges, (), dict(folds), "p0").placements
    folding = Folding(panels=card.panels, hinges=card.hinges, bonds=(), folds=folds, still="p0", placements=places)
    return list(each_order(question_of(folding, overlay(card.panels, places))))


@pytest.mark.parametrize(("name", "count"), [
    ("90 x 4", 8), ("45, 45, 135, 135", 6), ("45, 90, 135, 90", 4), ("generic", 4), ("45, 45, 90, 45, 45, 90", 18),
])
def test_a_sheet_folds_flat_with_just_the_assignments_that_the_theorems_allow(name: str, count: int) -> None:
    # the counts are those of the head; what the conditions at the corner refuse has no order, and the other way round
    ways = DIRECTIONS[name]
    good = 0
    for letters in product("MV", repeat=len(ways)):
        word = "".join(letters)
        card, findings = build_card(recipe_of(_star(ways, word)))
        assert card is not None
        folds = tuple((f"s{i}", Fraction(180 if fold == "V" else -180)) for i, fold in enumerate(word))
        (corner,) = folded_corners(card, folds)
        assert closes(corner)
        allowed = balanced(corner) and not list(unbalanced_runs(corner))
        possible = bool(_orders(card, folds))
        assert possible or not allowed or len(ways) > 4
        assert allowed or not possible
        assert not possible or "no order of the papers" not in {finding.name for finding in findings}
        good += possible
    assert good == count


def test_the_conditions_never_refuse_an_assignment_of_eight_equal_angles_that_folds() -> None:
    # as in the head: 112 assignments for 45 x 8, all that Maekawa allows
    word = "MMMVVVVV"
    assert names_of(_star(DIRECTIONS["45 x 8"], word)) in ([], ["order of papers left open"])
    assert names_of(_star(DIRECTIONS["45 x 8"], "MMMMVVVV")) == ["valleys and mountains out of balance"]


def test_a_corner_whose_angles_do_not_add_up_is_told_with_the_angle() -> None:
    # as in the head: 100, 80, 90, 90 must be refused (here a rational angle near it: 98.13, 81.87)
    card, findings = built(_star([(1, 0), (-1, 7), (-1, 0), (0, -1)], "VVVM"))
    assert [finding.name for finding in findings] == ["corner that cannot lie flat"]
    assert "98.13°, 81.87°, 90° and 90°" in findings[0].message
    assert "188.1° and the rest to 171.9°" in findings[0].message and "8.1° off" in findings[0].message
    assert "4 in from the left and 4 in up" in findings[0].message
    assert card is not None and card.poses == ()


def test_a_small_angle_between_two_valleys_is_told() -> None:
    # as in the head: a sector smaller than both neighbours has one mountain and one valley
    (finding,) = built(_star(DIRECTIONS["45, 90, 135, 90"], "VVVM"))[1]
    assert finding.name == "small angle between like folds"
    assert "the angle of 45° between s0 and s1 lies between wider ones of 90° and 90°" in finding.message
    assert "valley and valley" in finding.message


def test_a_corner_at_the_end_of_a_slit_is_no_corner_of_whole_paper() -> None:
    # four valleys cannot meet inside whole paper; a slit that runs from there to an opening frees them
    plan = """
pieces:
  sheet:
    paper: card
    size: [8, 8]
    SLIT
    scores: {s0: {from: [4, 4], to: [8, 4], fold: valley}, s1: {from: [4, 4], to: [0, 4], fold: valley}}
    panels: {a: [6, 2], b: [6, 6]}
poses: {closed: {still: a, folds: {s0: 180, s1: 180}}}
"""
    whole = built(plan.replace("SLIT\n    ", ""))[0]
    slit = built(plan.replace("SLIT", "slits: {cut: {from: [4, 4], to: [4, 6]}}"))[0]
    assert whole is not None and slit is not None
    assert len(list(corners(whole))) == 1 and list(corners(slit)) == []


def test_a_score_that_lies_flat_does_not_count() -> None:
    plan = _star(DIRECTIONS["90 x 4"], "VVVM").replace("{s0: 180, s1: 180, s2: 180, s3: -180}", "{s0: 180, s2: 180}")
    assert names_of(plan) == []


@settings(max_examples=40, deadline=None)
@given(st.lists(st.sampled_from([15, 30, 45, 60, 75, 90]), min_size=2, max_size=3), st.data())
def test_maekawa_holds_in_every_order(angles: list[int], data: st.DataObject) -> None:
    odd = data.draw(st.permutations(angles))
    around = [angle for pair in zip(angles, odd, strict=True) for angle in pair]
    question, folds = _wheel(around)
    for over in each_order(question):
        word = _assignment(folds, over)
        assert abs(word.count("M") - word.count("V")) in (0, 2)
