"""Patterned paper: triangles from one rectangle, and cards that are turned to be read when they open."""

import pytest
from recipes_for_checks import found_in, proved

TWO_FLAPS = """\
title: Two flaps
finished: {{size: [4, 4]}}
papers:
  plain: {{kind: cardstock, weight: 80 lb cover, sheet: [12, 12]}}
  waves: {{kind: patterned paper, weight: 70 lb text, sheet: [12, 12], printed: one face, pattern: upright}}
pieces:
  base: {{paper: plain, size: [4, 4]}}
layers:
  {first}
  {second}
poses:
  closed: {{still: base, folds: {{}}}}
supplies: {{tape: {{kind: tape}}}}
tools: {{trimmer: {{}}}}
steps:
  - title: Cut
    tools: [trimmer]
    do:
      - {{cut: [4, 4], piece: base}}
      - {{cut: [2, 2], piece: first}}
      - {{cut: {{from: {start}, to: {end}, keep: {keep}, other: second}}, piece: first}}
      - {{attach: {{what: first, {first_at}}}}}
      - {{attach: {{what: second, {second_at}}}}}
    text: Cut a base 4 x 4 in and a square 2 x 2 in. Cut it along its diagonal. Tape both on, {say}.
"""


def triangle(name: str, corner: str, at: str) -> str:
    return (f"{name}: {{paper: waves, triangle: {{size: [2, 2], right angle: {corner}}}, upon: base front, "
            f"at: {{{at}}}, adhesive: tape}}")


def flaps(*, corners: tuple[str, str], cut: tuple[str, str], turned: tuple[str, str] = ("none", "none")) -> str:
    """The first triangle at the lower left of the base, the second at the upper right."""
    firsts = [f"left: 0, bottom: 0, turned: {turned[0]}", f"right: 0, top: 0, turned: {turned[1]}"]
    return TWO_FLAPS.format(
        first=triangle("first", corners[0], firsts[0]), second=triangle("second", corners[1], firsts[1]),
        start=cut[0], end=cut[1], keep=corners[0], first_at=firsts[0], second_at=firsts[1], say="flush in the corners")


FALLING, RISING = ("top left", "bottom right"), ("top right", "bottom left")


@pytest.mark.parametrize("recipe", [
    pytest.param(flaps(corners=("bottom left", "top right"), cut=FALLING), id="from upper left to lower right"),
    pytest.param(flaps(corners=("bottom right", "top left"), cut=RISING), id="from upper right to lower left"),
])
def test_both_triangles_stand_upright_from_the_right_diagonal(recipe: str) -> None:
    assert proved(recipe)[1].findings == ()
    assert [finding.name for finding in found_in(recipe)] == []


def test_the_diagonal_is_told_as_one_looks_at_the_printed_face() -> None:
    # both are wanted with their right angles at lower right and upper left, and cut along the other diagonal
    recipe = flaps(corners=("bottom left", "top right"), cut=FALLING, turned=("quarter anticlockwise",) * 2)
    found = found_in(recipe)
    assert [finding.name for finding in found] == ["pattern not upright"] * 2
    assert found[0].mend == (
        "Cut the rectangle from upper right to lower left as you look at the printed face: then the first is the half "
        "with its right angle at the lower right, the second is the other half, and both stand upright unturned.")


def test_triangles_that_one_rectangle_cannot_give() -> None:
    recipe = flaps(corners=("bottom left", "top right"), cut=FALLING, turned=("none", "half"))
    [found] = found_in(recipe)
    assert found.name == "pattern not upright" and "stands on its head" in found.message
    assert found.mend is not None and found.mend.startswith(
        "The second and the first cannot both stand upright from one rectangle.")
    assert "from upper left to lower right as you look at the printed face" in found.mend


def test_steps_that_cut_the_other_diagonal_are_told_the_right_one() -> None:
    recipe = flaps(corners=("bottom left", "top right"), cut=FALLING).replace(
        "from: top left, to: bottom right", "from: top right, to: bottom left").replace(
        "keep: bottom left, other", "keep: bottom right, other")
    findings = proved(recipe)[1].findings
    assert {finding.name for finding in findings} == {"cut to another size than the plan"}
    assert findings[0].mend is not None and (
        "cut from upper left to lower right as you look at the printed face, and the half with the lower left corner "
        "is kept") in findings[0].mend


TOP_FOLD = """\
title: Window
finished: {{size: [5, 7]}}
papers:
  plain: {{kind: cardstock, weight: 80 lb cover, sheet: [12, 18]}}
  waves: {{kind: patterned paper, weight: 70 lb text, sheet: [12, 12], printed: one face, pattern: upright}}
pieces:
  base:
    paper: plain
    size: [5, 14]
    scores:
      spine: {{up: 7, fold: valley}}
    panels: {{page: below spine, cover: above spine}}
layers:
  cover mat: {{paper: waves, size: [4, 6], upon: cover back, at: {{centred: both, turned: {cover}}}, adhesive: tape}}
  page mat: {{paper: waves, size: {size}, upon: page front, at: {{centred: both, turned: {page}}}, adhesive: tape}}
poses:
  closed: {{still: page, folds: {{spine: 180}}}}
  open: {{still: page, folds: {{}}, turned: {opened}}}
opening: [closed, open]
supplies: {{tape: {{kind: tape}}}}
tools: {{trimmer: {{}}, scoring board: {{}}}}
steps:
  - title: Make it
    tools: [trimmer, scoring board]
    do:
      - {{cut: [5, 14], piece: base}}
      - {{turn over: top to bottom, piece: base}}
      - {{lay: {{edge: left, up: back}}, piece: base}}
      - {{score: 7, piece: base}}
      - {{turn over: top to bottom, piece: base}}
      - {before}
      - {{stamp: {{upon: cover front, words: Look out}}}}
      - {{cut: {size}, piece: page mat}}
      - {{cut: [4, 6], piece: cover mat}}
      - {{attach: {{what: page mat, centred: both, turned: {page}}}}}
      - {{fold: {{score: spine, fold: valley}}}}
      - {{attach: {{what: cover mat, centred: both, turned: {cover}}}}}
    text: Cut, score at 7 in, stamp, fold, tape.
"""


def window(
    *, cover: str = "half", page: str = "quarter clockwise", size: str = "[6, 4]",
    opened: str = "quarter anticlockwise", before: str = "note: Keep it so.",
) -> str:
    """A card that stands upright closed, its fold at the top; opened, the reader turns it to lie landscape."""
    return TOP_FOLD.format(cover=cover, page=page, size=size, opened=opened, before=before)


def told(recipe: str) -> list[tuple[str, str]]:
    assert proved(recipe)[1].findings == ()
    return [(finding.name, finding.message) for finding in found_in(recipe) if "upright" in finding.name]


def test_a_card_that_opens_the_other_way_round_has_its_inside_turned() -> None:
    assert told(window()) == []


@pytest.mark.parametrize(("recipe", "name", "says"), [
    pytest.param(window(page="none", size="[4, 6]"), "pattern not upright", "top to the left", id="inside not turned"),
    pytest.param(window(page="quarter anticlockwise"), "pattern not upright", "on its head", id="turned the other way"),
    pytest.param(window(cover="none"), "pattern not upright", "on its head", id="cover not turned over the fold"),
    pytest.param(window(opened="none"), "pattern not upright", "top to the right", id="opened as it was closed"),
    pytest.param(window(before="{turn: quarter clockwise, piece: base}"), "words not upright", "top to the left",
                 id="stamped as it stands closed"),
    pytest.param(window(before="{turn: half, piece: base}"), "words not upright", "on its head",
                 id="stamped on its head"),
])
def test_what_the_reader_would_see_turned(recipe: str, name: str, says: str) -> None:
    found = told(recipe)
    assert name in [each[0] for each in found]
    assert any(says in message for each, message in found if each == name)
