"""A quantity: an exact value with its kind and its origin in the recipe."""

from enum import StrEnum
from fractions import Fraction

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass


class Kind(StrEnum):
    """What a quantity measures. Values of different kinds are never added."""

    LENGTH = "length"
    NUMBER = "number"
    ANGLE = "angle"
    TIME = "time"
    MONEY = "money"


class Unit(StrEnum):
    """The unit of length that a recipe is written in."""

    INCH = "inch"
    MM = "mm"
    CM = "cm"

    @property
    def millimetres(self) -> Fraction:
        """Millimetres in one unit; 1 in = 25.4 mm exactly (yard and pound agreement, 1959)."""
        return {Unit.INCH: Fraction(127, 5), Unit.MM: Fraction(1), Unit.CM: Fraction(10)}[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """An exact value as the recipe gives it."""

    value: Fraction
    """A length in the recipe's unit; an angle in degrees; a time in seconds; money in whole currency units."""
    kind: Kind
    written: str
    """The author's own text."""
    place: Place
    names: tuple[str, ...] = ()
    """The named measures that it was reckoned from, in order of first mention. Empty for a plain number."""
    currency: str | None = None

    @property
    def witness(self) -> bool:
        """Whether it states a number of its own rather than refer to a named measure."""
        return not self.names
