"""YAML's traps for people who are no programmers: what went wrong, and the text mended in a copy to read on from."""

from dataclasses import replace

import yaml

from foldproof.findings.finding import Finding, Place
from foldproof.recipe import traps_in_layout, traps_in_words
from foldproof.recipe.composing import MOST_NESTED
from foldproof.recipe.faults import UNEVEN, Fault, Mended, Rule, finding_at, indent_of, unclosed

RULES: tuple[Rule, ...] = (
    traps_in_layout.tabs,
    traps_in_layout.no_space_after_colon,
    traps_in_layout.colon_in_words,
    traps_in_words.odd_start,
    traps_in_words.bracket_in_words,
    traps_in_words.quote_in_words,
    traps_in_words.open_quote,
    traps_in_layout.key_under_words,
    traps_in_words.comment_in_words,
    traps_in_words.comment_in_brackets,
    traps_in_words.open_bracket,
    traps_in_layout.tab_between,
    traps_in_layout.no_colon,
)
"""In the order in which they are tried: the surest signs first."""


def mend(source: str, error: yaml.YAMLError, file: str) -> Mended | None:
    """Report the trap behind an error and mend it in a copy; None where no trap is known there."""
    lines, fault = tuple(source.split("\n")), Fault.of(error)
    last = len(lines) - 1
    if fault.line > last:
        fault = replace(fault, line=last, column=0, start_line=min(fault.start_line, last))
    for rule in RULES:
        mended = rule(lines, fault, file)
        if mended is not None and mended.lines != lines:
            return mended
    return None


def explain(source: str, error: yaml.YAMLError, file: str) -> Finding:
    """An error that no known trap explains, in words without the parser's own."""
    lines, fault = source.split("\n"), Fault.of(error)
    while fault.line >= len(lines) or (fault.line > 0 and not lines[fault.line].strip()):
        fault = replace(fault, line=min(fault.line, len(lines)) - 1, column=0)
    line = lines[fault.line]
    indent = indent_of(line)
    column = max(fault.column, indent)
    place = Place(file=file, line=fault.line + 1, column=column + 1, length=max(1, len(line.rstrip()) - column))
    if len(unclosed(line)) > MOST_NESTED:
        return finding_at(
            "nested too deep",
            f"Lists and mappings lie more than {MOST_NESTED} deep in each other here.",
            replace(place, column=unclosed(line)[MOST_NESTED][0] + 1, length=1),
            "One recipe is one card, and needs far less; look for a slip.",
        )
    opened = f" What began in line {fault.start_line + 1} is not finished." if fault.start_line < fault.line else ""
    if "flow" in fault.problem:
        return finding_at(
            "bracket not closed",
            f"A list or mapping in brackets breaks off here.{opened}",
            place,
            "Close every [ with ] and every { with }, and part the values with commas.",
        )
    if "parsing a block" in fault.problem:
        return finding_at(
            UNEVEN,
            f"This line, indented by {indent}, fits neither the line before it nor what that belongs to.",
            place,
            "Start all keys of one mapping, and all dashes of one list, in the same column, with spaces.",
        )
    return finding_at(
        "text not readable",
        f"From here on the text cannot be read as keys and values.{opened}",
        place,
        "Look at this line and the one before it: indentation, quotes, brackets, colons. Words with odd signs go in "
        "quotes.",
    )
