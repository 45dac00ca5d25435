"""A word or a passage of a recipe with its place."""

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A word or a passage of the recipe with its place."""

    value: str
    place: Place

    def __str__(self) -> str:
        return self.value
