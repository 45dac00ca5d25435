"""Lengths as they are said aloud, for the line to speak."""

import re
from fractions import Fraction

from foldproof.measures.quantity import Unit
from foldproof.measures.writing import FINEST_RULER, write_length

ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_UNIT_AT_END = re.compile(r"(?: of an)? (?:inch(?:es)?|(?:milli|centi)metres?)$")
_PART = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty-second", 64: "sixty-fourth"}


def speak_whole(number: int) -> str:
    """Say a whole number from 0 to 99 in words; larger ones stay figures."""
    if 0 <= number < 20:
        return ONES[number]
    if 20 <= number < 100:
        tens, ones = divmod(number, 10)
        return TENS[tens - 2] + (f"-{ONES[ones]}" if ones else "")
    return str(number)


def speak_length(value: Fraction, unit: Unit) -> str:
    """Say a length: `five and a half inches`, `three sixteenths of an inch`, `half an inch`, `97 millimetres`."""
    if unit is not Unit.INCH:
        name = {Unit.MM: "millimetre", Unit.CM: "centimetre"}[unit]
        return f"{write_length(value, unit)} {name}{'' if value == 1 else 's'}"
    if value < 0:
        return f"minus {speak_length(-value, unit)}"
    if FINEST_RULER % value.denominator:
        return f"{write_length(value, unit)} inches"
    whole, rest = divmod(value, 1)
    if not rest:
        return f"{speak_whole(whole)} inch{'' if whole == 1 else 'es'}"
    part = _PART[rest.denominator]
    if not whole and part == "half":
        return "half an inch"
    article = ("an" if part == "eighth" else "a") if rest.numerator == 1 else speak_whole(rest.numerator)
    plural = "" if rest.numerator == 1 else "s"
    fraction = f"{article} {part}{plural}"
    return f"{speak_whole(whole)} and {fraction} inches" if whole else f"{fraction} of an inch"


def speak_number(value: Fraction, unit: Unit) -> str:
    """Say a length without its unit: `five and a half`, `three sixteenths`, `one half`, `97`."""
    spoken = speak_length(value, unit)
    if spoken == "half an inch":
        return "one half"
    return _UNIT_AT_END.sub("", spoken)
