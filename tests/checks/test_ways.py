"""What is told of the way from pose to pose."""

import pytest
from recipes_for_checks import found_in

from foldproof.folding import motion

ON_THE_WAY = ("paper in the way", "way that does not stay closed", "way not looked at to its end")

FRAME = """\
title: Small trial
unit: inch
finished: {size: SIZE, pose: POSE}
papers:
  slate: {kind: cardstock, thickness: 0.011 in}
PLAN
tools:
  trimmer: {}
  scoring board: {}
steps:
  - title: Begin
    do: [{note: lay everything ready}]
    text: Lay everything ready.
"""

ROLL = FRAME.replace("SIZE", "[3, 4]").replace("POSE", "closed").replace("PLAN", """\
pieces:
  strip:
    paper: slate
    size: [9, 4]
    scores: {inner: {across: 6, fold: valley}, outer: {across: 3, fold: valley}}
    panels: {cover: left of outer, middle: between outer and inner, flap: right of inner}
poses:
  closed: {still: middle, folds: {inner: 180, outer: 180}}
  open: {still: middle, folds: {}, first: [NAME]}
opening: [closed, open]
""")

MAP = FRAME.replace("SIZE", "[4, 4]").replace("POSE", "closed").replace("PLAN", """\
pieces:
  sheet:
    paper: slate
    size: [8, 8]
    scores:
      half: {up: 4, fold: valley}
      lower: {from: [4, 0], to: [4, 4], fold: valley}
      upper: {from: [4, 4], to: [4, 8], fold: mountain}
    panels: {one: [1, 1], two: [7, 1], three: [1, 7], four: [7, 7]}
poses:
  closed: {still: one, folds: {half: 180, lower: 180, upper: -180}}
  open: {still: one, folds: {}, first: [NAME]}
opening: [closed, open]
""")


def told(recipe: str) -> list[str]:
    return [finding.name for finding in found_in(recipe) if finding.name in ON_THE_WAY]


def test_the_covered_flap_cannot_come_first() -> None:
    (finding,) = (f for f in found_in(ROLL.replace("NAME", "inner")) if f.name == "paper in the way")
    for words in ("cover and flap", "inner at 1", "5/32 in of travel"):
        assert words in finding.message
    assert finding.place is not None and "opening" in ROLL.splitlines()[finding.place.line - 1]
    assert told(ROLL.replace("NAME", "outer")) == []
    assert told(ROLL.replace(", first: [NAME]", "")) == []


def test_a_map_opens_across_its_last_fold_only() -> None:
    # folded in half and in half again, it opens along the last fold, whose two halves turn opposite ways, or it tears
    assert told(MAP.replace("NAME", "half")) == ["way that does not stay closed"]
    assert told(MAP.replace(", first: [NAME]", "")) == []
    assert told(MAP.replace("[NAME]", "[lower, upper]")) == []


def test_a_way_that_is_too_long_to_look_at_is_told_as_that(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(motion, "MOST_LOOKS", 20)
    anew = ROLL.replace("Small trial", "Another")  # what was looked for before is remembered
    assert told(anew.replace("NAME", "outer")) == ["way not looked at to its end"]
