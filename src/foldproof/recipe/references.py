"""References to measures in prose: {band width}."""

import re

from foldproof.findings.nearest import nearest
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.writing import with_unit, write_number
from foldproof.recipe.desk import Desk
from foldproof.recipe.pinpoint import place_in
from foldproof.recipe.records import Recipe, Text

REFERENCE = re.compile(r"\{([^{}]*)\}")
"""A name in braces."""


MOST_TOLD = 20
"""References of one passage that are told one by one."""


def fill(text: str, recipe: Recipe) -> str:
    """Put the written value, with its unit, in the place of each reference. One that names no measure stays."""
    measures = {measure.name.value: measure.value for measure in recipe.measures}

    def written(found: re.Match[str]) -> str:
        measure = measures.get(_name(found))
        return found.group() if measure is None else write(measure, recipe.unit)

    return REFERENCE.sub(written, text)


def write(quantity: Quantity, unit: Unit) -> str:
    """A measure as prose says it."""
    if quantity.kind is Kind.LENGTH:
        return with_unit(quantity.value, unit)
    if quantity.witness:
        return quantity.written
    number = write_number(quantity.value)
    if quantity.kind is Kind.MONEY:
        return f"{number} {quantity.currency}" if quantity.currency else number
    return f"{number}{ {Kind.ANGLE: ' degrees', Kind.TIME: ' s'}.get(quantity.kind, '') }"


def references(text: str) -> tuple[str, ...]:
    """The names that a text refers to, in order of mention."""
    return tuple(_name(found) for found in REFERENCE.finditer(text))


def check_references(text: Text, desk: Desk) -> None:
    """Report references that name no measure, each name once."""
    told: set[str] = set()
    for found in REFERENCE.finditer(text.value):
        name = _name(found)
        if name in desk.measures or name in desk.unreadable or name in told or len(told) == MOST_TOLD:
            continue
        told.add(name)
        guess = nearest(name, desk.measures)
        desk.error(
            "unknown name",
            f"`{{{name}}}`: no measure is named `{name}`." if name else "`{}` names no measure.",
            place_in(text, found.start(), found.end(), desk.texts),
            f"Did you mean `{{{guess}}}`?"
            if guess
            else "Words in braces are filled in with a measure; write a measure's name, or other brackets.",
        )


def _name(found: re.Match[str]) -> str:
    return " ".join(found.group(1).split())
