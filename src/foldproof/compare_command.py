"""The compare command: what changed between two revisions of a card, and what that makes stale."""

import argparse
import json
import os
import sys
import tempfile
from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import Any

from foldproof.bounded import read_json
from foldproof.documents.changes import Change, Facts, Stale, comparable, line
from foldproof.documents.facts_file import FORMAT
from foldproof.measures.quantity import Unit
from foldproof.pipeline import prove
from foldproof.recipe.reader import read_file
from foldproof.shell import show_findings

SAME, DIFFERENT, WRONG_CALL = 0, 1, 2


class _WrongCall(Exception):
    """What is wrong with the call, in one line."""


def add_compare_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    from foldproof.documents.theme_folders import add_theme

    command = commands.add_parser(
        "compare", help="tell what changed since an earlier revision, and what is stale",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Tell what is otherwise in a card than in an earlier revision of it: which numbers, steps and\n"
        "words, which documents are stale, which steps are to be filmed again. An erratum can be printed for those\n"
        "who have the earlier handout. Nothing is built.",
        epilog="examples:\n"
        "  foldproof compare recipes/tide-gate.yaml            the recipe and what was built from it\n"
        "  foldproof compare tide-gate-march.yaml recipes/tide-gate.yaml\n"
        "  foldproof compare kept/tide-gate recipes/tide-gate.yaml --erratum erratum.pdf\n\n"
        "exit status: 0 when nothing changed, 1 when something did, 2 for a wrong call")
    command.add_argument(
        "first", type=Path, metavar="EARLIER", help="a recipe, the folder of a built card, or its card.json")
    command.add_argument(
        "second", type=Path, nargs="?", metavar="LATER", help="the same of the later one; the recipe itself without it")
    command.add_argument("--into", type=Path, default=Path("build"), metavar="DIR", help="the output folder (build)")
    command.add_argument("--erratum", type=Path, metavar="FILE", help="print an erratum (PDF)")
    command.add_argument("--dated", metavar="DATE", default="", help="a date to print on the erratum")
    add_theme(command)
    command.add_argument("--json", action="store_true", help="print the changes as one JSON value")


def run_compare(called: argparse.Namespace) -> int:
    """Hold the two against each other and print what is otherwise."""
    earlier, later = called.first, called.second
    if later is None:
        earlier, later = called.into / called.first.stem, called.first
    try:
        old, new = _facts(earlier), _facts(later)
        found = _changes(old, new)
        if called.erratum is not None:
            _print_erratum(found, old, new, called, later)
    except _WrongCall as wrong:
        print(f"foldproof compare: {wrong}", file=sys.stderr)
        return WRONG_CALL
    print(json.dumps([_as_data(change) for change in found], indent=1, ensure_ascii=False) if called.json
          else "\n".join(_told(found, new)))
    return DIFFERENT if found else SAME


def _changes(old: Facts, new: Facts) -> tuple[Change, ...]:
    found = comparable(old, new)
    if found is None:
        raise _WrongCall("the card.json is of another version of the program; compare with the recipe")
    return found


def _facts(path: Path) -> Facts:
    """The facts of a card: of a recipe, or of a set that was built."""
    if path.suffix in (".yaml", ".yml"):
        return _of_recipe(path)
    file = path / "card.json" if path.is_dir() else path
    try:
        told = read_json(file)
    except FileNotFoundError:
        raise _WrongCall(f"there is no {file}; build the card first, or name a recipe or a built folder") from None
    except OSError as error:
        raise _WrongCall(f"{file} cannot be read: {error.strerror}") from None
    except ValueError:
        raise _WrongCall(f"{file} is not the card.json of a built card") from None
    if not isinstance(told, dict) or told.get("format") != FORMAT:
        raise _WrongCall(f"{file} is not the card.json of a built card")
    return told


def _of_recipe(path: Path) -> Facts:
    from foldproof.documents.facts_file import card_facts
    from foldproof.documents.telling import hands

    proof = prove(path)
    if proof.card is None or proof.making is None:
        show_findings(proof.findings, proof.sources)
        raise _WrongCall(f"{path} cannot be folded; mend it first")
    card = proof.card
    return card_facts(card, proof.making, tuple(hands(card, step) for step in proof.making.steps))


def _told(found: Sequence[Change], new: Facts) -> Iterator[str]:
    if not found:
        yield f"{new['title']}: nothing changed."
        return
    yield f"{new['title']}: {len(found)} {'change' if len(found) == 1 else 'changes'}."
    for where, group in groupby(found, key=lambda change: change.where):
        yield ""
        yield f"{where[:1].upper()}{where[1:]}"
        yield from (f"  {line(change)}" for change in group)
    stale = [name.value for name in Stale if any(name in change.stale for change in found) and name is not Stale.FILM]
    yield ""
    if stale:
        yield f"Stale: {', '.join(stale)}. Build the card again."
    again = dict.fromkeys(change.where for change in found if Stale.FILM in change.stale and change.after is not None)
    if again:
        yield f"To be filmed again, where it was filmed: {'; '.join(again)}."


def _as_data(change: Change) -> dict[str, Any]:
    return {
        "where": change.where, "what": change.what or "instruction", "before": change.before, "after": change.after,
        "step": change.step, "misleads": change.misleads, "stale": sorted(name.value for name in change.stale)}


def _print_erratum(found: Sequence[Change], old: Facts, new: Facts, called: argparse.Namespace, later: Path) -> None:
    from foldproof.documents.erratum import erratum, erratum_pdf
    from foldproof.documents.hush import hushed
    from foldproof.documents.theme import load_theme
    from foldproof.documents.theme_chosen import chosen
    from foldproof.documents.trouble import DocumentsError

    of = f"the handouts marked {old['revision']}" if old.get("revision") else "the earlier handouts"
    sheet = erratum(
        found, title=new["title"], language=new["language"], unit=Unit(new["unit"]), of=of, dated=called.dated)
    if sheet is None:
        print("No erratum is needed: who has the earlier edition makes the same card.", file=sys.stderr)
        return
    try:
        with hushed():
            recipe = read_file(later).recipe if later.suffix in (".yaml", ".yml") else None
            theme = chosen(called.theme, recipe, later.parent) if recipe else load_theme(called.theme)
            data = erratum_pdf(sheet, theme)
        _swap_in(called.erratum, data)
    except DocumentsError as error:
        raise _WrongCall(str(error)) from None
    except OSError as error:
        raise _WrongCall(f"{called.erratum} cannot be written: {error.strerror}") from None


def _swap_in(path: Path, data: bytes) -> None:
    """Written aside and put in the place of what was there, so that a full disk spoils nothing."""
    handle, aside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
        Path(aside).chmod(0o644)
        Path(aside).replace(path)
    except BaseException:
        Path(aside).unlink(missing_ok=True)
        raise
