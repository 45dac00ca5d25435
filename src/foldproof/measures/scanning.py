"""The text of a measure cut into numbers, units, names and signs."""

import re
from collections.abc import Collection
from enum import StrEnum
from fractions import Fraction
from unicodedata import numeric

from foldproof.findings.nearest import nearest
from foldproof.frozen import dataclass
from foldproof.measures.trouble import Trouble, two_slashes
from foldproof.measures.units import CURRENCY_SIGNS, kind_of_unit

LONGEST_TEXT = 400
"""Characters in one measure."""
MOST_DIGITS = 9
"""The longest whole part, or part after the point, that a number may have."""

GLYPHS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
_RAISED, _LOWERED = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"
_SAME = str.maketrans({
    **dict.fromkeys("–−‐‑‒", "-"), **dict.fromkeys("⁄∕", "/"), **dict.fromkeys("″”“", '"'), **dict.fromkeys("′’‘", "'"),
    "×": "*",
})
_PLAIN_DIGITS = str.maketrans(_RAISED + _LOWERED, "0123456789" * 2)
_NUMBER = re.compile(
    r"(?P<decimal>[0-9]*\.[0-9]+)"
    r"|(?:(?P<whole>[0-9]+)(?:-| and | +)?)?(?:(?P<top>(?<![0-9])[0-9]+)/(?P<under>[0-9]+)(?![0-9.])"
    rf"|(?P<raised>[{_RAISED}]+)/(?P<lowered>[{_LOWERED}]+)|(?P<glyph>[{GLYPHS}]))"
    r"|(?P<integer>[0-9]+)"
)
_WORD = re.compile(r"[^\W\d_](?:[\w'.]|-(?=[^\W\d_]))*", re.UNICODE)
_SIGNS = "+-*/÷()"


class Sort(StrEnum):
    """What a token is."""

    NUMBER = "number"
    UNIT = "unit"
    CURRENCY = "currency"
    NAME = "name"
    SIGN = "sign"


@dataclass(frozen=True, slots=True, kw_only=True)
class Token:
    """A part of the text, with where it stands in it as character offsets."""

    sort: Sort
    text: str
    start: int
    end: int
    value: Fraction = Fraction(0)
    """Of a number."""
    plain_fraction: bool = False
    """Whether a number was written as one figure over another, with nothing before it."""


def normalise(text: str) -> str:
    """Write dashes, slashes, quotes and spaces one way; every character keeps its offset."""
    return "".join(" " if c.isspace() else c for c in text).translate(_SAME)


def names_in(text: str, known: Collection[str]) -> tuple[str, ...]:
    """Give the known names that a text mentions, in order of first mention, each once; longest match first.

    Works on any text, readable or not, so that a measure which leans on a broken one can be passed over.
    """
    plain, found, at = normalise(text[:LONGEST_TEXT]), [], 0
    while at < len(plain):
        name = name_at(plain, at, known) if _starts_word(plain, at) else None
        if name is not None:
            found.append(name[0])
            at = name[1]
        else:
            at += 1
    return tuple(dict.fromkeys(found))


def scan(text: str, known: Collection[str]) -> tuple[Token, ...]:
    """Cut a measure's text into tokens; raises Trouble at the first part that can't be read."""
    plain, at = normalise(text), 0
    tokens: list[Token] = []
    while at < len(plain):
        if plain[at] == " ":
            at += 1
            continue
        token = _token_at(plain, at, known, tokens[-1] if tokens else None)
        tokens.append(token)
        at = token.end
    return tuple(tokens)


def name_at(plain: str, at: int, known: Collection[str]) -> tuple[str, int] | None:
    """Give the longest known name that stands at an offset of a normalised text, and where it ends."""
    best: tuple[str, int] | None = None
    for name in known:
        end = _name_ends(plain, at, name)
        if end is not None and (best is None or end > best[1]):
            best = (name, end)
    return best


def _name_ends(plain: str, at: int, name: str) -> int | None:
    words = normalise(name).split()
    if not words:
        return None
    for word in words:
        while at and plain[at:at + 1] == " ":
            at += 1
        if not plain.startswith(word, at):
            return None
        at += len(word)
        if not _ends_word(plain, at):
            return None
    return at


def word_run(plain: str, at: int) -> str:
    """Give the words that follow one another from an offset on: what the author likely meant as one name."""
    found = re.compile(rf"{_WORD.pattern}(?: +(?:{_WORD.pattern}|[0-9]+(?![0-9/.])))*").match(plain, at)
    return found.group().rstrip() if found else plain[at]


def _token_at(plain: str, at: int, known: Collection[str], before: Token | None) -> Token:
    found = _NUMBER.match(plain, at)
    if found:
        return _number(plain, found)
    after_value = before is not None and (before.sort is Sort.NUMBER or before.text == ")")
    character = plain[at]
    if character in CURRENCY_SIGNS:
        return Token(sort=Sort.CURRENCY, text=character, start=at, end=at + 1)
    word = _WORD.match(plain, at)
    if after_value:
        sign = "''" if plain.startswith("''", at) else character
        if sign in ("''", '"', "'", "°"):
            return Token(sort=Sort.UNIT, text=sign, start=at, end=at + len(sign))
        if word:
            unit = word.group() if kind_of_unit(word.group()) else word.group().rstrip(".")
            if kind_of_unit(unit):
                return Token(sort=Sort.UNIT, text=unit, start=at, end=at + len(unit))
    name = name_at(plain, at, known) if _starts_word(plain, at) else None
    if name:
        return Token(sort=Sort.NAME, text=name[0], start=at, end=name[1])
    if word and re.fullmatch(r"[A-Z]{3}", word.group()) and (after_value or plain[word.end():].lstrip()[:1].isdigit()):
        return Token(sort=Sort.CURRENCY, text=word.group(), start=at, end=word.end())
    if character in _SIGNS:
        return _sign(plain, at, before)
    raise _unreadable(plain, at, known, before)


def _number(plain: str, found: re.Match[str]) -> Token:
    start, end, text = found.start(), found.end(), found.group()
    if plain[end:end + 1] == "," and plain[end + 1:end + 2].isdigit():
        raise _comma(plain, end)
    if plain[end:end + 1] == "." and not plain[end + 1:end + 2].isalpha():
        raise Trouble("measure can't be read", f"`{text}` is followed by a point with nothing that goes with it.",
                      "Write decimals as 5.5, with one point.", start, end + 1)
    if any(len(digits) > MOST_DIGITS for digits in re.findall(r"[0-9]+", text)):
        raise Trouble("measure too fine", f"A number has more than {MOST_DIGITS} digits in a row.",
                      "Write fewer digits: no ruler shows so many.", start, end)
    if found["decimal"] or found["integer"]:
        return Token(sort=Sort.NUMBER, text=text, start=start, end=end, value=Fraction(text))
    if found["glyph"]:
        part = Fraction(numeric(found["glyph"])).limit_denominator(10)
    else:
        top = found["top"] or found["raised"].translate(_PLAIN_DIGITS)
        under = found["under"] or found["lowered"].translate(_PLAIN_DIGITS)
        if int(under) == 0:
            raise Trouble("divided by zero", f"`{text}` has nothing but 0 under the line.",
                          "Write the fraction with its lower number.", start, end)
        part = Fraction(int(top), int(under))
    if found["whole"] and part >= 1:
        raise Trouble("fraction not less than one", f"`{text}` joins a whole number and a fraction of 1 or more.",
                      "Write the fraction as a part of one: 5 1/2.", start, end)
    if found["top"] and plain[end:end + 1] == "/":
        raise two_slashes(plain[start:end], start, end)
    return Token(sort=Sort.NUMBER, text=text, start=start, end=end, value=int(found["whole"] or 0) + part,
                 plain_fraction=bool(found["top"]) and not found["whole"])


def _comma(plain: str, at: int) -> Trouble:
    start = at - len(re.findall(r"[0-9]*$", plain[:at])[0])
    found = re.compile(r"[0-9]+(?:,[0-9]+)+").match(plain, start)
    end = found.end() if found else at + 1
    written = plain[start:end]
    return Trouble(
        "comma in a number",
        f"`{written}`: a comma parts whole numbers from decimals in some countries, and thousands in others.",
        f"Write {written.replace(',', '.', 1)} with a full stop, or {written.replace(',', '')} with nothing.",
        start, end)


def _sign(plain: str, at: int, before: Token | None) -> Token:
    sign = plain[at]
    prefix = before is None or (before.sort is Sort.SIGN and before.text != ")")
    if sign == "-" and not prefix and (plain[at - 1] != " " or plain[at + 1:at + 2] not in (" ", "")):
        raise Trouble(
            "minus without spaces",
            "A minus between two measures has a space on each side; without them 5-1/2 is five and a half, and "
            "left-hand is one word.",
            f"To take away, write {plain[:at].rstrip()} - {plain[at + 1:].lstrip()}", at, at + 1)
    return Token(sort=Sort.SIGN, text="/" if sign == "÷" else sign, start=at, end=at + 1)


def _unreadable(plain: str, at: int, known: Collection[str], before: Token | None) -> Trouble:
    phrase = word_run(plain, at)
    end = at + len(phrase)
    after_number = before is not None and (before.sort is Sort.NUMBER or before.text == ")")
    if after_number and re.match(r"x(?![^\W\d_])", plain[at:]):
        return Trouble("two sizes where one belongs", "An x stands between two numbers; here one measure is wanted.",
                       "Write a size as a list, [8 1/2, 5 1/2]; to multiply, write * or ×.", at, at + 1)
    if phrase == ":" and after_number:
        return Trouble("measure can't be read", "A colon could part hours and minutes, or minutes and seconds.",
                       "Write the units: 1 h 30 min, or 1 min 30 s.", at, end)
    if not phrase[0].isalpha():
        return Trouble("measure can't be read", f"`{phrase}` has no meaning in a measure.",
                       "Write a number with its unit (5 1/2 in), or measures joined by + - * / and brackets.", at, end)
    if "-" in phrase and any(part in known for part in phrase.split("-")):
        return Trouble("minus without spaces", f"`{phrase}` is read as one name, and no measure has it.",
                       f"To take away, put spaces round the minus: {phrase.replace('-', ' - ')}", at, end)
    if after_number:
        return Trouble("unknown unit", f"`{phrase}` is no unit that is known here.",
                       "Lengths take in, mm or cm; times s, min or h; angles degrees.", at, end)
    if before is not None and before.sort is Sort.NAME:
        if kind_of_unit(phrase):
            return Trouble("unit given twice", f"`{before.text}` has its unit already.", f"Take `{phrase}` away.",
                           at, end)
        at, phrase = before.start, f"{before.text} {phrase}"
    meant = nearest(phrase, known)
    listed = ", ".join(sorted(known)) if known else "none yet"
    mend = f"Write `{meant}`, if that is meant." if meant else f"Name it under measures. Named: {listed}."
    return Trouble("unknown measure", f"No measure is named `{phrase}`.", mend, at, end)


def _starts_word(plain: str, at: int) -> bool:
    if at == 0:
        return True
    previous = plain[at - 1]
    return not (previous.isalnum() or previous in "_'" or (previous == "-" and at > 1 and plain[at - 2].isalpha()))


def _ends_word(plain: str, at: int) -> bool:
    following = plain[at:at + 1]
    return not (following.isalnum() or following == "_" or (following == "-" and plain[at + 1:at + 2].isalpha()))
