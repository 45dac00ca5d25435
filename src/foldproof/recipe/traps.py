"""YAML's traps for people who are no programmers: what went wrong, and the text mended in a copy to read on from."""

import re
from collections.abc import Callable
from dataclasses import replace

import yaml

from foldproof.findings.finding import Finding, Place
from foldproof.recipe.composing import MOST_NESTED
from foldproof.recipe.faults import (
    QUOTED,
    Fault,
    Mended,
    closing,
    finding_at,
    has_key,
    owner_of,
    parts,
    quoted,
    unclosed,
    with_line,
)
from foldproof.recipe.keys import ALL_KEYS
from foldproof.recipe.shifts import Shift

TABS = "tabs for indentation"
UNEVEN = "indentation uneven"

Rule = Callable[[tuple[str, ...], Fault, str], Mended | None]

_ODD_STARTS = {
    "*": "look for something to copy",
    "&": "mark something for copying",
    "!": "look for a type",
    "%": "look for an instruction to itself",
    "@": "stop",
    "`": "stop",
    "|": "start a passage on the next line",
    ">": "start a passage on the next line",
    ",": "go on with a list",
    "]": "end a list",
    "}": "end a mapping",
}
_WORD_KEY = re.compile(r"(?P<lead>\s*(?:-\s+)*)(?P<key>[A-Za-z][A-Za-z ]*):(?P<rest>\S.*)")


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
    indent = _indent(line)
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


def _tabs(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Tabs at the start of lines: all of them at once, since one is seldom alone."""
    with_tabs = [number for number, line in enumerate(lines) if "\t" in line[: _indent(line)]]
    if not with_tabs or not any(number in with_tabs for number in range(fault.start_line, fault.line + 1)):
        return None
    others = f" ({len(with_tabs)} lines have tabs)" if len(with_tabs) > 1 else ""
    first = with_tabs[0]
    fixed = _tabs_to_spaces(lines)
    finding = finding_at(
        TABS,
        f"This line is indented with a tab{others}. YAML indents with spaces only, since a tab is as wide as each "
        "program likes.",
        Place(file=file, line=first + 1, column=lines[first].index("\t") + 1),
        "Put spaces in their place, two for each level; editors have a setting for it.",
    )
    shifts = tuple(
        Shift(line=number, since=0, by=_indent(new) - _indent(old))
        for number, (old, new) in enumerate(zip(lines, fixed, strict=True))
        if old != new
    )
    return Mended(lines=fixed, shifts=shifts, finding=finding)


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())


def _tabs_to_spaces(lines: tuple[str, ...]) -> tuple[str, ...]:
    """Indent by guess: as the line above, or two more below a colon; among lines with tabs, two for each tab."""
    fixed: list[str] = []
    above, above_tabs = "", 0
    for line in lines:
        words = line.lstrip()
        tabs = line[: len(line) - len(words)].count("\t")
        if tabs and words:
            indent = _indent(above)
            if above_tabs:
                indent = max(0, indent + 2 * (tabs - above_tabs))
            else:
                dash = above.lstrip().startswith("- ") and not words.startswith("- ")
                indent += 2 * (dash + (above.rstrip().endswith(":")))
            line = " " * indent + words
        fixed.append(line)
        if words:
            above, above_tabs = line, tabs
    return tuple(fixed)


def _odd_start(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Words that start with a sign that YAML takes for an order, on this line or where the words of this line began."""
    owner = owner_of(lines, fault.line)
    before, value = parts(lines[owner])
    if not value or value[0] not in _ODD_STARTS or (value[0] in "|>" and len(value) < 3):
        return None
    place = Place(file=file, line=owner + 1, column=len(before) + 1)
    reason = f"A leading {value[0]} makes YAML {_ODD_STARTS[value[0]]}."
    if owner == fault.line:
        return quoted(lines, owner, file, place, "odd first sign", reason)
    finding = finding_at(
        "odd first sign", reason, place, "Write > after the key, and start the words on the next line."
    )
    return Mended(lines=with_line(lines, owner, f"{before}x{value[1:]}"), finding=finding)


def _bracket_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Words that start with a bracket: `{width} wide`."""
    for number in (fault.line, fault.start_line):
        before, value = parts(lines[number])
        end = closing(value)
        if end is not None and value[end + 1 :].strip() and not value[end + 1 :].lstrip().startswith("#"):
            starts = "mapping" if value[0] == "{" else "list"
            reason = f"A leading {value[0]} starts a {starts} in YAML, and after its end nothing more may come."
            place = Place(file=file, line=number + 1, column=len(before) + 1)
            return quoted(lines, number, file, place, "odd first sign", reason)
    return None


def _quote_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Quotes that end before the words do: `'don't'`, or `"Shut" it`."""
    before, value = parts(lines[fault.line])
    if value[:1] not in ("'", '"'):
        return None
    closed = re.match(QUOTED, value)
    if closed is None or not value[closed.end() :].strip():
        return None
    column = len(before) + closed.end()
    what = "apostrophe" if value[0] == "'" else "quote"
    return quoted(
        lines,
        fault.line,
        file,
        Place(file=file, line=fault.line + 1, column=column),
        "words after a quote",
        f"The {what} here ends the quoted words, and more words follow.",
    )


def _open_quote(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A quote that is not closed on its line, and so runs on into later lines."""
    if "quoted scalar" in fault.problem:
        numbers = range(fault.start_line, fault.start_line + 1)
    else:
        numbers = range(fault.line, max(-1, fault.line - 40), -1)
    for number in numbers:
        before, value = parts(lines[number])
        opens = value[:1] in ("'", '"') and not re.match(QUOTED, value)
        if not opens or (number != fault.line and number != fault.start_line and value[0] not in lines[fault.line]):
            continue
        place = Place(file=file, line=number + 1, column=len(before) + 1)
        reason = "The quote that opens here is not closed on this line, so the lines after it are taken for words."
        finding = finding_at("quote not closed", reason, place, f"Close it with {value[0]} at the end.")
        last = _last_of_passage(lines, number)
        return Mended(lines=with_line(lines, last, f"{lines[last].rstrip()}{value[0]}"), finding=finding)
    return None


def _last_of_passage(lines: tuple[str, ...], number: int) -> int:
    """The last line of the words that begin in a line: those below it that are indented further and have no key."""
    indent = _indent(lines[number])
    last = number
    for below in range(number + 1, len(lines)):
        line = lines[below]
        if _indent(line) <= indent or line.lstrip().startswith("- ") or has_key(line):
            break
        last = below
    return last


def _colon_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A sentence with a colon and a space in it."""
    before, value = parts(lines[fault.line])
    if "mapping values" not in fault.problem or not before.rstrip().endswith(":") or value[:1] in ("[", "{", '"', "'"):
        return None
    found = re.search(r":(?=\s|$)", value)
    if found is None:
        return None
    place = Place(file=file, line=fault.line + 1, column=len(before) + found.start() + 1)
    return quoted(
        lines,
        fault.line,
        file,
        place,
        "colon in a sentence",
        "A colon with a space after it parts a key from its value, and this line already has one before.",
    )


def _key_under_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A line with a colon below a value that is already there: too far in, or a sentence that goes on."""
    line = lines[fault.line]
    above = next((number for number in range(fault.line - 1, -1, -1) if lines[number].strip()), None)
    if "mapping values" not in fault.problem or above is None or ":" not in line:
        return None
    owner = owner_of(lines, above)
    before, value = parts(lines[owner])
    if not value or not has_key(lines[owner]):
        return None
    colon = line.index(":")
    key = line[:colon].strip()
    place = Place(file=file, line=fault.line + 1, column=colon + 1)
    if key in ALL_KEYS and owner == above:
        indent = len(re.sub(r"[^\s-].*", "", before))
        finding = finding_at(
            UNEVEN,
            f"`{key}:` is indented further than the line above, as if it belonged to the words there.",
            place,
            f"Start `{key}:` in the same column as `{before.strip(' -:')}:`.",
        )
        by = indent - (_indent(line))
        shifts = (Shift(line=fault.line, since=0, by=by),)
        return Mended(lines=with_line(lines, fault.line, " " * indent + line.strip()), shifts=shifts, finding=finding)
    finding = finding_at(
        "colon in a sentence",
        "A colon with a space after it parts a key from its value; here it stands in words that began in line "
        f"{owner + 1}.",
        place,
        f"Write {before.strip(' -')} > and start the words on the next line, indented.",
    )
    return Mended(lines=with_line(lines, fault.line, f"{line[:colon]};{line[colon + 1 :]}"), finding=finding)


def _no_space_after_colon(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    for number in (fault.start_line, fault.line, fault.line - 1):
        found = _WORD_KEY.fullmatch(lines[number]) if 0 <= number < len(lines) else None
        if found is None or found["key"] not in ALL_KEYS:
            continue
        at = len(found["lead"]) + len(found["key"]) + 1
        finding = finding_at(
            "space missing",
            "A colon needs a space after it, or YAML takes it for a letter of a word.",
            Place(file=file, line=number + 1, column=at),
            f"Write {found['key']}: {found['rest']}",
        )
        fixed = f"{lines[number][:at]} {lines[number][at:]}"
        return Mended(
            lines=with_line(lines, number, fixed), shifts=(Shift(line=number, since=at, by=1),), finding=finding
        )
    return None


def _comment_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A sentence over several lines with a # in it: YAML drops the rest of that line and then finds more words."""
    above = fault.line - 1
    found = re.search(r"\s#", lines[above]) if above >= 0 else None
    if found is None or "block" not in fault.problem or not lines[fault.line].startswith(" "):
        return None
    at = found.start() + 1
    finding = finding_at(
        "words lost to a comment",
        "A # with a space before it starts a comment: the rest of this line is lost, and the words of the next line "
        "hang in the air.",
        Place(file=file, line=above + 1, column=at + 1, length=len(lines[above].rstrip()) - at),
        "Write > after the key and start the words on the next line, or put them in quotes.",
    )
    return Mended(lines=with_line(lines, above, f"{lines[above][:at]}x{lines[above][at + 1 :]}"), finding=finding)


def _comment_in_brackets(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A # inside brackets: YAML drops the rest of the line, and with it the closing bracket."""
    if "flow" not in fault.problem:
        return None
    for number in range(fault.start_line, fault.line + 1):
        line = lines[number]
        found = re.search(r"\s(#[^\s#,\]}]+)", line)
        if found is None or not unclosed(line[: found.start()]):
            continue
        finding = finding_at(
            "words lost to a comment",
            f"YAML drops `{line[found.start(1) :].rstrip()}` here: a # with a space before it starts a comment, "
            "and so the bracket is never closed.",
            Place(file=file, line=number + 1, column=found.start(1) + 1, length=len(found[1])),
            f'Put it in quotes: "{found[1]}"',
        )
        fixed = f'{line[: found.start(1)]}"{found[1]}"{line[found.end(1) :]}'
        return Mended(
            lines=with_line(lines, number, fixed),
            finding=finding,
            shifts=(Shift(line=number, since=found.end(1), by=2),),
        )
    return None


def _open_bracket(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A bracket that its line does not close; lists over several lines are closed there all the same."""
    line = lines[fault.start_line].rstrip()
    before, value = parts(line)
    open_ones = unclosed(value)
    if "flow" not in fault.problem or not open_ones or (fault.start_line == fault.line and fault.column < len(line)):
        return None
    closers = "".join("]" if sign == "[" else "}" for _, sign in reversed(open_ones))
    at, sign = open_ones[-1]
    finding = finding_at(
        "bracket not closed",
        f"The {sign} that opens here is not closed on this line.",
        Place(file=file, line=fault.start_line + 1, column=len(before) + at + 1),
        f"Close it with {closers} where the {'list' if sign == '[' else 'mapping'} ends.",
    )
    return Mended(lines=with_line(lines, fault.start_line, line + closers), finding=finding)


def _tab_between(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A tab within a line, where one of the two parsers stops at it."""
    line = lines[fault.line]
    if "\t" not in line or line[fault.column : fault.column + 1] != "\t":
        return None
    place = Place(file=file, line=fault.line + 1, column=fault.column + 1)
    finding = finding_at("tab between words", "A tab stands here.", place, "Put a space in its place.")
    return Mended(lines=with_line(lines, fault.line, line.replace("\t", " ")), finding=finding)


def _no_colon(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Lines of words where a key and its value belong, all that follow each other at once."""
    if "could not find expected ':'" not in fault.problem:
        return None
    fixed = list(lines)
    number = fault.start_line
    while number < len(lines) and lines[number].strip() and ":" not in lines[number]:
        indent = _indent(lines[number])
        fixed[number] = f"{lines[number][:indent]}#{lines[number][indent + 1 :]}"
        number += 1
    line = lines[fault.start_line]
    words = line.strip()
    shown = words if len(words) < 50 else f"{words[:46]} ..."
    count = number - fault.start_line
    finding = finding_at(
        "colon missing",
        f"`{shown}` has no colon, so it is no key with a value"
        + (f"; nor has what follows, down to line {number}." if count > 1 else "."),
        Place(file=file, line=fault.start_line + 1, column=_indent(line) + 1, length=max(1, len(words))),
        "Write key: value. If it goes on with the sentence before it, indent it, or write > after that key.",
    )
    return Mended(lines=tuple(fixed), finding=finding)


RULES: tuple[Rule, ...] = (
    _tabs,
    _no_space_after_colon,
    _colon_in_words,
    _odd_start,
    _bracket_in_words,
    _quote_in_words,
    _open_quote,
    _key_under_words,
    _comment_in_words,
    _comment_in_brackets,
    _open_bracket,
    _tab_between,
    _no_colon,
)
"""In the order in which they are tried: the surest signs first."""
