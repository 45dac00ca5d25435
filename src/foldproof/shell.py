"""What the commands share: which recipes are meant, what became of each, and how that is printed."""

import argparse
import os
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from foldproof.bounded import beginning
from foldproof.edition.measures import Measures
from foldproof.findings.finding import Finding, has_errors
from foldproof.frozen import dataclass

SOUND, ERRORS, WRONG_CALL = 0, 1, 2
"""Exit statuses."""
RECIPES = Path("recipes")


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
    made: bool = True
    """Whether its documents were made now; else they stood there already, and nothing had changed."""
    seconds: float = 0.0
    changed: tuple[str, ...] = ()
    """What is otherwise in the card than when it was last built."""

    @property
    def wrong(self) -> bool:
        """Whether it has errors or could not be made."""
        return self.trouble is not None or has_errors(self.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """A recipe that a call is about."""

    recipe: Path
    below: Path = Path()
    """The folder that it lies in, seen from the one with all recipes; its set goes into the same one of the outputs."""


def recipes_meant(named: Sequence[Path]) -> tuple[Meant, ...]:
    """The recipes that are named, each once, a folder for all in it; without a name, all in `recipes/`.

    Hidden folders are left out. Raises ValueError where there is no recipe.
    """
    found: dict[Path, Meant] = {}
    for path in named or (RECIPES,):
        inside = tuple(_inside(path)) if path.is_dir() or not named else (_alone(path),)
        if not inside:
            raise ValueError(f"there is no recipe (*.yaml) in {path}/ here; name one")
        for meant in inside:
            found.setdefault(meant.recipe, meant)
    return tuple(found.values())


def _inside(folder: Path) -> Iterator[Meant]:
    for path in sorted(folder.rglob("*.yaml")):
        inside = path.parent.relative_to(folder)
        if path.is_file() and not any(part.startswith(".") for part in inside.parts):
            yield Meant(recipe=path, below=folder_below(path) if folder.is_relative_to(RECIPES) else inside)


def _alone(recipe: Path) -> Meant:
    return Meant(recipe=recipe, below=folder_below(recipe))


def folder_below(recipe: Path) -> Path:
    """The folder within the outputs that the set of a recipe goes into: the one that it lies in within `recipes/`."""
    return recipe.parent.relative_to(RECIPES) if recipe.is_relative_to(RECIPES) else Path()


def add_recipes(command: argparse.ArgumentParser) -> None:
    """What `build` and `check` both take."""
    command.add_argument(
        "recipes", nargs="*", type=Path, metavar="RECIPE",
        help="a recipe, or a folder for all in it; recipes/ without one")
    command.add_argument("--json", action="store_true", help="print the findings only, as one JSON value")
    command.add_argument(
        "--measures", choices=tuple(Measures), metavar="UNITS",
        help="inches or metric (a plan of its own, proved anew), or both (each length in the other unit, too)")
    command.add_argument(
        "--mirrored", action="store_true",
        help="the card left for right, proved anew; lettering, patterns and tools are not turned")


def add_own_files(command: argparse.ArgumentParser) -> None:
    """The teacher's own files, for `class` and for `build`."""
    command.add_argument("--stock", type=Path, metavar="FILE", help="what is on the shelf and how more is sold (YAML)")
    command.add_argument("--desk", type=Path, metavar="FILE", help="what the trimmer and the sheets are like (YAML)")


def seldom_collected() -> None:
    """Have the interpreter look less often for rings of dead objects: it finds few, and takes a tenth of the time."""
    import gc

    gc.set_threshold(20_000, 10, 5)


def measures_meant(called: argparse.Namespace) -> Measures | None:
    """The units of the edition that is asked for."""
    return Measures(called.measures) if called.measures else None


def report(
    outcomes: Sequence[Outcome], *, as_data: bool, always: bool = False, sources: Mapping[str, str] | None = None,
) -> int:
    """Print what was found, and give the exit status. `always` says so, too, when nothing was found."""
    try:
        _print(outcomes, as_data=as_data, always=always, sources=sources or {})
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return ERRORS if any(outcome.wrong for outcome in outcomes) else SOUND


def show_findings(findings: Sequence[Finding], sources: Mapping[str, str]) -> None:
    """Print findings; on a terminal in colour, unless NO_COLOR is set, and no wider than it is."""
    import shutil

    from foldproof.findings.show import WIDTH, render

    terminal = sys.stdout.isatty()
    width = min(WIDTH, shutil.get_terminal_size((WIDTH, 24)).columns) if terminal else WIDTH
    print(render(findings, sources, colour=terminal and "NO_COLOR" not in os.environ, width=width))


def _print(outcomes: Sequence[Outcome], *, as_data: bool, always: bool, sources: Mapping[str, str]) -> None:
    from foldproof.findings.show import as_json

    findings = tuple(dict.fromkeys(finding for outcome in outcomes for finding in outcome.findings))
    texts = {file: text for outcome in outcomes for file, text in outcome.sources.items()}
    if as_data:
        import json

        print(json.dumps(as_json(findings), indent=1, ensure_ascii=False))
    elif findings or always:
        show_findings(findings, {**texts, **sources})
    told: dict[str, list[str]] = {}
    for outcome in outcomes:
        if outcome.trouble:
            told.setdefault(outcome.trouble, []).append(outcome.recipe)
    for trouble, recipes in told.items():
        print(f"foldproof: {', '.join(recipes)} not built: {trouble}", file=sys.stderr)


def _gallery_stands(into: Path, theme: str) -> bool:
    """Whether the gallery is the one of the sets that stand there: seen from its digest, before anything is loaded."""
    from foldproof.documents.standing import gallery_state, standing_sets
    from foldproof.documents.theme_folders import PLAIN, theme_files, theme_folder
    from foldproof.documents.trouble import ThemeError

    try:
        head = beginning(into / "index.html", 2_000).decode(errors="replace")
        folder = theme_folder(theme or PLAIN)
        return folder is not None and gallery_state(
            standing_sets(into), folder.resolve().name, theme_files(folder)) in head
    except (OSError, ThemeError):
        return False


def show_gallery(into: Path, theme: str) -> None:
    """Make the gallery anew from what stands in the output folder; say in one line why it can't be made.

    The cards are built all the same, so that is no failure of the command.
    """
    show_troubles(gallery_trouble(into, theme))


def show_troubles(troubles: Iterable[str]) -> None:
    """Say what could not be done, a line for each."""
    for trouble in troubles:
        print(f"foldproof: {trouble}", file=sys.stderr)


def gallery_trouble(into: Path, theme: str) -> tuple[str, ...]:
    """Make the gallery anew from what stands in the output folder; why it can't be made, where it can't."""
    if _gallery_stands(into, theme):
        return ()
    from foldproof.documents.gallery import make_gallery
    from foldproof.documents.theme import load_theme
    from foldproof.documents.trouble import DocumentsError

    try:
        make_gallery(into, load_theme(theme))
    except DocumentsError as error:
        return (f"the gallery is not made: {error}",)
    return ()
