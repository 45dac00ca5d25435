"""A small card for the film: a base that is cut, scored and folded, a mat that is cut, stamped and glued on."""

from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.recipe.reader import Reading, read_text

TEXT = """\
title: Small film
unit: inch
finished: {{size: [4, 5]}}
papers:
  plain: {{kind: cardstock, sheet: [8 1/2, 11]}}
pieces:
  base:
    paper: plain
    size: [8, 5]
    scores: {{spine: {{across: 4, fold: valley}}}}
    panels: {{rear: left of spine, cover: right of spine}}
layers:
  mat: {{paper: plain, size: [3, 2], upon: cover back, at: {{centred: both}}, adhesive: wet glue}}
poses:
  closed: {{still: rear, folds: {{spine: 180}}}}
  open: {{still: rear, folds: {{}}}}
supplies: {{wet glue: {{kind: wet glue, dries: 5 min}}, ink: {{kind: ink}}}}
tools: {{trimmer: {{}}, scoring board: {{}}, stamp: {{}}}}
{filming}steps:
  - title: Cut the base
    piece: base
    tools: [trimmer]
    do: [cut: [8, 5]]
    text: Cut the base 8 x 5 in.
    film: {cut_base}
  - title: Score the base
    piece: base
    tools: [scoring board]
    do: [turn over: book page, lay: long, score: 4, turn over: book page]
    text: Score it at 4 in.
    film: {score}
  - title: Cut the mat
    piece: mat
    tools: [trimmer]
    do: [cut: [3, 2]]
    text: Cut the mat 3 x 2 in.
    film: {cut_mat}
  - title: Stamp the mat
    piece: mat
    tools: [stamp]
    supplies: [ink]
    do: [stamp: {{upon: mat front, words: Hello}}]
    text: Stamp it.
    film: {stamp}
  - title: Fold and glue
    piece: base
    supplies: [wet glue]
    do: [fold: {{score: spine, fold: valley}}, attach: {{what: mat, centred: both, with: wet glue}}, dry: 5 min]
    text: Fold it, glue the mat in the middle, and let it dry 5 min.
    film: {glue}
"""
USUAL = {
    "filming": "", "cut_base": "overhead wide", "score": "overhead", "cut_mat": "overhead wide",
    "stamp": "overhead close", "glue": "overhead",
}


def read_film(**changes: str) -> Reading:
    """The recipe read, with other `film` keys for its steps, or a part `filming: {...}`."""
    parts = {**USUAL, **changes}
    if parts["filming"]:
        parts["filming"] = f"filming: {parts['filming']}\n"
    return read_text(TEXT.format(**parts), "film.yaml")


def small_film(**changes: str) -> tuple[Card, Making]:
    """The card and its making; the recipe must be sound."""
    reading = read_film(**changes)
    assert reading.recipe is not None and reading.findings == (), reading.findings
    card, findings = build_card(reading.recipe)
    assert card is not None and findings == (), findings
    making = carry_out(card)
    assert making.findings == (), making.findings
    return card, making
