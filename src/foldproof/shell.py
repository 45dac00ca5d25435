"""What the commands share: which recipes are meant, what became of each, and how that is printed."""

import argparse
import os
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

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

    @property
    def wrong(self) -> bool:
        """Whether it has errors or could not be made."""
        return self.trouble is not None or has_errors(self.findings)


def recipes_meant(named: Sequence[Path]) -> tuple[Path, ...]:
    """The recipes that are named, each once; without a name, all in `recipes/`. Raises ValueError where none is."""
    if named:
        return tuple(dict.fromkeys(named))
    found = tuple(sorted(RECIPES.glob("*.yaml")))
    if not found:
        raise ValueError(f"there is no recipe (*.yaml) in {RECIPES}/ here; name one")
    return found


def add_recipes(command: argparse.ArgumentParser) -> None:
    """What `build` and `check` both take."""
    command.add_argument(
        "recipes", nargs="*", type=Path, metavar="RECIPE", help="a recipe; all of recipes/ without one")
    command.add_argument("--json", action="store_true", help="print the findings only, as one JSON value")
    command.add_argument(
        "--mirrored", action="store_true",
        help="the card left for right, proved anew; lettering, patterns and tools are not turned")


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


def _print(outcomes: Sequence[Outcome], *, as_data: bool, always: bool, sources: Mapping[str, str]) -> None:
    from foldproof.findings.show import as_json, render

    findings = tuple(dict.fromkeys(finding for outcome in outcomes for finding in outcome.findings))
    texts = {file: text for outcome in outcomes for file, text in outcome.sources.items()}
    if as_data:
        import json

        print(json.dumps(as_json(findings), indent=1, ensure_ascii=False))
    elif findings or always:
        print(render(findings, {**texts, **sources}, colour=sys.stdout.isatty() and "NO_COLOR" not in os.environ))
    told: dict[str, list[str]] = {}
    for outcome in outcomes:
        if outcome.trouble:
            told.setdefault(outcome.trouble, []).append(outcome.recipe)
    for trouble, recipes in told.items():
        print(f"foldproof: {', '.join(recipes)} not built: {trouble}", file=sys.stderr)
