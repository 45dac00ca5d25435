"""A passage of prose cut into words, figures and signs, each with its place."""

import re
from enum import StrEnum
from fractions import Fraction
from unicodedata import numeric

from foldproof.frozen import dataclass
from foldproof.measures.scanning import GLYPHS

_DASHES = dict.fromkeys("–−‐‑‒", "-")
_SAME = str.maketrans({**_DASHES, "⁄": "/", "∕": "/", "’": "'", "‘": "'", "×": "x", "✕": "x", "`": " ", "\\": " "})
_SKIP = re.compile(
    r"\]\([^)\n]{0,500}\)"            # where a link leads
    r"|<[^<>\n]{1,200}>"         # tags, and addresses in angle brackets
    r"|\{\{[^{}\n]{0,200}\}\}|\{[^{}\n]{0,200}\}"  # references to measures
    r"|&#?\w{1,10};"             # character references
    r"|https?://\S+|www\.\S+"
)
_RAISED, _LOWERED = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"
_PLAIN_DIGITS = str.maketrans(_RAISED + _LOWERED, "0123456789" * 2)
_FIGURE = re.compile(
    r"(?P<dated>[0-9]+(?:/[0-9]+){2,}|[0-9]+:[0-9]+(?::[0-9]+)*)"
    r"|(?P<decimal>[0-9]*\.[0-9]+)"
    rf"|(?:(?P<whole>[0-9]+)(?: *- *(?=[{GLYPHS}{_RAISED}])|-|\s+| *&\s*|\s+and\s+)?)?"
    rf"(?:(?P<top>(?<![0-9])[0-9]+)/(?P<under>[0-9]+)(?![0-9])"
    rf"|(?P<raised>[{_RAISED}]+)/(?P<lowered>[{_LOWERED}]+)|(?P<glyph>[{GLYPHS}]))"
    r"|(?P<thousands>[0-9]{1,3}(?:,[0-9]{3})+(?![0-9]))"
    r"|(?P<comma>[0-9]+,[0-9]+)"
    r"|(?P<integer>[0-9]+)"
)
_WORD = re.compile(r"[^\W\d_](?:[\w']|\.(?=[a-z]\b))*", re.UNICODE)


class Part(StrEnum):
    """What a token of prose is."""

    WORD = "word"
    FIGURE = "figure"
    ODD = "odd"
    """Figures that are no plain number: a date, a clock time, a ratio."""
    SIGN = "sign"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bit:
    """A token of prose."""

    part: Part
    text: str
    """Lower case for words."""
    start: int
    end: int
    spaced: bool
    """Whether a space stands before it."""
    value: Fraction = Fraction(0)
    whole: bool = False
    """Whether a figure is a whole number, so that `and a half` may follow it."""
    fraction: bool = False
    """Whether a figure is one number over another with nothing before it."""


def cut_up(text: str) -> tuple[Bit, ...]:
    """Cut a passage of Markdown into tokens.

    Emphasis marks are passed over; what links lead to, tags, addresses and `{references}` become one blank sign, so
    that no number is found in them or across them. Offsets are those of the text as given.
    """
    plain = _SKIP.sub(lambda found: "\0" * len(found.group()), text)
    plain = "".join(" " if c.isspace() else c for c in plain).translate(_SAME)
    plain = re.sub(r"(?<=[0-9])( ?)\*( ?)(?=[0-9])", r"\1x\2", plain).replace("*", " ").replace("_", " ")
    bits: list[Bit] = []
    at = 0
    while at < len(plain):
        if plain[at] == " ":
            at += 1
            continue
        bit = _bit_at(plain, at, text)
        bits.append(bit)
        at = bit.end
    return tuple(bits)


def _bit_at(plain: str, at: int, text: str) -> Bit:
    spaced = at > 0 and plain[at - 1] == " "
    after_letter = at > 0 and plain[at - 1].isalpha()
    if plain[at] in "xX" and not after_letter and re.match(rf"\s*[0-9.{GLYPHS}]", plain[at + 1:at + 4]):
        return Bit(part=Part.SIGN, text="x", start=at, end=at + 1, spaced=spaced)
    figure = _FIGURE.match(plain, at)
    if figure and not (plain[at] == "." and spaced is False and at > 0 and plain[at - 1].isalnum()):
        return _figure(figure, spaced)
    word = _WORD.match(plain, at)
    if word:
        plain_word = word.group().casefold().rstrip("'")
        return Bit(part=Part.WORD, text=plain_word, start=at, end=word.end(), spaced=spaced)
    sign = text[at] if text[at] in "“”" else plain[at]
    return Bit(part=Part.SIGN, text=sign, start=at, end=at + 1, spaced=spaced)


def _figure(found: re.Match[str], spaced: bool) -> Bit:
    start, end, text = found.start(), found.end(), found.group()
    if found["dated"]:
        return Bit(part=Part.ODD, text=text, start=start, end=end, spaced=spaced)
    if found["thousands"] or found["comma"] or found["decimal"] or found["integer"]:
        plain = text.replace(",", "") if found["thousands"] else text.replace(",", ".")
        return Bit(part=Part.FIGURE, text=text, start=start, end=end, spaced=spaced, value=Fraction(plain),
                   whole=bool(found["integer"] or found["thousands"]))
    if found["glyph"]:
        part = Fraction(numeric(found["glyph"])).limit_denominator(10)
    else:
        top = found["top"] or found["raised"].translate(_PLAIN_DIGITS)
        under = found["under"] or found["lowered"].translate(_PLAIN_DIGITS)
        if not int(under):
            return Bit(part=Part.ODD, text=text, start=start, end=end, spaced=spaced)
        part = Fraction(int(top), int(under))
    return Bit(part=Part.FIGURE, text=text, start=start, end=end, spaced=spaced, value=int(found["whole"] or 0) + part,
               fraction=not found["whole"])
