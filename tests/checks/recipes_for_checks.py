"""Small recipes for the checks, and what is found in them.

A comment `#! name of a finding` on a line of a recipe says that it is expected there.
"""

import re
from collections.abc import Iterable
from functools import cache

from foldproof.checks.catalogue import run_checks
from foldproof.findings.finding import Finding, has_errors
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.recipe.reader import read_text

GATE = """\
title: Small gate
unit: inch
measures:
  width: 4 1/4
  height: 5 1/2
  door: width / 2
finished:
  size: [4 1/4, 5 1/2]
  envelope: A2
  meets:
    - panels: [left door, right door]
      gap: 0
papers:
  slate:
    kind: cardstock
    weight: 80 lb cover
    thickness: 0.011 in
    sheet: [8 1/2, 11]
  waves:
    kind: patterned paper
    weight: 70 lb text
    thickness: 0.005 in
    sheet: [12, 12]
    printed: one face
    pattern: upright
pieces:
  base:
    paper: slate
    size: [2 * width, height]
    scores:
      left hinge: {across: door, fold: valley}
      right hinge: {across: 2 * width - door, fold: valley}
    panels:
      left door: left of left hinge
      middle: between left hinge and right hinge
      right door: right of right hinge
layers:
  left mat:
    paper: waves
    size: [1 7/8, 5 1/4]
    upon: left door back
    at: {centred: both}
    adhesive: wet glue
  inside mat:
    paper: slate
    size: [4, 5 1/4]
    upon: middle front
    at: {centred: both}
    adhesive: wet glue
  band:
    paper: slate
    size: [3 1/2, 1 3/4]
    upon: left mat front
    at: {left: 1/4, top: 1 3/4}
    overhangs: [right door]
    adhesive: wet glue
poses:
  closed:
    still: middle
    folds: {right hinge: 180, left hinge: 180}
  open:
    still: middle
    folds: {}
opening: [closed, open]
supplies:
  wet glue: {kind: wet glue, dries: 5 min}
tools:
  trimmer: {}
  scoring board: {}
  ruler: {basic: true}
steps:
  - title: Cut
    tools: [trimmer]
    do:
      - {cut: [8 1/2, 5 1/2], piece: base}
      - {cut: [1 7/8, 5 1/4], piece: left mat}
      - {cut: [4, 5 1/4], piece: inside mat}
      - {cut: [3 1/2, 1 3/4], piece: band}
    text: Cut the base 8 1/2 x 5 1/2 in, the left mat 1 7/8 x 5 1/4 in, the inside mat 4 x 5 1/4 in, the band 3 1/2 x 1 3/4 in.
    minutes: 5
  - title: Score the doors
    piece: base
    tools: [scoring board]
    do:
      - turn over: book page
      - lay: {edge: long, up: back}
      - score: 2 1/8
      - turn: half
      - score: 2 1/8
      - turn over: top to bottom
    text: Turn the base over. Score at 2 1/8 in. Turn it half round, keep the same face up, score at 2 1/8 in again. Turn it over.
  - title: Glue
    piece: base
    do:
      - attach: {what: inside mat, border: 1/8}
      - fold: {score: right hinge, fold: valley}
      - fold: {score: left hinge, fold: valley}
      - measure: [4 1/4, 5 1/2]
      - attach: {what: left mat, border: 1/8}
      - attach: {what: band, left: 1/4, top: 1 3/4}
      - dry: 5 min
    text: >
      Glue the inside mat between the folds with a border of 1/8 in. Fold the doors in. The card measures 4 1/4 x 5 1/2 in.
      Glue the left mat on the left door with a border of 1/8 in, and the band on it, 1/4 in from its left edge and 1 3/4 in
      below its top edge. Wait 5 minutes.
"""  # noqa: E501 (a recipe as an author writes it)
"""A sound gate fold with layers: no finding of any kind is to be made of it."""


def changed(*changes: tuple[str, str], recipe: str = GATE) -> str:
    """A recipe with some of its text replaced; each old text must stand in it exactly once."""
    for old, new in changes:
        assert recipe.count(old) == 1, f"{recipe.count(old)} times: {old}"
        recipe = recipe.replace(old, new)
    return recipe


@cache
def proved(recipe: str) -> tuple[Card, Making]:
    """The card and its making; the recipe itself must be readable."""
    reading = read_text(recipe, "small.yaml")
    assert reading.recipe is not None and not has_errors(reading.findings), reading.findings
    card, findings = build_card(reading.recipe)
    assert card is not None, findings
    return card, carry_out(card)


def found_in(recipe: str) -> tuple[Finding, ...]:
    """What the checks find, without the findings of the making."""
    card, making = proved(recipe)
    return run_checks(card, making)[len(making.findings):]


def seen(findings: Iterable[Finding]) -> list[str]:
    """Findings as lines `12: name`, in order of place."""
    return sorted(f"{finding.place.line if finding.place else 0:03}: {finding.name}" for finding in findings)


def expected(recipe: str) -> list[str]:
    """The comments of a recipe in the same form."""
    return sorted(
        f"{number:03}: {name.strip()}"
        for number, line in enumerate(recipe.splitlines(), 1)
        for name in re.findall(r"#! ([^#]+)", line)
    )

