"""Lengths worked out anew from named measures with other values, by the author's own arithmetic."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from foldproof.measures.arithmetic import work_out
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.scanning import Sort, scan
from foldproof.measures.units import kind_of_unit
from foldproof.measures.writing import write_number

Marks = Mapping[Fraction, Fraction]
"""Plain lengths, exact and in the edition's unit, and the marks that stand for them; both without a sign."""


def literals(quantity: Quantity, names: Mapping[str, Quantity], unit: Unit) -> tuple[Fraction, ...]:
    """The plain lengths in a quantity, in `unit`, without sign and without zeros; itself where it names no measure.

    The value of the quantity is in `unit`, too.
    """
    if quantity.witness:
        return (abs(quantity.value),) if quantity.value else ()
    return tuple(value for value, _, _ in _plain(quantity.written, names, unit) if value)


def worked(quantity: Quantity, names: Mapping[str, Quantity], marks: Marks, unit: Unit) -> Quantity:
    """The same length by its own sum, its named measures being `names` and its plain lengths `marks`."""
    if quantity.witness:
        value = marks.get(abs(quantity.value), abs(quantity.value)) * (-1 if quantity.value < 0 else 1)
        return replace(quantity, value=value, written=write_number(value))
    text = quantity.written
    for value, start, end in reversed(tuple(_plain(text, names, unit))):
        text = f"{text[:start]}{write_number(marks.get(value, value))} {_SHORT[unit]}{text[end:]}"
    worth, mentioned = work_out(text, names, unit)
    return replace(quantity, value=worth.value, written=text, names=mentioned)


_SHORT = {Unit.INCH: "in", Unit.MM: "mm", Unit.CM: "cm"}


def measures_at(
    measures: Mapping[str, Quantity], chosen: Mapping[str, Fraction], marks: Marks, unit: Unit,
) -> dict[str, Quantity]:
    """All named measures, those that are given by themselves at their chosen values, the others worked out."""
    found: dict[str, Quantity] = {}
    waiting = dict(measures)
    while waiting:
        for name, one in list(waiting.items()):
            if any(other in waiting for other in one.names):
                continue
            del waiting[name]
            if name in chosen:
                found[name] = replace(one, value=chosen[name], written=write_number(chosen[name]), names=())
            else:
                found[name] = worked(one, found, marks, unit) if one.kind is Kind.LENGTH else _number(one, found, unit)
    return found


def _number(quantity: Quantity, names: Mapping[str, Quantity], unit: Unit) -> Quantity:
    """A measure that is no length: it may be the share of one length in another."""
    if quantity.witness:
        return quantity
    worth, _ = work_out(quantity.written, names, unit)
    return replace(quantity, value=worth.value)


def _plain(text: str, names: Mapping[str, Quantity], unit: Unit) -> Iterator[tuple[Fraction, int, int]]:
    """Each plain length in a sum: its value in `unit`, and where it stands."""
    tokens = scan(text, names)
    for number, word in pairwise(tokens):
        known = kind_of_unit(word.text) if word.sort is Sort.UNIT else None
        if number.sort is Sort.NUMBER and known is not None and known[0] is Kind.LENGTH:
            yield number.value * known[1] / unit.millimetres, number.start, word.end
