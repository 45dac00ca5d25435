"""Lengths written out for people: inches as ruler fractions, metric as decimals."""

from fractions import Fraction
from math import lcm

from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.measures.rounding import decimal, half_even
from foldproof.measures.units import SHORT_NAME

FINEST_RULER = 64
"""Parts of an inch on the finest steel rules in use (from memory)."""
_PLACES = 4
_MOST_PLACES = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieces:
    """A number in parts, for setting true fractions: each part is digits only, so it is safe in any markup."""

    negative: bool
    whole: str
    """Digits; empty where a fraction stands alone."""
    numerator: str
    """Digits; empty for a whole number."""
    denominator: str


def pieces(value: Fraction) -> Pieces | None:
    """Take a number of inches apart as a ruler shows it; None where it is no whole number of 64ths."""
    if FINEST_RULER % value.denominator:
        return None
    whole, rest = divmod(abs(value), 1)
    return Pieces(
        negative=value < 0,
        whole=str(whole) if whole or not rest else "",
        numerator=str(rest.numerator) if rest else "",
        denominator=str(rest.denominator) if rest else "",
    )


def write_number(value: Fraction) -> str:
    """Write a number as a ruler fraction, else as an exact decimal, else marked `about` with at most 4 places."""
    parts = pieces(value)
    return _write_decimal(value) if parts is None else _joined(parts)


def write_length(value: Fraction, unit: Unit) -> str:
    """Write a length without its unit: `5 1/2`, `139.7`.

    Inches are fractions down to 64ths; what no ruler shows is a decimal marked `about`, with at most 4 places.
    Millimetres and centimetres are exact decimals, or marked `about` where they are not.
    """
    if unit is not Unit.INCH:
        return _write_decimal(value)
    parts = pieces(value)
    return _about(value) if parts is None else _joined(parts)


def with_unit(value: Fraction, unit: Unit) -> str:
    """Write a length with its unit: `5 1/2 in`, `139.7 mm`."""
    return f"{write_length(value, unit)} {SHORT_NAME[unit]}"


def write_size(size: tuple[Fraction, Fraction], unit: Unit) -> str:
    """Write width by height, the unit once at the end: `4 1/4 × 5 1/2 in`."""
    return f"{write_length(size[0], unit)} × {write_length(size[1], unit)} {SHORT_NAME[unit]}"


def write_outer_size(size: tuple[Fraction, Fraction], unit: Unit, *, circle: bool) -> str:
    """The size of a shape that is no rectangle: `1 in across` for a circle, `1 × 2 in over all` for any other."""
    return f"{with_unit(size[0], unit)} across" if circle else f"{write_size(size, unit)} over all"


def in_metric(value: Fraction, unit: Unit) -> str:
    """Write a length in millimetres to one tenth, half to even (NIST SP 811, B.7.1): `139.7 mm`.

    A tenth of a millimetre is enough to find the same sixteenth of an inch again. Exact whole millimetres carry no
    decimal; rounded ones keep their zero (`19.0 mm`).
    """
    exact = value * unit.millimetres
    return f"{exact if exact.denominator == 1 else decimal(half_even(exact, 1), 1)} mm"


def size_in_metric(size: tuple[Fraction, Fraction], unit: Unit) -> str:
    """Write width by height in millimetres to one tenth: `108.0 × 139.7 mm`."""
    return f"{in_metric(size[0], unit).removesuffix(' mm')} × {in_metric(size[1], unit)}"


def in_inches(value: Fraction, unit: Unit, parts: int = 32) -> str:
    """Write a length in inches to the nearest part of a ruler (a power of two up to 64), marked `about` if rounded."""
    exact = value * unit.millimetres / Unit.INCH.millimetres
    rounded = Fraction(round(exact * parts), parts)
    return f"{'' if rounded == exact else 'about '}{write_length(rounded, Unit.INCH)} in"


def _joined(parts: Pieces) -> str:
    fraction = f"{parts.numerator}/{parts.denominator}" if parts.numerator else ""
    return ("-" if parts.negative else "") + " ".join(filter(None, (parts.whole, fraction)))


def _write_decimal(value: Fraction) -> str:
    """Write an exact decimal of at most 6 places; else mark it."""
    scale = 10**_MOST_PLACES
    if lcm(value.denominator, scale) != scale:
        return _about(value)
    return _trimmed(decimal(value, _MOST_PLACES))


def _about(value: Fraction) -> str:
    rounded = half_even(value, _PLACES)
    written = _trimmed(decimal(rounded, _PLACES))
    return written if rounded == value else f"about {written}"


def _trimmed(written: str) -> str:
    return written.rstrip("0").rstrip(".") if "." in written else written
