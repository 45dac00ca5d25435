"""An author's photographs, read from beside the recipe. Where they may lie is settled when the recipe is read."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from foldproof.bounded import read_within
from foldproof.documents.photo_copies import Size, UnreadableError, size_of, try_out
from foldproof.findings.finding import Finding, Place, Severity
from foldproof.recipe.pictures import MOST_BYTES
from foldproof.recipe.records import Recipe, Text

STARTS = {
    "image/jpeg": re.compile(rb"\xff\xd8\xff"),
    "image/png": re.compile(rb"\x89PNG\r\n\x1a\n"),
    "image/webp": re.compile(rb"RIFF....WEBP", re.DOTALL),
    "image/gif": re.compile(rb"GIF8[79]a"),
}
"""The first bytes of each kind of picture, from its published format; the ending of the name is not believed."""

MOST_DOTS = 50_000_000
"""Dots of a picture, at most: a small file can claim billions, and unpacking them would stop the computer."""
LEAST_ACROSS = 640
"""Dots along the longer side; fewer look coarse: 3 1/4 in wide at 200 to the inch (common practice, no source)."""
LONG_AND_THIN = 4
"""How many times longer than wide a picture may be before it is hard to look at beside a step (our own measure)."""
_FILE_NAME = re.compile(r"\S+\.(?:jpe?g|png|webp|gif)|(?:img|dsc|pict|image|photo)[-_ ]?\d*", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named:
    """A photograph as the recipe names it."""

    path: Text
    shows: Text | None
    step: str | None


def read_photos(recipe: Recipe, folder: Path) -> tuple[Mapping[str, bytes], tuple[Finding, ...]]:
    """The photographs that a recipe names, by their path as written, and what is wrong with them."""
    found: dict[str, bytes] = {}
    findings: list[Finding] = []
    for named in _named(recipe):
        data = found.get(named.path.value)
        if data is None:
            try:
                data = read_within(folder / named.path.value, MOST_BYTES)
            except (OSError, ValueError):
                data = b""
            faults = list(_faults(data, named))
            findings += faults
            if any(fault.severity is Severity.ERROR for fault in faults):
                continue
        found[named.path.value] = data
        findings += _words(named)
    return found, tuple(findings)


def kind_of(data: bytes) -> str | None:
    """The media type of a picture; None for anything else."""
    return next((kind for kind, start in STARTS.items() if start.match(data)), None)


def _faults(data: bytes, named: _Named) -> Iterator[Finding]:
    """What is wrong with a picture: the first thing that keeps it from being used, and its size and shape."""
    written = named.path.value
    if kind_of(data) is None:
        yield _finding(
            "no picture", named, f"`{written}` is no picture by what it holds.", "Save it as JPEG or PNG once more.")
        return
    try:
        size = size_of(data)
        if size.dots > MOST_DOTS:
            yield _finding(
                "picture too large", named,
                f"`{written}` is {size.width:,} by {size.height:,} dots, {size.dots / 1_000_000:,.0f} million; "
                f"{MOST_DOTS // 1_000_000} million are the most.",
                "Save a smaller one; 2,000 dots across are plenty in print.")
            return
        try_out(data)
    except UnreadableError:
        yield _finding(
            "picture damaged", named, f"`{written}` begins like a picture, and cannot be read to its end.",
            "Save it once more, or copy it again from the camera.")
        return
    yield from _size(size, named)


def _size(size: Size, named: _Named) -> Iterator[Finding]:
    longer, shorter = max(size.width, size.height), min(size.width, size.height)
    if longer < LEAST_ACROSS:
        yield _finding(
            "picture is coarse", named,
            f"`{named.path.value}` is {size.width:,} by {size.height:,} dots; below {LEAST_ACROSS} along the longer "
            "side a photograph looks coarse in print and on large screens.",
            "Use the picture as it came from the camera.", Severity.ADVICE)
    if longer > LONG_AND_THIN * shorter:
        yield _finding(
            "picture long and thin", named,
            f"`{named.path.value}` is {size.width:,} by {size.height:,} dots: {longer / shorter:.1f} times longer than "
            "wide, so little of it can be seen beside a step.", "Cut it to what the step is about.", Severity.ADVICE)


def _words(named: _Named) -> Iterator[Finding]:
    """Somebody who cannot see a photograph has only its words (WCAG 2.2, success criterion 1.1.1)."""
    where = named.shows.place if named.shows else named.path.place
    if named.shows is None:
        yield _finding(
            "photograph without words", named,
            f"Nothing says what is seen in `{named.path.value}`, so readers who cannot see it have only a title.",
            "Write `picture shows:` beside it, a sentence that tells what the photograph tells.", Severity.WARNING)
    elif _FILE_NAME.fullmatch(named.shows.value.strip()):
        yield _finding(
            "photograph without words", named, f"`{named.shows.value}` is a file's name, and says nothing of the card.",
            "Write what is seen in the picture.", Severity.WARNING, where)


def _finding(
    name: str, named: _Named, message: str, mend: str, severity: Severity = Severity.ERROR, place: Place | None = None,
) -> Finding:
    return Finding(
        name=name, severity=severity, place=place or named.path.place, step=named.step, message=message, mend=mend)


def _named(recipe: Recipe) -> Iterator[_Named]:
    if recipe.picture:
        yield _Named(path=recipe.picture, shows=recipe.picture_shows, step=None)
    for step in recipe.steps:
        if step.picture:
            yield _Named(path=step.picture, shows=step.picture_shows, step=step.id)
