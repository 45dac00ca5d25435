"""The numbers that a reader finds in finished text, as exact values: the yardstick of the audit."""

import re
import unicodedata
from fractions import Fraction
from functools import lru_cache

_GLYPHS = {char: unicodedata.normalize("NFKC", char).replace("\u2044", "/") for char in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_ANY_GLYPH = "".join(_GLYPHS)
_GLYPH = re.compile(rf"(?P<after>(?<=[\d{_ANY_GLYPH}]) ?)?(?P<glyph>[{_ANY_GLYPH}])")
_PLAIN = str.maketrans(dict.fromkeys("\u00a0\u2009\u202f\u2002\u2005", " ") | {"\u2044": "/"})
_NUMBER = re.compile(r"(?<![\w.])(?:(\d+)[ -](?=\d+/\d))?(\d+)(?:/(\d+)|(\.\d+))?(?![\w]|\.\d)")


@lru_cache(maxsize=2048)
def numbers(text: str) -> tuple[Fraction, ...]:
    """The numbers in a text, in order: `5 1/2`, `5½`, `5-1/2` and `5.5` are one number each, and equal.

    Digits within words and codes (`A2`, `c6`) are no numbers; neither is a version like `1.2.3`. A sign is not read.
    """
    text = _GLYPH.sub(_spelled, text).translate(_PLAIN)
    return tuple(
        Fraction(int(whole or 0)) + (Fraction(f"{top}{decimals}") if decimals else Fraction(int(top), int(bottom or 1)))
        for whole, top, bottom, decimals in _NUMBER.findall(text) if int(bottom or 1)
    )


def _spelled(found: re.Match[str]) -> str:
    """A fraction of one glyph as figures, apart from what number stands before it."""
    return ("" if found["after"] is None else " ") + _GLYPHS[found["glyph"]]
