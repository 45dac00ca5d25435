"""A line to speak: Markdown taken off, numbers written as people say them, and how long it takes."""

import re
from fractions import Fraction

from foldproof.measures.quantity import Unit
from foldproof.measures.speaking import ONES, speak_length, speak_whole
from foldproof.measures.spotted import Sense, Spotted
from foldproof.measures.spotting import spot_numbers
from foldproof.measures.writing import FINEST_RULER

WORDS_A_MINUTE = Fraction(130)
"""A planning value for a demonstration by hand (from memory); conversation runs at about 150 (US National Center for
Voice and Speech, by a secondary page)."""

_LINK = re.compile(r"!?\[([^\]\n]*)\]\([^)\n]*\)")
_MARKS = re.compile(r"(?<!\w)[*_`]+|[*_`]+(?!\w)|^\s*(?:[-+>]|#+)\s+", re.MULTILINE)
_FIGURES = re.compile(r"[\d½¼¾⅛⅜⅝⅞⅓⅔][\d½¼¾⅛⅜⅝⅞⅓⅔⁄/.,-]*(?:\s+(?=[\d½¼¾⅛⅜⅝⅞]+(?:[/⁄]|\b))[\d½¼¾⅛⅜⅝⅞/⁄]+)?")
_LENGTHS = {
    "in": Unit.INCH, '"': Unit.INCH, "″": Unit.INCH, "”": Unit.INCH, "mm": Unit.MM, "cm": Unit.CM,
}
_AFTER = {"%": "percent", "lb": "pound"}
_TIMES = {"s": "second", "sec": "second", "min": "minute", "h": "hour"}
_WORDS = re.compile(r"[\w'’]+(?:\.\d+)?")


def plain(text: str) -> str:
    """What is said of a passage of Markdown, on one line; its figures stay."""
    return " ".join(_MARKS.sub("", _LINK.sub(r"\1", text)).split())


def spoken(text: str, unit: Unit) -> str:
    """A passage as it is said: `8 1/2 x 5 1/2 in` becomes `eight and a half by five and a half inches`.

    Dates, prices and names such as A2 stay. The spelling is that of the recipe's part of the world.
    """
    line = plain(text)
    said, at = "", 0
    for number in spot_numbers(line):
        if number.start < at or not any(char.isdigit() or char in "½¼¾⅛⅜⅝⅞" for char in number.written):
            continue
        between = line[at:number.start]
        said += " by " if between.strip() in ("x", "×") else between
        words = _say(number, unit)
        said += words if said and not said.rstrip().endswith((".", "!", "?", ":")) else words[:1].upper() + words[1:]
        at = number.end
    return said + line[at:]


def _say(number: Spotted, unit: Unit) -> str:
    figures = _FIGURES.match(number.written)
    if figures is None or number.sense is Sense.MONEY or number.written[figures.end():].startswith(":"):
        return number.written
    rest = number.written[figures.end():].strip(" -")
    if any(char.isdigit() for char in rest):
        return number.written
    value, ruler = number.value, "." not in figures.group().rstrip(".")
    if number.sense is Sense.LENGTH and rest.rstrip(".").casefold() in _LENGTHS:
        measured = _LENGTHS[rest.rstrip(".").casefold()]
        stop = "." if rest.endswith(".") and measured is not Unit.INCH else ""
        return _length(value, measured, american=unit is Unit.INCH) + stop
    if number.sense is Sense.TIME and rest.rstrip(".") in _TIMES:
        return f"{speak_number(value, ruler=ruler)} {_TIMES[rest.rstrip('.')]}{'' if value == 1 else 's'}"
    if number.sense is Sense.ORDINAL and number.written[figures.end():][:2] in ("st", "nd", "rd", "th"):
        return number.written
    return f"{speak_number(value, ruler=ruler)} {_AFTER.get(rest, rest)}".strip()


def _length(value: Fraction, measured: Unit, *, american: bool) -> str:
    if measured is Unit.INCH and not FINEST_RULER % value.denominator:
        return speak_length(value, measured)
    name = {Unit.INCH: "inche", Unit.MM: "millimetre", Unit.CM: "centimetre"}[measured]
    if american:
        name = name.replace("metre", "meter")
    one = name.removesuffix("e") if measured is Unit.INCH else name
    return f"{speak_number(value, ruler=False)} {one if value == 1 else f'{name}s'}"


def speak_number(value: Fraction, *, ruler: bool = True) -> str:
    """A number in words: `five and a half`, `three sixteenths`, `two hundred and ten`, `ninety-seven point five`."""
    whole, rest = divmod(value, 1)
    if rest and not FINEST_RULER % rest.denominator and ruler:
        return speak_length(value, Unit.INCH).removesuffix(" of an inch").removesuffix(" inches").replace(
            "half an inch", "a half")
    if rest and rest.denominator == 3:
        part = ("a third", "two thirds")[rest.numerator - 1]
        return f"{_whole(int(whole))} and {part}" if whole else part
    if rest and 10**6 % rest.denominator == 0:
        digits = f"{int(rest * 10**6):06d}".rstrip("0")
        return f"{_whole(int(whole))} point {' '.join(ONES[int(digit)] for digit in digits)}"
    return _whole(int(whole)) if not rest else f"{float(value):.4g}"


def _whole(number: int) -> str:
    if 100 <= number < 1000:
        hundreds, rest = divmod(number, 100)
        return f"{ONES[hundreds]} hundred{f' and {speak_whole(rest)}' if rest else ''}"
    return speak_whole(number)


def count_words(line: str) -> int:
    """The words of a line as they are said; a hyphenated number counts each of its words."""
    return len(_WORDS.findall(line))


def speaking_seconds(line: str, rate: Fraction = WORDS_A_MINUTE) -> Fraction:
    """Seconds to speak a line: its words times 60 over words a minute."""
    return count_words(line) * 60 / rate


