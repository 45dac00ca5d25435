"""What is bought and not cut: sheets, thickness, lengths of ribbon, envelopes, in the other unit.

It stays what it is, so it is told to the last digit that matters and never as more than there is.
"""

import re
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

from foldproof.edition.records import Record, with_lengths
from foldproof.facts.paper_weights import read_weight
from foldproof.facts.sheet_sizes import SheetSize, find_sheet
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.reading import read_quantity
from foldproof.measures.rounding import half_even, limits_inward
from foldproof.measures.writing import write_number
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.edition_records import OtherSizes
from foldproof.recipe.records import PaperSpec, SupplySpec, Text

_USUAL = {Unit.MM: ("letter", "A4"), Unit.INCH: ("A4", "letter")}
"""The sheet that a paper comes in where the other unit is used, and its neighbor here; common practice, no source."""
_BY = re.compile(r"\s*(?:x|×|by)\s*", re.IGNORECASE)
Pair = tuple[Fraction, Fraction]


def paper_in(paper: PaperSpec, exact: Card, own: OtherSizes | None) -> PaperSpec:
    """A paper as it is bought where the unit of the exact card is used: the recipe's own sheet, A4 for letter, or the
    same sheet, its sides rounded down.
    """
    unit = exact.recipe.unit
    said = {name.value: text for name, text in own.papers} if own is not None else {}
    thickness = _exact_to(paper.thickness, {Unit.MM: 2, Unit.INCH: 3}[unit])
    paper = replace(paper, weight=_weight(paper.weight, unit))
    if paper.sheet is None:
        return replace(paper, thickness=thickness)
    text = said.get(paper.name.value)
    sides = sheet_size(text, unit) if text is not None else None
    if sides is None or isinstance(sides, Finding):
        sides = _neighbour(paper, exact) or (_down(paper.sheet[0].value, unit), _down(paper.sheet[1].value, unit))
    return replace(paper, thickness=thickness, sheet=(_side(paper.sheet[0], sides[0]), _side(paper.sheet[1], sides[1])))


def sheet_size(text: Text, unit: Unit) -> Pair | Finding | None:
    """The width and height that a recipe gives for a sheet, by name or as `210 x 297 mm`; None where it is neither."""
    known = find_sheet(text.value)
    if known is not None:
        return _down(known.width_mm / unit.millimetres, unit), _down(known.height_mm / unit.millimetres, unit)
    parts = _BY.split(text.value.strip())
    if len(parts) != 2:
        return None
    word = re.search(r"[a-z\"]+$", parts[1].strip(), re.IGNORECASE)
    if word is not None and not re.search(r"[a-z\"]$", parts[0], re.IGNORECASE):
        parts[0] = f"{parts[0]} {word.group()}"
    read = [read_quantity(part, place=text.place, kind=Kind.LENGTH, unit=unit, names={}) for part in parts]
    first, second = read
    if isinstance(first, Finding) or isinstance(second, Finding):
        return first if isinstance(first, Finding) else second if isinstance(second, Finding) else None
    return first.value, second.value


def supply_in(supply: SupplySpec, unit: Unit) -> SupplySpec:
    """A supply: its length rounded up to what is cut off a roll, its thickness to a tenth of a millimetre."""
    step = {Unit.MM: Fraction(10), Unit.INCH: Fraction(1, 4)}[unit]
    length = supply.length
    if length is not None:
        length = _side(length, ceil(length.value / step) * step)
    return replace(supply, length=length, thickness=_exact_to(supply.thickness, {Unit.MM: 1, Unit.INCH: 3}[unit]))


def tolerance_in(tolerance: Quantity | None, unit: Unit) -> Quantity | None:
    """How far off a class may be, said to a tenth of a millimetre or to a 64th of an inch, and never 0."""
    if tolerance is None:
        return None
    step = {Unit.MM: Fraction(1, 10), Unit.INCH: Fraction(1, 64)}[unit]
    return _side(tolerance, max(round(tolerance.value / step), 1) * step)


def loosely(record: Record, unit: Unit) -> Record:
    """A record whose lengths need not fit anything, each at the next whole millimetre or quarter of an inch."""
    step = {Unit.MM: Fraction(1), Unit.INCH: Fraction(1, 4)}[unit]
    return with_lengths(record, lambda one: _side(one, max(round(one.value / step), 1 if one.value else 0) * step))


def envelope_side(side: Quantity, unit: Unit) -> Quantity:
    """The side of an envelope, rounded down."""
    return _side(side, _down(side.value, unit))


def _neighbour(paper: PaperSpec, exact: Card) -> Pair | None:
    """A4 for letter, letter for A4, where everything that is cut from the paper goes on it."""
    unit = exact.recipe.unit
    here, there = (find_sheet(name) for name in _USUAL[unit])
    assert here is not None and there is not None and paper.sheet is not None
    mm = unit.millimetres
    sides = sorted(side.value * mm for side in paper.sheet)
    if not here.tolerates(sides[0], sides[1]):
        return None
    boxes = [bounding_box(piece.outline) for piece in exact.pieces if piece.paper == paper.name.value]
    if not all(_goes_on(there, box.width * mm, box.height * mm) for box in boxes):
        return None
    pair = _down(there.width_mm / mm, unit), _down(there.height_mm / mm, unit)
    return pair if paper.sheet[0].value <= paper.sheet[1].value else pair[::-1]


def _goes_on(sheet: SheetSize, width: Fraction, height: Fraction) -> bool:
    """Either way round, with a millimetre to spare for rounding where it is smaller at all."""
    small, large = sorted((width, height))
    return small <= sheet.width_mm and large <= sheet.height_mm


def _down(value: Fraction, unit: Unit) -> Fraction:
    """To a tenth of a millimetre or a sixteenth of an inch, never up, so that what goes on it here goes on it there."""
    if unit is Unit.MM:
        return limits_inward(Fraction(0), value, 1)[1]
    return Fraction(floor(value * 16), 16)


def _weight(weight: Text | None, unit: Unit) -> Text | None:
    """A paper's weight as packs have it: in grams per square metre for a metric edition, else as it is written."""
    grams = read_weight(weight.value, place=None) if weight is not None and unit is Unit.MM else None
    if weight is None or grams is None or isinstance(grams, Finding):
        return weight
    return replace(weight, value=f"{half_even(grams, 0)} gsm")


def _exact_to(quantity: Quantity | None, places: int) -> Quantity | None:
    return None if quantity is None else _side(quantity, half_even(quantity.value, places))


def _side(quantity: Quantity, value: Fraction) -> Quantity:
    return replace(quantity, value=value, written=write_number(value), names=())
