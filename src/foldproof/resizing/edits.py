"""Changes made in an author's text: numbers where they stand, passages laid out anew, all else as it was."""

import json
import re
import textwrap
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, is_dataclass
from fractions import Fraction
from typing import Any

import yaml

from foldproof.findings.finding import Place
from foldproof.measures.quantity import Quantity, Unit
from foldproof.measures.writing import with_unit
from foldproof.refit.numbers import number_like
from foldproof.starting.filling import FINEST
from foldproof.starting.trouble import CannotBeError

WIDTH = 118
_BLOCK = re.compile(r"[|>][+-]?[0-9]?[+-]?\s*(#.*)?$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """A stretch of the text and what takes its place."""

    start: int
    end: int
    said: str


def edited(text: str, edits: Iterable[Edit]) -> str:
    """The text with its edits made; the same edit twice is made once."""
    for edit in sorted(set(edits), key=lambda one: one.start, reverse=True):
        text = text[:edit.start] + edit.said + text[edit.end:]
    return text


def number_edit(text: str, quantity: Quantity, value: Fraction, unit: Unit) -> Edit:
    """Another value in a number's place, with a unit or without as the author wrote it.

    Raises CannotBeError where the number is not written there in one piece, or is finer than a ruler shows.
    """
    if (value * FINEST[unit]).denominator != 1:
        raise CannotBeError(
            f"the {with_unit(quantity.value, unit)} of line {quantity.place.line} would be "
            f"{with_unit(value, unit)}, which no ruler shows")
    start = offset(text, quantity.place)
    written = quantity.written.strip()
    at = text.find(written, start, start + max(quantity.place.length, len(written)) + 1)
    if at < 0 or quantity.names:
        raise CannotBeError(f"`{written}` in line {quantity.place.line} is reckoned, and can't be written anew there")
    return Edit(start=at, end=at + len(written), said=number_like(written, value, unit))


def changed_numbers(old: Any, new: Any) -> Iterator[tuple[Quantity, Fraction]]:
    """The numbers of a record that have another value in another record of the same shape.

    Raises CannotBeError where the shapes differ: then more than a number would have to be written.
    """
    match old, new:
        case Quantity(), Quantity():
            if old.value != new.value:
                yield old, new.value
        case (tuple(), tuple()) if len(old) == len(new):
            for one, other in zip(old, new, strict=True):
                yield from changed_numbers(one, other)
        case _ if is_dataclass(old) and type(old) is type(new) and not isinstance(old, Place):
            for field in fields(old):
                yield from changed_numbers(getattr(old, field.name), getattr(new, field.name))
        case _ if (isinstance(old, Quantity) or isinstance(new, Quantity)) and old is not new:
            place = next(one.place for one in (old, new) if isinstance(one, Quantity))
            raise CannotBeError(f"the borders of line {place.line} would no longer be alike")


def passage_edit(text: str, node: yaml.ScalarNode, said: str) -> Edit:
    """Another passage in the place of one, laid out as the author laid that one out."""
    start, end = node.start_mark.index, node.end_mark.index
    if node.style in (">", "|"):
        return _block(text, node, said)
    if node.style == '"':
        return Edit(start=start, end=end, said=json.dumps(said, ensure_ascii=False))
    if node.style == "'":
        doubled = said.replace("'", "''")
        return Edit(start=start, end=end, said=f"'{doubled}'")
    return Edit(start=start, end=end, said=said)


def _block(text: str, node: yaml.ScalarNode, said: str) -> Edit:
    """A folded or kept passage: the lines below its sign, up to the first that is not set in as far."""
    begin = text.index("\n", node.start_mark.index) + 1
    first = next(line for line in text[begin:].splitlines() if line.strip())
    indent = len(first) - len(first.lstrip())
    end = begin
    for line in text[begin:].splitlines(keepends=True):
        if line.strip() and len(line) - len(line.lstrip()) < indent:
            break
        end += len(line)
    kept = text[begin:end]
    blank = kept[len(kept.rstrip()):]
    room = max(WIDTH, *(len(line) for line in kept.splitlines()))
    lines: list[str] = []
    for paragraph in said.strip().split("\n"):
        lines += textwrap.wrap(
            paragraph, WIDTH if node.style == ">" else room, initial_indent=" " * indent,
            subsequent_indent=" " * indent, break_long_words=False, break_on_hyphens=False) or [""]
        if node.style == ">" and paragraph is not said.strip().split("\n")[-1]:
            lines.append("")
    return Edit(start=begin, end=end, said="\n".join(lines) + blank)


def offset(text: str, place: Place) -> int:
    """Where a place of a text is, in characters from its beginning."""
    start = 0
    for _ in range(place.line - 1):
        start = text.index("\n", start) + 1
    return start + place.column - 1


def scalars(node: yaml.Node) -> Iterator[yaml.ScalarNode]:
    """Every word, number and passage of a text, keys left out."""
    match node:
        case yaml.ScalarNode():
            yield node
        case yaml.SequenceNode():
            for one in node.value:
                yield from scalars(one)
        case yaml.MappingNode():
            for _, value in node.value:
                yield from scalars(value)


def value_at(node: yaml.Node | None, *path: str | int) -> yaml.Node | None:
    """What stands at a path of keys and numbers, None where nothing does."""
    for part in path:
        match node:
            case yaml.MappingNode():
                node = next((value for key, value in node.value if key.value == part), None)
            case yaml.SequenceNode() if isinstance(part, int) and part < len(node.value):
                node = node.value[part]
            case _:
                return None
    return node
