"""Placing a set of outputs: written aside, then switched to in one move.

In the output folder, `NAME` is a link to `.sets/NAME-STAMP`. A new set is written to a new folder in `.sets`, and
the link is replaced by a rename, which either happens or does not. Where there are no links the folders themselves
are renamed, and a journal tells the next run how to finish. Whatever a killed run left in `.sets` goes on the next run.

Only files that this module wrote are ever removed: each set carries a list of its files.
A loss of power is not provided for: nothing is forced to the disk.
"""

import json
import os
import re
import secrets
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from foldproof.bounded import read_json
from foldproof.documents.lock import LockedError, held
from foldproof.documents.trouble import PlacingError

ASIDE = ".sets"
CONTENTS = ".contents"
"""The list, in each set, of the files that belong to it: a JSON list of relative paths."""
LONGEST = 150
"""Bytes of a set's name; room is left for what stands after it while it is made."""
_ODD = re.compile(r'[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff/\\]')
_RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10))}
LINKS = os.name != "nt"
"""Whether a link to a folder can be replaced in one move. (On Windows it can't, from memory.)"""


def place(files: Mapping[str, bytes], into: Path, name: str, *, links: bool = LINKS) -> Path:
    """Make `into/name` hold exactly these files (relative paths with slashes), and return that path.

    Raises PlacingError when it cannot; the set that stood there before then still stands.
    """
    target = into / name
    fit_for_a_folder(name)
    try:
        aside = into / ASIDE
        aside.mkdir(parents=True, exist_ok=True)
        with held(aside / "lock"):
            _recover(into)
            if not _free(target):
                raise PlacingError(
                    f"{target} is there already and is not an output of Foldproof; move it or choose another folder"
                )
            _sweep(into)
            fresh = aside / f"{name}-{secrets.token_hex(6)}"
            _write(fresh, files)
            _switch(target, fresh, links)
            _sweep(into)
    except LockedError as error:
        raise PlacingError(str(error)) from error
    except OSError as error:
        raise PlacingError(f"cannot write {target}: {error.strerror or error}") from error
    return target


def fit_for_a_folder(name: str) -> None:
    """Raise PlacingError where a name cannot be that of a set: a path, hidden, in the gallery's place, not to be seen
    as it is, or one that some computer cannot have (Microsoft: Naming Files, Paths, and Namespaces; on Linux a name has
    at most 255 bytes).
    """
    why = ""
    if name.startswith((".", "-")) or not name:
        why = "a folder's name should not start with a dot or a dash"
    elif name.endswith((".", " ")) or _ODD.search(name):
        why = "it has a sign in it, or at its end, that cannot be seen or parts folders"
    elif name.split(".")[0].strip().casefold() in _RESERVED or name.casefold() == "index.html":
        why = "it is a name that is taken"
    elif len(name.encode(errors="surrogatepass")) > LONGEST:
        why = f"it has more than {LONGEST} letters"
    if why:
        shown = name if len(name) <= 60 else f"{name[:57]}..."
        raise PlacingError(f"no folder can be named {shown!r} after the recipe: {why}; give the file another name")


def _write(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write a set. Its list comes first, so that a set that was cut short can be cleared away."""
    folder.mkdir()
    (folder / CONTENTS).write_text(json.dumps(sorted(files), indent=1) + "\n", encoding="utf-8")
    for name, data in files.items():
        path = folder / PurePosixPath(name)
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)


def _linked(target: Path) -> str | None:
    """The name of the set that a link of ours leads to."""
    if not target.is_symlink():
        return None
    led = target.readlink()
    return led.name if led == Path(ASIDE, led.name) else None


def _free(target: Path) -> bool:
    """Whether nothing stands at the target but a set of ours."""
    if target.is_symlink():
        return _linked(target) is not None
    return not target.exists() or (target / CONTENTS).is_file()


def _switch(target: Path, fresh: Path, links: bool) -> None:
    if links and (target.is_symlink() or not target.exists()):
        link = fresh.with_name(fresh.name + ".link")
        link.symlink_to(f"{ASIDE}/{fresh.name}", target_is_directory=True)
        link.replace(target)
        return
    journal, old = fresh.with_name(f"{target.name}.journal"), fresh.with_name(fresh.name + "-old")
    draft = fresh.with_name(fresh.name + ".draft")
    draft.write_text(json.dumps({"target": target.name, "fresh": fresh.name, "old": old.name}), encoding="utf-8")
    draft.replace(journal)
    _finish(target, fresh, old)
    journal.unlink()


def _finish(target: Path, fresh: Path, old: Path) -> None:
    if target.exists() or target.is_symlink():
        target.rename(old)
    fresh.rename(target)


def _recover(into: Path) -> None:
    """Finish what the journals of killed runs say, so that each target is whole again."""
    for journal in sorted((into / ASIDE).glob("*.journal")):
        try:
            told = {key: Path(name).name for key, name in read_json(journal).items()}
            target, fresh, old = into / told["target"], into / ASIDE / told["fresh"], into / ASIDE / told["old"]
        except (ValueError, KeyError, TypeError, AttributeError):
            raise PlacingError(
                f"{journal} does not say what a killed build was doing; look into {into / ASIDE} and remove the file"
            ) from None
        if not target.exists():
            (fresh if fresh.exists() else old).rename(target)
        journal.unlink()


def _sweep(into: Path) -> None:
    """Remove every set that nothing leads to, and what killed runs left."""
    in_use = {_linked(path) for path in into.iterdir()}
    for path in sorted((into / ASIDE).iterdir()):
        if path.is_symlink() or path.suffix == ".draft":
            path.unlink()
        elif path.is_dir() and path.name not in in_use:
            _clear(path)


def _clear(folder: Path) -> None:
    """Remove the listed files of a set, its list last; a folder in which something else lies is left standing."""
    listed = folder / CONTENTS
    try:
        names = [PurePosixPath(str(name)) for name in read_json(listed)]
    except (OSError, ValueError, TypeError):
        names = []
    ours = [name for name in names if _within(folder, name)]
    for name in ours:
        (folder / name).unlink(missing_ok=True)
    for parent in sorted({name.parent for name in ours} - {PurePosixPath(".")}):
        _remove_if_empty(folder / parent)
    listed.unlink(missing_ok=True)
    _remove_if_empty(folder)


def _within(folder: Path, name: PurePosixPath) -> bool:
    """Whether a listed path stays inside its set: lists may come from a stranger's copy of a folder."""
    return not name.is_absolute() and ".." not in name.parts and not (folder / name).parent.is_symlink()


def _remove_if_empty(folder: Path) -> None:
    if folder.is_dir() and not any(folder.iterdir()):
        folder.rmdir()
