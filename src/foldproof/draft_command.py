"""The draft command: a card as somebody wrote it up, read into a draft of a recipe with its open questions."""

import argparse
import sys
from pathlib import Path

from foldproof.bounded import TooLargeError, read_within
from foldproof.notes.draft import Draft, draft
from foldproof.notes.reading import read_notes

READ, NOTHING, WRONG_CALL = 0, 1, 2
MOST_BYTES = 200_000
"""The longest notes that are read; a written-up card has some thousand."""


def add_draft_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "draft", help="read a written-up card into a draft of a recipe, with questions",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Read a card that somebody wrote up (plain text or Markdown) into a draft of a recipe: the sizes,\n"
        "scores and steps that could be read, and a question at each place where the notes say nothing.\n"
        "Nothing is made up.",
        epilog="examples:\n  foldproof draft old-card.txt                            print the draft\n"
        "  foldproof draft old-card.md --as recipes/old-card.yaml  write it, and list the questions\n\n"
        "exit status: 0 when something was read, 1 when nothing was, 2 for a wrong call")
    command.add_argument("notes", type=Path, metavar="NOTES", help="the written-up card")
    command.add_argument(
        "--as", type=Path, metavar="FILE", dest="to", help="the recipe to write; never a file that is there")


def run_draft(called: argparse.Namespace) -> int:
    """Read the notes and print or write the draft."""
    try:
        text = read_within(called.notes, MOST_BYTES).decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except TooLargeError:
        return _refuse(f"{called.notes} is longer than {MOST_BYTES // 1000} kB; no written-up card is")
    except OSError as error:
        return _refuse(f"{called.notes} cannot be read: {error.strerror}")
    except UnicodeDecodeError:
        return _refuse(f"{called.notes} is no text in UTF-8; save it as plain text")
    if not text.strip():
        print(f"foldproof draft: {called.notes} is empty", file=sys.stderr)
        return NOTHING
    made = draft(read_notes(text), called.notes.name)
    if called.to is None:
        print(made.text, end="")
        return READ
    try:
        with called.to.open("x", encoding="utf-8") as file:
            file.write(made.text)
    except FileExistsError:
        return _refuse(f"{called.to} is there already and stays as it is; choose another name")
    except OSError as error:
        return _refuse(f"{called.to} cannot be written: {error.strerror}")
    print(*_told(made, called.to), sep="\n")
    return READ


def _told(made: Draft, to: Path) -> list[str]:
    questions = made.questions
    lines = [f"{to}:{line}: {question}" for line, question in questions]
    count = f"{len(questions)} question{'' if len(questions) == 1 else 's'}"
    return [f"{to} is written. The notes leave {count} open:", *lines, f"Answer them, then: foldproof check {to}"]


def _refuse(why: str) -> int:
    print(f"foldproof draft: {why}", file=sys.stderr)
    return WRONG_CALL
