"""Marks of a ruler near an exact length, the likeliest first."""

from fractions import Fraction
from itertools import count

from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit

FINEST = {Unit.MM: Fraction(1, 2), Unit.INCH: Fraction(1, 16)}
"""The finest mark that a plan of an edition may use, in its unit."""
_EASIER = {
    Unit.MM: ((Fraction(1), Fraction(0)), (Fraction(1, 2), Fraction(3, 5))),
    Unit.INCH: ((Fraction(1, 4), Fraction(0)), (Fraction(1, 8), Fraction(3, 10)), (Fraction(1, 16), Fraction(3, 5))),
}
"""Marks from easy to fine, and what one counts more than an easy one: as many millimetres off (our own choice)."""
_SMALL_MM = 5
"""Below this length an error counts as a share of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A length that may stand for an exact one."""

    value: Fraction
    """In the edition's unit."""
    cost: Fraction
    """How far it is off in millimetres, with what is added for a fine mark."""


def choices(exact: Fraction, unit: Unit, most: int, *, above: Fraction | None = None) -> tuple[Choice, ...]:
    """The `most` likeliest marks near a length that is not 0, in the edition's unit; its sign is kept.

    None is larger than the length by more than `above`, where that is given. None is 0, whatever the length.
    """
    size, sign = abs(exact), 1 if exact > 0 else -1
    step = FINEST[unit]
    middle = round(size / step)
    found: list[Choice] = []
    for off in count():
        for mark in sorted({middle - off, middle + off}):
            value = mark * step
            if mark > 0 and (above is None or value <= size + above):
                found.append(Choice(value=sign * value, cost=_cost(size, value, unit)))
        if off > 4 * most:
            return tuple(sorted(found, key=lambda one: (one.cost, abs(one.value))))[:most]
    raise AssertionError("counting never ends")


def nearest(exact: Fraction, unit: Unit) -> Fraction:
    """The likeliest mark for a length; 0 stays 0."""
    return choices(exact, unit, 1)[0].value if exact else exact


def _cost(size: Fraction, value: Fraction, unit: Unit) -> Fraction:
    off = abs(value - size) * unit.millimetres
    share = max(Fraction(1), _SMALL_MM / (size * unit.millimetres))
    fine = next(more for mark, more in _EASIER[unit] if (value / mark).denominator == 1)
    return off * share + fine
