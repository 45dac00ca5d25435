"""A small recipe around the steps that a test is about."""

from textwrap import indent

from foldproof.folding.build import build_card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.recipe.reader import read_text

PLAN = """\
title: Test card
unit: inch
finished: {{size: [4, 6]}}
papers:
  plain: {{kind: cardstock, sheet: [12, 12]}}
pieces:
  base:
    paper: plain
    size: [8, 6]
    scores:
{scores}
    panels: {panels}
{more}
poses:
  closed: {{still: {still}, folds: {folds}}}
supplies:
  glue: {{kind: wet glue, dries: 5 min}}
tools:
  trimmer: {{}}
steps:
{steps}
"""


def one_step(actions: str, piece: str = "base") -> str:
    """A step whose actions are given one a line."""
    lines = "\n".join(f"      - {line}" for line in actions.strip().splitlines())
    return f"  - title: Work\n    piece: {piece}\n    text: Do it.\n    do:\n{lines}\n"


def make(
    actions: str, *, scores: str = "spine: {across: 4, fold: valley}",
    panels: str = "{front: left of spine, rear: right of spine}", still: str = "rear",
    folds: str = "{spine: 180}", more: str = "",
) -> Making:
    """Carry out actions on a base 8 by 6 whose plan has one upright valley score, the spine, 4 from the left."""
    text = PLAN.format(
        scores=indent(scores, "      "), panels=panels, still=still, folds=folds, more=more, steps=one_step(actions))
    reading = read_text(text, "test.yaml")
    assert reading.recipe is not None, reading.findings
    assert not reading.findings, reading.findings
    card, findings = build_card(reading.recipe)
    assert card is not None, findings
    return carry_out(card)
