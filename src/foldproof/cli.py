"""The command line: arguments in, findings printed, exit status out."""

import argparse
import json
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import date
from functools import partial
from multiprocessing import get_context
from pathlib import Path

from foldproof import __version__
from foldproof.checks.directions.check import directions_left
from foldproof.class_command import add_command, add_own_files, run_class
from foldproof.documents.theme_folders import theme_names
from foldproof.documents.trouble import DocumentsError
from foldproof.film_command import add_film_command, run_film
from foldproof.findings.finding import Finding, has_errors
from foldproof.findings.show import as_json, render
from foldproof.grammar_command import add_grammar_command, run_grammar
from foldproof.number_command import add_number_command, run_number
from foldproof.pipeline import Options, build, mirror, prove
from foldproof.recipe.opening import read_source
from foldproof.rescue_command import add_rescue_command, run_rescue

SOUND, ERRORS, WRONG_CALL = 0, 1, 2
RECIPES = Path("recipes")
MOST_JOBS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one recipe."""

    recipe: str
    findings: tuple[Finding, ...]
    sources: Mapping[str, str]
    """The texts that findings point into, by the name of their file."""
    folder: str | None = None
    trouble: str | None = None
    """What stood in the way of its documents, in one line."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command; the exit status is 0 when all is sound, 1 when a recipe has errors, 2 for a wrong call."""
    parser = _parser()
    called = parser.parse_args(arguments)
    if called.command == "class":
        return run_class(called)
    if called.command == "film":
        return run_film(called)
    if called.command == "grammar":
        return run_grammar(called)
    if called.command == "number":
        return run_number(called)
    if called.command == "rescue":
        return run_rescue(called)
    try:
        recipes = _recipes(called.recipes)
        if called.command == "build":
            _refuse_same_names(recipes)
    except ValueError as error:
        print(f"{parser.prog} {called.command}: {error}", file=sys.stderr)
        return WRONG_CALL
    if called.command == "build":
        options = Options(
            theme=called.theme, dated=called.dated or "", mirrored=called.mirrored,
            left_handed=called.left_handed, stock=called.stock, desk=called.desk)
        work = partial(_build, into=called.into, options=options)
        outcomes = tuple(_shown(_each(work, recipes), len(recipes)))
    else:
        outcomes = tuple(_check(recipe, called.mirrored) for recipe in recipes)
    try:
        _report(outcomes, called)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    if getattr(called, "directions", False):
        print(*directions_told(recipes), sep="\n")
    wrong = any(outcome.trouble or has_errors(outcome.findings) for outcome in outcomes)
    return ERRORS if wrong else SOUND


def directions_told(recipes: Sequence[Path]) -> Iterator[str]:
    """The direction words of recipes that are left alone, each with its place, and how many are decided."""
    for recipe in recipes:
        proof = prove(recipe)
        if proof.card is not None and proof.making is not None:
            yield from directions_left(proof.card, proof.making)


def _check(recipe: Path, mirrored: bool) -> Outcome:
    proof = prove(recipe)
    proof = mirror(proof) if mirrored else proof
    return Outcome(recipe=str(recipe), findings=proof.findings, sources=proof.sources)


def _build(recipe: Path, into: Path, options: Options) -> Outcome:
    try:
        built = build(recipe, into, options)
    except DocumentsError as error:
        checked = _check(recipe, options.mirrored)
        return Outcome(recipe=checked.recipe, findings=checked.findings, sources=checked.sources, trouble=str(error))
    folder = str(built.folder) if built.folder else None
    return Outcome(
        recipe=str(recipe), findings=built.proof.findings, sources=built.proof.sources, folder=folder)


def _each(work: Callable[[Path], Outcome], recipes: Sequence[Path]) -> Iterator[Outcome]:
    """The outcome of each recipe in turn; several are worked on at once, each in a process of its own."""
    jobs = min(len(recipes), os.cpu_count() or 1, MOST_JOBS)
    if jobs < 2:
        yield from map(work, recipes)
        return
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        yield from pool.map(work, recipes)


def _shown(outcomes: Iterable[Outcome], total: int) -> Iterator[Outcome]:
    """The same outcomes; a line for each on a terminal when there are several."""
    for number, outcome in enumerate(outcomes, start=1):
        if total > 1 and sys.stderr.isatty():
            what = outcome.folder or f"{outcome.recipe} not built"
            print(f"{number} of {total}: {what}", file=sys.stderr, flush=True)
        yield outcome


def _report(outcomes: Sequence[Outcome], called: argparse.Namespace) -> None:
    findings = tuple(dict.fromkeys(finding for outcome in outcomes for finding in outcome.findings))
    texts = {file: text for outcome in outcomes for file, text in outcome.sources.items()}
    sources: Mapping[str, str] = texts | _own_texts(called)
    if called.json:
        print(json.dumps(as_json(findings), indent=1, ensure_ascii=False))
    elif findings or called.command == "check":
        print(render(findings, sources, colour=sys.stdout.isatty() and "NO_COLOR" not in os.environ))
    told: dict[str, list[str]] = {}
    for outcome in outcomes:
        if outcome.trouble:
            told.setdefault(outcome.trouble, []).append(outcome.recipe)
    for trouble, recipes in told.items():
        print(f"foldproof: {', '.join(recipes)} not built: {trouble}", file=sys.stderr)


def _own_texts(called: argparse.Namespace) -> dict[str, str]:
    """The texts of the teacher's own files, for what is found in them."""
    if called.command != "build":
        return {}
    return {str(path): read_source(path, str(path))[0] or "" for path in (called.stock, called.desk) if path}


def _recipes(named: Sequence[Path]) -> tuple[Path, ...]:
    """The recipes that are named, each once; without a name, all in `recipes/`."""
    if named:
        return tuple(dict.fromkeys(named))
    found = tuple(sorted(RECIPES.glob("*.yaml")))
    if not found:
        raise ValueError(f"there is no recipe (*.yaml) in {RECIPES}/ here; name one")
    return found


def _refuse_same_names(recipes: Sequence[Path]) -> None:
    """Two recipes of one name would be built into one folder."""
    seen: dict[str, Path] = {}
    for recipe in recipes:
        other = seen.setdefault(recipe.stem.casefold(), recipe)
        if other != recipe:
            raise ValueError(f"{other} and {recipe} would be built into the same folder; build them one at a time")


def _a_date(text: str) -> str:
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no date; write it like 2026-03-01") from None


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="foldproof", description="Prove folded card recipes and print them as handout, page and shot list.",
        epilog="exit status: 0 when all is sound, 1 when a recipe has errors, 2 for a wrong call")
    parser.add_argument("--version", action="version", version=f"foldproof {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    shape = argparse.RawDescriptionHelpFormatter
    making = commands.add_parser(
        "build", help="prove recipes and make their documents", formatter_class=shape,
        description="Prove recipes and make their documents. A recipe with errors is not built; what was built from\n"
                    "it before stays, and the other recipes are still built.",
        epilog="examples:\n  foldproof build                            every recipe in recipes/, into build/\n"
               "  foldproof build recipes/tide-gate.yaml     one\n"
               "  foldproof build --dated 2026-03-01         with a date beside the revision\n"
               "  foldproof build recipes/tide-gate.yaml --mirrored\n"
               "                                             the mirrored card, into build/tide-gate-mirrored/")
    checking = commands.add_parser(
        "check", help="prove recipes and print the findings, nothing more", formatter_class=shape,
        description="Prove recipes and print the findings. Nothing is written.",
        epilog="examples:\n  foldproof check                            every recipe in recipes/\n"
               "  foldproof check recipes/tide-gate.yaml --json")
    add_command(commands, theme_names())
    add_film_command(commands, theme_names())
    add_grammar_command(commands)
    add_number_command(commands)
    add_rescue_command(commands)
    for command in (making, checking):
        command.add_argument(
            "recipes", nargs="*", type=Path, metavar="RECIPE", help="a recipe; all of recipes/ without one")
        command.add_argument("--json", action="store_true", help="print the findings only, as one JSON value")
        command.add_argument(
            "--mirrored", action="store_true",
            help="the card left for right, proved anew; lettering, patterns and tools are not turned")
    checking.add_argument(
        "--directions", action="store_true",
        help="also list the direction words that the table can't tell, and how many it decided")
    making.add_argument("--left-handed", action="store_true", help="the same card told for the other hand")
    making.add_argument("--into", type=Path, default=Path("build"), metavar="DIR", help="the output folder (build)")
    making.add_argument("--theme", default="plain", choices=theme_names(), metavar="NAME", help="how it looks (plain)")
    add_own_files(making)
    making.add_argument("--dated", type=_a_date, metavar="DATE", help="a date to print; none without it")
    return parser

