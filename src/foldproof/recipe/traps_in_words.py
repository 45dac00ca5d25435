"""Traps of YAML in the words of a value: quotes, brackets, signs and comments."""

import re

from foldproof.findings.finding import Place
from foldproof.recipe.faults import (
    QUOTED,
    Fault,
    Mended,
    closing,
    finding_at,
    has_key,
    indent_of,
    owner_of,
    parts,
    quoted,
    unclosed,
    with_line,
)
from foldproof.recipe.shifts import Shift

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


def odd_start(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
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


def bracket_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
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


def quote_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
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


def open_quote(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
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
    indent = indent_of(lines[number])
    last = number
    for below in range(number + 1, len(lines)):
        line = lines[below]
        if indent_of(line) <= indent or line.lstrip().startswith("- ") or has_key(line):
            break
        last = below
    return last


def comment_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
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


def comment_in_brackets(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
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


def open_bracket(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
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
