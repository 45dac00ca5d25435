"""The numbers that a reader finds in finished text, as exact values: the yardstick of the audit."""

import re
import unicodedata
from fractions import Fraction

_GLYPHS = {char: unicodedata.normalize("NFKC", char).replace("\u2044", "/") for char in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_NUMBER = re.compile(r"(?<![\w.])(?:(\d+)[ -](?=\d+/\d))?(\d+)(?:/(\d+)|(\.\d+))?(?![\w]|\.\d)")


def numbers(text: str) -> tuple[Fraction, ...]:
    """The numbers in a text, in order: `5 1/2`, `5½`, `5-1/2` and `5.5` are one number each, and equal.

    Digits within words and codes (`A2`, `c6`) are no numbers; neither is a version like `1.2.3`. A sign is not read.
    """
    for glyph, written in _GLYPHS.items():
        text = re.sub(rf"(?<=\d) ?{glyph}", f" {written}", text).replace(glyph, written)
    text = re.sub(r"[\u00a0\u2009\u202f\u2002\u2005]", " ", text.replace("\u2044", "/"))
    return tuple(
        Fraction(int(whole or 0)) + (Fraction(f"{top}{decimals}") if decimals else Fraction(int(top), int(bottom or 1)))
        for whole, top, bottom, decimals in _NUMBER.findall(text) if int(bottom or 1)
    )
