"""What people write for a measure, read exactly."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from foldproof.findings.finding import Finding, Place
from foldproof.measures.arithmetic import Worth, a_kind, work_out
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.scanning import LONGEST_TEXT
from foldproof.measures.trouble import Trouble
from foldproof.measures.units import SHORT_NAME

LONGEST_MM = 10_000
"""Ten metres: more is no card."""
LARGEST_NUMBER = 1_000_000
FINEST = 10**9
"""The largest denominator that a result may have."""


def read_quantity(
    text: str, *, place: Place, kind: Kind | None, unit: Unit, names: Mapping[str, Quantity]
) -> Quantity | Finding:
    """Read one measure, or say what is wrong with it.

    `kind` is what the slot wants; None takes any kind and gives a bare number the recipe's unit, as a measure does.
    `unit` is the recipe's: lengths come out in it, and a bare number in a length slot takes it; a bare number in an
    angle slot is degrees; a bare time or price is a finding. Inside arithmetic a bare number is a plain number.
    Zero and negative values are read as written: whether they make sense is for the caller to judge.
    """
    try:
        if len(text) > LONGEST_TEXT:
            raise Trouble("measure too long", f"A measure has at most {LONGEST_TEXT} characters; this has {len(text)}.",
                          "Name a part of it as a measure of its own.", 0, len(text))
        worth, mentioned = work_out(text, names, unit)
        worth = _as_kind(worth, kind, text, unit)
        _check_bounds(worth, text, unit)
    except Trouble as trouble:
        return trouble.finding(text, place)
    return Quantity(value=worth.value, kind=worth.kind, written=text, place=place, names=mentioned,
                    currency=worth.currency)


def _as_kind(worth: Worth, wanted: Kind | None, text: str, unit: Unit) -> Worth:
    here = text.strip()
    if worth.kind is Kind.NUMBER and wanted is not Kind.NUMBER:
        if worth.bare and wanted in (None, Kind.LENGTH, Kind.ANGLE):
            return replace(worth, kind=wanted or Kind.LENGTH)
        if worth.bare and wanted is Kind.TIME:
            raise Trouble("unit missing", f"A time needs its unit: {here} of what?",
                          f"Write {here} s, {here} min or {here} h.", worth.start, worth.end)
        if worth.bare and wanted is Kind.MONEY:
            raise Trouble("unit missing", f"A price needs its currency: {here} of what?",
                          f"Write the currency after it, for example {here} USD.", worth.start, worth.end)
        if wanted is None and not worth.figures_only:
            return worth
        raise _only_a_number(worth, wanted or Kind.LENGTH, here, unit)
    if wanted is not None and worth.kind is not wanted:
        raise Trouble("wrong kind of measure", f"`{here}` is {a_kind(worth.kind)}, where {a_kind(wanted)} is wanted.",
                      _kind_mend(wanted, unit), worth.start, worth.end)
    return worth


def _only_a_number(worth: Worth, wanted: Kind, here: str, unit: Unit) -> Trouble:
    message = (f"`{here}` comes to a plain number, {_plain(worth.value)}, where {a_kind(wanted)} is wanted. "
               "In a sum a number without a unit is a plain number.")
    mend = "Leave out the last division, or multiply by a length."
    if worth.figures_only and wanted is Kind.LENGTH:
        mend = f"Give the numbers their unit: ({here}) {SHORT_NAME[unit]}"
    elif wanted is not Kind.LENGTH:
        mend = _kind_mend(wanted, unit)
    return Trouble("wrong kind of measure", message, mend, worth.start, worth.end)


def _kind_mend(wanted: Kind, unit: Unit) -> str:
    return {
        Kind.LENGTH: f"Write a length, such as 5 1/2 {SHORT_NAME[unit]}." if unit is Unit.INCH
        else f"Write a length, such as 105 {SHORT_NAME[unit]}.",
        Kind.NUMBER: "Write a number without a unit.",
        Kind.ANGLE: "Write an angle, such as 90 degrees.",
        Kind.TIME: "Write a time, such as 25 s or 3 min.",
        Kind.MONEY: "Write a price, such as 4.50 USD.",
    }[wanted]


def _check_bounds(worth: Worth, text: str, unit: Unit) -> None:
    here, span = text.strip(), (worth.start, worth.end)
    if worth.kind is Kind.LENGTH and abs(worth.value) * unit.millimetres > LONGEST_MM:
        raise Trouble("measure too large", f"`{here}` is longer than 10 metres: no card is.",
                      "Look for a slip in the number or in its unit.", *span)
    if worth.kind is not Kind.LENGTH and abs(worth.value) > LARGEST_NUMBER:
        raise Trouble("measure too large", f"`{here}` is more than a million.", "Look for a slip in the number.", *span)
    if worth.value.denominator > FINEST:
        raise Trouble("measure too fine", f"`{here}` comes to a fraction that no ruler could show.",
                      "Write fewer digits after the point, or simpler fractions.", *span)


def _plain(value: Fraction) -> str:
    return str(value) if value.denominator < 1000 else f"about {float(value):.4g}"
