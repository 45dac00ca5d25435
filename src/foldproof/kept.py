"""What a set was made from, kept in the set: so that a build can tell that nothing has changed, and what it found then.

The list holds a digest of everything that went in: the texts of the recipe and of those that it builds on,
photographs, the files of a recording (and that there were none), the teacher's own files, the options, the theme, the
program with the libraries that it prints with, those of the system (Pango) too, and the fonts. It holds a digest of
every file of the set, too: one that is missing or has been changed is made again. `--all` makes everything anew.

All of this is decided without folding or drawing anything, and nothing heavy is imported for it.
"""

import hashlib
import json
import sys
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, fields
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any

from foldproof.bounded import MOST_DOCUMENT, read_json, read_within
from foldproof.checks.sold import End
from foldproof.documents.theme_folders import theme_folder, themes_folder
from foldproof.filmed import may_stand_beside
from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.findings.show import in_order
from foldproof.frozen import dataclass
from foldproof.options import Options

KEPT = ".made-from"
"""The file, in each set, that tells what it was made from: JSON."""
LIBRARIES = (
    "jinja2", "markdown-it-py", "matplotlib", "pikepdf", "pillow", "pyyaml", "scipy", "numpy", "weasyprint", "pydyf",
    "fonttools", "tinycss2", "font-source-sans-pro",
)
"""Whose version may change what is printed."""
Digests = Mapping[str, str]
"""Digests of files by their names; none ("") where there is no file."""


def before(recipe: Path, options: Options) -> Digests:
    """Digests of the files whose names are known before the recipe is read, as they are now.

    They are taken before a build reads anything: a file that changes meanwhile is then seen as changed by the next one.
    """
    own = (path for path in (options.stock, options.desk) if path is not None)
    return {str(path): _of_text_file(path) for path in (*may_stand_beside(recipe), *own)}


def listed(
    recipe: Path, options: Options, *, known: Digests, texts: Mapping[str, str], photos: Mapping[str, bytes],
    findings: Iterable[Finding], files: Mapping[str, bytes], ends: Iterable[End] = (), theme: Path | None = None,
) -> bytes:
    """The list that is kept: `known` as `before` gave it, and what the build has read and made since.

    `theme` is the folder of a theme that the recipe brings. `ends` says what is found once a day is over, so that it is
    told then although nothing has changed.
    """
    inputs = {**{file: _of_text(text) for file, text in texts.items()},
              **{str(recipe.parent / name): _of(data) for name, data in photos.items()}, **known}
    return json.dumps({
        "recipe": str(recipe), "asked": _asked(options), "inputs": inputs,
        "photos": [str(recipe.parent / name) for name in photos],
        "theme": [str(theme), _of_folder(theme)] if theme else None,
        "files": {name: _of(data) for name, data in files.items()},
        "findings": [asdict(finding) for finding in findings],
        "ends": [[day, asdict(finding)] for day, finding in ends],
    }, indent=1, ensure_ascii=False, sort_keys=True).encode() + b"\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unchanged:
    """A set that a new build would make again as it is."""

    folder: Path
    findings: tuple[Finding, ...]
    """What was found when it was built."""
    sources: Mapping[str, str]
    """The texts that they point into."""


def unchanged(recipe: Path, options: Options, into: Path) -> Unchanged | None:
    """The set of a recipe that stands in an output folder, where a new build would make the same."""
    named = sorted(path for path in into.iterdir() if path.name.startswith(recipe.stem)) if into.is_dir() else []
    for folder in named:
        found = _if_unchanged(recipe, options, folder)
        if found is not None:
            return found
    return None


def _if_unchanged(recipe: Path, options: Options, folder: Path) -> Unchanged | None:
    try:
        told = read_json(folder / KEPT)
        if told["recipe"] != str(recipe) or told["asked"] != _asked(options):
            return None
        if any(told["inputs"].get(file) != digest for file, digest in before(recipe, options).items()):
            return None
        if told["theme"] and _of_folder(Path(told["theme"][0])) != told["theme"][1]:
            return None
        pictures = set(told["photos"])
        if any((_of_file if file in pictures else _of_text_file)(Path(file)) != digest
               for file, digest in told["inputs"].items()):
            return None
        if any(_of_file(folder / name) != digest for name, digest in told["files"].items()):
            return None
        over = [data for day, data in told["ends"] if day < date.today().isoformat()]
        findings = in_order(tuple(_finding(data) for data in (*told["findings"], *over)))
        return Unchanged(folder=folder, findings=findings, sources=_texts_told(findings))
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def _texts_told(findings: Iterable[Finding]) -> dict[str, str]:
    """The texts that kept findings point into, by file: those of then, or the set would have changed."""
    places = (place for one in findings for place in (one.place, *(aside.place for aside in one.asides)))
    return {file: _text(Path(file)) for file in dict.fromkeys(place.file for place in places if place is not None)}


def _of_text_file(path: Path) -> str:
    """A digest of a text, whatever its line ends; none where there is no such file."""
    try:
        return _of_text(_text(path))
    except (OSError, ValueError):
        return ""


def _text(path: Path) -> str:
    """A file's text as the reader takes it."""
    text = read_within(path, MOST_DOCUMENT).decode("utf-8-sig")
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def _of_text(text: str) -> str:
    return _of(text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").encode())


def _of_file(path: Path) -> str:
    return _of(read_within(path, MOST_DOCUMENT)) if path.is_file() else ""


def _of(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:32]


def _asked(options: Options) -> str:
    """A digest of the program and of what it is asked for; the teacher's own files are among the inputs."""
    asked = [f"{one.name}={getattr(options, one.name)}" for one in fields(options)]
    own = theme_folder(options.theme)
    return _of("\n".join((program(), _of_folder(own) if own else "", *asked)).encode())


def _of_folder(folder: Path) -> str:
    """A digest of the files of a folder; none where there is no such folder."""
    if not folder.is_dir():
        return ""
    found = sorted(path for path in folder.iterdir() if path.is_file())
    return _of("\n".join(f"{path.name} {_of_file(path)}" for path in found).encode())


@lru_cache(maxsize=1)
def program() -> str:
    """A digest of everything that makes documents out of recipes, on this machine: every theme that is shipped, too."""
    from importlib import metadata  # here, for a check has no need of it and it is long in loading

    from foldproof.documents.system_libraries import versions

    package = Path(__file__).parent
    whole = hashlib.sha256(sys.version.encode())
    for library, version in versions():
        whole.update(f"{library} {version}\n".encode())
    for name in LIBRARIES:
        whole.update(f"{name} {metadata.version(name)}\n".encode())
    for folder in (package, themes_folder()):
        for path in sorted(_files(folder)):
            whole.update(f"{path.relative_to(folder)}\n".encode() + path.read_bytes())
    return whole.hexdigest()[:32]


def _files(folder: Path) -> Iterator[Path]:
    for path in folder.iterdir():
        if path.is_dir():
            yield from () if path.name in ("__pycache__", "themes") else _files(path)
        elif path.suffix != ".pyc":
            yield path


def _finding(data: Mapping[str, Any]) -> Finding:
    asides = tuple(Aside(text=one["text"], place=_place(one["place"])) for one in data["asides"])
    return Finding(**{
        **data, "severity": Severity(data["severity"]), "place": _place(data["place"]), "asides": asides})


def _place(data: Mapping[str, Any] | None) -> Place | None:
    return Place(**data) if data is not None else None
