"""Where a YAML parser stopped, and the lines of a text taken apart for the rules that explain it."""

import re
from collections.abc import Callable

import yaml

from foldproof.findings.finding import Finding, Place, Severity
from foldproof.frozen import dataclass
from foldproof.recipe.shifts import Shift

QUOTED = r"'(?:[^']|'')*'" r'|"(?:[^"\\]|\\.)*"'
_KEY = r"""(?:"[^"]{0,80}"|'[^']{0,80}'|[^\s"'#\[\]{},&*!|>%@`-][^:#]{0,80}?)"""
_LINE = re.compile(rf"(?P<before>\s*(?:-\s+)*(?:{_KEY}\s?:(?:\s+|$))?)(?P<value>.*)")


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
        return Fault(
            problem=words,
            line=line,
            column=mark.column if mark else 0,
            start_line=min(start.line, line) if start else line,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Mended:
    """A text with one trap mended, and what there is to say about it."""

    lines: tuple[str, ...]
    finding: Finding
    shifts: tuple[Shift, ...] = ()
    doubtful: bool = False
    """Whether the mend may well be another than the author's: what is read from it would be mistakes made up."""


TABS = "tabs for indentation"
UNEVEN = "indentation uneven"

Rule = Callable[[tuple[str, ...], Fault, str], Mended | None]
"""Takes the lines of a text, where the parser stopped and the file; None where the trap is not there."""


def owner_of(lines: tuple[str, ...], number: int) -> int:
    """The line with the key or the dash under which the words of a line stand; itself where it has one."""
    while number > 0 and not lines[number].lstrip().startswith("- ") and not has_key(lines[number]):
        number -= 1
    return number


def has_key(line: str) -> bool:
    """Whether a line begins with a key and its colon."""
    return parts(line)[0].rstrip().endswith(":")


def parts(line: str) -> tuple[str, str]:
    """What comes before the value (indentation, dashes, a key with its colon) and the value."""
    found = _LINE.match(line.rstrip())
    return (found["before"], found["value"]) if found else ("", line)


def with_line(lines: tuple[str, ...], number: int, line: str) -> tuple[str, ...]:
    """The lines with one of them put anew."""
    return (*lines[:number], line, *lines[number + 1 :])


def quoted(lines: tuple[str, ...], number: int, file: str, place: Place, name: str, message: str) -> Mended:
    """The value of a line put in quotes; quotes that enclose it whole are taken off first."""
    before, value = parts(lines[number])
    enclosed = value[:1] in ("'", '"') and len(value) > 1 and value[-1] == value[0]
    bare = value[1:-1] if enclosed else value
    quoted = "'" + bare.replace("'", "''") + "'"
    shown = f'"{bare}"' if '"' not in bare and "\\" not in bare else quoted
    mend = f"Write {shown}" if len(shown) <= 60 else 'Put these words in quotes: "..."'
    shifts = () if enclosed else (Shift(line=number, since=len(before), by=1, quoted=True),)
    finding = finding_at(name, message, place, mend)
    return Mended(lines=with_line(lines, number, before + quoted), shifts=shifts, finding=finding)


def closing(value: str) -> int | None:
    """Where the bracket that a value starts with is closed."""
    if value[:1] not in ("[", "{"):
        return None
    depth = 0
    for index, sign in enumerate(value):
        depth += (sign in "[{") - (sign in "]}")
        if depth == 0:
            return index
    return None


def unclosed(value: str) -> list[tuple[int, str]]:
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


def finding_at(name: str, message: str, place: Place, mend: str) -> Finding:
    """An error of the text itself."""
    return Finding(name=name, severity=Severity.ERROR, message=message, mend=mend, place=place)


def indent_of(line: str) -> int:
    """How far a line is indented."""
    return len(line) - len(line.lstrip())
