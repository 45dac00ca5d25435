"""The begin command: a new recipe from a construction and a finished size."""

import argparse
import re
import sys
import tempfile
from pathlib import Path

from foldproof.facts.envelopes import find_envelope
from foldproof.findings.finding import Finding, Severity
from foldproof.findings.show import render
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import write_size
from foldproof.pipeline import Proof, prove
from foldproof.starting.begin import begun, lying
from foldproof.starting.constructions import CONSTRUCTIONS, Construction, find_construction
from foldproof.starting.sizes import Size, read_size
from foldproof.starting.trouble import CannotBeError

BEGUN, CANNOT_BE, WRONG_CALL = 0, 1, 2
RECIPES = Path("recipes")


def add_begin_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    names = "\n".join(f"  {one.name:<12} {one.about}" for one in CONSTRUCTIONS)
    command = commands.add_parser(
        "begin", help="begin a new recipe from a construction and a finished size",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Begin a new recipe: plan, layers, steps, lines to say, supplies and envelope for a card of that\n"
        "size. It builds at once; put your own words, papers and layers in. No file is ever overwritten.\n\n"
        f"constructions:\n{names}",
        epilog="examples:\n  foldproof begin gate A2                  a gate card for an A2 envelope,\n"
        "                                           recipes/gate-card.yaml\n"
        "  foldproof begin gate A2 --as recipes/harvest-gate.yaml\n"
        "                                           the same, called Harvest gate\n"
        '  foldproof begin z "5 x 7"                a Z card in inches, recipes/z-card.yaml\n'
        '  foldproof begin pop-up "105 x 148 mm"    in millimetres\n'
        "  foldproof begin tent A7 --unit mm        the card for an A7 envelope, in millimetres\n"
        '  foldproof begin side "C6 landscape"      named sizes stand upright unless the construction usually lies\n\n'
        "exit status: 0 when it is written, 1 when it cannot be made in that size, 2 for a wrong call")
    command.add_argument("construction", metavar="CONSTRUCTION", help="how the card folds; see above")
    command.add_argument(
        "size", metavar="SIZE",
        help="the closed card: an envelope (A2, A6, A7, C6, DL, square, ...) or width x height, as it is read")
    command.add_argument(
        "--as", dest="file", type=Path, metavar="FILE", help="the new recipe; its name becomes the card's title")
    command.add_argument("--unit", choices=[unit.value for unit in Unit], help="the unit of the recipe")


def run_begin(called: argparse.Namespace) -> int:
    """Write the recipe, once it is proved sound, and say what was written."""
    try:
        construction = find_construction(called.construction)
        size = lying(read_size(called.size, Unit(called.unit) if called.unit else None), construction)
    except CannotBeError as error:
        print(f"foldproof begin: {error}", file=sys.stderr)
        return WRONG_CALL
    file = called.file or RECIPES / f"{_file_name(construction.title)}.yaml"
    if (wrong := wrong_file(file, made_here=called.file is None)) is not None:
        print(f"foldproof begin: {wrong}", file=sys.stderr)
        return WRONG_CALL
    try:
        text = begun(construction, size, _title(file) if called.file else None)
    except CannotBeError as error:
        print(f"foldproof begin: {error}", file=sys.stderr)
        return CANNOT_BE
    proof = proved(text, file.name)
    if wrong_findings(proof):
        raise AssertionError(f"what was begun is not sound:\n{render(proof.findings, proof.sources)}")
    if (wrong := write_new(file, text)) is not None:
        print(f"foldproof begin: {wrong}", file=sys.stderr)
        return WRONG_CALL
    print(_told(construction, size, file))
    return BEGUN


def proved(text: str, name: str) -> Proof:
    """The proof of a recipe that is in no file yet."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_text(text, encoding="utf-8")
        return prove(path)


def wrong_findings(proof: Proof) -> tuple[Finding, ...]:
    """The errors and warnings of a proof."""
    return tuple(finding for finding in proof.findings if finding.severity is not Severity.ADVICE)


def wrong_file(file: Path, made_here: bool = False) -> str | None:
    """Why a new recipe can't be written there; `made_here` allows the folder to be made."""
    if file.suffix != ".yaml":
        return f"a recipe's name ends in .yaml: {file.with_suffix('.yaml')}"
    if file.exists() or file.is_symlink():
        return f"{file} is there already, and is left as it is. Give the new recipe another name."
    if not file.parent.is_dir() and not made_here:
        return f"there is no folder {file.parent}; make it first."
    return None


def write_new(file: Path, text: str) -> str | None:
    """Write a file that is not there yet; else why it can't be."""
    try:
        file.parent.mkdir(exist_ok=True)
        with file.open("x", encoding="utf-8") as stream:
            stream.write(text)
    except OSError as error:
        return f"{file} can't be written: {error.strerror}."
    return None


def _told(construction: Construction, size: Size, file: Path) -> str:
    lines = [f"{file}: {construction.title}, {size.said} when closed, proved sound."]
    envelope = find_envelope(size.envelope) if size.envelope is not None else None
    if envelope is None:
        lines.append("No usual envelope takes it; write the size of yours into `finished`.")
    elif size.unit is not Unit.INCH and re.fullmatch(r"A\d+", envelope.name):
        outside = write_size(envelope.size, envelope.unit).replace("×", "x")
        lines.append(f"{envelope.name} is the envelope of {outside}. "
                     "A card of the ISO sheet A6 (105 x 148 mm) goes into a C6 envelope.")
    lines.append(f"Put your own words in, then: foldproof build {file}")
    return "\n".join(lines)


def _title(file: Path) -> str:
    words = " ".join(file.stem.replace("-", " ").replace("_", " ").split())
    return words[:1].upper() + words[1:]


def _file_name(title: str) -> str:
    return title.casefold().replace(" ", "-")
