"""Envelopes by name: outside size, the usual card, and the room that card leaves.

As names of envelopes `A1` to `A10` are the North American announcement sizes, never the ISO sheets of like name: an A6
card (105 x 148 mm) goes in a C6 envelope.
"""

import re
from fractions import Fraction

from foldproof.facts.source import CUSTOM, MEMORY, Mark, Source
from foldproof.findings.finding import Finding, Place, Severity
from foldproof.findings.nearest import nearest
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit

_INCH = Unit.INCH.millimetres
ISO_269 = Source(text="ISO 269:1985, correspondence envelopes (secondary copies)", mark=Mark.SECONDARY, date="1985")
DIN_476 = Source(text="DIN 476-2 (secondary copy)", mark=Mark.SECONDARY)
MAKERS = Source(text="envelope makers' size charts", mark=Mark.SECONDARY)
STANDARD_CLEARANCE_MM = _INCH / 4
"""In each direction, where no usual card is known: a quarter inch, an eighth at each side (secondary pages)."""

Size = tuple[Fraction, Fraction]
"""Shorter side, longer side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Envelope:
    """An envelope, outside measures, shorter side first."""

    name: str
    unit: Unit
    """The unit its maker names it in."""
    size_mm: Size
    usual_card_mm: Size | None
    """The flat card that it is sold for."""
    source: Source
    card_source: Source | None

    @property
    def size(self) -> Size:
        """Outside size in its own unit, exact."""
        return (self.size_mm[0] / self.unit.millimetres, self.size_mm[1] / self.unit.millimetres)

    @property
    def usual_clearance_mm(self) -> Size:
        """What the usual card leaves in each direction, both sides together; a quarter inch where none is known."""
        if self.usual_card_mm is None:
            return (STANDARD_CLEARANCE_MM, STANDARD_CLEARANCE_MM)
        return (self.size_mm[0] - self.usual_card_mm[0], self.size_mm[1] - self.usual_card_mm[1])

    def clearance_mm(self, card_mm: Size) -> Size:
        """Outside size less a card's, shorter side against shorter side; negative where it does not go in."""
        return (self.size_mm[0] - min(card_mm), self.size_mm[1] - max(card_mm))


def _inches(name: str, short: str, long: str, card: tuple[str, str] | None, card_source: Source = MAKERS) -> Envelope:
    return Envelope(
        name=name,
        unit=Unit.INCH,
        size_mm=(_mixed(short) * _INCH, _mixed(long) * _INCH),
        usual_card_mm=(_mixed(card[0]) * _INCH, _mixed(card[1]) * _INCH) if card else None,
        source=MAKERS,
        card_source=card_source if card else None,
    )


def _mixed(written: str) -> Fraction:
    return sum((Fraction(part) for part in written.split()), Fraction(0))


def _mm(name: str, short: int, long: int, card: tuple[str, str] | None = None, source: Source = ISO_269) -> Envelope:
    return Envelope(
        name=name,
        unit=Unit.MM,
        size_mm=(Fraction(short), Fraction(long)),
        usual_card_mm=(Fraction(card[0]), Fraction(card[1])) if card else None,
        source=source,
        card_source=CUSTOM if card else None,
    )


def _square(side: str) -> Envelope:
    card = str(_mixed(side) - Fraction(1, 4))
    return _inches(f"{side} in square", side, side, (card, card), MEMORY)


ENVELOPES = (
    _inches("A1", "3 5/8", "5 1/8", ("3 1/2", "4 7/8")),
    _inches("A2", "4 3/8", "5 3/4", ("4 1/4", "5 1/2")),
    _inches("A6", "4 3/4", "6 1/2", ("4 1/2", "6 1/4")),
    _inches("A7", "5 1/4", "7 1/4", ("5", "7")),
    _inches("A8", "5 1/2", "8 1/8", ("5 1/4", "7 7/8")),
    _inches("A9", "5 3/4", "8 3/4", ("5 1/2", "8 1/2"), MEMORY),
    _inches("A10", "6", "9 1/2", ("5 3/4", "9 1/4")),
    _inches("slimline", "3 7/8", "8 7/8", ("3 5/8", "8 5/8")),
    _inches("#10", "4 1/8", "9 1/2", ("4", "9 1/4")),
    _inches("Monarch", "3 7/8", "7 1/2", ("3 3/4", "7 1/4")),
    _inches("Lee", "5 1/4", "7 1/4", ("5", "7")),
    *(_square(side) for side in ("5", "5 1/2", "6", "6 1/4", "6 1/2", "7")),
    _mm("C3", 324, 458, ("297", "420")),
    _mm("C4", 229, 324, ("210", "297")),
    _mm("C5", 162, 229, ("148.5", "210")),
    _mm("C6", 114, 162, ("105", "148.5")),
    _mm("C7/C6", 81, 162, ("74.25", "148.5")),
    _mm("C7", 81, 114, ("74.25", "105"), DIN_476),
    _mm("DL", 110, 220, ("100", "210")),
    _mm("B4", 250, 353),
    _mm("B5", 176, 250),
    _mm("B6", 125, 176),
    _mm("E4", 280, 400),
)
"""The usual cards of metric envelopes are the sheets of A4 folded once, twice or in thirds: common practice."""

_OTHER_NAMES = {
    "4 bar": "A1",
    "4bar": "A1",
    "a long": "slimline",
    "along": "slimline",
    "slim line": "slimline",
    "10": "#10",
    "no 10": "#10",
    "no. 10": "#10",
    "number 10": "#10",
    "7 3/4": "Monarch",
    "c6/7": "C7/C6",
    "c7/6": "C7/C6",
    "c6/c7": "C7/C6",
    "dl": "DL",
    "commercial 10": "#10",
}
_SQUARE_NAME = re.compile(r"(?P<side>[0-9]+(?: [0-9]+/[0-9]+|\.[0-9]+)?) ?(?:in|inch|inches|\")? ?(?:square|sq)")


def find_envelope(name: str) -> Envelope | None:
    """Look an envelope up: `A2`, `a7`, `C6`, `DL`, `#10`, `6 in square`, `A7 envelope`."""
    plain = " ".join(
        name.casefold().replace("″", '"').replace("½", " 1/2").replace("¼", " 1/4").replace("-", " ").split()
    )
    plain = plain.removesuffix(" envelope").removesuffix(" envelopes")
    square = _SQUARE_NAME.fullmatch(plain)
    if square:
        side = _mixed(square["side"]) * _INCH
        return next((e for e in ENVELOPES if e.name.endswith("square") and e.size_mm[0] == side), None)
    plain = _OTHER_NAMES.get(plain, plain)
    return next((e for e in ENVELOPES if e.name.casefold() == plain.casefold()), None)


def unknown_envelope(name: str, place: Place | None) -> Finding:
    """Say that an envelope is not known, with those that are."""
    names = [envelope.name for envelope in ENVELOPES]
    meant = nearest(name, names)
    return Finding(
        name="unknown envelope",
        severity=Severity.ERROR,
        place=place,
        message=f"`{name}` is no envelope that is known here.",
        mend=(f"Write `{meant}`, if that is meant. " if meant else "")
        + f"Known: {', '.join(names)}. For another, give its outside size.",
    )
