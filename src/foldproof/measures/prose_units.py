"""The unit that follows a number in prose, and with it what the number measures."""

from collections.abc import Sequence

from foldproof.frozen import dataclass
from foldproof.measures.number_words import ARTICLES, Said, skip_hyphen
from foldproof.measures.prose import Bit, Part
from foldproof.measures.spotted import Sense


@dataclass(frozen=True, slots=True, kw_only=True)
class Following:
    """What a number is said to be a number of."""

    sense: Sense
    unit: str | None
    end: int
    """The token after it."""


_WORDS: dict[str, tuple[Sense, str]] = {
    word: (sense, name)
    for sense, name, words in (
        (Sense.LENGTH, "in", "inch inches"),
        (Sense.LENGTH, "mm", "mm millimetre millimetres millimeter millimeters"),
        (Sense.LENGTH, "cm", "cm centimetre centimetres centimeter centimeters"),
        (Sense.LENGTH, "m", "metre metres meter meters"),
        (Sense.LENGTH, "ft", "ft"),
        (Sense.LENGTH, "yd", "yd yard yards"),
        (Sense.TIME, "s", "sec secs second seconds"),
        (Sense.TIME, "min", "min mins minute minutes"),
        (Sense.TIME, "h", "hr hrs hour hours"),
        (Sense.TIME, "d", "day days"),
        (Sense.ANGLE, "degrees", "deg degree degrees"),
        (Sense.WEIGHT, "lb", "lb lbs pound pounds"),
        (Sense.WEIGHT, "gsm", "gsm"),
        (Sense.WEIGHT, "oz", "oz ounce ounces"),
        (Sense.WEIGHT, "g", "gram grams gramme grammes"),
        (Sense.WEIGHT, "kg", "kg kilo kilos kilogram kilograms"),
        (Sense.PERCENT, "percent", "percent"),
        (Sense.MONEY, "dollars", "dollar dollars"),
        (Sense.MONEY, "euros", "euro euros"),
        (Sense.MONEY, "cents", "cent cents"),
        (Sense.MONEY, "pence", "pence"),
        (Sense.OTHER, "points", "pt"),
        (Sense.OTHER, "dots per inch", "dpi"),
        (Sense.OTHER, "pixels", "px pixel pixels"),
        (Sense.OTHER, "millilitres", "ml"),
        (Sense.OTHER, "plies", "ply"),
        (Sense.OTHER, "words per minute", "wpm"),
        (Sense.OTHER, "clock", "o'clock am pm a.m p.m"),
        (Sense.OTHER, "years", "year years"),
    )
    for word in words.split()
}
_LETTERS = {"m": (Sense.LENGTH, "m"), "s": (Sense.TIME, "s"), "h": (Sense.TIME, "h"), "g": (Sense.WEIGHT, "g"),
            "p": (Sense.MONEY, "pence"), "foot": (Sense.LENGTH, "ft"), "feet": (Sense.LENGTH, "ft")}
"""Units only after figures: `2 m`, but `two feet` may be those of an easel."""
_CURRENCY_CODES = ("usd", "eur", "gbp", "cad", "aud", "nzd", "chf", "jpy", "sek", "nok", "dkk")
_NOT_INCHES = (
    "half", "the", "a", "an", "each", "all", "total", "turn", "order", "one", "two", "three", "pairs", "halves",
    "this", "that", "these", "your", "both", "any", "place", "front", "case", "advance", "it", "them", "their",
    "its", "addition", "between", "which", "every", "my", "our", "same", "as",
)
"""What follows the preposition `in` but hardly the unit after a whole number."""


def unit_after(bits: Sequence[Bit], said: Said, open_quote: str | None) -> Following | None:
    """Read the unit after a number, with a hyphen or `of an` between where people write them.

    `open_quote` is the quotation mark that is open at the number: the same mark after it then closes the quotation.
    """
    at = said.end
    if at >= len(bits):
        return None
    figures = not said.word
    if bits[at - 1].part is Part.FIGURE and not bits[at - 1].whole and (
        bits[at].text in ("th", "ths", "nd", "nds") and not bits[at].spaced
    ):
        at += 1
    of = at < len(bits) and bits[at].text == "of"
    if said.fraction and of:
        article = at + 1 < len(bits) and bits[at + 1].text in (*ARTICLES, "one")
        found = _unit_word(bits, at + 2, figures=False) if article else None
        if said.needs_of and not found:
            return None
        return found or Following(sense=Sense.SHARE, unit=None, end=at)
    if of and said.value.denominator > 1 and at + 1 < len(bits) and bits[at + 1].text in (*ARTICLES, "one"):
        whole = _unit_word(bits, at + 2, figures=False)  # `two and three eighths of an inch`
        return whole if whole and whole.sense is Sense.LENGTH else None
    if said.needs_of:
        return None
    if said.loose_half and at + 1 < len(bits) and bits[at].text in ARTICLES:
        return _unit_word(bits, at + 1, figures=False)
    hyphened = skip_hyphen(bits, at)
    if hyphened >= len(bits):
        return None
    sign = _unit_sign(bits, at, open_quote) if figures else None
    found = sign or _unit_word(bits, hyphened, figures=figures, whole=said.value.denominator == 1)
    if found and found.sense is Sense.ANGLE and found.end < len(bits) and bits[found.end].text in (
        "c", "f", "celsius", "fahrenheit", "centigrade"
    ):
        return Following(sense=Sense.OTHER, unit="degrees of heat", end=found.end + 1)
    return found


def unit_word_at(bits: Sequence[Bit], at: int) -> Following | None:
    """Read a spelled-out unit of length or time, as in `an inch`."""
    found = _unit_word(bits, at, figures=False)
    return found if found and found.sense in (Sense.LENGTH, Sense.TIME) else None


def _unit_word(bits: Sequence[Bit], at: int, *, figures: bool, whole: bool = False) -> Following | None:
    if at >= len(bits) or bits[at].part is not Part.WORD:
        return None
    word, end = bits[at].text, at + 1
    if word == "in":
        following = bits[end].text if end < len(bits) else ""
        if not figures or following == "half" or (whole and following in _NOT_INCHES):
            return None
        return Following(sense=Sense.LENGTH, unit="in", end=end)
    if word == "per" and end < len(bits) and bits[end].text == "cent":
        return Following(sense=Sense.PERCENT, unit="percent", end=end + 1)
    per_area = end + 1 < len(bits) and bits[end].text == "/" and bits[end + 1].text in ("m2", "m²", "sqm")
    if figures and word == "g" and per_area:
        return Following(sense=Sense.WEIGHT, unit="gsm", end=end + 2)
    if figures and word in _CURRENCY_CODES:
        return Following(sense=Sense.MONEY, unit=word.upper(), end=end)
    found = _WORDS.get(word) or (_LETTERS.get(word) if figures else None)
    return Following(sense=found[0], unit=found[1], end=end) if found else None


def _unit_sign(bits: Sequence[Bit], at: int, open_quote: str | None) -> Following | None:
    text = bits[at].text
    if text in ('"', "”") and text != open_quote:
        return Following(sense=Sense.LENGTH, unit="in", end=at + 1)
    if text == "″":
        return Following(sense=Sense.LENGTH, unit="in", end=at + 1)
    if text == "′":
        return Following(sense=Sense.LENGTH, unit="ft", end=at + 1)
    if text == "°":
        return Following(sense=Sense.ANGLE, unit="degrees", end=at + 1)
    if text == "%":
        return Following(sense=Sense.PERCENT, unit="percent", end=at + 1)
    if text == "#" and not bits[at].spaced:
        return Following(sense=Sense.WEIGHT, unit="lb", end=at + 1)
    if text in "€$£¥":
        return Following(sense=Sense.MONEY, unit=text, end=at + 1)
    return None
