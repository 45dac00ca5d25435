"""A number in a passage said anew, in the dress of the one whose place it takes."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from foldproof.measures.quantity import Unit
from foldproof.measures.speaking import speak_length, speak_number
from foldproof.measures.writing import with_unit, write_length

_UNIT = re.compile(r"(?:\b(?:in|inch|inches|mm|cm|(?:milli|centi)met(?:re|er)s?)\.?|[\"″])$", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A stretch of a passage and what takes its place."""

    start: int
    end: int
    said: str


def applied(text: str, changes: Iterable[Change]) -> str:
    """A passage with changes made to it; they do not overlap."""
    said, at = [], 0
    for change in sorted(changes, key=lambda one: one.start):
        said += [text[at:change.start], change.said]
        at = change.end
    return "".join([*said, text[at:]])


def number_like(written: str, value: Fraction, unit: Unit) -> str:
    """A length in figures or in words, with a unit or without, as `written` is; capitals are kept."""
    named = bool(_UNIT.search(written.strip()))
    if written[:1].isdigit() or written[:1] == ".":
        return with_unit(value, unit) if named else write_length(value, unit)
    said = speak_length(value, unit) if named else speak_number(value, unit)
    return said[:1].upper() + said[1:] if written[:1].isupper() else said
