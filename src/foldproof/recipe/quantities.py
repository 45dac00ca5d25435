"""Measured values of a recipe: read, and held against what makes sense on paper."""

import re
from dataclasses import replace

from foldproof.findings.finding import Finding
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.reading import read_quantity
from foldproof.measures.scanning import names_in
from foldproof.measures.writing import write_number
from foldproof.recipe.desk import Desk
from foldproof.recipe.kinds import Bound, Measured
from foldproof.recipe.nodes import Scalar

_BARE = re.compile(r"[\d\s./½⅓⅔¼¾⅛⅜⅝⅞-]+")
_WORDS = {Kind.LENGTH: "length", Kind.ANGLE: "angle", Kind.TIME: "time", Kind.NUMBER: "number", Kind.MONEY: "price"}
_UNITS = {Kind.LENGTH: "mm", Kind.ANGLE: "degrees", Kind.TIME: "seconds", Kind.NUMBER: "", Kind.MONEY: ""}
_MOST = {Kind.LENGTH: 3_000, Kind.ANGLE: 180, Kind.TIME: 7 * 86_400, Kind.NUMBER: 10_000, Kind.MONEY: 100_000}
"""The largest values that make sense: millimetres, degrees, seconds (our own bounds, wide on purpose)."""


def measured(node: Scalar, kind: Measured, desk: Desk) -> Quantity | str | None:
    """A quantity, or the word that may stand instead; None where it is broken, with the finding made.

    What leans on a named measure that is broken itself is passed over in silence: the finding is there already.
    """
    text = node.text.strip()
    if kind.or_word is not None and text == kind.or_word:
        return text
    if desk.unreadable:
        leans = names_in(text, {*desk.measures, *desk.unreadable})
        if desk.unreadable.intersection(leans):
            return None
    bare = bool(kind.bare and _BARE.fullmatch(text))
    whole = f"{text} {kind.bare}" if bare else text
    found = read_quantity(whole, place=node.place, kind=kind.kind, unit=desk.unit, names=desk.measures)
    if isinstance(found, Finding):
        desk.findings.append(found)
        return None
    return replace(found, written=text) if _sensible(found, kind, desk) else None


def _sensible(found: Quantity, kind: Measured, desk: Desk) -> bool:
    size = found.value * (desk.unit.millimetres if kind.kind is Kind.LENGTH else 1)
    comes_to = "" if found.witness else f" (it comes to {write_number(found.value)})"
    written, word = f"`{found.written}`{comes_to}", _WORDS[kind.kind]
    most = _MOST[kind.kind] if kind.most is None else kind.most
    if size <= 0 and kind.bound in (Bound.POSITIVE, Bound.PAPER_SIZE):
        desk.error("not more than zero", f"{written}: this {word} must be more than zero.", found.place, None)
    elif size < 0 and kind.bound is Bound.NOT_NEGATIVE:
        desk.error("less than zero", f"{written}: this {word} cannot be less than zero.", found.place)
    elif size < 1 and kind.bound is Bound.PAPER_SIZE:
        desk.error(
            "absurd size", f"{written} is less than a millimetre.", found.place, "Look at the unit and the point."
        )
    elif abs(size) > most:
        desk.error(
            "absurd size",
            f"{written} is more than any card needs: at most {_shown(most, kind.kind, desk)}.",
            found.place,
            "Look at the unit and the point.",
        )
    else:
        return True
    return False


def _shown(most: int, kind: Kind, desk: Desk) -> str:
    if kind is Kind.LENGTH and desk.unit is Unit.INCH:
        return f"{round(most / Unit.INCH.millimetres)} in"
    return f"{most:,} {_UNITS[kind]}".strip()
