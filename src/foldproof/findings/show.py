"""Findings as plain text for a terminal, and as plain data."""

import textwrap
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import asdict

from foldproof.findings.finding import Finding, Place, Severity

WIDTH = 100
"""Columns that a line is kept to where nothing else is asked for."""
NARROWEST = 40
"""Columns that are taken even where a terminal has less."""
_TAB = 4
_INDENT = "    "
_JOINERS = "\u200c\u200d"
_RANK = {Severity.ERROR: 0, Severity.WARNING: 1, Severity.ADVICE: 2}
_INK = {Severity.ERROR: "1;31", Severity.WARNING: "1;33", Severity.ADVICE: "1;36"}
"""ANSI numbers of bold red, yellow and cyan (ECMA-48, select graphic rendition)."""
_BOLD = "1"
_MEND = "To mend it:"


def in_order(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Put findings in the order of their places (file, line, column); those without a place come last.

    At one place errors come before warnings and advice; otherwise the order they were found in is kept.
    """
    return tuple(sorted(findings, key=lambda f: (f.place is None, *_spot(f.place), _RANK[f.severity])))


def render(
    findings: Sequence[Finding], sources: Mapping[str, str], colour: bool = False, width: int = WIDTH,
) -> str:
    """Show findings with the lines of the recipe that they are about, and a closing count.

    `sources` gives the text of each file by the name that places carry; a line that is not there is left out.
    Control characters in the recipe are shown as blanks, so that a recipe can't command the terminal.
    """
    width = max(NARROWEST, width)
    shown = [_show(finding, sources, colour, width) for finding in in_order(findings)]
    return "\n\n".join([*shown, count(findings)]) + "\n"


def count(findings: Sequence[Finding]) -> str:
    """Count findings by severity: `2 errors and 1 warning.`"""
    parts = []
    for severity in Severity:
        number = sum(finding.severity is severity for finding in findings)
        plural = "" if number == 1 or severity is Severity.ADVICE else "s"
        if number:
            parts.append(f"{number} {severity}{plural}")
    if not parts:
        return "Nothing to report."
    return (f"{', '.join(parts[:-1])} and {parts[-1]}." if len(parts) > 1 else f"{parts[0]}.")


def as_json(findings: Sequence[Finding]) -> list[dict[str, object]]:
    """Give findings as plain dictionaries, in order of place, ready for json.dumps."""
    return [
        asdict(finding) | {
            "severity": str(finding.severity), "place": _placed(finding.place),
            "asides": [{"text": aside.text, "place": _placed(aside.place)} for aside in finding.asides]}
        for finding in in_order(findings)]


def _placed(place: Place | None) -> dict[str, object] | None:
    """A place with the column after its last character, `end`; lines and columns from 1, columns in characters."""
    return asdict(place) | {"end": place.column + place.length} if place else None


def _show(finding: Finding, sources: Mapping[str, str], colour: bool, width: int) -> str:
    head = _inked(f"{finding.severity.upper()}: {_clean(finding.name)}", _INK[finding.severity], colour)
    where = [_where(finding.place)] if finding.place else []
    if finding.step:
        where.append(f"step {_clean(finding.step)}")
    lines = [head]
    if where:
        lines.append(f"  at {', '.join(where)}")
    lines += _quoted(finding.place, sources, width, _INK[finding.severity] if colour else None)
    lines += _wrapped(finding.message, width)
    for aside in finding.asides:
        at = f", at {_where(aside.place)}" if aside.place else ""
        lines += _wrapped(f"see {_clean(aside.text)}{at}", width)
        lines += _quoted(aside.place, sources, width, None)
    if finding.mend:
        mend = _wrapped(f"{_MEND} {finding.mend}", width)
        lines += [mend[0].replace(_MEND, _inked(_MEND, _BOLD, colour), 1), *mend[1:]]
    return "\n".join(lines)


def _where(place: Place) -> str:
    return f"{_clean(place.file)}:{place.line}:{place.column}"


def _quoted(place: Place | None, sources: Mapping[str, str], width: int, ink: str | None) -> list[str]:
    """Give the line of the recipe and, under it, a double rule below the characters that are meant."""
    if place is None or place.file not in sources:
        return []
    lines = sources[place.file].split("\n")
    if not 0 < place.line <= len(lines):
        return []
    line = lines[place.line - 1]
    start = min(max(place.column - 1, 0), len(line))
    end = min(max(start + place.length, start + 1), len(line) + 1)
    line, start, end = _clipped(line, start, end, width)
    before, meant = _drawn(line[:start], 0), _drawn(line[:end], 0)
    mark = "=" * max(1, _columns(meant) - _columns(before))
    return [_INDENT + _drawn(line, 0), _INDENT + " " * _columns(before) + _inked(mark, ink or "", ink is not None)]


def _clipped(line: str, start: int, end: int, width: int) -> tuple[str, int, int]:
    """Keep the part of a long line round the characters start to end; what is left out is shown by an ellipsis."""
    room = width - len(_INDENT) - 4
    blank = len(line) - len(line.lstrip())
    line, start, end = line[blank:].rstrip(), max(0, start - blank), max(1, end - blank)
    if len(line) <= room:
        return line, start, end
    first = max(0, min(start - room // 3, len(line) - room))
    last = min(len(line), first + room)
    kept = ("…" if first else "") + line[first:last] + ("…" if last < len(line) else "")
    shift = first - (1 if first else 0)
    return kept, start - shift, min(end - shift, len(kept))


def _drawn(text: str, at: int) -> str:
    """Write tabs out as blanks and control characters (and those that turn the direction of writing) as one each."""
    out: list[str] = []
    for character in text:
        if character == "\t":
            step = _TAB - at % _TAB
            out.append(" " * step)
            at += step
        else:
            commands = unicodedata.category(character) in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp")
            out.append(" " if commands and character not in _JOINERS else character)
            at += _columns(out[-1])
    return "".join(out)


def _columns(text: str) -> int:
    """Columns that a text takes: wide and full-width characters two, joining ones none (Unicode annex 11)."""
    return sum(
        0 if unicodedata.category(c) in ("Mn", "Me", "Cf")
        else 2 if unicodedata.east_asian_width(c) in ("W", "F") else 1
        for c in text
    )


def _clean(text: str) -> str:
    return " ".join(_drawn(text.replace("\n", " "), 0).split())


def _wrapped(text: str, width: int) -> list[str]:
    return textwrap.wrap(
        _clean(text), width, initial_indent="  ", subsequent_indent="  ", break_long_words=False,
        break_on_hyphens=False)


def _inked(text: str, ink: str, colour: bool) -> str:
    return f"\x1b[{ink}m{text}\x1b[0m" if colour and ink else text


def _spot(place: Place | None) -> tuple[str, int, int]:
    return (place.file, place.line, place.column) if place else ("", 0, 0)
