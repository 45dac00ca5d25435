"""The watch command: a local page that follows the author's edits."""

import argparse
import sys
from pathlib import Path

from foldproof.documents.theme_folders import add_theme

STOPPED, WRONG_CALL = 0, 2
PORT = 8417


def add_watch_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "watch", help="show a recipe in the browser, anew after every save",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Lay a recipe out in the browser while you write it. After every save the findings come at once,\n"
        "then the page, then the sheets of the handout and the shot list; mistakes leave the last good sheets\n"
        "where they are. Nothing is written to the disk, and no other machine can look. Ctrl-C ends it.",
        epilog="examples:\n  foldproof watch recipes/tide-gate.yaml              then open the address that it prints\n"
        "  foldproof watch recipes/tide-gate.yaml --open       opens it in your browser\n"
        "  foldproof watch recipes/tide-gate.yaml --port 0     at any port that is free\n\n"
        "exit status: 0 when it was ended, 2 for a wrong call")
    command.add_argument("recipe", type=Path, metavar="RECIPE", help="the card")
    command.add_argument(
        "--port", type=int, default=PORT, metavar="N", help=f"of the address, on this machine only ({PORT})")
    add_theme(command)
    command.add_argument("--open", action="store_true", help="open it in the browser")


def run_watch(called: argparse.Namespace) -> int:
    """Run the bench until it is stopped."""
    try:
        return _watch(called)
    except KeyboardInterrupt:  # before it was set up
        return STOPPED


def _watch(called: argparse.Namespace) -> int:
    if not called.recipe.is_file():
        return _wrong(f"there is no file {called.recipe}")
    if not 0 <= called.port <= 65535:
        return _wrong(f"{called.port} is no port; give one from 1024 to 65535, or 0 for any that is free")
    try:
        from foldproof.preview.running import run, take_port
        from foldproof.preview.task import Task
    except ImportError as error:
        return _wrong(f"{error.name} is missing: pip install {error.name}")
    try:
        taken = take_port(called.port)
    except OSError as error:
        return _wrong(f"port {called.port} can't be had ({error.strerror}); try --port 0 for any that is free")

    def ready(address: str) -> None:
        print(f"{called.recipe} lies on the bench at {address}\nCtrl-C ends it.", flush=True)
        if called.open:
            import webbrowser

            webbrowser.open(address)

    run(Task(recipe=called.recipe, theme=called.theme), taken, ready)
    print("The bench is cleared.")
    return STOPPED


def _wrong(what: str) -> int:
    print(f"foldproof watch: {what}", file=sys.stderr)
    return WRONG_CALL
