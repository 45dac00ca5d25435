"""A card's sizes in the other unit, as written."""


from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity
from foldproof.recipe.text import Text


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherSizes:
    """What the recipe says of itself in the other unit."""

    measures: tuple[tuple[Text, Quantity], ...]
    """Named measures and their values there, in the recipe's own unit, exact."""
    papers: tuple[tuple[Text, Text], ...]
    """Papers and their sheets there, as written."""
    envelope: Text | None
    place: Place
