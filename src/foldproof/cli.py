"""The command line: which command is meant. What it needs is imported when it is called, and nothing else."""

import argparse
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from typing import Any

from foldproof import __version__
from foldproof.shell import seldom_collected

COMMANDS = {
    "begin": ("begin_command", "add_begin_command", "run_begin"),
    "build": ("build_command", "add_build_command", "run_build"),
    "check": ("check_command", "add_check_command", "run_check"),
    "class": ("class_command", "add_class_command", "run_class"),
    "compare": ("compare_command", "add_compare_command", "run_compare"),
    "draft": ("draft_command", "add_draft_command", "run_draft"),
    "film": ("film_command", "add_film_command", "run_film"),
    "grammar": ("grammar_command", "add_grammar_command", "run_grammar"),
    "number": ("number_command", "add_number_command", "run_number"),
    "ruler": ("ruler_command", "add_ruler_command", "run_ruler"),
    "resize": ("resize_command", "add_resize_command", "run_resize"),
    "rescue": ("rescue_command", "add_rescue_command", "run_rescue"),
    "watch": ("watch_command", "add_watch_command", "run_watch"),
}
"""Each command's module, the function there that adds it to the parser, and the one that runs it."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command; the exit status is 0 when all is sound, 1 when a recipe has errors, 2 for a wrong call."""
    seldom_collected()
    words = sys.argv[1:] if arguments is None else list(arguments)
    called = _parser(words).parse_args(words)
    run: Callable[[argparse.Namespace], int] = _of(called.command, 2)
    return run(called)


def _of(command: str, part: int) -> Any:
    module, *functions = COMMANDS[command]
    return getattr(import_module(f"foldproof.{module}"), functions[part - 1])


def _parser(words: Sequence[str]) -> argparse.ArgumentParser:
    """The parser: the command that comes first has all its arguments, and the others, when it has, only their names."""
    parser = argparse.ArgumentParser(
        prog="foldproof", description="Prove folded card recipes and print them as handout, page and shot list.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog="examples:\n  foldproof begin gate A2                  a new recipe, recipes/gate-card.yaml\n"
        "  foldproof check recipes/gate-card.yaml   what is wrong in it, and what would mend it\n"
        "  foldproof build recipes/gate-card.yaml   its handout, page and shot list, into build/gate-card/\n"
        "  foldproof build --help                   more about a command, with examples\n\n"
        "exit status: 0 when all is sound, 1 when a recipe has errors, 2 for a wrong call")
    parser.add_argument("--version", action="version", version=f"foldproof {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name in [words[0]] if words and words[0] in COMMANDS else COMMANDS:
        _of(name, 1)(commands)
    return parser
