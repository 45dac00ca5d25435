"""Everything of one kind in a record, however deep it lies."""

from collections.abc import Iterator
from typing import TypeVar

Part = TypeVar("Part")


def fields_of(thing: object) -> tuple[str, ...]:
    """The names of a record's fields; none where it is no record."""
    return tuple(getattr(thing, "__dataclass_fields__", ()))


def every(kind: type[Part], thing: object) -> Iterator[Part]:
    """Every part of a kind in a record or in a row of them, in the order of the fields."""
    if isinstance(thing, kind):
        yield thing
    elif isinstance(thing, tuple):
        for one in thing:
            yield from every(kind, one)
    else:
        for name in fields_of(thing):
            yield from every(kind, getattr(thing, name))
