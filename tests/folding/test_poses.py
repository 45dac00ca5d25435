"""Flat poses: published folds, how the card is held, and what a pose may not ask."""

from fractions import Fraction

import pytest
from plans import built, card_of, exact, flat, names_of, stack

from foldproof.paper.face import Face
from foldproof.paper.vector import Point

Z = Fraction(0)


def _strip(panels: tuple[str, ...], height: str, fold: tuple[str, ...], still: str, order: tuple[int, ...]) -> str:
    """A strip of panels by their widths, p1 from the left, folded on its scores in the given order."""
    scores, folds, names = [], [], ["p1: left of s1"]
    for i, kind in enumerate(fold, 1):
        scores.append(f"s{i}: {{across: x{i}, fold: {kind}}}")
        names.append(f"p{i + 1}: right of s{i}")
    for i in order:
        folds.append(f"s{i}: {180 if fold[i - 1] == 'valley' else -180}")
    sums = [f"x1: {panels[0]}"] + [f"x{i}: x{i - 1} + w{i}" for i in range(2, len(panels) + 1)]
    widths = [f"w{i}: {width}" for i, width in enumerate(panels, 1)]
    return f"""
measures: {{{', '.join(widths)}, {', '.join(sums)}}}
pieces:
  strip:
    paper: card
    size: [x{len(panels)}, {height}]
    scores: {{{', '.join(scores)}}}
    panels: {{{', '.join(names)}}}
poses: {{closed: {{still: {still}, folds: {{{', '.join(folds)}}}}}}}
"""


def test_a4_folded_twice() -> None:
    # ISO 216:2007 (S): A4 is 210 x 297, A6 105 x 148 within 1.5 mm; halving it twice gives 105 x 148.5
    made = flat(card_of("""
pieces:
  sheet:
    paper: card
    size: [210, 297]
    scores:
      first: {up: 148.5, fold: valley}
      low: {from: [105, 0], to: [105, 148.5], fold: valley}
      high: {from: [105, 148.5], to: [105, 297], fold: mountain}
    panels: {a: [1, 1], b: [200, 1], c: [1, 290], d: [200, 290]}
poses: {closed: {still: a, folds: {first: 180, low: 180, high: -180}}}
""", "mm"))
    assert (made.width, made.height) == exact(105, "148.5")
    assert abs(made.width - 105) <= Fraction("1.5") and abs(made.height - 148) <= Fraction("1.5")
    assert made.width <= 114 and made.height <= 162  # C6, ISO 269 (S)
    assert made.outline == ((Point(Z, Z), Point(Fraction(105), Z), Point(Fraction(105), Fraction("148.5")),
                             Point(Z, Fraction("148.5"))),)


@pytest.mark.parametrize(("panels", "unit", "height", "size"), [
    # letter paper is 8 1/2 x 11 in; thirds of 11 are 3 2/3
    pytest.param(("11 in / 3", "11 in / 3", "11 in / 3"), "inch", "8 1/2", ("11/3", "17/2"), id="letter in thirds"),
    # 3.6875 + 3.6875 + 3.625 = 11 (S)
    pytest.param(("3.6875", "3.6875", "3.625"), "inch", "8 1/2", ("59/16", "17/2"), id="letter, inner third short"),
    # A4 in thirds of 99 mm
    pytest.param(("99", "99", "99"), "mm", "210", (99, 210), id="A4 in thirds"),
    # 97 + 100 + 100 = 297 (S)
    pytest.param(("100", "100", "97"), "mm", "210", (100, 210), id="A4 to DL with a short inner panel"),
    # 4.3125, 4.3125, 4.21875, 4.15625 = 17 (S)
    pytest.param(("4.3125", "4.3125", "4.21875", "4.15625"), "inch", "8 1/2", ("69/16", "17/2"),
                 id="17 in roll fold of four"),
])
def test_published_roll_folds_close_to_their_widest_panel(
    panels: tuple[str, ...], unit: str, height: str, size: tuple[object, object],
) -> None:
    folds = ("valley",) * (len(panels) - 1)
    made = flat(card_of(_strip(panels, height, folds, "p1", tuple(range(len(folds), 0, -1))), unit))
    assert (made.width, made.height) == exact(*map(str, size))
    assert stack(made) == {3: ("p1", "p3", "p2"), 4: ("p1", "p3", "p4", "p2")}[len(panels)]


def test_a_roll_fold_with_its_panels_the_wrong_way_round_is_told() -> None:
    # the innermost panel must be the short one (S)
    assert names_of(_strip(("100", "97", "100"), "210", ("valley", "valley"), "p1", (2, 1)), "mm") == [
        "paper passes through paper"]


def test_a_four_panel_gate() -> None:
    # 4.28125 x 2 + 4.21875 x 2 = 17 (S): each door's two panels fold over each other, 1/16 in short
    widths = ("4.21875", "4.28125", "4.28125", "4.21875")
    made = flat(card_of(_strip(widths, "8 1/2", ("valley", "valley", "valley"), "p3", (1, 3, 2))))
    assert made.width == Fraction("4.28125")


def test_an_accordion_of_equal_panels() -> None:
    made = flat(card_of(_strip(("3", "3", "3", "3"), "5", ("valley", "mountain", "valley"), "p1", (1, 2, 3))))
    assert made.width == 3 and stack(made) == ("p1", "p2", "p3", "p4")
    assert [region.panel for region in made.seen] == ["p4"] and made.seen[0].face is Face.BACK
    assert [region.panel for region in made.hidden_side] == ["p1"] and made.hidden_side[0].face is Face.BACK


SIDE = """
pieces:
  base: {paper: card, size: [9, 6], scores: {s: {across: 4, fold: valley}}, panels: {a: left of s, b: right of s}}
poses: {closed: {POSE}}
"""


@pytest.mark.parametrize(("pose", "panel", "corners"), [
    # where the lower left and the lower right corner of the panel come
    pytest.param("still: a, folds: {}", "a", [(0, 0), (4, 0)], id="open"),
    pytest.param("folds: {}", "a", [(0, 0), (4, 0)], id="the larger panel is still unless said"),
    pytest.param("still: a, folds: {}, seen: back", "a", [(9, 0), (5, 0)], id="open, from behind, turned like a page"),
    pytest.param("still: a, folds: {}, turned: quarter clockwise", "a", [(0, 9), (0, 5)], id="turned clockwise"),
    pytest.param("still: a, folds: {}, turned: quarter anticlockwise", "a", [(6, 0), (6, 4)], id="anticlockwise"),
    pytest.param("still: a, folds: {}, turned: half", "a", [(9, 6), (5, 6)], id="turned half"),
    pytest.param("folds: {s: 180}", "a", [(4, 0), (0, 0)], id="folded on to the larger panel"),
    pytest.param("still: b, folds: {s: 180}", "a", [(4, 0), (0, 0)], id="folded on to b"),
    pytest.param("still: a, folds: {s: 180}", "a", [(1, 0), (5, 0)], id="b reaches out to the left"),
    pytest.param("still: b, folds: {s: 180}, seen: back", "a", [(1, 0), (5, 0)], id="folded, from behind"),
    pytest.param("still: b, folds: {s: 180}, seen: back, turned: quarter clockwise", "a", [(0, 4), (0, 0)],
                 id="folded, from behind, then turned"),
])
def test_how_the_card_is_held(pose: str, panel: str, corners: list[tuple[int, int]]) -> None:
    card = card_of(SIDE.replace("POSE", pose))
    made = flat(card)
    ring = card.panels[panel].ring
    assert [made.placements[panel].point(p) for p in ring[:2]] == [Point(*map(Fraction, p)) for p in corners]
    assert min(p.x for ring in made.outline for p in ring) == 0 == min(p.y for ring in made.outline for p in ring)


@pytest.mark.parametrize(("scores", "folds", "name"), [
    pytest.param("{across: 4, fold: valley}", "s: -180", "fold against its score", id="valley by a negative angle"),
    pytest.param("{across: 4, fold: mountain}", "s: 90", "fold against its score", id="mountain by a positive angle"),
])
def test_what_a_pose_may_not_ask(scores: str, folds: str, name: str) -> None:
    plan = SIDE.replace("{across: 4, fold: valley}", scores).replace("POSE", f"folds: {{{folds}}}")
    card, findings = built(plan)
    assert [finding.name for finding in findings] == [name]
    assert card is not None and not card.poses
    assert findings[0].mend is not None and ("-90" in findings[0].mend or "Write 180" in findings[0].mend)


def test_a_score_for_looks_never_folds() -> None:
    assert names_of("""
pieces: {base: {paper: card, size: [9, 6], scores: {s: {across: 4, fold: none}}}}
poses: {closed: {folds: {s: 180}}}
""") == ["fold on a score that never folds"]


def test_every_pose_is_worked_out_though_one_is_wrong() -> None:
    plan = SIDE.replace("{closed: {POSE}}", "{wrong: {folds: {s: -180}}, closed: {folds: {s: 180}}, open: {folds: {}}}")
    card, findings = built(plan)
    assert len(findings) == 1
    assert card is not None and [pose.name for pose in card.poses] == ["closed", "open"]
    assert card.closed is card.poses[0]
