"""A small recipe around the steps that a test is about."""

from fractions import Fraction
from textwrap import indent

from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.points import find_point
from foldproof.making.table import Making
from foldproof.making.work import work_with
from foldproof.recipe.actions import TablePoint
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
tools: {tools}
steps:
{steps}
"""


def one_step(actions: str, piece: str = "base", minutes: str | None = None) -> str:
    """A step whose actions are given one a line."""
    lines = "\n".join(f"      - {line}" for line in actions.strip().splitlines())
    time = f"    minutes: {minutes}\n" if minutes else ""
    return f"  - title: Work\n    piece: {piece}\n    text: Do it.\n{time}    do:\n{lines}\n"


def make(
    actions: str, *, scores: str = "spine: {across: 4, fold: valley}",
    panels: str = "{front: left of spine, rear: right of spine}", still: str = "rear",
    folds: str = "{spine: 180}", more: str = "", tools: str = "{trimmer: {}, scoring board: {}}",
    minutes: tuple[str, ...] = (),
) -> Making:
    """Carry out actions on a base 8 by 6 whose plan has one upright valley score, the spine, 4 from the left."""
    return carry_out(small_card(actions, scores, panels, still, folds, more, tools, minutes))


def small_card(actions: str, scores: str, panels: str, still: str, folds: str, more: str, tools: str,
               minutes: tuple[str, ...] = ()) -> Card:
    """The card of that plan and those steps, parted by lines with a tilde; its recipe must be readable."""
    parts = actions.split("~\n")
    steps = "".join(
        one_step(part, minutes=minutes[index] if minutes else None) for index, part in enumerate(parts))
    text = PLAN.format(
        scores=indent(scores, "      "), panels=panels, still=still, folds=folds, more=more, tools=tools,
        steps=steps)
    reading = read_text(text, "test.yaml")
    assert reading.recipe is not None, reading.findings
    assert not reading.findings, reading.findings
    card, findings = build_card(reading.recipe)
    assert card is not None, findings
    return card


def made_points(actions: str, point: str, scores: str | None) -> tuple[Fraction | int, Fraction | int] | str:
    """The point of that name after the actions, in the base's own frame; or why there is none."""
    panels = "{front: left of spine, rear: right of spine}" if scores is None else "{front: [1, 5], rear: [7, 1]}"
    card = small_card(
        actions, scores or "spine: {across: 4, fold: valley}", panels, "rear", "{spine: 180}", "",
        "{trimmer: {}, scoring board: {}}")
    table = carry_out(card).end
    place = card.recipe.steps[0].place
    found = find_point(card, table, work_with(card, table, "base"), TablePoint(name=point, place=place))
    return found if isinstance(found, str) else (found.x, found.y)
