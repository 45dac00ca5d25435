"""A recipe without its prose: what is drawn and reckoned from it is the same whatever words its author chooses.

The records keep their places only in order, for a longer word moves all that follows it: the first place of the recipe
is line 1, the next is line 2. So the recipes before and after a change of words are equal.
"""

from dataclasses import replace
from typing import Any

from foldproof.findings.finding import Place
from foldproof.recipe.parts import every, fields_of
from foldproof.recipe.records import Recipe, StepSpec
from foldproof.recipe.text import Text


def wordless(recipe: Recipe) -> Recipe:
    """The recipe with no word that only a reader or a listener of its documents meets.

    What stays is the plan, the names, what hands do in each step, and what the card is made of.
    """
    bare = replace(
        recipe, file="", title=_blank(recipe.title), summary=None, skill=None, picture=None, picture_shows=None,
        published=None, theme=None, handouts=(), class_part=None, filming=None, metric=None, inches=None, texts={},
        steps=tuple(map(_step, recipe.steps)), tools=tuple(replace(tool, caution=None) for tool in recipe.tools),
        supplies=tuple(replace(supply, amount=None) for supply in recipe.supplies))
    order = sorted(set(every(Place, bare)), key=lambda place: (place.file, place.line, place.column, place.length))
    found: Recipe = _placed(bare, {
        place: Place(file="", line=number, column=1) for number, place in enumerate(order, start=1)})
    return found


def _step(step: StepSpec) -> StepSpec:
    return replace(
        step, title=_blank(step.title), text=_blank(step.text), say=None, tip=None, caution=None, minutes=None,
        shots=(), picture=None, picture_shows=None, corrections=())


def _blank(text: Text) -> Text:
    return replace(text, value="")


def _placed(value: Any, now: dict[Place, Place]) -> Any:
    if isinstance(value, Place):
        return now[value]
    if isinstance(value, tuple):
        return tuple(_placed(part, now) for part in value)
    fields = fields_of(value)
    return replace(value, **{name: _placed(getattr(value, name), now) for name in fields}) if fields else value
