"""A number found in a passage of prose."""

from enum import StrEnum
from fractions import Fraction

from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.measures.units import ANGLES, LENGTHS, TIMES


class Sense(StrEnum):
    """What a number in prose counts or measures, by its unit word and its neighbours."""

    LENGTH = "length"
    """With a unit, or part of a size (`8 1/2 x 11`)."""
    BARE = "bare"
    """No unit and nothing that it counts: a length in the recipe's unit where it stands beside `score` and its like."""
    COUNT = "count"
    TIME = "time"
    ANGLE = "angle"
    WEIGHT = "weight"
    MONEY = "money"
    PERCENT = "percent"
    SHARE = "share"
    """A part of something: `1/3 of the width`."""
    ORDINAL = "ordinal"
    """A place in a row or the number of a thing: `step 3`, `2nd`, `#10`."""
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spotted:
    """A number with the words round it."""

    value: Fraction
    """In its own unit: 5/2 for `two and a half minutes`."""
    sense: Sense
    unit: str | None
    """Lengths `in`, `mm`, `cm`, `m`, `ft`, `yd`; times `s`, `min`, `h`, `d`; `degrees`; what is counted (`sheets`,
    `times`); `lb`, `gsm`; a currency as written; None where there is none."""
    start: int
    """Character offset in the passage."""
    end: int
    """Offset after the last character, unit word included."""
    written: str
    hedged: bool
    """Whether it is said to be loose: `about`, `nearly`, `a hair under`, `at least`, `or so`."""
    before: str
    """The nearest words before it in its sentence, up to four, lower case."""
    after: str
    """The nearest words after it in its sentence, up to four, lower case."""
    beside: str | None = None
    """The measuring word that it stands beside, in its plain form: `score`, `cut`, `trim`, `mark`, `mat`, ..."""
    part: int = 0
    """1, 2, 3 within a size such as `4 1/4 x 5 1/2 in`; 0 for a number that stands alone."""
    restates: bool = False
    """Whether it gives the length before it once more in another unit: `5 1/2 in (139.7 mm)`."""

    def amount(self, unit: Unit) -> Fraction:
        """Give the value as a recipe holds it.

        Lengths and bare numbers in the recipe's unit (a bare number is taken to be in it), times in seconds, angles in
        degrees; anything else as it is.
        """
        if self.sense is Sense.LENGTH and self.unit:
            return self.value * LENGTHS[self.unit] / unit.millimetres
        if self.sense is Sense.TIME and self.unit:
            return self.value * TIMES[self.unit]
        if self.sense is Sense.ANGLE and self.unit:
            return self.value * ANGLES[self.unit]
        return self.value
