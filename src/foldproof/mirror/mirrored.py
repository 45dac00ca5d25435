"""A whole recipe for the mirrored card."""

from dataclasses import replace

from foldproof.checks.prose import bind_card
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Unit
from foldproof.mirror.directions import changed_directions
from foldproof.mirror.hands import mirrored_action
from foldproof.mirror.plan import mirrored_join, mirrored_layer, mirrored_piece
from foldproof.mirror.words import mirrored_words
from foldproof.recipe.changing_over import changed_over
from foldproof.recipe.records import Recipe
from foldproof.recipe.text import Text

SUFFIX = "-mirrored"
"""Added to the name of the output folder."""
ADDED = " (mirrored)"
"""Added to the title."""


def mirrored(card: Card, making: Making) -> Recipe:
    """The recipe of the mirrored card, from one that is sound; to be folded, made and checked like any other."""
    recipe = card.recipe
    bindings = bind_card(card)
    steps = tuple(
        mirrored_words(
            made.spec,
            replace(changed_over(made.spec), actions=tuple(mirrored_action(card, done) for done in made.done)),
            binding, recipe.unit)
        for made, binding in zip(making.steps, bindings, strict=True))
    return replace(
        changed_over(recipe), file=recipe.file, name=recipe.name + SUFFIX,
        title=replace(recipe.title, value=recipe.title.value + ADDED),
        summary=_reworded(recipe.summary, recipe.unit), skill=recipe.skill, picture=None,
        measures=recipe.measures, papers=recipe.papers, supplies=recipe.supplies, tools=recipe.tools,
        pieces=tuple(mirrored_piece(card, spec) for spec in recipe.pieces),
        joins=tuple(mirrored_join(card, spec) for spec in recipe.joins),
        layers=tuple(mirrored_layer(card, spec) for spec in recipe.layers),
        steps=steps)


def _reworded(text: Text | None, unit: Unit) -> Text | None:
    return None if text is None else replace(text, value=changed_directions(text.value, unit))
