"""The words and signs for units that people write after a number."""

from fractions import Fraction

from foldproof.measures.quantity import Kind, Unit

_MM_IN_INCH = Unit.INCH.millimetres

LENGTHS: dict[str, Fraction] = {
    **dict.fromkeys(("in", "in.", "inch", "inches", '"', "''"), _MM_IN_INCH),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(10)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1000)),
    **dict.fromkeys(("ft", "foot", "feet", "'"), 12 * _MM_IN_INCH),
    **dict.fromkeys(("yd", "yard", "yards"), 36 * _MM_IN_INCH),
}
"""Millimetres in one of each. 1 yd = 0.9144 m exactly (yard and pound agreement, 1959)."""

TIMES: dict[str, Fraction] = {
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), Fraction(1)),
    **dict.fromkeys(("min", "mins", "min.", "minute", "minutes"), Fraction(60)),
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), Fraction(3600)),
    **dict.fromkeys(("d", "day", "days"), Fraction(86400)),
}
"""Seconds in one of each."""

ANGLES: dict[str, Fraction] = dict.fromkeys(("°", "deg", "degs", "degree", "degrees"), Fraction(1))
"""Degrees in one of each."""

CURRENCY_SIGNS = "$€£¥"

SHORT_NAME = {Unit.INCH: "in", Unit.MM: "mm", Unit.CM: "cm"}
"""How each unit of a recipe is written after a number."""


def kind_of_unit(word: str) -> tuple[Kind, Fraction] | None:
    """Give the kind that a unit word measures and how many base units it holds; None for any other word.

    Base units: millimetres, seconds, degrees. Signs must be normalised first (`″` to `"`, `′` to `'`). Capitals are
    not told apart.
    """
    plain = word.casefold()
    for kind, table in ((Kind.LENGTH, LENGTHS), (Kind.TIME, TIMES), (Kind.ANGLE, ANGLES)):
        if plain in table:
            return kind, table[plain]
    return None
