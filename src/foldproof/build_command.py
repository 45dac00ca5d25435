"""The build command: recipes proved and their documents made, several at once, and none that has not changed."""

import argparse
import os
import sys
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from foldproof.documents.handout_kinds import EXTRA
from foldproof.documents.theme_folders import add_theme
from foldproof.frozen import dataclass
from foldproof.options import Options
from foldproof.shell import (
    WRONG_CALL,
    Meant,
    Outcome,
    add_own_files,
    add_recipes,
    gallery_trouble,
    measures_meant,
    recipes_meant,
    report,
    seldom_collected,
    show_troubles,
)

if TYPE_CHECKING:
    from concurrent.futures import ProcessPoolExecutor

MOST_JOBS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """A recipe to be built, and where to."""

    recipe: Path
    into: Path


def add_build_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "build", help="prove recipes and make their documents", formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Prove recipes and make their documents. A recipe with errors is not built; what was built from\n"
                    "it before stays, and the other recipes are still built. What has not changed is not made again.",
        epilog="examples:\n  foldproof build                            every recipe in recipes/, into build/\n"
               "  foldproof build recipes/tide-gate.yaml     one\n"
               "  foldproof build recipes/winter             all in a folder, into build/winter/\n"
               "  foldproof build --all                      those that have not changed, too\n"
               "  foldproof build --dated 2026-03-01         with a date beside the revision\n"
               "  foldproof build recipes/tide-gate.yaml --mirrored\n"
               "                                             the mirrored card, into build/tide-gate-mirrored/\n"
               "  foldproof build recipes/tide-gate.yaml --measures metric\n"
               "                                             its metric edition, into build/tide-gate-metric/\n"
               "  foldproof build --handout large-print --handout compact\n"
               "                                             with handout-large-print.pdf and handout-compact.pdf\n\n"
               "exit status: 0 when all is sound, 1 when a recipe has errors, 2 for a wrong call")
    add_recipes(command)
    command.add_argument("--all", action="store_true", help="make what has not changed, too")
    command.add_argument("--left-handed", action="store_true", help="the same card told for the other hand")
    command.add_argument(
        "--handout", action="append", default=[], choices=tuple(EXTRA), dest="handouts", metavar="KIND",
        help=f"one more kind of handout, may be said again: {', '.join(EXTRA)}")
    command.add_argument("--into", type=Path, default=Path("build"), metavar="DIR", help="the output folder (build)")
    add_theme(command)
    add_own_files(command)
    command.add_argument("--dated", type=_a_date, metavar="DATE", help="a date to print; none without it")


def run_build(called: argparse.Namespace) -> int:
    """Build the recipes; 0 when all are sound, 1 when one has errors or is not built, 2 for a wrong call."""
    try:
        tasks = _tasks(recipes_meant(called.recipes), called.into)
    except ValueError as error:
        print(f"foldproof build: {error}", file=sys.stderr)
        return WRONG_CALL
    options = Options(
        theme=called.theme, dated=called.dated or "", mirrored=called.mirrored,
        left_handed=called.left_handed, handouts=tuple(called.handouts), measures=measures_meant(called),
        stock=called.stock, desk=called.desk)
    begun = time.monotonic()
    outcomes, troubles = build_all(
        tasks, options, anew=called.all, last=partial(gallery_trouble, called.into, called.theme))
    own = _own_texts(called) if any(outcome.findings for outcome in outcomes) else {}
    status = report(outcomes, as_data=called.json, sources=own)
    show_troubles(troubles)
    if not called.json and (len(outcomes) > 1 or sys.stdout.isatty()):
        from foldproof.built_table import built_table

        print(built_table(outcomes, time.monotonic() - begun))
    return status


Last = Callable[[], tuple[str, ...]]
"""What is done when all is built, in a process that has built: it says what went wrong, in lines."""


def build_all(
    tasks: Sequence[Task], options: Options, *, anew: bool, last: Last = tuple,
) -> tuple[tuple[Outcome, ...], tuple[str, ...]]:
    """Build what has changed, or everything anew; the outcomes in the order of the tasks, and what `last` says."""
    standing = {} if anew else {task: kept for task in tasks if (kept := _standing(task, options)) is not None}
    changed = [task for task in tasks if task not in standing]
    with _workers(min(len(changed), _processors(), MOST_JOBS)) as pool:
        outcomes = _each(partial(_build, options=options), changed, pool)
        made = dict(zip(changed, _shown(outcomes, len(changed)), strict=True))
        said = pool.submit(last).result() if pool is not None else last()
    return tuple((made | standing)[task] for task in tasks), said


def _standing(task: Task, options: Options) -> Outcome | None:
    """The outcome of a recipe whose set stands there, and nothing that went into it has changed."""
    from foldproof.kept import unchanged

    kept = unchanged(task.recipe, options, task.into)
    if kept is None:
        return None
    return Outcome(
        recipe=str(task.recipe), findings=kept.findings, sources=kept.sources, folder=str(kept.folder), made=False)


def _build(task: Task, options: Options) -> Outcome:
    from foldproof.check_command import checked
    from foldproof.documents.trouble import DocumentsError
    from foldproof.pipeline import build

    begun = time.monotonic()
    try:
        built = build(task.recipe, task.into, options)
    except DocumentsError as error:
        found = checked(task.recipe, options.mirrored, options.measures)
        return Outcome(
            recipe=found.recipe, findings=found.findings, sources=found.sources, trouble=str(error),
            seconds=time.monotonic() - begun)
    return Outcome(
        recipe=str(task.recipe), findings=built.proof.findings, sources=built.proof.sources,
        folder=str(built.folder) if built.folder else None, seconds=time.monotonic() - begun, changed=built.changed)


@contextmanager
def _workers(jobs: int) -> "Iterator[ProcessPoolExecutor | None]":
    """So many processes of their own; none where one is enough.

    None gives way to a fresh one after some time: memory does not grow, and in Python 3.11 that can end in a standstill
    (CPython issue 115634).
    """
    if jobs < 2:
        yield None
        return
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn"), initializer=seldom_collected) as pool:
        yield pool


def _each(
    work: Callable[[Task], Outcome], tasks: Sequence[Task], pool: "ProcessPoolExecutor | None",
) -> Iterator[Outcome]:
    """The outcome of each recipe in turn; the longest are begun first, lest all wait for one at the end."""
    if pool is None:
        yield from map(work, tasks)
        return
    begun = {task: pool.submit(work, task) for task in sorted(tasks, key=_length, reverse=True)}
    yield from (begun[task].result() for task in tasks)


def _length(task: Task) -> int:
    """How much there is to do, as far as it can be told at once: bytes of the recipe."""
    try:
        return task.recipe.stat().st_size
    except OSError:
        return 0


def _processors() -> int:
    """How many this process may use."""
    return len(os.sched_getaffinity(0)) if sys.platform == "linux" else os.cpu_count() or 1


def _shown(outcomes: Iterable[Outcome], total: int) -> Iterator[Outcome]:
    """The same outcomes; a line for each on a terminal when there are several."""
    for number, outcome in enumerate(outcomes, start=1):
        if total > 1 and sys.stderr.isatty():
            what = outcome.folder or f"{outcome.recipe} not built"
            print(f"{number} of {total}: {what}", file=sys.stderr, flush=True)
        yield outcome


def _own_texts(called: argparse.Namespace) -> dict[str, str]:
    """The texts of the teacher's own files, for what is found in them."""
    from foldproof.recipe.opening import read_source

    return {str(path): read_source(path, str(path))[0] or "" for path in (called.stock, called.desk) if path}


def _tasks(recipes: Sequence[Meant], into: Path) -> tuple[Task, ...]:
    """Where each recipe is built to. Raises ValueError where two would be built into one folder or into one another."""
    seen: dict[str, Path] = {}
    tasks = tuple(Task(recipe=meant.recipe, into=into / meant.below) for meant in recipes)
    for task in tasks:
        other = seen.setdefault(str(task.into / task.recipe.stem).casefold(), task.recipe)
        if other != task.recipe:
            raise ValueError(f"{other} and {task.recipe} would be built into the same folder; build them one at a time")
    for task in tasks:
        folders = (str(part).casefold() for part in (task.into, *task.into.parents))
        above = next((seen[folder] for folder in folders if folder in seen), None)
        if above is not None:
            raise ValueError(f"{task.recipe} would be built into the folder of {above}; give one of them another name")
    return tasks


def _a_date(text: str) -> str:
    from datetime import date

    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no date; write it like 2026-03-01") from None
