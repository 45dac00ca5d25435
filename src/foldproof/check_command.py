"""The check command: recipes proved, findings printed, nothing written."""

import argparse
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from foldproof.edition.measures import Measures
from foldproof.pipeline import in_edition, mirror, prove, with_gone
from foldproof.shell import WRONG_CALL, Outcome, add_recipes, measures_meant, recipes_meant, report


def add_check_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "check", help="prove recipes and print the findings, nothing more",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Prove recipes and print the findings. Nothing is written.",
        epilog="examples:\n  foldproof check                            every recipe in recipes/\n"
               "  foldproof check recipes/tide-gate.yaml --json   for an editor: file, line, column and end of each\n\n"
               "exit status: 0 when all is sound, 1 when a recipe has errors, 2 for a wrong call")
    add_recipes(command)
    command.add_argument(
        "--directions", action="store_true",
        help="also list the direction words that the table can't tell, and how many it decided")


def run_check(called: argparse.Namespace) -> int:
    """Prove the recipes and print what is found; 0 when all are sound, 1 when one has errors, 2 for a wrong call."""
    try:
        recipes = [meant.recipe for meant in recipes_meant(called.recipes)]
    except ValueError as error:
        print(f"foldproof check: {error}", file=sys.stderr)
        return WRONG_CALL
    status = report(
        [checked(recipe, called.mirrored, measures_meant(called)) for recipe in recipes], as_data=called.json,
        always=True)
    if called.directions:
        print(*directions_told(recipes), sep="\n")
    return status


def checked(recipe: Path, mirrored: bool, measures: Measures | None = None) -> Outcome:
    """What is found in a recipe, or in an edition or the mirrored card of it."""
    proof = in_edition(prove(recipe), measures)
    proof = with_gone(mirror(proof) if mirrored else proof)
    return Outcome(recipe=str(recipe), findings=proof.findings, sources=proof.sources)


def directions_told(recipes: Sequence[Path]) -> Iterator[str]:
    """The direction words of recipes that are left alone, each with its place, and how many are decided."""
    from foldproof.checks.directions.check import directions_left

    for recipe in recipes:
        proof = prove(recipe)
        if proof.card is not None and proof.making is not None:
            yield from directions_left(proof.card, proof.making)
