"""An author's photographs: found beside the recipe and nowhere else."""

from collections.abc import Iterator, Mapping
from pathlib import Path

from foldproof.findings.finding import Finding, Severity
from foldproof.recipe.records import Recipe, Text

LARGEST = 20_000_000
"""Bytes in one photograph."""
_STARTS = {"image/jpeg": b"\xff\xd8\xff", "image/png": b"\x89PNG\r\n\x1a\n"}
KINDS = {".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".png": "image/png"}


def read_photos(recipe: Recipe, folder: Path) -> tuple[Mapping[str, bytes], tuple[Finding, ...]]:
    """The photographs that a recipe names, by their path as written, and what is wrong with the others.

    `folder` is the recipe's own. Links are followed before it is judged whether a file is inside.
    """
    found: dict[str, bytes] = {}
    findings = []
    for text, step in _named(recipe):
        if text.value in found:
            continue
        read = _read(text.value, folder.resolve())
        if isinstance(read, bytes):
            found[text.value] = read
        else:
            name, message, mend = read
            findings.append(Finding(
                name=name, severity=Severity.ERROR, message=message, mend=mend, place=text.place, step=step))
    return found, tuple(findings)


def _named(recipe: Recipe) -> Iterator[tuple[Text, str | None]]:
    if recipe.picture:
        yield recipe.picture, None
    for step in recipe.steps:
        if step.picture:
            yield step.picture, step.id


def _read(written: str, folder: Path) -> bytes | tuple[str, str, str]:
    """The photograph, or the name, the message and the mend of a finding."""
    try:
        path = (folder / written).resolve()
        if not path.is_relative_to(folder):
            return (
                "picture outside the recipe's folder", f"`{written}` is not inside the folder of the recipe.",
                "Copy the picture into the recipe's folder and name it by its path from there.")
        if not path.is_file():
            return ("picture not found", f"There is no picture `{written}` beside the recipe.",
                    "Put the picture there, or take the line out.")
        kind = KINDS.get(path.suffix.lower())
        if path.stat().st_size > LARGEST:
            return ("picture too large", f"`{written}` has more than {LARGEST // 1_000_000} MB.", "Make it smaller.")
        data = path.read_bytes()
    except (OSError, ValueError) as error:
        return ("picture not found", f"`{written}` cannot be read: {getattr(error, 'strerror', None) or error}.",
                "Look at its name and who may read it.")
    if kind is None or not data.startswith(_STARTS[kind]):
        return ("not a picture", f"`{written}` is no JPEG or PNG picture by its name and its first bytes.",
                "Save it as .jpg or .png.")
    return data
