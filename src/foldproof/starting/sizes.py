"""The finished size of a card: by the name of its envelope or by numbers, and the envelope that takes it."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from foldproof.facts.envelopes import ENVELOPES, STANDARD_CLEARANCE_MM, Envelope, find_envelope
from foldproof.findings.finding import Finding, Place
from foldproof.findings.nearest import nearest
from foldproof.measures.quantity import Kind, Unit
from foldproof.measures.reading import read_quantity
from foldproof.measures.units import SHORT_NAME
from foldproof.measures.writing import write_length
from foldproof.starting.trouble import CannotBeError

SQUARE = "5 1/2 in square"
"""The envelope that `square` alone means."""
MARK = {Unit.INCH: Fraction(1, 16), Unit.MM: Fraction(1, 2), Unit.CM: Fraction(1, 20)}
"""What a finished size is a whole number of: the marks that hands can set by a ruler."""
_STEP = {Unit.INCH: Fraction(1, 8), Unit.MM: Fraction(1), Unit.CM: Fraction(1, 10)}
"""What the card for a named envelope is rounded down to in another unit than the envelope's."""
_LEAST_MM, _MOST_MM = 50, 400
_LIES = re.compile(r"\s+(landscape|upright)$", re.IGNORECASE)
_BY = re.compile(r"\s*[x×]\s*|\s+by\s+", re.IGNORECASE)
_UNITS = ((re.compile(r"mm|millimet", re.IGNORECASE), Unit.MM), (re.compile(r"cm|centimet", re.IGNORECASE), Unit.CM),
          (re.compile(r"in\b|inch|[\"″]", re.IGNORECASE), Unit.INCH))


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A finished card as it is read: closed, upright before the reader."""

    width: Fraction
    height: Fraction
    unit: Unit
    envelope: str | None
    """The name of the envelope that it goes into, as the facts have it; None where no usual one takes it."""
    lies: str | None = None
    """`landscape` or `upright` where the author chose; None leaves it to the construction."""

    named: bool = False
    """Whether it was given by name: numbers say themselves how the card lies."""

    @property
    def written(self) -> str:
        """Width by height, the unit left out: `4 1/4 x 5 1/2`."""
        return f"{write_length(self.width, self.unit)} x {write_length(self.height, self.unit)}"

    @property
    def said(self) -> str:
        """Width by height with the unit, as it may be written again: `4 1/4 x 5 1/2 in`."""
        return f"{self.written} {SHORT_NAME[self.unit]}"

    @property
    def turned(self) -> "Size":
        """The same card, its other edge at the top."""
        return replace(self, width=self.height, height=self.width)


def read_size(written: str, unit: Unit | None = None) -> Size:
    """A size by name (`A2`, `C6 landscape`, `square`) or by width and height (`4 1/4 x 5 1/2`, `105 x 148 mm`).

    A name is that of an envelope; its card is given in `unit`, or else in the unit that its makers name it in. Numbers
    without a unit are inches, unless `unit` says otherwise or one of them is larger than 40. Raises CannotBeError.
    """
    plain = " ".join(written.split())
    lies = _LIES.search(plain)
    name = _LIES.sub("", plain)
    envelope = find_envelope(SQUARE if name.casefold() == "square" else name)
    if envelope is not None:
        width, height = card_for(envelope, unit or envelope.unit)
        return Size(width=width, height=height, unit=unit or envelope.unit, envelope=envelope.name,
                    lies=lies[1].lower() if lies else None, named=True)
    sides = _BY.split(name)
    if len(sides) != 2 or not any(letter.isdigit() for letter in name):
        raise CannotBeError(_unknown(written))
    named = next((unit for look, unit in _UNITS if look.search(name)), None)
    first = [_length(side, named or unit or Unit.INCH, written) for side in sides]
    meant = named or unit or (Unit.MM if max(first) > 40 else Unit.INCH)
    width, height = (_length(side, meant, written) for side in sides)
    # numbers name the unit that the recipe is written in, unless another was asked for
    size = _within(Size(width=width, height=height, unit=meant, envelope=None), written)
    if unit is not None and unit is not meant:
        raise CannotBeError(
            f"{written} is in {meant.value}, and the recipe in {unit.value}: give the numbers in {unit.value}.")
    return replace(size, envelope=envelope_for(size))


def card_for(envelope: Envelope, unit: Unit) -> tuple[Fraction, Fraction]:
    """The card that goes into an envelope, shorter side first.

    The usual card in the envelope's own unit, its half millimetres dropped; in another, the same card in whole
    millimetres or eighths of an inch, never larger.
    """
    usual = envelope.usual_card_mm or tuple(side - STANDARD_CLEARANCE_MM for side in envelope.size_mm)
    step = MARK[unit] if envelope.unit is unit is Unit.INCH else _STEP[unit]
    width, height = (side / unit.millimetres // step * step for side in usual)
    return width, height


def envelope_for(size: Size) -> str | None:
    """The smallest envelope that leaves a card the room that its usual card has; of the recipe's own unit first."""
    sides = sorted((size.width * size.unit.millimetres, size.height * size.unit.millimetres))
    metric = size.unit is not Unit.INCH

    def takes(envelope: Envelope) -> bool:
        room = envelope.clearance_mm((sides[0], sides[1]))
        return all(left >= min(usual, STANDARD_CLEARANCE_MM) and left <= 4 * STANDARD_CLEARANCE_MM
                   for left, usual in zip(room, envelope.usual_clearance_mm, strict=True))

    def order(envelope: Envelope) -> tuple[bool, Fraction]:
        return (envelope.unit is Unit.MM) is not metric, envelope.size_mm[0] * envelope.size_mm[1]

    return next((envelope.name for envelope in sorted(ENVELOPES, key=order) if takes(envelope)), None)


def on_mark(value: Fraction, unit: Unit) -> Fraction:
    """The mark nearest to a length, at least one."""
    return max(round(value / MARK[unit]), 1) * MARK[unit]


def _within(size: Size, written: str) -> Size:
    least, most = (Fraction(mm) / size.unit.millimetres for mm in (_LEAST_MM, _MOST_MM))
    for side in (size.width, size.height):
        if not least <= side <= most:
            low, high = on_mark(least + MARK[size.unit] / 2, size.unit), most // MARK[size.unit] * MARK[size.unit]
            near = _near(size, (min(max(size.width, low), high), min(max(size.height, low), high)))
            raise CannotBeError(
                f"{written} is no size for a card: each side has between {_LEAST_MM} and {_MOST_MM} mm. "
                f"The nearest is {near}.")
    if any(side % MARK[size.unit] for side in (size.width, size.height)):
        near = _near(size, (size.width, size.height))
        raise CannotBeError(f"{written} is finer than a ruler's marks. The nearest that hands can cut is {near}.")
    return size


def _near(size: Size, sides: Iterable[Fraction]) -> str:
    width, height = (on_mark(side, size.unit) for side in sides)
    return f'"{replace(size, width=width, height=height).said}"'


def _length(side: str, unit: Unit, written: str) -> Fraction:
    place = Place(file="the size", line=1, column=1, length=max(len(side), 1))
    read = read_quantity(side, place=place, kind=Kind.LENGTH, unit=unit, names={})
    if isinstance(read, Finding):
        raise CannotBeError(f"{written!r} can't be read as a size: {read.message}")
    return read.value


def _unknown(written: str) -> str:
    meant = nearest(written, [envelope.name for envelope in ENVELOPES])
    return (f"{written!r} is no size that is known here. " + (f"Write {meant}, if that is meant. " if meant else "")
            + 'Give the envelope (A2, A6, A7, C6, DL, square) or width and height ("4 1/4 x 5 1/2", "105 x 148 mm").')
