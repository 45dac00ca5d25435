"""The build command: recipes proved and their documents made, several at once."""

import argparse
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from pathlib import Path

from foldproof.check_command import checked
from foldproof.class_command import add_own_files
from foldproof.documents.theme_folders import theme_names
from foldproof.documents.trouble import DocumentsError
from foldproof.pipeline import Options, build
from foldproof.shell import WRONG_CALL, Outcome, add_recipes, recipes_meant, report

MOST_JOBS = 8


def add_build_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "build", help="prove recipes and make their documents", formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Prove recipes and make their documents. A recipe with errors is not built; what was built from\n"
                    "it before stays, and the other recipes are still built.",
        epilog="examples:\n  foldproof build                            every recipe in recipes/, into build/\n"
               "  foldproof build recipes/tide-gate.yaml     one\n"
               "  foldproof build --dated 2026-03-01         with a date beside the revision\n"
               "  foldproof build recipes/tide-gate.yaml --mirrored\n"
               "                                             the mirrored card, into build/tide-gate-mirrored/")
    add_recipes(command)
    command.add_argument("--left-handed", action="store_true", help="the same card told for the other hand")
    command.add_argument("--into", type=Path, default=Path("build"), metavar="DIR", help="the output folder (build)")
    command.add_argument(
        "--theme", default="plain", choices=theme_names(), metavar="NAME", help="how it looks (plain)")
    add_own_files(command)
    command.add_argument("--dated", type=_a_date, metavar="DATE", help="a date to print; none without it")


def run_build(called: argparse.Namespace) -> int:
    """Build the recipes; 0 when all are sound, 1 when one has errors or is not built, 2 for a wrong call."""
    from foldproof.recipe.opening import read_source

    try:
        recipes = recipes_meant(called.recipes)
        _refuse_same_names(recipes)
    except ValueError as error:
        print(f"foldproof build: {error}", file=sys.stderr)
        return WRONG_CALL
    options = Options(
        theme=called.theme, dated=called.dated or "", mirrored=called.mirrored,
        left_handed=called.left_handed, stock=called.stock, desk=called.desk)
    work = partial(_build, into=called.into, options=options)
    outcomes = tuple(_shown(_each(work, recipes), len(recipes)))
    own = {str(path): read_source(path, str(path))[0] or "" for path in (called.stock, called.desk) if path}
    return report(outcomes, as_data=called.json, sources=own)


def _build(recipe: Path, into: Path, options: Options) -> Outcome:
    try:
        built = build(recipe, into, options)
    except DocumentsError as error:
        found = checked(recipe, options.mirrored)
        return Outcome(recipe=found.recipe, findings=found.findings, sources=found.sources, trouble=str(error))
    folder = str(built.folder) if built.folder else None
    return Outcome(
        recipe=str(recipe), findings=built.proof.findings, sources=built.proof.sources, folder=folder)


def _each(work: Callable[[Path], Outcome], recipes: Sequence[Path]) -> Iterator[Outcome]:
    """The outcome of each recipe in turn; several are worked on at once, each in a process of its own."""
    jobs = min(len(recipes), os.cpu_count() or 1, MOST_JOBS)
    if jobs < 2:
        yield from map(work, recipes)
        return
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        yield from pool.map(work, recipes)


def _shown(outcomes: Iterable[Outcome], total: int) -> Iterator[Outcome]:
    """The same outcomes; a line for each on a terminal when there are several."""
    for number, outcome in enumerate(outcomes, start=1):
        if total > 1 and sys.stderr.isatty():
            what = outcome.folder or f"{outcome.recipe} not built"
            print(f"{number} of {total}: {what}", file=sys.stderr, flush=True)
        yield outcome


def _refuse_same_names(recipes: Sequence[Path]) -> None:
    """Two recipes of one name would be built into one folder."""
    seen: dict[str, Path] = {}
    for recipe in recipes:
        other = seen.setdefault(recipe.stem.casefold(), recipe)
        if other != recipe:
            raise ValueError(f"{other} and {recipe} would be built into the same folder; build them one at a time")


def _a_date(text: str) -> str:
    from datetime import date

    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no date; write it like 2026-03-01") from None
