"""The times file in rows: who begins when, as written. Commas, semicolons, tabs or blanks part the two."""

import csv
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from foldproof.findings.finding import Finding, Place
from foldproof.recording.cells import guarded
from foldproof.recording.faults import BAD_TIME, UNREADABLE
from foldproof.recording.moments import like_a_moment, read_moment

HEADING = ("step", "begins", "title", "as filmed")
"""The columns of the times file that Foldproof writes itself."""
_COLUMNS = {
    **dict.fromkeys(("step", "chapter", "name", "what", "id"), "name"),
    **dict.fromkeys(("begins", "time", "at", "start", "starts"), "time"),
    "title": "title",
    "as filmed": "as filmed",
}
MOST_FAULTS = 20
"""Rows that cannot be read, before the reading stops: then this is no times file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: a name and its time."""

    name: str
    at: Fraction | None
    """None where the time is left blank, or for an address."""
    address: str
    title: str
    as_filmed: str
    place: Place
    """Of the name."""
    time_place: Place


def read_rows(source: str, file: str) -> tuple[tuple[Row, ...], tuple[Finding, ...]]:
    """Every row that can be read, and what is wrong with the others. `#` begins a comment line."""
    rows: list[Row] = []
    findings: list[Finding] = []
    columns: list[str] = []
    for number, line in enumerate(source.splitlines(), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        cells = _cells(line)
        if not rows and not columns and not findings and (heading := _heading(cells)):
            columns = heading
            continue
        place = Place(file=file, line=number, column=len(line) - len(line.lstrip()) + 1, length=len(line.strip()))
        found = _row(line, cells, columns, place)
        if isinstance(found, Row):
            rows.append(found)
        else:
            findings.append(found)
            if len(findings) >= MOST_FAULTS:
                break
    return tuple(rows), tuple(findings)


def _cells(line: str) -> list[str]:
    for sign in "\t;,":
        if sign in line:
            return [cell.strip() for cell in next(csv.reader([line], delimiter=sign, skipinitialspace=True))]
    words = line.split()
    if len(words) > 1 and like_a_moment(words[-1]) and not (":" in words[0] and ":" not in words[-1]):
        return [" ".join(words[:-1]), words[-1]]
    if len(words) > 1 and like_a_moment(words[0]):
        return [words[0], " ".join(words[1:])]
    if len(words) == 2 and words[0].casefold() == "address":
        return words
    return [" ".join(words)]


def _heading(cells: Sequence[str]) -> list[str]:
    names = [_COLUMNS.get(" ".join(cell.casefold().split()), "") for cell in cells]
    return names if {"name", "time"} <= set(names) else []


def _row(line: str, cells: list[str], columns: list[str], place: Place) -> Row | Finding:
    if columns:
        if len(cells) > len(columns):
            return UNREADABLE.finding(
                f"The row has {len(cells)} cells, and the heading has {len(columns)}.",
                mend='Put a title that holds a comma in quotes: "Cut, fold and glue", 1:05.',
                place=place,
            )
        named = dict(zip(columns, [*cells, *[""] * (len(columns) - len(cells))], strict=True))
        name, time = named["name"], named["time"]
    else:
        named = {}
        name, time = _name_and_time(cells)
    if not name:
        return UNREADABLE.finding(
            "The row has no name of a step." if time else "The row is empty but for its commas.",
            mend="Write the step, then when it begins: Cut the base, 1:05.",
            place=place,
        )
    if name.casefold() == "address":
        return _filled(line, place, name, time, None, named, address=time)
    if not time:
        if columns:
            return _filled(line, place, name, time, None, named)
        return UNREADABLE.finding(
            "The row has no time.",
            mend="Write the step, then when it begins: Cut the base, 1:05. Leave out a step whose time is not known.",
            place=place,
        )
    moment = read_moment(time)
    if isinstance(moment, str):
        return BAD_TIME.finding(
            moment,
            mend="Write times as 1:02:03, 2:03 or 123, with fractions of a second as 2:03.5.",
            place=_place_of(line, time, place),
        )
    return _filled(line, place, name, time, moment, named)


def _name_and_time(cells: Sequence[str]) -> tuple[str, str]:
    """Which of the cells is the time: the only one with a colon, else the last, else the first."""
    filled = [cell for cell in cells if cell]
    if len(filled) < 2:
        alone = filled[0] if filled else ""
        return ("", alone) if like_a_moment(alone) else (alone, "")
    first, last = filled[0], filled[-1]
    if filled[0].casefold() == "address":
        return first, ", ".join(filled[1:])
    first_is, last_is = like_a_moment(first), like_a_moment(last)
    if first_is and (not last_is or (":" in first and ":" not in last)):
        return ", ".join(filled[1:]), first
    return ", ".join(filled[:-1]), last


def _filled(
    line: str,
    place: Place,
    name: str,
    time: str,
    at: Fraction | None,
    named: dict[str, str],
    address: str = "",
) -> Row:
    return Row(
        name=name,
        at=at,
        address=address,
        title=named.get("title", ""),
        as_filmed=named.get("as filmed", ""),
        place=_place_of(line, name, place),
        time_place=_place_of(line, time, place) if time else place,
    )


def _place_of(line: str, words: str, otherwise: Place) -> Place:
    """Where words stand in their row; the whole row where they are quoted or parted."""
    found = [match.start() for match in re.finditer(re.escape(words), line)]
    if len(found) != 1 or not words:
        at = line.rfind(words) if words and like_a_moment(words) else -1
        if at < 0:
            return otherwise
        found = [at]
    return Place(file=otherwise.file, line=otherwise.line, column=found[0] + 1, length=len(words))


def write_rows(rows: Iterator[tuple[str, str, str, str]]) -> str:
    """A times file: the heading, then a row each, in the columns of HEADING."""

    def cell(text: str) -> str:
        text = guarded(" ".join(text.split()))
        return '"' + text.replace('"', '""') + '"' if any(sign in text for sign in ',;"\t#') else text

    return "".join(", ".join(map(cell, row)).rstrip(", ") + "\n" for row in (HEADING, *rows))
