"""The grammar command: the keys of a recipe told, and written out as a reference page or a JSON Schema."""

import argparse
import json
import re
import sys
from collections.abc import Iterator
from pathlib import Path

from foldproof.classroom.keys_own import DESK, STOCK
from foldproof.findings.nearest import nearest
from foldproof.grammar.page import page, value_in_words
from foldproof.grammar.schema import schema
from foldproof.recipe.keys import RECIPE, forms
from foldproof.recipe.keys_look import LOOK
from foldproof.recipe.kinds import Form
from foldproof.recipe.synonyms import SYNONYMS
from foldproof.recipe.wording import a

FOUND, NOT_FOUND, WRONG_CALL = 0, 1, 2
FILES = {"recipe": RECIPE, "look": LOOK, "stock": STOCK, "desk": DESK}
"""The files that have a grammar."""


def add_grammar_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "grammar", help="tell what a key means; write the grammar for people or for an editor",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Tell what a key of a recipe means and what may stand after it. Or write the whole grammar: as a\n"
        "page to read, or as a JSON Schema with which an editor completes keys and marks mistakes.",
        epilog="examples:\n  foldproof grammar score                          what it means, where it stands\n"
        "  foldproof grammar --page keys.md                 every key on one page\n"
        "  foldproof grammar --schema recipe.schema.json    for an editor\n"
        "  foldproof grammar --schema desk.schema.json --of desk\n\n"
        "exit status: 0 when it is told or written, 1 when there is no such key, 2 for a wrong call")
    command.add_argument("word", nargs="?", metavar="WORD", help="a key, or what it belongs to")
    command.add_argument("--schema", type=Path, metavar="FILE", help="write a JSON Schema (draft 2020-12)")
    command.add_argument("--page", type=Path, metavar="FILE", help="write the reference page (Markdown)")
    command.add_argument(
        "--of", choices=tuple(FILES), default="recipe", help="which file's grammar the schema is of (recipe)")


def run_grammar(called: argparse.Namespace) -> int:
    """Tell a word of the grammar, or write the grammar out."""
    if called.word is None and called.schema is None and called.page is None:
        print("foldproof grammar: name a key, or say --page FILE or --schema FILE", file=sys.stderr)
        return WRONG_CALL
    try:
        if called.schema is not None:
            called.schema.write_text(schema_text(FILES[called.of]), encoding="utf-8")
        if called.page is not None:
            called.page.write_text(page_text(), encoding="utf-8")
    except OSError as error:
        print(f"foldproof grammar: {error.filename} cannot be written: {error.strerror}", file=sys.stderr)
        return WRONG_CALL
    if called.word is None:
        return FOUND
    told = tuple(_told(" ".join(called.word.split())))
    print(*(told or (_unknown(called.word),)), sep="\n")
    return FOUND if told else NOT_FOUND


def schema_text(form: Form) -> str:
    """The schema of a file as text."""
    return json.dumps(schema(form), indent=1, ensure_ascii=False) + "\n"


def page_text() -> str:
    """The reference page of all files."""
    return page(tuple(FILES.values()))


def _every_form() -> tuple[Form, ...]:
    return tuple(dict.fromkeys(form for root in FILES.values() for form in forms(root)))


def _told(word: str) -> Iterator[str]:
    for form in _every_form():
        key = form.key(word)
        if key is not None:
            needed = ", needed" if key.required else ""
            default = f" Unless said: {key.default}." if key.default is not None else ""
            yield f"`{key.name}` of {a(form.name)}{needed}: {key.meaning}{default}"
            yield f"    {_plain(value_in_words(key.kind))}"
            yield f"    for example {key.name}: {key.example}"
    for form in _every_form():
        if form.name == word:
            yield f"{a(form.name).capitalize()}: {form.meaning}"
            yield from (
                f"    {key.name}: {_plain(value_in_words(key.kind))}{' (needed)' if key.required else ''}"
                for key in form.keys)


def _plain(markdown: str) -> str:
    """Words without the links and marks of Markdown."""
    return re.sub(r"\[([^\]]+)\]\(#[^)]*\)", r"\1", markdown).replace("`", "")


def _unknown(word: str) -> str:
    known = [key.name for form in _every_form() for key in form.keys] + [form.name for form in _every_form()]
    guess = nearest(word, dict.fromkeys(known), SYNONYMS)
    return f"No key is called {word}." + (f" Did you mean {guess}?" if guess else " `--page FILE` lists them all.")
