"""Sheets of paper by name."""

from fractions import Fraction

from foldproof.facts.source import CUSTOM, MEMORY, Mark, Source
from foldproof.frozen import dataclass

ISO_216 = Source(text="ISO 216:2007, trimmed sizes", mark=Mark.SECONDARY, date="September 2007")
ISO_269 = Source(text="ISO 269:1985, C series", mark=Mark.SECONDARY, date="1985")
ASME_Y14_1 = Source(text="ASME Y14.1, drawing sheet sizes", mark=Mark.SECONDARY)
_INCH = Fraction(127, 5)
_WHOLE = {"A": (841, 1189), "B": (1000, 1414), "C": (917, 1297)}


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetSize:
    """A sheet's trimmed size, upright: the shorter side is its width."""

    name: str
    width_mm: Fraction
    height_mm: Fraction
    source: Source

    def tolerates(self, width_mm: Fraction, height_mm: Fraction) -> bool:
        """Whether a size lies within the tolerance of this one (ISO 216's, also used for the others)."""
        return abs(width_mm - self.width_mm) <= tolerance(self.width_mm) and abs(
            height_mm - self.height_mm
        ) <= tolerance(self.height_mm)


def iso_size(series: str, number: int) -> tuple[int, int]:
    """Give width and height in millimetres of `A`, `B` or `C` 0 to 10.

    Only size 0 is rounded; each next one halves the longer side and drops the half millimetre.
    """
    width, height = _WHOLE[series]
    for _ in range(number):
        width, height = height // 2, width
    return width, height


def tolerance(side_mm: Fraction) -> Fraction:
    """How far a trimmed side may be off, in millimetres: 1.5 to 150 mm, 2 to 600 mm, 3 above (ISO 216; from memory)."""
    if side_mm <= 150:
        return Fraction(3, 2)
    return Fraction(2) if side_mm <= 600 else Fraction(3)


def _iso() -> list[SheetSize]:
    return [
        SheetSize(
            name=f"{series}{number}",
            width_mm=Fraction(iso_size(series, number)[0]),
            height_mm=Fraction(iso_size(series, number)[1]),
            source=ISO_269 if series == "C" else ISO_216,
        )
        for series in "ABC"
        for number in range(11)
    ]


def _inches(name: str, width: str, height: str, source: Source) -> SheetSize:
    return SheetSize(name=name, width_mm=Fraction(width) * _INCH, height_mm=Fraction(height) * _INCH, source=source)


SHEET_SIZES = (
    *_iso(),
    _inches("letter", "8.5", "11", ASME_Y14_1),
    _inches("ledger", "11", "17", ASME_Y14_1),
    _inches("broad", "17", "22", ASME_Y14_1),
    _inches("legal", "8.5", "14", MEMORY),
    _inches("12 x 12", "12", "12", CUSTOM),
    _inches("6 x 6", "6", "6", CUSTOM),
)
_OTHER_NAMES = {
    "ansi a": "letter",
    "us letter": "letter",
    "ansi b": "ledger",
    "tabloid": "ledger",
    "11 x 17": "ledger",
    "ansi c": "broad",
    "8 1/2 x 11": "letter",
    "8.5 x 11": "letter",
    "12 in square": "12 x 12",
}


def find_sheet(name: str) -> SheetSize | None:
    """Look a sheet up by name; capitals and the kind of × are not told apart."""
    plain = " ".join(name.casefold().replace("×", "x").replace("-", " ").split())
    plain = _OTHER_NAMES.get(plain, plain)
    return next((sheet for sheet in SHEET_SIZES if sheet.name.casefold() == plain), None)
