"""The gaps of a recipe's text filled with numbers.

A text is a recipe as it is written by hand, with gaps:

- `«2 * width»` a length in figures, by the arithmetic of the recipe's own measures; a given number in the measures
- `«say 2 * width»`, `«tell 2 * width»` the same as it is said aloud, with its unit and without
- `«edge 2 * width by height»` which edge is at the top of a piece of that size: long, short, or top where it is square;
  `«an edge ...»` with its article
- `«sheet 2 * width by height, tab by height»` the smallest sheet that each of these can be cut from
- `«seconds»`, `«seconds with caution»` how long the step's spoken line takes, with time for the hands
- `«name»` a phrase that was given with the numbers
"""

import re
import textwrap
from collections.abc import Mapping
from fractions import Fraction

from foldproof.findings.finding import Finding, Place
from foldproof.measures.named import resolve_measures
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.reading import read_quantity
from foldproof.measures.speaking import speak_length, speak_number
from foldproof.measures.writing import write_length
from foldproof.starting.sheets import smallest_sheet

WIDTH = 118
WORDS_A_SECOND = Fraction(2)
CAUTION = 24
"""Words of the trimmer's caution, which is said where the trimmer is first used."""
HANDS = 6
"""Seconds for the hands beside the words of a shot."""
FINEST = {Unit.INCH: 32, Unit.MM: 2, Unit.CM: 20}
"""Parts of the unit that hands can set."""
_GAP = re.compile(r"«([^»]*)»")
_MEASURES = re.compile(r"^measures:\n((?: .*\n|#.*\n)+)", re.MULTILINE)
_WORD = re.compile(r"\w+(?:'\w+)?")
_FIGURES = re.compile(r"\d+(?:\.\d+)?")
_HERE = Place(file="the construction", line=1, column=1)


class OffMarkError(Exception):
    """A length comes out finer than a ruler shows, or as nothing."""

    def __init__(self, what: str, value: Fraction) -> None:
        super().__init__(what)
        self.what, self.value = what, value


def measures_of(text: str, given: Mapping[str, Fraction], unit: Unit) -> dict[str, Quantity]:
    """The measures of a text with gaps once the given numbers stand in them."""
    block = _MEASURES.search(text)
    assert block is not None, "each construction has measures"
    entries = []
    for line in block[1].splitlines():
        name, colon, written = line.partition(":")
        if colon and not line.lstrip().startswith("#"):
            filled = _GAP.sub(lambda gap: write_length(given[gap[1]], unit), written)
            entries.append((name.strip(), _HERE, filled.strip(), _HERE))
    read, findings = resolve_measures(entries, unit)
    assert not findings, findings
    return read


def filled(text: str, given: Mapping[str, Fraction], phrases: Mapping[str, str], unit: Unit) -> str:
    """A text with all its gaps filled. Raises OffMarkError and CannotBeError."""
    measures = measures_of(text, given, unit)

    def length(written: str) -> Fraction:
        value = reckon(written, measures, unit)
        if value <= 0 or (value * FINEST[unit]).denominator != 1:
            raise OffMarkError(written, value)
        return value

    def sizes(written: str) -> list[tuple[Fraction, Fraction]]:
        pairs = [one.split(" by ") for one in written.split(",")]
        return [(length(across), length(up)) for across, up in pairs]

    def gap(found: re.Match[str]) -> str:
        what = " ".join(found[1].split())
        if what.startswith("seconds"):
            return found[0]
        if what in phrases:
            return phrases[what]
        if what in given:
            return write_length(given[what], unit)
        kind, _, rest = what.partition(" ")
        match kind:
            case "say":
                return speak_length(length(rest), unit)
            case "tell":
                return speak_number(length(rest), unit)
            case "Tell":
                said = speak_number(length(rest), unit)
                return said[:1].upper() + said[1:]
            case "sheet":
                return f"[{', '.join(write_length(side, unit) for side in smallest_sheet(sizes(rest), unit))}]"
            case "edge":
                return _edge(*sizes(rest)[0])
            case "an" | "An":
                edge = _edge(*sizes(rest.removeprefix("edge "))[0])
                said = f"{'the' if edge == 'top' else 'a'} {edge} edge"
                return said if kind == "an" else said[:1].upper() + said[1:]
        return write_length(length(what), unit)

    return _laid_out(_GAP.sub(gap, text))


def reckon(written: str, measures: Mapping[str, Quantity], unit: Unit) -> Fraction:
    """A length by the arithmetic of a recipe."""
    read = read_quantity(written, place=_HERE, kind=Kind.LENGTH, unit=unit, names=measures)
    assert not isinstance(read, Finding), (written, read)
    return read.value


def _edge(across: Fraction, up: Fraction) -> str:
    return "top" if across == up else "long" if across > up else "short"


def _laid_out(text: str) -> str:
    """Folded passages set in lines of one width, and the seconds of each step reckoned from its spoken line."""
    lines: list[str] = []
    passage: list[str] = []
    indent, spoken = 0, 0

    def close() -> None:
        if passage:
            lines.extend(textwrap.wrap(" ".join(passage), WIDTH, initial_indent=" " * indent,
                                       subsequent_indent=" " * indent, break_long_words=False, break_on_hyphens=False))
            passage.clear()

    inside = False
    for line in text.splitlines():
        deep = len(line) - len(line.lstrip())
        if inside and line.strip() and deep >= indent:
            passage.append(line.strip())
            continue
        if inside:
            if lines and lines[-1].strip() == "say: >":
                spoken = _words(" ".join(passage))
            close()
            inside = False
        for gap, more in (("«seconds»", 0), ("«seconds with caution»", CAUTION)):
            line = line.replace(gap, str(_seconds(spoken + more)))
        lines.append(line)
        if line.endswith(": >") or line.endswith(": >-"):
            inside, indent = True, deep + 2
    close()
    return "\n".join(lines) + "\n"


def _words(line: str) -> int:
    """At most so many words when it is read out: `212.5` is two hundred and twelve point five."""
    long = sum(4 if len(figure.split(".")[0]) > 2 else 1 for figure in _FIGURES.findall(line))
    return len(_WORD.findall(line)) + long


def _seconds(words: int) -> int:
    """Whole fives of seconds in which a line can be said while hands work."""
    return max(15, 5 * -(-int(words / WORDS_A_SECOND + HANDS) // 5))
