"""The sheets that paper is sold in, smallest first, and the one that pieces can be cut from."""

from collections.abc import Sequence
from fractions import Fraction

from foldproof.facts.sheet_sizes import find_sheet
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import write_size
from foldproof.starting.trouble import CannotBeError

SOLD = {
    Unit.INCH: ("letter", "12 x 12", "ledger"),
    Unit.MM: ("A4", "A3"),
    Unit.CM: ("A4", "A3"),
}
"""What cardstock and patterned paper are usually sold in: common practice, no source."""

Pair = tuple[Fraction, Fraction]


class SheetTooSmallError(CannotBeError):
    """A piece is larger than any sheet."""


def smallest_sheet(pieces: Sequence[Pair], unit: Unit) -> Pair:
    """The first sheet that each piece can be cut from, one way round or the other. Raises SheetTooSmallError."""
    sheets = [_size(name, unit) for name in SOLD[unit]]
    for sheet in sheets:
        if all(_fits(piece, sheet) for piece in pieces):
            return sheet
    large = next(piece for piece in pieces if not _fits(piece, sheets[-1]))
    raise SheetTooSmallError(
        f"a piece of {write_size(large, unit)} can't be cut from a sheet of {write_size(sheets[-1], unit)}, "
        f"the largest that is usually sold")


def _size(name: str, unit: Unit) -> Pair:
    sheet = find_sheet(name)
    assert sheet is not None
    return sheet.width_mm / unit.millimetres, sheet.height_mm / unit.millimetres


def _fits(piece: Pair, sheet: Pair) -> bool:
    return (piece[0] <= sheet[0] and piece[1] <= sheet[1]) or (piece[0] <= sheet[1] and piece[1] <= sheet[0])
