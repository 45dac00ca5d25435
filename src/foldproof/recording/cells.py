"""Cells of tables that a spreadsheet opens."""

_STARTS_A_FORMULA = ("=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""The signs, and the same in full width, which some spreadsheets take for them."""
_PARTS_CELLS = ("\t", "\r", "\n")


def guarded(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula: an apostrophe before it says that it is text."""
    formula = cell.startswith(_PARTS_CELLS) or cell.lstrip().startswith(_STARTS_A_FORMULA)
    return f"'{cell}" if formula else cell
