"""Slips of numbers: every length by 1/16 in or 1 mm, every factor, count and time by one."""

import re
from collections.abc import Iterator
from fractions import Fraction

import yaml

from foldproof.measures.quantity import Kind, Unit
from foldproof.recipe.records import Recipe
from literals import literals, quantities, replaced
from slips.slip import Slip, line_of
from slips.spots import passages, root

_FACTOR = re.compile(r"(?<![\w.])(\d+)(?=\s*\*)|(?<=[*/] )(\d+)(?![\w.])(?!\s*(?:in|mm|cm)\b)")
_WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_THINGS = (
    r"(?:[\w-]+ )?(?:pieces?|mats?|folds?|scores?|doors?|flaps?|hinges?|lapels?|sheets?|squares?|dots?|halves|"
    r"panels?|layers?|triangles?|slits?|lines|strips?|sides|corners)"
)
_COUNT = re.compile(rf"\b(?P<count>two|three|four|five|six|\d)(?= (?:{_THINGS})\b)", re.IGNORECASE)
_TIME = re.compile(
    r"\b(?P<count>\d+|one|two|three|four|five|six|seven|eight|nine|ten)(?= min(?:ute)?s?\b)", re.IGNORECASE
)


def number_slips(recipe: Recipe, source: str) -> Iterator[Slip]:
    """Every one, in order of place within its kind."""
    by = Fraction(1, 16) if recipe.unit is Unit.INCH else Fraction(1)
    for literal in literals(recipe, source):
        for value in (literal.value + by, literal.value - by):
            new = replaced(source, literal, value)
            written = new[literal.start : len(new) - len(source) + literal.end]
            yield Slip(
                kind=literal.group,
                start=literal.start,
                end=literal.end,
                new=written,
                line=literal.line,
                what=f"{literal.value} to {value}",
            )
    yield from _factors(source)
    for start, end in passages(source):
        for kind, rule in (("counts in prose", _COUNT), ("times", _TIME)):
            for match in rule.finditer(source, start, end):
                yield from _by_one(source, match, kind)
    yield from _waits(recipe, source)


def _factors(source: str) -> Iterator[Slip]:
    """The 2 of `2 * width`, the 2 of `width / 2`, by one up and down."""
    for name, part in root(source).value:
        if name.value in ("measures", "pieces", "layers", "joins", "finished"):
            for scalar in _scalars(part):
                if re.search(r"[*/]\s", scalar.value) and re.search(r"[a-z]", scalar.value):
                    for match in _FACTOR.finditer(source, scalar.start_mark.index, scalar.end_mark.index):
                        yield from _by_one(source, match, "factors")


def _waits(recipe: Recipe, source: str) -> Iterator[Slip]:
    for step in recipe.steps:
        for quantity in quantities(step.actions):
            if quantity.kind is Kind.TIME and quantity.written:
                start = _offset(source, quantity.place.line, quantity.place.column)
                match = re.compile(r"\d+").search(source, start)
                if match is not None:
                    yield from _by_one(source, match, "times")


def _by_one(source: str, match: re.Match[str], kind: str) -> Iterator[Slip]:
    old = match[0]
    value = int(old) if old.isdigit() else _WORDS.index(old.casefold())
    for other in (value + 1, value - 1):
        new = str(other) if old.isdigit() else _WORDS[other]
        new = new.capitalize() if old[0].isupper() else new
        yield Slip(
            kind=kind,
            start=match.start(),
            end=match.end(),
            new=new,
            line=line_of(source, match.start()),
            what=f"{old} to {new}",
        )


def _scalars(node: yaml.Node) -> Iterator[yaml.ScalarNode]:
    if isinstance(node, yaml.ScalarNode):
        yield node
    elif isinstance(node, yaml.MappingNode):
        for _, value in node.value:
            yield from _scalars(value)
    elif isinstance(node, yaml.SequenceNode):
        for value in node.value:
            yield from _scalars(value)


def _offset(source: str, line: int, column: int) -> int:
    return sum(len(row) for row in source.splitlines(keepends=True)[: line - 1]) + column - 1
