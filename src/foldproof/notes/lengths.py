"""The lengths of a sentence of the notes: single ones, and the two of a size together."""

import re
from collections import Counter
from itertools import zip_longest

from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.measures.spotted import Sense, Spotted
from foldproof.measures.spotting import spot_numbers
from foldproof.measures.writing import write_length, write_number

_UNITS = {"in": Unit.INCH, "mm": Unit.MM, "cm": Unit.CM}
_WAYS = {"wide": 0, "across": 0, "long": 1, "tall": 2, "high": 2, "deep": 2}
"""Words that say which way a length runs, the width first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """One length, or the two of a size, in a sentence."""

    first: Spotted
    second: Spotted | None = None

    @property
    def end(self) -> int:
        """Where it ends in the sentence."""
        return (self.second or self.first).end

    @property
    def in_order(self) -> tuple[Spotted, ...]:
        """Width, then height, where the words tell; otherwise as they are said."""
        if self.second is None:
            return (self.first,)
        one, other = _way(self.first), _way(self.second)
        swapped = one is not None and other is not None and one > other
        return (self.second, self.first) if swapped else (self.first, self.second)

    @property
    def open(self) -> bool:
        """Whether it is said long and wide, which leaves open how the part is turned."""
        return self.second is not None and {_way(self.first), _way(self.second)} == {0, 1}


def usual_unit(text: str) -> Unit | None:
    """The unit that most lengths of the notes have; None where none has one."""
    units = Counter(_UNITS[each.unit] for each in spot_numbers(text) if each.unit in _UNITS)
    return units.most_common(1)[0][0] if units else None


def lengths_in(text: str) -> tuple[Length, ...]:
    """The lengths of a sentence; the two of a size together: `4 x 5 in`, `11 in long and 4 in tall`, `6 in square`."""
    spotted = [
        each for each in spot_numbers(text)
        if not each.restates and (each.sense is Sense.LENGTH or (each.sense is Sense.BARE and each.beside))]
    found: list[Length] = []
    skip = False
    for number, follower in zip_longest(spotted, spotted[1:]):
        if skip or number is None:
            skip = False
            continue
        square = number.part == 0 and re.match(r"\W*(?:inch )?squares?\b", text[number.end :], re.IGNORECASE)
        paired = follower is not None and not square and _are_a_size(number, follower, text)
        found.append(Length(first=number, second=number if square else follower if paired else None))
        skip = paired
    return tuple(found)


def _are_a_size(one: Spotted, other: Spotted, text: str) -> bool:
    if one.part or other.part:
        return (one.part, other.part) == (1, 2)
    between = re.fullmatch(r"\W*\w+\W+(?:and|by|x)?\W*", text[one.end : other.start])
    return between is not None and _way(one) is not None and _way(other) is not None


def _way(number: Spotted) -> int | None:
    return _WAYS.get(number.after.split()[0]) if number.after.split() else None


def as_written(number: Spotted, unit: Unit) -> str:
    """A length as a recipe of a unit writes it."""
    if number.unit is not None and _UNITS.get(number.unit) is not unit:
        return f"{write_number(number.value)} {number.unit}"
    written = write_length(number.value, unit)
    return written if written[0].isdigit() else write_number(number.value)
