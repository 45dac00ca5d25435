"""The resize command: the same card in another size, as a recipe of its own."""

import argparse
import sys
from pathlib import Path

from foldproof.begin_command import proved, write_new, wrong_file, wrong_findings
from foldproof.findings.show import render
from foldproof.folding.card import Card
from foldproof.pipeline import prove
from foldproof.resizing.resize import resized
from foldproof.starting.sizes import Size, read_size
from foldproof.starting.trouble import CannotBeError

WRITTEN, CANNOT_BE, WRONG_CALL = 0, 1, 2


def add_resize_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "resize", help="write the same card in another size as a new recipe",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Write the same card in another size as a new recipe with its own plain numbers: measures, steps,\n"
        "words, lines to say, sheets and envelope. Borders, tabs, punched and bought parts stay as they are. The new\n"
        "recipe is proved before it is written; comments and order stay. No file is ever overwritten.",
        epilog="examples:\n  foldproof resize recipes/tide-gate.yaml A7\n"
        "                                  into recipes/tide-gate-a7.yaml\n"
        '  foldproof resize recipes/beacon.yaml "6 1/4 x 4 1/2" --as recipes/small-beacon.yaml\n\n'
        "exit status: 0 when it is written, 1 when it cannot be, 2 for a wrong call")
    command.add_argument("recipe", type=Path, metavar="RECIPE", help="the card")
    command.add_argument(
        "size", metavar="SIZE", help="the closed card: an envelope (A2, A6, A7, C6, DL, square, ...) or width x height")
    command.add_argument("--as", dest="file", type=Path, metavar="FILE", help="the new recipe (beside the first)")


def run_resize(called: argparse.Namespace) -> int:
    """Write the new recipe, once it is proved sound, and say what was written."""
    proof = prove(called.recipe)
    if not proof.sound or proof.card is None or proof.making is None or proof.card.closed is None:
        print(render(proof.findings, proof.sources))
        print("foldproof resize: the recipe itself has errors; mend them first", file=sys.stderr)
        return CANNOT_BE
    try:
        size = _size(called.size, proof.card)
    except CannotBeError as error:
        print(f"foldproof resize: {error}", file=sys.stderr)
        return WRONG_CALL
    file = called.file or called.recipe.with_name(f"{called.recipe.stem}-{_named(called.size)}.yaml")
    wrong = wrong_file(file)
    if (size.width, size.height) == (proof.card.closed.width, proof.card.closed.height):
        wrong = f"{called.recipe} closes to {size.said} already"
    if wrong is not None:
        print(f"foldproof resize: {wrong}", file=sys.stderr)
        return WRONG_CALL
    try:
        text = resized(proof.card, proof.making, size, lambda text: wrong_findings(proved(text, file.name)))
    except CannotBeError as error:
        print(f"foldproof resize: not in {size.said}: {error}", file=sys.stderr)
        return CANNOT_BE
    if (wrong := write_new(file, text)) is not None:
        print(f"foldproof resize: {wrong}", file=sys.stderr)
        return WRONG_CALL
    left = wrong_findings(prove(file))
    if left:
        print(render(left, {str(file): text}))
    print(f"{file}: {proof.card.recipe.title}, {size.said} when closed, proved sound.")
    return WRITTEN


def _size(written: str, card: Card) -> Size:
    """The size in the recipe's unit; a named one lies as the card lies, unless it says otherwise."""
    size = read_size(written, card.recipe.unit)
    assert card.closed is not None
    lies = size.lies or ("landscape" if card.closed.width > card.closed.height else "upright")
    return size.turned if size.named and lies == "landscape" and size.height > size.width else size


def _named(size: str) -> str:
    """The size as a part of a file's name: `a7`, `4-1-4-x-5-1-2`."""
    return "-".join("".join(sign if sign.isalnum() else " " for sign in size.casefold()).split())
