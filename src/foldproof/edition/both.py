"""Inches with millimetres in brackets, to a tenth, or millimetres with inches: the same card, told in both units."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from foldproof.checks.binding import Bound, Sense
from foldproof.checks.prose import bind_step
from foldproof.folding.card import Card
from foldproof.measures.quantity import Kind, Unit
from foldproof.measures.spotted import Sense as Spot
from foldproof.measures.spotting import spot_numbers
from foldproof.measures.units import SHORT_NAME
from foldproof.measures.writing import in_inches, in_metric
from foldproof.recipe.records import Recipe, StepSpec
from foldproof.recipe.references import fill
from foldproof.recipe.text import Text
from foldproof.refit.numbers import Change, applied

_RULER = 16
"""Inches in brackets are given to a sixteenth."""


def in_both(card: Card) -> Recipe:
    """The recipe whose steps say each length in both units, in text and tip; what is spoken stays in its own."""
    return replace(card.recipe, steps=tuple(_step(card, spec) for spec in card.recipe.steps))


def both_units(text: str, unit: Unit) -> str:
    """A line that the program made, with the other unit after each length or size that names its unit."""
    sizes: list[list[tuple[int, Fraction]]] = []
    for spot in spot_numbers(text):
        if spot.restates and sizes:
            if spot.part < 2:
                sizes.pop()
            continue
        if spot.sense is not Spot.LENGTH or spot.unit != SHORT_NAME[unit] or not spot.value:
            continue
        one = spot.end, spot.value
        if spot.part > 1 and sizes:
            sizes[-1].append(one)
        else:
            sizes.append([one])
    return applied(text, (
        Change(start=size[-1][0], end=size[-1][0], said=f" ({other_unit([value for _, value in size], unit)})")
        for size in sizes))


def other_unit(values: Sequence[Fraction], unit: Unit) -> str:
    """A length or a size in the other unit: `54.0 mm`, `108.0 × 139.7 mm`, `about 4 1/8 in`."""
    if unit is Unit.INCH:
        said, word = [in_metric(value, unit) for value in values], " mm"
    else:
        said, word = [in_inches(value, unit, _RULER) for value in values], " in"
    said = [said[0], *(one.removeprefix("about ") for one in said[1:])]
    return " × ".join([*(one.removesuffix(word) for one in said[:-1]), said[-1]])


def _step(card: Card, spec: StepSpec) -> StepSpec:
    spec = replace(spec, text=_filled(card, spec.text), tip=_filled(card, spec.tip) if spec.tip else None)
    bound = {passage.name: passage.bound for passage in bind_step(card, spec).passages}
    return replace(
        spec, text=_told(spec.text, bound["text"], card.recipe.unit),
        tip=_told(spec.tip, bound["tip"], card.recipe.unit) if spec.tip is not None else None)


def _filled(card: Card, text: Text) -> Text:
    return replace(text, value=fill(text.value, card.recipe))


def _told(text: Text, bound: Sequence[Bound], unit: Unit) -> Text:
    """A passage with the other unit after each length, after the last one of a size; one that is converted stays."""
    converted = {one.of for one in bound if one.sense is Sense.CONVERSION}
    sizes: list[list[Bound]] = []
    for one in bound:
        if one.mention.kind is not Kind.LENGTH or one.sense is Sense.CONVERSION or not one.mention.value:
            continue
        if one.mention.joined and sizes:
            sizes[-1].append(one)
        else:
            sizes.append([one])
    plain = [size for size in sizes if not any(one.mention in converted for one in size)]
    return replace(text, value=applied(text.value, (
        Change(start=size[-1].mention.end, end=size[-1].mention.end,
               said=f" ({other_unit([one.mention.value for one in size], unit)})")
        for size in plain)))
