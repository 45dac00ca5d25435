"""Sizes in the other unit from read fields."""

from foldproof.measures.quantity import Quantity
from foldproof.recipe.desk import Builder, Desk, Fields, Item
from foldproof.recipe.edition_records import OtherSizes
from foldproof.recipe.text import Text


def other_sizes(fields: Fields, name: Text | None, desk: Desk) -> OtherSizes:
    """The whole part."""
    def items(key: str) -> tuple[Item, ...]:
        return tuple(item for item in fields.get(key, tuple) or () if isinstance(item, Item))

    return OtherSizes(
        measures=tuple((item.name, item.value) for item in items("measures")
                       if item.name is not None and isinstance(item.value, Quantity)),
        papers=tuple((item.name, item.value) for item in items("papers")
                     if item.name is not None and isinstance(item.value, Text)),
        envelope=fields.get("envelope", Text), place=fields.place)


BUILDERS: dict[str, Builder] = {
    "set of metric sizes": other_sizes, "set of inch sizes": other_sizes}
