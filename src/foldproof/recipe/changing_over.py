"""Any record of a recipe with the sides in its names, words and places changed over."""

from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar, cast

from foldproof.findings.finding import Place
from foldproof.measures.quantity import Quantity
from foldproof.recipe.actions import PlacedAt
from foldproof.recipe.records import GlueSpec, PlaceOn, Turned
from foldproof.recipe.sides import other_side
from foldproof.recipe.text import Text

_TURNED = {Turned.CLOCKWISE: Turned.ANTICLOCKWISE, Turned.ANTICLOCKWISE: Turned.CLOCKWISE}
_AS_IT_IS = frozenset({
    "words", "supply", "tool", "tools", "supplies", "adhesive", "paper", "tone", "picture", "language", "file", "theme",
})
"""Fields that sides are no part of: lettering, and the names of tools, supplies and papers."""

Record = TypeVar("Record")


def changed_over(record: Record) -> Record:
    """A record with left and right changed over throughout. Coordinates and distances from the stop are left alone."""
    return cast(Record, _changed(record))


def _changed(thing: Any) -> Any:
    match thing:
        case Place() | Quantity():
            return thing
        case Turned():
            return _TURNED.get(thing, thing)
        case Text():
            return replace(thing, value=other_side(thing.value))
        case str() if type(thing) is str:
            return other_side(thing)
        case tuple():
            return tuple(_changed(part) for part in thing)
        case PlaceOn() | PlacedAt() | GlueSpec():
            fresh = _fields_changed(thing)
            return replace(fresh, left=thing.right, right=thing.left)
    return _fields_changed(thing) if is_dataclass(thing) and not isinstance(thing, type) else thing


def _fields_changed(thing: Any) -> Any:
    return replace(thing, **{
        each.name: _changed(getattr(thing, each.name)) for each in fields(thing) if each.name not in _AS_IT_IS})
