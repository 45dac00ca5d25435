"""A recipe's file or text opened: one mapping of nodes, or the findings that say why there is none."""

from dataclasses import replace
from pathlib import Path

import yaml

from foldproof.bounded import NoOrdinaryFileError, TooLargeError, read_within
from foldproof.findings.finding import Finding, Place, Severity
from foldproof.recipe.composing import ODD, TooMuchError, compose
from foldproof.recipe.faults import TABS, UNEVEN
from foldproof.recipe.nodes import Mapping, Node, Scalar
from foldproof.recipe.shifts import Shifts, added, in_source
from foldproof.recipe.traps import explain, mend

MOST_BYTES = 1_000_000
_MOST_REPAIRS = 30


def read_source(path: Path, file: str, what: str = "a recipe") -> tuple[str | None, tuple[Finding, ...]]:
    """The text of a file; None with a finding where it cannot be had. The size is looked at before anything is read.

    `what` is what the file should be: `a recipe`.
    """
    try:
        data = read_within(path, MOST_BYTES)
    except TooLargeError as error:
        return None, (_too_large(file, error.size, what),)
    except NoOrdinaryFileError as error:
        message, mend = ("a folder", f"Name {what} in it.") if error.folder else ("no ordinary file", f"Name {what}.")
        return None, (_error("not a file", f"{file} is {message}.", None, mend),)
    except FileNotFoundError:
        return None, (_error("file missing", f"There is no file {file}.", None, "Look at the name and the folder."),)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        return None, (
            _error("file not readable", f"{file} cannot be read: {reason}.", None, "Look at who may read it."),
        )
    return _decode(data, file)


def open_text(text: str, file: str) -> tuple[str, Mapping | None, tuple[Finding, ...]]:
    """The text with line ends of one kind, its top mapping, and what was found on the way.

    Where the text is no YAML, each line that falls into a known trap is reported, mended in a copy, and the reading
    goes on, so that later mistakes are found in the same run.
    """
    source = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if len(source.encode("utf-8", "surrogatepass")) > MOST_BYTES:
        return "", None, (_too_large(file, len(source)),)
    if (odd := _odd_character(source, file)) is not None:
        return source, None, (odd,)
    if not source.strip():
        return (
            source,
            None,
            (
                _error(
                    "empty recipe",
                    "The file is empty.",
                    _top(file),
                    "Start with title:, then papers, pieces, poses, finished and steps.",
                ),
            ),
        )
    roots, findings = _compose(source, file)
    if roots is None:
        return source, None, findings
    return source, *_only_mapping(roots, file, findings)


def _compose(source: str, file: str) -> tuple[tuple[Node, ...] | None, tuple[Finding, ...]]:
    """The documents of a text; where it is no YAML, those of a mended copy with what was mended, as far as it goes."""
    found: list[Finding] = []
    shifts: Shifts = {}
    mended, doubtful = source, False
    for _ in range(_MOST_REPAIRS):
        try:
            roots, more = compose(mended, file, shifts)
        except TooMuchError as much:
            return None, (*found, *much.findings)
        except yaml.YAMLError as error:
            repaired = mend(mended, error, file)
            if repaired is None:
                return None, tuple(found) or (_in_source(explain(mended, error, file), shifts),)
            mended = "\n".join(repaired.lines)
            if not (found and found[0].name == TABS and repaired.finding.name == UNEVEN):  # it comes of the tabs
                found.append(_in_source(repaired.finding, shifts))
            shifts = added(shifts, repaired.shifts)
            doubtful = doubtful or repaired.doubtful
        else:
            return (None, tuple(found)) if doubtful else (roots, (*found, *more))
    return None, tuple(found)


def _in_source(finding: Finding, shifts: Shifts) -> Finding:
    return finding if finding.place is None else replace(finding, place=in_source(finding.place, shifts))


def _only_mapping(
    roots: tuple[Node, ...], file: str, findings: tuple[Finding, ...]
) -> tuple[Mapping | None, tuple[Finding, ...]]:
    if len(roots) > 1:
        findings = (
            *findings,
            _error(
                "several documents",
                "A line of three dashes starts a second document here; a recipe is one.",
                roots[1].place,
                "Take the line --- out, or make two files.",
            ),
        )
    root = roots[0] if roots else None
    if isinstance(root, Mapping):
        return root, findings
    if root is None or (isinstance(root, Scalar) and root.empty):
        return None, (
            *findings,
            _error(
                "empty recipe",
                "The file holds nothing but comments.",
                _top(file),
                "Start with title:, then papers, pieces, poses, finished and steps.",
            ),
        )
    what = "a sentence" if isinstance(root, Scalar) else "a list"
    return None, (
        *findings,
        _error(
            "wrong kind of value",
            f"The recipe is {what} where keys and values belong.",
            root.place,
            "Start with title: and a name; no dash before it.",
        ),
    )


def _decode(data: bytes, file: str) -> tuple[str | None, tuple[Finding, ...]]:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return None, (_error("not UTF-8", f"{file} is saved as UTF-16.", _top(file), "Save it as UTF-8."),)
    try:
        return data.decode("utf-8-sig"), ()
    except UnicodeDecodeError as error:
        before = data[: error.start]
        line = before.count(b"\n") + 1
        column = len(before.rpartition(b"\n")[2].decode("utf-8", "replace")) + 1
        return None, (
            _error(
                "not UTF-8",
                f"{file} is not saved as UTF-8: the byte {data[error.start]:#04x} stands here.",
                Place(file=file, line=line, column=column),
                "Save it as UTF-8 in your editor.",
            ),
        )


def _odd_character(source: str, file: str) -> Finding | None:
    """The first character that no text for people holds; YAML would refuse it or take it for a line's end."""
    found = ODD.search(source)
    if found is None:
        return None
    before = source[: found.start()]
    place = Place(file=file, line=before.count("\n") + 1, column=found.start() - (before.rfind("\n") + 1) + 1)
    return _error(
        "odd character",
        f"A character that cannot be seen stands here (U+{ord(found[0]):04X}); it came in by copying, or this is no "
        "text.",
        place,
        "Take it out.",
    )


def _too_large(file: str, size: int, what: str = "a recipe") -> Finding:
    return _error(
        "file too large",
        f"{file} holds {size / 1_000_000:.1f} million bytes; {what} may have 1 million.",
        None,
        "Keep pictures beside the recipe, not in it." if what == "a recipe" else f"Look whether it is {what}.",
    )


def _top(file: str) -> Place:
    return Place(file=file, line=1, column=1)


def _error(name: str, message: str, place: Place | None, mend: str | None = None) -> Finding:
    return Finding(name=name, severity=Severity.ERROR, message=message, mend=mend, place=place)
