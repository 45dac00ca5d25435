"""Rounding of converted values, after NIST Special Publication 811 (2008), appendix B.7.

All of it is exact: ties are common here, because every sixteenth of an inch is a short decimal of millimetres.
"""

import re
from fractions import Fraction


def half_even(value: Fraction, places: int) -> Fraction:
    """Round to decimal places; exactly half goes to the even digit (SP 811, B.7.1)."""
    scale = Fraction(10) ** places
    return round(value * scale) / scale


def to_digits(value: Fraction, digits: int) -> str:
    """Write a value with a number of significant digits (at least 1), half to even, trailing zeros kept."""
    places = digits - 1 - exponent(value)
    rounded = half_even(value, places)
    if rounded and exponent(rounded) > exponent(value):  # 9.96 became 10.0: one place fewer
        places -= 1
        rounded = half_even(value, places)
    return decimal(rounded, max(places, 0))


def decimal(value: Fraction, places: int) -> str:
    """Write a value that has at most `places` decimal places as a decimal with exactly that many."""
    scaled = value * 10**places
    if scaled.denominator != 1:
        raise ValueError(f"{value} has more than {places} decimal places")
    figures = str(abs(scaled.numerator)).rjust(places + 1, "0")
    sign = "-" if scaled < 0 else ""
    return sign + (f"{figures[:-places]}.{figures[-places:]}" if places else figures)


def exponent(value: Fraction) -> int:
    """Give the power of ten of the first significant digit: 0 for 3.2, 1 for 36, -2 for 0.05; 0 for zero."""
    size, power = abs(value), 0
    if not size:
        return 0
    while size >= 10:
        size, power = size / 10, power + 1
    while size < 1:
        size, power = size * 10, power - 1
    return power


def significant_digits(written: str) -> int:
    """Count the significant digits of a decimal as written: 2 in `36`, 3 in `40.1`, 2 in `0.050`.

    Trailing zeros of a whole number are counted: who writes 100 on a ruler means it.
    """
    figures = re.sub(r"[^0-9]", "", written).lstrip("0")
    return max(1, len(figures))


def convert_by_error(written: str, factor: Fraction) -> str:
    """Convert a decimal with as few digits as keep its precision (SP 811, B.7.2).

    The rounding of the result may not be relatively coarser than that of the original: half a unit in its last
    digit over its value.
    """
    original = Fraction(written)
    value = original * factor
    if not value:
        return "0"
    loose = _half_unit(written) / abs(original)
    digits = 1
    while True:
        shown = to_digits(value, digits)
        # a whole number with rounded-off end digits carries its error in those digits, not in the units
        step = Fraction(10) ** (exponent(Fraction(shown)) - digits + 1) / 2
        if step / abs(Fraction(shown)) <= loose:
            return shown
        digits += 1


def convert_by_first_digit(written: str, factor: Fraction) -> str:
    """Convert a decimal by the rule of the first digit (NIST Special Publication 1038 (2006), section 4.4).

    Where the first digit of the result is at least that of the original, keep as many significant digits; else one
    more.
    """
    original = Fraction(written)
    value = original * factor
    digits = significant_digits(written)
    if not value:
        return "0"
    if _first_digit(value) < _first_digit(original):
        digits += 1
    return to_digits(value, digits)


def limits_inward(low: Fraction, high: Fraction, places: int) -> tuple[Fraction, Fraction]:
    """Round two limits to decimal places so that neither is passed: the lower up, the upper down (method B)."""
    scale = 10**places
    return Fraction(-((-low * scale).__floor__()), scale), Fraction((high * scale).__floor__(), scale)


def _half_unit(written: str) -> Fraction:
    after_point = len(written.partition(".")[2])
    return Fraction(1, 2 * 10**after_point)


def _first_digit(value: Fraction) -> int:
    return int(abs(value) / Fraction(10) ** exponent(value))
