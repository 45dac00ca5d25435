"""YAML's traps for people who are no programmers: what went wrong in a line, and the line mended in a copy to read on."""

import re
from collections.abc import Callable
from dataclasses import dataclass

import yaml

from foldproof.findings.finding import Finding, Place, Severity
from foldproof.recipe.keys import ALL_KEYS

_LINE = re.compile(r"""(?P<before>\s*(?:-\s+)*(?:(?:"[^"]*"|'[^']*'|[^\s"'#\[\]{},&*!|>%@`-][^:#]*?)\s*:(?:\s+|$))?)(?P<value>.*?)\s*$""")
_ODD_STARTS = {
    "*": "look for something to copy", "&": "mark something for copying", "!": "look for a type",
    "%": "look for an instruction to itself", "@": "stop", "`": "stop", "|": "start a passage on the next line",
    ">": "start a passage on the next line", ",": "go on with a list", "]": "end a list", "}": "end a mapping",
}
_WORD_KEY = re.compile(r"(?P<lead>\s*(?:-\s+)*)(?P<key>[A-Za-z][A-Za-z ]*):(?P<rest>\S.*)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """Where the parser stopped and what it was busy with, lines and columns from 0."""

    problem: str
    line: int
    column: int
    start_line: int
    """Where the quotes, brackets or key began that it was reading."""

    @staticmethod
    def of(error: yaml.YAMLError) -> "Fault":
        """The fault in an error of either parser; a fault without a mark stands at the top."""
        mark, start = getattr(error, "problem_mark", None), getattr(error, "context_mark", None)
        words = f"{getattr(error, 'context', '') or ''} | {getattr(error, 'problem', '') or ''}"
        line = mark.line if mark else 0
        return Fault(problem=words, line=line, column=mark.column if mark else 0,
                     start_line=min(start.line, line) if start else line)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mended:
    """A text with one trap mended, and what there is to say about it."""

    lines: tuple[str, ...]
    finding: Finding
    shift: tuple[int, int, int] | None = None
    """Line (from 0), the column from which on it grew, and by how many characters."""


Rule = Callable[[tuple[str, ...], Fault, str], Mended | None]


def mend(source: str, error: yaml.YAMLError, file: str) -> Mended | None:
    """Report the trap behind an error and mend it in a copy; None where no trap is known there."""
    lines, fault = tuple(source.split("\n")), Fault.of(error)
    if fault.line >= len(lines):
        fault = Fault(problem=fault.problem, line=len(lines) - 1, column=0, start_line=min(fault.start_line, len(lines) - 1))
    for rule in RULES:
        mended = rule(lines, fault, file)
        if mended is not None and mended.lines != lines:
            return mended
    return None


def explain(source: str, error: yaml.YAMLError, file: str) -> Finding:
    """An error that no known trap explains, in words without the parser's own."""
    lines, fault = source.split("\n"), Fault.of(error)
    while fault.line >= len(lines) or (fault.line > 0 and not lines[fault.line].strip()):
        fault = Fault(problem=fault.problem, line=min(fault.line, len(lines)) - 1, column=0, start_line=fault.start_line)
    line = lines[fault.line]
    indent = len(line) - len(line.lstrip())
    column = max(fault.column, indent)
    place = Place(file=file, line=fault.line + 1, column=column + 1, length=max(1, len(line.rstrip()) - column))
    opened = f" What began in line {fault.start_line + 1} is not finished." if fault.start_line < fault.line else ""
    if "flow" in fault.problem:
        return _finding("bracket not closed", f"A list or mapping in brackets breaks off here.{opened}", place,
                        "Close every [ with ] and every { with }, and part the values with commas.")
    if "block" in fault.problem:
        return _finding(
            "indentation uneven", f"This line, indented by {indent}, fits neither the line before it nor what that belongs to.",
            place, "Start all keys of one mapping, and all dashes of one list, in the same column, with spaces.")
    return _finding("text not readable", f"From here on the text cannot be read as keys and values.{opened}", place,
                    "Look at this line and the one before it: indentation, quotes, brackets, colons. "
                    "Words with odd signs go in quotes.")


def _tabs(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Tabs at the start of lines: all of them at once, since one is seldom alone."""
    with_tabs = [number for number, line in enumerate(lines) if "\t" in line[:len(line) - len(line.lstrip())]]
    if not with_tabs or not any(number in with_tabs for number in range(fault.start_line, fault.line + 1)):
        return None
    others = f" ({len(with_tabs)} lines have tabs)" if len(with_tabs) > 1 else ""
    first = with_tabs[0]
    fixed = tuple(_tabs_to_spaces(line) if number in with_tabs else line for number, line in enumerate(lines))
    return Mended(lines=fixed, finding=_finding(
        "tabs for indentation", f"This line is indented with a tab{others}. YAML indents with spaces only, since a tab is as "
        "wide as each program likes.", Place(file=file, line=first + 1, column=lines[first].index("\t") + 1),
        "Put spaces in their place, two for each level; editors have a setting for it."))


def _tabs_to_spaces(line: str) -> str:
    rest = line.lstrip()
    return line[:len(line) - len(rest)].replace("\t", "  ") + rest


def _odd_start(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    before, value = _parts(lines[fault.line])
    if not value or value[0] not in _ODD_STARTS or (value[0] in "|>" and len(value) < 3):
        return None
    return _quoted(lines, fault.line, file, Place(file=file, line=fault.line + 1, column=len(before) + 1), "odd first sign",
                   f"A leading {value[0]} makes YAML {_ODD_STARTS[value[0]]}.")


def _bracket_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Words that start with a bracket: `{width} wide`."""
    for number in (fault.line, fault.start_line):
        before, value = _parts(lines[number])
        end = _closing(value)
        if end is not None and value[end + 1:].strip() and not value[end + 1:].lstrip().startswith("#"):
            return _quoted(lines, number, file, Place(file=file, line=number + 1, column=len(before) + 1), "odd first sign",
                           f"A leading {value[0]} starts a {'mapping' if value[0] == '{' else 'list'} in YAML, and after its "
                           "end nothing more may come.")
    return None


def _quote_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Quotes that end before the words do: `'don't'`, or `"Shut" it`."""
    before, value = _parts(lines[fault.line])
    if value[:1] not in ("'", '"'):
        return None
    closed = re.match(r"'(?:[^']|'')*'" if value[0] == "'" else r'"(?:[^"\\]|\\.)*"', value)
    if closed is None or not value[closed.end():].strip():
        return None
    column = len(before) + closed.end()
    what = "apostrophe" if value[0] == "'" else "quote"
    return _quoted(lines, fault.line, file, Place(file=file, line=fault.line + 1, column=column), "words after a quote",
                   f"The {what} here ends the quoted words, and more words follow.")


def _open_quote(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A quote that is not closed on its line, and so runs on into later lines."""
    for number in range(fault.line, max(-1, fault.line - 40), -1):
        before, value = _parts(lines[number])
        if value[:1] not in ("'", '"') or re.match(r"'(?:[^']|'')*'|\"(?:[^\"\\]|\\.)*\"", value):
            continue
        fixed = f"{before}{value}{value[0]}"
        return Mended(lines=_with(lines, number, fixed), finding=_finding(
            "quote not closed", "The quote that opens here is not closed on this line, so the lines after it are taken for "
            "words.", Place(file=file, line=number + 1, column=len(before) + 1), f"Close it with {value[0]} at the end."))
    return None


def _colon_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A sentence with a colon and a space in it."""
    before, value = _parts(lines[fault.line])
    if "mapping values" not in fault.problem or not before.rstrip().endswith(":") or value[:1] in ("[", "{", '"', "'"):
        return None
    found = re.search(r":(?=\s|$)", value)
    if found is None:
        return None
    place = Place(file=file, line=fault.line + 1, column=len(before) + found.start() + 1)
    return _quoted(lines, fault.line, file, place, "colon in a sentence",
                   "A colon with a space after it parts a key from its value, and this line already has one before.")


def _key_under_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A line with a colon below a value that is already there: too far in, or a sentence that goes on."""
    line = lines[fault.line]
    above = next((number for number in range(fault.line - 1, -1, -1) if lines[number].strip()), None)
    if "mapping values" not in fault.problem or above is None:
        return None
    key = line.strip().split(":")[0]
    owner, (before, value) = above, _parts(lines[above])
    while not before.rstrip().endswith(":") and owner > 0:
        owner -= 1
        before, value = _parts(lines[owner])
    if not value or not before.rstrip().endswith(":"):
        return None
    colon = line.find(":", len(line) - len(line.lstrip()))
    place = Place(file=file, line=fault.line + 1, column=max(colon, 0) + 1)
    if key in ALL_KEYS and owner == above:
        indent = len(re.sub(r"[^\s-].*", "", before))
        return Mended(lines=_with(lines, fault.line, " " * indent + line.strip()), finding=_finding(
            "indentation uneven", f"`{key}:` is indented further than the line above, as if it belonged to the words there.",
            place, f"Start `{key}:` in the same column as `{before.strip(' -:')}:`."))
    return Mended(lines=_with(lines, fault.line, f"{line[:colon]};{line[colon + 1:]}"), finding=_finding(
        "colon in a sentence", "A colon with a space after it parts a key from its value; here it stands in words that began "
        f"in line {owner + 1}.", place, f"Write {before.strip(' -')} > and start the words on the next line, indented."))


def _no_space_after_colon(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    for number in (fault.start_line, fault.line, fault.line - 1):
        found = _WORD_KEY.fullmatch(lines[number]) if 0 <= number < len(lines) else None
        if found is None or found["key"] not in ALL_KEYS:
            continue
        at = len(found["lead"]) + len(found["key"]) + 1
        return Mended(lines=_with(lines, number, f"{lines[number][:at]} {lines[number][at:]}"), shift=(number, at, 1),
                      finding=_finding("space missing", "A colon needs a space after it, or YAML takes it for a letter of a "
                                       "word.", Place(file=file, line=number + 1, column=at),
                                       f"Write {found['key']}: {found['rest']}"))
    return None


def _comment_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A sentence over several lines with a # in it: YAML drops the rest of that line and then finds more words."""
    above = fault.line - 1
    found = re.search(r"\s#", lines[above]) if above >= 0 else None
    if found is None or "block" not in fault.problem or not lines[fault.line].startswith(" "):
        return None
    at = found.start() + 1
    return Mended(lines=_with(lines, above, f"{lines[above][:at]}＃{lines[above][at + 1:]}"), finding=_finding(
        "words lost to a comment", "A # with a space before it starts a comment: the rest of this line is lost, and the words "
        "of the next line hang in the air.", Place(file=file, line=above + 1, column=at + 1,
                                                  length=len(lines[above].rstrip()) - at),
        "Write > after the key and start the words on the next line, or put them in quotes."))


def _open_bracket(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    if "flow" not in fault.problem:
        return None
    line = lines[fault.start_line].rstrip()
    before, value = _parts(line)
    open_ones = _unclosed(value)
    if not open_ones or (fault.start_line == fault.line and fault.column < len(line)):
        return None
    closers = "".join("]" if sign == "[" else "}" for _, sign in reversed(open_ones))
    return Mended(lines=_with(lines, fault.start_line, line + closers), finding=_finding(
        "bracket not closed", f"The {open_ones[-1][1]} that opens here is not closed on this line.",
        Place(file=file, line=fault.start_line + 1, column=len(before) + open_ones[-1][0] + 1),
        f"Close it with {closers} where the {'list' if closers[0] == ']' else 'mapping'} ends."))


def _no_colon(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A line of words where a key and its value belong."""
    if "could not find expected ':'" not in fault.problem:
        return None
    line = lines[fault.start_line]
    indent = len(line) - len(line.lstrip())
    words = line.strip()
    return Mended(lines=_with(lines, fault.start_line, " " * indent + "#" + line[indent + 1:]), finding=_finding(
        "colon missing", f"`{words if len(words) < 50 else words[:46] + ' ...'}` has no colon, so it is no key with a value.",
        Place(file=file, line=fault.start_line + 1, column=indent + 1, length=max(1, len(words))),
        "Write key: value. If it goes on with the sentence before it, indent it, or write > after that key."))


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
    _open_bracket,
    _no_colon,
)
"""In the order in which they are tried: the surest signs first."""


def _parts(line: str) -> tuple[str, str]:
    """What comes before the value (indentation, dashes, a key with its colon) and the value."""
    found = _LINE.match(line)
    return (found["before"], found["value"]) if found else ("", line)


def _with(lines: tuple[str, ...], number: int, line: str) -> tuple[str, ...]:
    return (*lines[:number], line, *lines[number + 1:])


def _quoted(lines: tuple[str, ...], number: int, file: str, place: Place, name: str, message: str) -> Mended:
    """The value of a line put in quotes."""
    before, value = _parts(lines[number])
    bare = value
    for quote in ("'", '"'):
        if value.startswith(quote):
            bare = value.strip(quote)
    quoted = "'" + bare.replace("'", "''") + "'"
    shown = f'"{bare}"' if '"' not in bare and "\\" not in bare else quoted
    if len(shown) > 60:
        shown = 'the words in quotes: "..."'
    return Mended(lines=_with(lines, number, before + quoted), shift=(number, len(before), 0 if bare != value else 1),
                  finding=_finding(name, message, place, f"Write {shown}"))


def _closing(value: str) -> int | None:
    """Where the bracket that a value starts with is closed."""
    if value[:1] not in ("[", "{"):
        return None
    depth = 0
    for index, sign in enumerate(value):
        depth += (sign in "[{") - (sign in "]}")
        if depth == 0:
            return index
    return None


def _unclosed(value: str) -> list[tuple[int, str]]:
    """Brackets that are open at the end of a value; those in quotes don't count."""
    quote = ""
    stack: list[tuple[int, str]] = []
    for index, sign in enumerate(value):
        if quote:
            quote = "" if sign == quote else quote
        elif sign in "'\"" and (index == 0 or value[index - 1] in " [{,"):
            quote = sign
        elif sign in "[{":
            stack.append((index, sign))
        elif sign in "]}" and stack:
            stack.pop()
    return stack


def _finding(name: str, message: str, place: Place, mend: str) -> Finding:
    return Finding(name=name, severity=Severity.ERROR, message=message, mend=mend, place=place)
