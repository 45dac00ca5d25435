"""Any record of a recipe with its lengths changed one by one."""

from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction
from typing import Any, TypeVar, cast

from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.recipe.records import Recipe

Record = TypeVar("Record")
Change = Callable[[Quantity], Quantity]


def with_lengths(record: Record, change: Change) -> Record:
    """A record in which each length is what `change` makes of it; all else stays."""
    return cast(Record, _changed(record, change))


def lengths_of(record: object) -> Iterator[Quantity]:
    """Every length in a record, in the order of its fields."""
    if isinstance(record, Quantity):
        if record.kind is Kind.LENGTH:
            yield record
    elif isinstance(record, tuple):
        for part in record:
            yield from lengths_of(part)
    elif is_dataclass(record):
        for each in fields(record):
            yield from lengths_of(getattr(record, each.name))


def in_unit(recipe: Recipe, unit: Unit) -> Recipe:
    """The same recipe with every length in another unit, exact: a large fraction of a millimetre where need be."""
    scale = recipe.unit.millimetres / unit.millimetres
    return replace(with_lengths(recipe, lambda one: replace(one, value=one.value * scale)), unit=unit)


def at(quantity: Quantity, value: Fraction, written: str) -> Quantity:
    """A length with another value and its text."""
    return replace(quantity, value=value, written=written)


def _changed(thing: Any, change: Change) -> Any:
    match thing:
        case Quantity():
            return change(thing) if thing.kind is Kind.LENGTH else thing
        case tuple():
            return tuple(_changed(part, change) for part in thing)
    if not is_dataclass(thing) or isinstance(thing, type):
        return thing
    return replace(thing, **{each.name: _changed(getattr(thing, each.name), change) for each in fields(thing)})
