"""Numbers that are spelled out: `two and an eighth`, `three sixteenths`, `five and a half`."""

from collections.abc import Sequence
from fractions import Fraction
from math import gcd

from foldproof.frozen import dataclass
from foldproof.measures.prose import Bit, Part
from foldproof.measures.speaking import ONES, TENS

_SMALL = {word: value for value, word in enumerate(ONES)}
_TENS = {word: 10 * value for value, word in enumerate(TENS, start=2)}
_PARTS = {"half": 2, "third": 3, "quarter": 4, "fourth": 4, "fifth": 5, "sixth": 6, "eighth": 8, "tenth": 10,
          "twelfth": 12, "sixteenth": 16}
_RULER_PARTS = (2, 4, 8, 16, 32, 64)
_PLURALS = {"halves": 2, **{f"{word}s": part for word, part in _PARTS.items() if word != "half"}}
_PARTS_IN_TWO = {("thirty", "second"): 32, ("thirty", "seconds"): 32, ("sixty", "fourth"): 64, ("sixty", "fourths"): 64}
_ROUND = {"hundred": 100, "dozen": 12}
ARTICLES = ("a", "an")


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A number read from tokens."""

    value: Fraction
    end: int
    """The token after it."""
    fraction: bool = False
    """Nothing but a fraction: `three sixteenths`, `1/8`, `half`."""
    loose_half: bool = False
    """A fraction with no number before it (`half`, `a quarter`): a measure only with a unit after it."""
    needs_of: bool = False
    """`a third` may be a place in a row: a measure only as `a third of an inch`."""
    lone_one: bool = False
    """The word `one`, which is a number only before a unit or something counted."""
    word: bool = True
    """Spelled out, at least in part."""


def read_number(bits: Sequence[Bit], at: int) -> Said | None:
    """Read the number that starts at a token; None where none does."""
    bit = bits[at]
    if bit.part is Part.FIGURE:
        tail = (_point(bits, at + 1) or _and_part(bits, at + 1)) if bit.whole else None
        if tail:
            return Said(value=bit.value + tail[0], end=tail[1])
        return Said(value=bit.value, end=at + 1, fraction=bit.fraction, word=False)
    if bit.part is not Part.WORD:
        return None
    if bit.text == "point" and not (at and bits[at - 1].text in _SOME_POINT):
        decimal = _point(bits, at)
        return Said(value=decimal[0], end=decimal[1], loose_half=True) if decimal else None
    if bit.text in ARTICLES and at + 1 < len(bits) and bits[at + 1].text in _ROUND and not _a_hundred(bits, at):
        return Said(value=Fraction(_ROUND[bits[at + 1].text]), end=at + 2)
    if (bit.text in ARTICLES and not _a_hundred(bits, at)) or bit.text in _PARTS:
        return _loose_part(bits, at)
    cardinal = _cardinal(bits, at)
    if not cardinal:
        return None
    value, end = cardinal
    part = _part_word(bits, end)
    if part and _parts_of_one(bits, value, part, end):
        return Said(value=Fraction(value, part[0]), end=part[1], fraction=True)
    tail = _point(bits, end) or _and_part(bits, end) or _close_part(bits, at, end)
    if tail:
        return Said(value=value + tail[0], end=tail[1])
    return Said(value=Fraction(value), end=end, lone_one=bit.text == "one" and end == at + 1)


def and_part_after_unit(bits: Sequence[Bit], at: int) -> tuple[Fraction, int] | None:
    """Read `and a half` after a unit (`an inch and a half`), unless it is a part of something else (`a half turn`)."""
    tail = _and_part(bits, at)
    if tail and tail[1] < len(bits) and bits[tail[1]].text in _OTHER_HALVES:
        return None
    return tail


_OTHER_HALVES = ("turn", "turns", "way", "round", "circle", "of", "sheet", "card", "fold", "twist", "hitch")


def _and_part(bits: Sequence[Bit], at: int) -> tuple[Fraction, int] | None:
    """Read `and a half`, `and an eighth`, `and three quarters`, `and 1/2`; hyphens may join the words."""
    at = skip_hyphen(bits, at)
    if not _is(bits, at, "and"):
        return None
    at = skip_hyphen(bits, at + 1)
    if at >= len(bits):
        return None
    if bits[at].part is Part.FIGURE and bits[at].fraction and bits[at].value < 1:
        return bits[at].value, at + 1
    if bits[at].text in ARTICLES:
        figure = bits[at + 1] if at + 1 < len(bits) else None
        if figure and figure.part is Part.FIGURE and figure.fraction and figure.value < 1:
            return figure.value, at + 2
        part = _part_word(bits, skip_hyphen(bits, at + 1))
        return (Fraction(1, part[0]), part[1]) if part else None
    if bits[at].text in _PARTS:
        part = _part_word(bits, at)
        return (Fraction(1, part[0]), part[1]) if part else None
    cardinal = _cardinal(bits, at)
    part = _part_word(bits, cardinal[1]) if cardinal else None
    if cardinal and part and cardinal[0] < part[0]:
        return Fraction(cardinal[0], part[0]), part[1]
    return None


_BEFORE_MEASURES = ("at", "by", "to", "is", "x", "measures", "from")


_SOME_POINT = (
    "the", "this", "that", "a", "some", "any", "which", "no", "one", "each", "every", "same", "first", "last", "end",
    "starting", "corner", "middle", "high", "low",
)
"""Before these, `point` is a place."""


def _close_part(bits: Sequence[Bit], first: int, at: int) -> tuple[Fraction, int] | None:
    """Read `five eighths`, `an eighth` or `1/8` close behind a whole number, said in haste: `at two five eighths`.

    Only after a word that a measure follows, or in a size: `cut two three-quarter inch strips` counts them.
    """
    found = _fraction_at(bits, at) if at < len(bits) else None
    if found is None:
        return None
    measured = first > 0 and bits[first - 1].text in _BEFORE_MEASURES
    return found if measured or _is(bits, found[1], "by") or _is(bits, found[1], "x") else None


def _fraction_at(bits: Sequence[Bit], at: int) -> tuple[Fraction, int] | None:
    """Read a fraction of a ruler that stands alone at a token."""
    if bits[at].part is Part.FIGURE:
        return (bits[at].value, at + 1) if bits[at].fraction and bits[at].value < 1 else None
    count = (1, at + 1) if bits[at].text in ARTICLES else _cardinal(bits, at)
    part = _part_word(bits, count[1]) if count else None
    if not count or not part or part[0] not in _RULER_PARTS or count[0] >= part[0]:
        return None
    return Fraction(count[0], part[0]), part[1]


def _point(bits: Sequence[Bit], at: int) -> tuple[Fraction, int] | None:
    """Read `point five`, `point one two five`, `point seventy-five`, `point 5`: the figures after a decimal point."""
    if not _is(bits, at, "point"):
        return None
    at, digits = at + 1, ""
    while at < len(bits):
        bit = bits[at]
        if bit.part is Part.FIGURE and bit.whole and not digits:
            return Fraction(f"0.{bit.text}"), at + 1
        if bit.text == "oh":
            digits, at = digits + "0", at + 1
            continue
        found = _below_hundred(bits, at)
        if not found:
            break
        digits, at = digits + str(found[0]), found[1]
    return (Fraction(f"0.{digits}"), at) if digits else None


def _a_hundred(bits: Sequence[Bit], at: int) -> bool:
    """Whether `a hundred` stands at a token with more behind it, or a part: `a hundred and forty`."""
    return _is(bits, at + 1, "hundred") and _cardinal(bits, at) is not None


def _loose_part(bits: Sequence[Bit], at: int) -> Said | None:
    start = at + 1 if bits[at].text in ARTICLES else at
    part = _part_word(bits, start)
    if not part:
        return None
    return Said(value=Fraction(1, part[0]), end=part[1], fraction=True, loose_half=True,
                needs_of=part[0] not in _RULER_PARTS)


def _parts_of_one(bits: Sequence[Bit], count: int, part: tuple[int, int], at: int) -> bool:
    """Tell `three eighths` and `three eighth inch` from `two quarter turns` and `two half-inch strips`."""
    last = bits[part[1] - 1].text
    if last.endswith("s") or last == "halves" or count == 1:
        return True
    after = bits[part[1]].text if part[1] < len(bits) else ""
    return gcd(count, part[0]) == 1 and part[0] != 2 and after in ("inch", "of")


def _part_word(bits: Sequence[Bit], at: int) -> tuple[int, int] | None:
    """Read the word for a part of one at a token: its denominator and the token after it."""
    at = skip_hyphen(bits, at)
    if at >= len(bits) or bits[at].part is not Part.WORD:
        return None
    word = bits[at].text
    following = skip_hyphen(bits, at + 1)
    if following == at + 2 and following < len(bits):
        two = _PARTS_IN_TWO.get((word, bits[following].text))
        if two:
            return two, following + 1
    found = _PARTS.get(word) or _PLURALS.get(word)
    return (found, at + 1) if found else None


def _cardinal(bits: Sequence[Bit], at: int) -> tuple[int, int] | None:
    """Read a whole number in words, up to 999; `dozen` is 12."""
    article = at + 1 < len(bits) and bits[at].text in ARTICLES and bits[at + 1].text == "hundred"
    below = (1, at + 1) if article else _below_hundred(bits, at)
    if below and _is(bits, below[1], "hundred"):
        rest = _below_hundred(bits, below[1] + (2 if _is(bits, below[1] + 1, "and") else 1))
        return (100 * below[0] + rest[0], rest[1]) if rest else (100 * below[0], below[1] + 1)
    if below and _is(bits, below[1], "dozen"):
        return 12 * below[0], below[1] + 1
    return below


def _below_hundred(bits: Sequence[Bit], at: int) -> tuple[int, int] | None:
    if at >= len(bits) or bits[at].part is not Part.WORD:
        return None
    word = bits[at].text
    if word in _SMALL:
        return _SMALL[word], at + 1
    if word not in _TENS:
        return None
    after = skip_hyphen(bits, at + 1)
    ones = _SMALL.get(bits[after].text, 0) if after < len(bits) else 0
    return (_TENS[word] + ones, after + 1) if 0 < ones < 10 else (_TENS[word], at + 1)


def skip_hyphen(bits: Sequence[Bit], at: int) -> int:
    """Give the token after a hyphen that joins two words, or the token itself."""
    if at + 1 < len(bits) and bits[at].text == "-" and not bits[at].spaced and not bits[at + 1].spaced:
        return at + 1
    return at


def _is(bits: Sequence[Bit], at: int, word: str) -> bool:
    return at < len(bits) and bits[at].text == word
