"""An author's photographs, read from beside the recipe. Where they may lie is settled when the recipe is read."""

import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from foldproof.findings.finding import Finding, Severity
from foldproof.recipe.records import Recipe, Text

STARTS = {
    "image/jpeg": re.compile(rb"\xff\xd8\xff"),
    "image/png": re.compile(rb"\x89PNG\r\n\x1a\n"),
    "image/webp": re.compile(rb"RIFF....WEBP", re.DOTALL),
    "image/gif": re.compile(rb"GIF8[79]a"),
}
"""The first bytes of each kind of picture, from its published format; the ending of the name is not believed."""


def read_photos(recipe: Recipe, folder: Path) -> tuple[Mapping[str, bytes], tuple[Finding, ...]]:
    """The photographs that a recipe names, by their path as written, and what is wrong with the others."""
    found: dict[str, bytes] = {}
    findings = []
    for text, step in _named(recipe):
        try:
            data = (folder / text.value).read_bytes()
        except (OSError, ValueError):
            data = b""
        if kind_of(data):
            found[text.value] = data
        else:
            findings.append(Finding(
                name="no picture", severity=Severity.ERROR, place=text.place, step=step,
                message=f"`{text.value}` is no picture by what it holds.", mend="Save it as JPEG or PNG once more."))
    return found, tuple(findings)


def kind_of(data: bytes) -> str | None:
    """The media type of a picture; None for anything else."""
    return next((kind for kind, start in STARTS.items() if start.match(data)), None)


def _named(recipe: Recipe) -> Iterator[tuple[Text, str | None]]:
    if recipe.picture:
        yield recipe.picture, None
    for step in recipe.steps:
        if step.picture:
            yield step.picture, step.id
