"""Small cards for the class: a lesson from a few lines of steps and a class part."""

import re
from fractions import Fraction

from foldproof.classroom.class_plan import ClassPlan, plan_class
from foldproof.classroom.lesson import Heads, Lesson, Wanted
from foldproof.classroom.own_files import DeskProfile, Stock
from foldproof.findings.finding import Finding, has_errors
from foldproof.folding.build import build_card
from foldproof.making.carry_out import carry_out
from foldproof.recipe.reader import read_text

HEAD = """title: {title}
unit: inch
finished: {{size: [4, 6]{envelope}}}
papers: {{plain: {{kind: cardstock, weight: 80 lb cover, thickness: 0.01 in, sheet: [8 1/2, 11]}}}}
pieces:
  base:
    paper: plain
    size: [8, 6]
    scores: {{spine: {{across: 4, fold: valley}}}}
    panels: {{back: left of spine, front: right of spine}}
layers:
  mat: {{paper: plain, size: [3 1/2, 5 1/2], upon: back front, at: {{centred: both}}, adhesive: glue}}
{layers}poses:
  closed: {{still: back, folds: {{spine: 180}}}}
supplies:
  glue: {{kind: wet glue, amount: a few dots}}
  ribbon: {{kind: ribbon{ribbon}}}
  black ink: {{kind: ink, amount: one pad}}
tools: {{trimmer: {{}}, scoring board: {{}}}}
steps:
{steps}
"""
STEPS = """  - {title: Cut the base, piece: base, tools: [trimmer], minutes: 2, do: [cut: [8, 6]]}
  - {title: Cut the mat, tools: [trimmer], minutes: 1, do: [{cut: [3 1/2, 5 1/2], piece: mat}]}
  - {title: Score it, piece: base, tools: [scoring board], minutes: 4, do: [lay: long, score: 4]}
  - title: Glue the mat
    piece: base
    supplies: [glue]
    minutes: 7
    do: [attach: {what: mat, border: 1/4, with: glue}, dry: 5 min]
  - {title: Fold it, piece: base, minutes: 2, do: [fold: {score: spine, fold: valley}]}
"""

BARE_SHELF, PLAIN_DESK = Stock(), DeskProfile()


def lesson(
    class_part: str = "",
    *,
    steps: str = STEPS,
    layers: str = "",
    ribbon: str = ", amount: one length",
    envelope: str = "",
    title: str = "Small card",
) -> Lesson:
    """A card 4 x 6, folded from 8 x 6, with one mat; more of each where it is given."""
    steps = re.sub(r"\{title: ([^,]+),", r"{title: \1, text: Do it.,", steps)
    steps = re.sub(r"- title: (.+)\n", r"- title: \1\n    text: Do it.\n", steps)
    text = HEAD.format(title=title, layers=layers, steps=steps, ribbon=ribbon, envelope=envelope)
    if class_part:
        text += f"class:\n{class_part}\n"
    read = read_text(text, "small.yaml")
    assert not has_errors(read.findings), read.findings
    assert read.recipe is not None
    card, faults = build_card(read.recipe)
    assert card is not None and not has_errors(faults), faults
    return Lesson(card=card, making=carry_out(card))


def planned(
    *lessons: Lesson,
    people: int | None = 12,
    spares: int | None = 0,
    stock: Stock = BARE_SHELF,
    desk: DeskProfile = PLAIN_DESK,
) -> tuple[ClassPlan, tuple[Finding, ...]]:
    """The plan of a class that can be planned."""
    plan, findings = plan_class(
        lessons, Wanted(people=people, spares=spares), stock=stock, desk=desk, seconds=2.0
    )
    assert plan is not None, findings
    return plan, findings


def heads(people: int) -> Heads:
    """So many, no spares, no sample."""
    return Heads(people=people, spares=0, sample=False)


def minutes(number: int | Fraction) -> Fraction:
    """In seconds."""
    return Fraction(number) * 60
