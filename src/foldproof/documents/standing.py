"""What stands in an output folder: every set under it with the files that are really there."""

import hashlib
import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

from foldproof import __version__
from foldproof.bounded import read_json
from foldproof.documents.placing import ASIDE, CONTENTS
from foldproof.frozen import dataclass

_EXACT = re.compile(r"-?[0-9]{1,200}(?:/[1-9][0-9]{0,199})?")
DEEPEST = 8
"""Folders within folders that are looked into."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingSet:
    """A set of outputs as it stands on the disk."""

    path: str
    """Seen from the output folder, with slashes."""
    files: tuple[str, ...]
    """Of those that it lists, the ones that are there, in its own order."""
    missing: tuple[str, ...]
    """Those that are not."""
    stamp: str
    """Another one each time that the set is built."""
    folder: Path


def standing_sets(into: Path) -> tuple[StandingSet, ...]:
    """Every set under an output folder, in the order of their paths. Links to elsewhere are not followed."""
    return tuple(sorted(_sets(into, into, DEEPEST), key=lambda one: one.path)) if into.is_dir() else ()


def digest(sets: tuple[StandingSet, ...], more: str) -> str:
    """A digest that is another one as soon as a set is built anew, is gone, or lacks a file."""
    told = [(one.path, one.stamp, one.files, one.missing) for one in sets]
    return hashlib.sha256(f"{told}{more}".encode()).hexdigest()[:16]


def gallery_state(sets: tuple[StandingSet, ...], theme: str, files: Mapping[str, bytes]) -> str:
    """The digest that a gallery of these sets in this theme carries."""
    return digest(sets, f"{__version__} {theme} {sorted(files.items())}")


def facts_of(one: StandingSet, name: str) -> dict[str, Any]:
    """The facts that a set holds for other programs; empty where they cannot be read."""
    try:
        told = read_json(one.folder / name)
    except (OSError, ValueError):
        return {}
    return told if isinstance(told, dict) else {}


def exact(told: object) -> Fraction | None:
    """A number of card.json; None where it is none."""
    try:
        return exactly(told["exact"]) if isinstance(told, dict) else None
    except (KeyError, ValueError):
        return None


def exactly(written: object) -> Fraction:
    """A number as card.json writes it: `17/8`. Raises ValueError for anything else: `1e999999999` would never end."""
    text = str(written)
    if not _EXACT.fullmatch(text):
        raise ValueError(f"{text[:40]} is no number of a card")
    return Fraction(text)


def _sets(folder: Path, into: Path, deep: int) -> Iterator[StandingSet]:
    try:
        inside = sorted(path for path in folder.iterdir() if not path.name.startswith("."))
    except OSError:
        return
    for path in inside:
        if path.is_symlink() and not _ours(path):
            continue
        if (path / CONTENTS).is_file():
            yield _read(path, into)
        elif path.is_dir() and deep:
            yield from _sets(path, into, deep - 1)


def _ours(link: Path) -> bool:
    led = link.readlink()
    return led == Path(ASIDE, led.name)


def _read(folder: Path, into: Path) -> StandingSet:
    try:
        listed = read_json(folder / CONTENTS)
        stamp = folder.readlink().name if folder.is_symlink() else str((folder / CONTENTS).stat().st_mtime_ns)
    except (OSError, ValueError):
        listed, stamp = [], ""
    names = [str(name) for name in listed if _plain(str(name))] if isinstance(listed, list) else []
    there = tuple(name for name in names if (folder / name).is_file())
    return StandingSet(
        path=folder.relative_to(into).as_posix(), files=there, stamp=stamp, folder=folder,
        missing=tuple(name for name in names if name not in there))


def _plain(name: str) -> bool:
    """Whether a listed path stays inside its set: lists may come from a stranger's copy of a folder."""
    return bool(name) and "\\" not in name and "\0" not in name and not name.startswith("/") and (
        ".." not in name.split("/") and ":" not in name)
