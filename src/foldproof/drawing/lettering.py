"""How much room words take, measured in the one font family that the drawings use."""

import re
from functools import lru_cache
from importlib.resources import files
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matplotlib.ft2font import FT2Font

MM_PER_PT = 25.4 / 72
CAP = 0.66
"""Height of a capital, in ems (Source Sans Pro's own table)."""
DROP = 0.2
"""How far a tail hangs below the line, in ems; measured on g, p and y."""


def font_files() -> tuple[str, ...]:
    """The regular, the bold and the italic as files on this machine, from the font's own package."""
    folder = files("font_source_sans_pro") / "files"
    return tuple(str(folder / f"SourceSansPro-{cut}.ttf") for cut in ("Regular", "Bold", "It"))


@lru_cache(maxsize=3)
def _font(index: int) -> "FT2Font":
    from matplotlib.ft2font import FT2Font

    font = FT2Font(font_files()[index])
    font.set_size(100.0, 72)
    return font


@lru_cache(maxsize=4096)
def _ems(text: str, index: int) -> float:
    from matplotlib.ft2font import LoadFlags

    font = _font(index)
    font.set_text(text, 0.0, flags=LoadFlags.NO_HINTING)
    return float(font.get_width_height()[0]) / 64 / 100


_FRACTION = re.compile(r"((?<![\d/])\d+/\d+(?![\d/]))")


def runs(text: str) -> tuple[tuple[str, bool], ...]:
    """The parts of a line, each with whether it is a fraction: those are set with raised and lowered figures."""
    return tuple((part, i % 2 == 1) for i, part in enumerate(_FRACTION.split(text)) if part)


FRACTION_SIZE = 1.2
"""How much larger fractions are set than the words round them: their figures are small by design."""
_RAISED, _LOWERED = (str.maketrans("0123456789", figures) for figures in ("⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"))


def is_fraction(text: str) -> bool:
    """Whether a part of a line is a fraction and nothing else."""
    return _FRACTION.fullmatch(text) is not None


def raised_figures(fraction: str) -> str:
    """`1/8` with raised and lowered figures and a fraction's stroke, as wide as the font's own fractions."""
    over, under = fraction.split("/")
    return f"{over.translate(_RAISED)}\u2044{under.translate(_LOWERED)}"


_DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


@lru_cache(maxsize=512)
def _fraction_ems(text: str, index: int) -> float:
    """The width of a fraction, from the font's own raised and lowered figures."""
    from matplotlib.ft2font import LoadFlags

    font = _font(index)
    over, under = text.split("/")
    names = [*(f"{_DIGITS[int(x)]}.numr" for x in over), "fraction", *(f"{_DIGITS[int(x)]}.dnom" for x in under)]
    glyphs = [font.load_glyph(font.get_name_index(name), flags=LoadFlags.NO_HINTING) for name in names]
    return FRACTION_SIZE * sum(glyph.linearHoriAdvance for glyph in glyphs) / 65536 / 100


@lru_cache(maxsize=4096)
def text_width(text: str, pt: float, *, bold: bool = False, italic: bool = False) -> float:
    """The width of one line in millimetres, its fractions set as fractions."""
    index = 1 if bold else 2 if italic else 0
    if "/" not in text:
        return _ems(text, index) * pt * MM_PER_PT
    ems = sum(_fraction_ems(part, index) if fraction else _ems(part, index) for part, fraction in runs(text))
    return ems * pt * MM_PER_PT


def cap_height(pt: float) -> float:
    """From the line to the top of a capital, in millimetres."""
    return CAP * pt * MM_PER_PT


def drop(pt: float) -> float:
    """From the line down to the end of a tail, in millimetres."""
    return DROP * pt * MM_PER_PT


def line_step(pt: float) -> float:
    """From one line of words to the next, in millimetres."""
    return 1.2 * pt * MM_PER_PT


_UNBROKEN = re.compile(r"(?<![\d×]) (?=[^×])|(?<=\d) (?!\d|×|in\b|mm\b|cm\b)")
"""A space at which a line may end: not in `8 1/2 × 11 in`."""


def wrap(text: str, pt: float, room: float) -> tuple[str, ...]:
    """Words broken into lines that fit the room where they can; never within a word or a measurement."""
    lines: list[str] = []
    for word in _UNBROKEN.split(text):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, pt) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
