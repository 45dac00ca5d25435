"""Traps of YAML in the layout of lines: tabs, indentation and colons."""

import re

from foldproof.findings.finding import Place
from foldproof.recipe.faults import (
    TABS,
    UNEVEN,
    Fault,
    Mended,
    finding_at,
    has_key,
    indent_of,
    owner_of,
    parts,
    quoted,
    with_line,
)
from foldproof.recipe.keys import ALL_KEYS
from foldproof.recipe.shifts import Shift

_WORD_KEY = re.compile(r"(?P<lead>\s*(?:-\s+)*)(?P<key>[A-Za-z][A-Za-z ]*):(?P<rest>\S.*)")


def tabs(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Tabs at the start of lines: all of them at once, since one is seldom alone."""
    with_tabs = [number for number, line in enumerate(lines) if "\t" in line[: indent_of(line)]]
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
        Shift(line=number, since=0, by=indent_of(new) - indent_of(old))
        for number, (old, new) in enumerate(zip(lines, fixed, strict=True))
        if old != new
    )
    mixed = any(number not in with_tabs and line[:1] == " " and line.strip() for number, line in enumerate(lines))
    return Mended(lines=fixed, shifts=shifts, finding=finding, doubtful=mixed)


def _tabs_to_spaces(lines: tuple[str, ...]) -> tuple[str, ...]:
    """Indent by guess: as the line above, or two more below a colon; among lines with tabs, two for each tab."""
    fixed: list[str] = []
    above, above_tabs = "", 0
    for line in lines:
        words = line.lstrip()
        tabs = line[: len(line) - len(words)].count("\t")
        if tabs and words:
            indent = indent_of(above)
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


def colon_in_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
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


def key_under_words(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
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
        by = indent - (indent_of(line))
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


def no_space_after_colon(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A key of the grammar with its value right behind the colon."""
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


def no_colon(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """Lines of words where a key and its value belong, all that follow each other at once."""
    if "could not find expected ':'" not in fault.problem:
        return None
    fixed = list(lines)
    number = fault.start_line
    while number < len(lines) and lines[number].strip() and ":" not in lines[number]:
        indent = indent_of(lines[number])
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
        Place(file=file, line=fault.start_line + 1, column=indent_of(line) + 1, length=max(1, len(words))),
        "Write key: value. If it goes on with the sentence before it, indent it, or write > after that key.",
    )
    return Mended(lines=tuple(fixed), finding=finding)


def tab_between(lines: tuple[str, ...], fault: Fault, file: str) -> Mended | None:
    """A tab within a line, where one of the two parsers stops at it."""
    line = lines[fault.line]
    if "\t" not in line or line[fault.column : fault.column + 1] != "\t":
        return None
    place = Place(file=file, line=fault.line + 1, column=fault.column + 1)
    finding = finding_at("tab between words", "A tab stands here.", place, "Put a space in its place.")
    return Mended(lines=with_line(lines, fault.line, line.replace("\t", " ")), finding=finding)
