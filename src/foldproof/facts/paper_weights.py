"""Paper weights: pounds by grade to grams per square metre, mass of a sheet, thickness as far as weight tells it."""

import re
from fractions import Fraction

from foldproof.facts.source import MEMORY, Mark, Source
from foldproof.findings.finding import Finding, Place, Severity
from foldproof.findings.nearest import nearest
from foldproof.frozen import dataclass

GRAMS_IN_POUND = Fraction("453.59237")
"""Exact (NIST Handbook 44, appendix C)."""
GRAMS_IN_OUNCE = GRAMS_IN_POUND / 16
_SHEETS_IN_REAM = 500
_SQUARE_METRES_IN_SQUARE_INCH = Fraction("0.0254") ** 2

GRAMMAGE_SOURCE = Source(text="ISO 536, determination of grammage; conversion reckoned exactly", mark=Mark.RECKONED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """A grade of paper, by which a weight in pounds is to be understood."""

    name: str
    synonyms: tuple[str, ...]
    basis: tuple[Fraction, Fraction]
    """The basis sheet in inches: 500 of them have the stated weight."""
    source: Source

    @property
    def grams_per_pound(self) -> Fraction:
        """Grams per square metre in one pound of basis weight, exact."""
        area = self.basis[0] * self.basis[1] * _SQUARE_METRES_IN_SQUARE_INCH
        return GRAMS_IN_POUND / (_SHEETS_IN_REAM * area)


_GUIDE = Source(text="a printer maker's paper guide, table A-2", mark=Mark.SECONDARY)


def _grade(name: str, width: str, height: str, *synonyms: str) -> Grade:
    return Grade(name=name, synonyms=synonyms, basis=(Fraction(width), Fraction(height)), source=_GUIDE)


GRADES = (
    _grade("bond", "17", "22", "writing", "ledger"),
    _grade("cover", "20", "26", "cardstock", "card stock", "card"),
    _grade("text", "25", "38", "book", "offset"),
    _grade("index", "25.5", "30.5"),
    _grade("bristol", "22.5", "28.5", "vellum bristol"),
    _grade("tag", "24", "36", "newsprint"),
)
"""Cardstock sold by the pound is weighed as cover (common practice, no source)."""

_WEIGHT = re.compile(
    r"(?P<number>[0-9]+(?:\.[0-9]+)?) ?"
    r"(?:(?P<metric>gsm|g/m2|g/m²|g per m2|g/sqm|g m-2)|(?P<pounds>lbs?\.?|pounds?|#)(?: (?P<grade>[a-z ]+))?)",
)
HEAVIEST_GRAMMAGE = 2000
"""Above any board that is cut by hand (from memory)."""


def grammage(pounds: Fraction, grade: Grade) -> Fraction:
    """Turn a basis weight in pounds into grams per square metre, exactly."""
    return pounds * grade.grams_per_pound


def find_grade(name: str) -> Grade | None:
    """Look a grade up by its name or a synonym; capitals are not told apart."""
    plain = " ".join(name.casefold().replace("-", " ").split())
    return next((grade for grade in GRADES if plain == grade.name or plain in grade.synonyms), None)


def read_weight(text: str, *, place: Place | None) -> Fraction | Finding:
    """Read a weight as written on a pack (`80 lb cover`, `250 gsm`, `250 g/m2`): grams per square metre, exact."""
    plain = " ".join(text.casefold().split())
    found = _WEIGHT.fullmatch(plain)
    names = ", ".join(grade.name for grade in GRADES)
    if not found:
        return _finding(
            "weight of paper can't be read",
            f"`{text}` is no weight of paper that is known here.",
            f"Write 250 gsm, or pounds with the grade: 80 lb cover. Grades: {names}.",
            place,
        )
    number = Fraction(found["number"])
    if found["metric"]:
        result = number
    else:
        name = found["grade"]
        if not name:
            return _finding(
                "grade of paper missing",
                f"`{text}` could be many papers: 80 lb of text is 118 g/m2, 80 lb of cover is 216 g/m2.",
                f"Add the grade that the pack names: {names}.",
                place,
            )
        grade = find_grade(name)
        if grade is None:
            meant = nearest(name, [known for grade in GRADES for known in (grade.name, *grade.synonyms)])
            return _finding(
                "unknown grade of paper",
                f"`{name}` is no grade of paper that is known here.",
                (f"Write `{meant}`, if that is meant. " if meant else "") + f"Grades: {names}.",
                place,
            )
        result = grammage(number, grade)
    if not 0 < result <= HEAVIEST_GRAMMAGE:
        return _finding(
            "weight of paper out of range",
            f"`{text}` is {float(result):.0f} g/m2; no paper for cards is.",
            "Look for a slip in the number or the grade.",
            place,
        )
    return result


def sheet_grams(grams_per_square_metre: Fraction, width_mm: Fraction, height_mm: Fraction) -> Fraction:
    """Mass of one sheet in grams, exact."""
    return grams_per_square_metre * width_mm * height_mm / 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """An estimate of a paper's thickness in millimetres from its weight."""

    least: Fraction
    likely: Fraction
    most: Fraction
    statement: str
    source: Source


_BULK = (Fraction(1), Fraction("1.3"), Fraction("1.45"))
"""Cubic centimetres per gram: coated, usual, soft uncoated."""
CALIPER_SOURCE = Source(text="TAPPI T 411 and ISO 534 (how it is measured)", mark=Mark.SECONDARY)


def estimate_thickness(grams_per_square_metre: Fraction) -> Thickness:
    """Estimate thickness as weight times bulk: 1.0 (coated) to 1.45 cm3/g (soft, uncoated), 1.3 taken as likely.

    Micrometres are g/m2 times cm3/g. The range of bulk and the middle value are from memory: measure the sheet.
    """
    least, likely, most = (grams_per_square_metre * bulk / 1000 for bulk in _BULK)
    return Thickness(
        least=least,
        likely=likely,
        most=most,
        source=MEMORY,
        statement=f"estimated from its weight, {float(likely):.2f} mm (from {float(least):.2f} to {float(most):.2f} mm "
        "by how it is coated); measure a sheet to be sure",
    )


def _finding(name: str, message: str, mend: str, place: Place | None) -> Finding:
    return Finding(name=name, severity=Severity.ERROR, message=message, mend=mend, place=place)
