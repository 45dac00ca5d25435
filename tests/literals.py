"""Where each length of a recipe stands in its text, and how to write another in its place.

An account of its own: it reads the prose with its own rules, not with the program's, so that a mention that the
program fails to see is still tried.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from fractions import Fraction

import yaml

from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.recipe.records import Recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class Literal:
    """A length that stands in the text of a recipe."""

    start: int
    """Offset of its first character."""
    end: int
    value: Fraction
    """In the recipe's unit."""
    line: int
    """From 1."""
    group: str
    """`plan`, `finished`, `steps`, `prose` or `stock`."""
    spoken: bool
    """Whether it is written in words."""


_DIGITS = r"\d+\s+\d+/\d+|\d+-\d+/\d+|\d+/\d+|\d*\.\d+|\d+"
_ONES = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
         "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty")
_COUNT = {word: number for number, word in enumerate(_ONES)} | {"a": 1, "an": 1}
_PART = {"half": 2, "halves": 2, "quarter": 4, "eighth": 8, "sixteenth": 16}
_INTEGER = rf"(?:{'|'.join(sorted(_ONES, key=len, reverse=True))})"
_SLICE = rf"(?:(?:an?|{_INTEGER})\s+)?(?:half|halves|quarters?|eighths?|sixteenths?)"
_WORDS = rf"{_INTEGER}\s+and\s+{_SLICE}|{_SLICE}|{_INTEGER}"
_UNITS = r"(?:inch(?:es)?|in|mm|millimet(?:re|er)s?)"
_MENTION = re.compile(
    rf"(?<![\w./-])(?P<number>{_DIGITS}|{_WORDS})(?![\w/]|[.-]\d)(?P<unit>\s+(?:of\s+)?(?:an?\s+)?{_UNITS}\b)?",
    re.IGNORECASE)
_CHAIN_BEFORE = re.compile(r"(?:\bby|×|\bx)\s+$", re.IGNORECASE)
_CHAIN_AFTER = re.compile(r"^\s+(?:by\b|x\b|×|wide\b|tall\b|across\b)", re.IGNORECASE)
_CUE_BEFORE = re.compile(r"\b(?:at|is|to|of|measures?|border of|by|and)\s+$", re.IGNORECASE)
_IN_ARITHMETIC = re.compile(rf"(?<![\w.])(?P<number>{_DIGITS})(?=\s*(?P<unit>in|cm|mm|\"))")
_SCALE = {("mm", Unit.INCH): Fraction(5, 127), ("cm", Unit.INCH): Fraction(50, 127), ("cm", Unit.MM): Fraction(10),
          ("in", Unit.MM): Fraction(127, 5)}
_STOCK = {"papers", "supplies", "class_part"}


def literals(recipe: Recipe, source: str) -> tuple[Literal, ...]:
    """Every length literal of a recipe, in order of its place."""
    found = {*_in_plan(recipe, source), *_in_prose(recipe, source)}
    return tuple(sorted(found, key=lambda literal: literal.start))


def replaced(source: str, literal: Literal, value: Fraction) -> str:
    """The recipe's text with another value in the literal's place."""
    old = source[literal.start:literal.end]
    new = _spoken(value, old) if literal.spoken else _written(value, old)
    return source[:literal.start] + new + source[literal.end:]


def quantities(thing: object) -> Iterator[Quantity]:
    """Every quantity in a record, in the order of its fields."""
    if isinstance(thing, Quantity):
        yield thing
    elif isinstance(thing, tuple):
        for part in thing:
            yield from quantities(part)
    elif is_dataclass(thing):
        for each in fields(thing):
            yield from quantities(getattr(thing, each.name))


def _in_plan(recipe: Recipe, source: str) -> Iterator[Literal]:
    starts = _line_starts(source)
    for each in fields(recipe):
        name = each.name
        group = "stock" if name in _STOCK else name if name in ("finished", "steps") else "plan"
        for quantity in quantities(getattr(recipe, name)):
            if quantity.kind is not Kind.LENGTH or not quantity.written:
                continue
            at = starts[quantity.place.line - 1] + quantity.place.column - 1
            start = source.index(quantity.written, at)
            assert start - at <= 1, f"{quantity.written!r} does not stand where its place says"
            yield from _in_written(quantity, start, group, recipe.unit)


def _in_written(quantity: Quantity, start: int, group: str, unit: Unit) -> Iterator[Literal]:
    """The length literals of one value: itself when it is plain, else those that carry a unit."""
    plain = re.fullmatch(rf"-?(?P<number>{_DIGITS})\s*(?P<unit>in|cm|mm|\")?", quantity.written)
    for match in [plain] if plain else _IN_ARITHMETIC.finditer(quantity.written):
        scale = _SCALE.get(((match["unit"] or "").replace('"', "in"), unit), Fraction(1))
        sign = -1 if plain and quantity.written.startswith("-") else 1
        yield Literal(
            start=start + (0 if sign < 0 else match.start("number")), end=start + match.end("number"),
            value=sign * _value(match["number"]) * scale, line=quantity.place.line, group=group, spoken=False)


def left_alone(recipe: Recipe, source: str) -> tuple[tuple[int, str], ...]:
    """The numbers in prose that are not tried, as counts and times are: line and words."""
    return tuple((_line(source, match), match["number"]) for match, length in _mentions(recipe, source) if not length)


def _in_prose(recipe: Recipe, source: str) -> Iterator[Literal]:
    for match, length in _mentions(recipe, source):
        if length:
            yield Literal(
                start=match.start("number"), end=match.end("number"), value=_value(match["number"]),
                line=_line(source, match), group="prose",
                spoken=not match["number"][0].isdigit() and match["number"][0] != ".")


def _mentions(recipe: Recipe, source: str) -> Iterator[tuple[re.Match[str], bool]]:
    """Every number in prose, and whether it is a length of one of its step's actions, said as a length is said."""
    root = yaml.compose(source, Loader=yaml.SafeLoader)
    assert isinstance(root, yaml.MappingNode)
    steps = next(value for key, value in root.value if key.value == "steps")
    for node, step in zip(steps.value, recipe.steps, strict=True):
        set_by_hand = {quantity.value for quantity in quantities(step.actions) if quantity.kind is Kind.LENGTH}
        for words in _passages(node):
            start, end = words.start_mark.index, words.end_mark.index
            for match in _MENTION.finditer(source, start, end):
                length = _is_length(match, source[start:match.start()], source[match.end():end])
                yield match, length and _value(match["number"]) in set_by_hand


def _line(source: str, match: re.Match[str]) -> int:
    return source.count("\n", 0, match.start()) + 1


def _is_length(match: re.Match[str], before: str, after: str) -> bool:
    """Whether a number is said as a length is: with a unit or a fraction, in a chain (`5 by 7`), or after a cue."""
    number = match["number"]
    parts = "/" in number or bool(re.search(_SLICE, number, re.IGNORECASE))
    chained = _CHAIN_BEFORE.search(before) or _CHAIN_AFTER.search(after)
    return bool(match["unit"] or parts or chained or _CUE_BEFORE.search(before))


def _passages(step: yaml.MappingNode) -> Iterator[yaml.ScalarNode]:
    for key, value in step.value:
        if key.value in ("text", "say", "tip", "caution"):
            yield value
        elif key.value == "film":
            shots = value.value if isinstance(value, yaml.SequenceNode) else [value]
            yield from (line for shot in shots if isinstance(shot, yaml.MappingNode)
                for name, line in shot.value if name.value == "say")


def _value(number: str) -> Fraction:
    words = number.lower().split()
    if number[0].isdigit() or number[0] == ".":
        return sum((Fraction(part) for part in re.split(r"[\s-]+", number)), Fraction(0))
    if "and" in words:
        return _value(words[0]) + _value(" ".join(words[2:]))
    part = _PART.get(words[-1]) or _PART.get(words[-1].removesuffix("s"))
    if part is None:
        return Fraction(_COUNT[words[0]])
    return Fraction(_COUNT[words[0]] if len(words) > 1 else 1, part)


def _written(value: Fraction, old: str) -> str:
    """Another number in the same dress: a decimal stays a decimal, a fraction a fraction."""
    if "." in old:
        return str(float(value))
    sign = "-" if value < 0 else ""
    whole, rest = divmod(abs(value), 1)
    return sign + (f"{whole} {rest}" if whole and rest else str(rest) if rest else str(whole))


def _spoken(value: Fraction, old: str) -> str:
    """Another number in words."""
    whole, rest = divmod(value, 1)
    if whole >= len(_ONES) or value <= 0:
        return _written(value, old)
    if not rest:
        return _ONES[whole]
    name = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth"}.get(rest.denominator)
    if name is None:
        return _written(value, old)
    part = f"{'one' if rest.numerator == 1 else _ONES[rest.numerator]} {name}{'s' if rest.numerator > 1 else ''}"
    return f"{_ONES[whole]} and {part}" if whole else part


def _line_starts(source: str) -> list[int]:
    starts = [0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    return starts
