"""`foldproof film`: a recipe and the times of its recording in; chapters, captions, description and timed page out."""

import argparse
import json
import sys
from pathlib import Path

from foldproof.documents.theme_folders import add_theme
from foldproof.documents.trouble import DocumentsError
from foldproof.filmed import Filmed
from foldproof.findings.finding import Finding, has_errors
from foldproof.findings.show import as_json
from foldproof.pipeline import Options, build, prove
from foldproof.recording.times import blank
from foldproof.shell import folder_below, show_findings, show_gallery

EXAMPLES = """\
the times file has a row for each step whose time is known, and one for the length:

  step, begins
  Cut the base, 0:12
  2, 1:05.5
  chapter: A word on glue, 4:40
  length, 12:30
  address, https://example.org/gate-film?at={seconds}

Steps go by title, id or number; times are h:mm:ss, m:ss or seconds. Lines like `0:12 Cut the base` do as well.
Nothing is guessed: a step without a time gets none. A chapter of your own ends the step before it.

examples:
  foldproof film recipes/beacon.yaml > beacon.times.csv          a times file to fill in
  foldproof film recipes/beacon.yaml beacon.times.csv
  foldproof film recipes/beacon.yaml beacon.times.csv --said beacon.said.vtt

Everything that `build` makes is made too, and put in the same folder. Kept beside the recipe as NAME.times.csv (and
NAME.said.vtt or .srt), the files are taken by `foldproof build` as well.

exit status: 0 when all is sound, 1 when a recipe has errors, 2 for a wrong call"""


def add_film_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "film",
        help="after filming: chapters, captions, description, times on the page",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Make what comes after filming: chapters (plain text and WebVTT), captions (WebVTT and SRT), a\n"
        "description, and the page with the times. With captions of what was really said, the numbers that\n"
        "were spoken are held against the recipe.",
        epilog=EXAMPLES,
    )
    command.add_argument("recipe", type=Path, metavar="RECIPE", help="the card")
    command.add_argument(
        "times",
        type=Path,
        nargs="?",
        metavar="TIMES",
        help="when steps begin in the finished recording; without it, a file to fill in is printed",
    )
    command.add_argument(
        "--said", type=Path, metavar="CAPTIONS", help="captions of what was really said (WebVTT or SRT)"
    )
    command.add_argument("--json", action="store_true", help="print the findings only, as one JSON value")
    command.add_argument("--into", type=Path, default=Path("build"), metavar="DIR", help="the output folder (build)")
    add_theme(command)
    command.add_argument("--dated", metavar="DATE", help="a date to print; none without it")


def run_film(called: argparse.Namespace) -> int:
    """Make the documents of a recording; 0 when they were made, 1 when something is wrong, 2 for a wrong call."""
    if called.times is None:
        return _print_blank(called)
    filmed = Filmed(times=called.times, said=called.said, kept=False)
    trouble, folder = None, None
    try:
        into = called.into / folder_below(called.recipe)
        built = build(called.recipe, into, Options(theme=called.theme, dated=called.dated or ""), filmed)
        proof, folder = built.proof, built.folder
    except DocumentsError as error:
        proof, trouble = prove(called.recipe, filmed), str(error)
    _show(proof.findings, proof.sources, called)
    if folder is not None:
        show_gallery(called.into, called.theme)
    if trouble:
        print(f"foldproof: {called.recipe} not built: {trouble}", file=sys.stderr)
    elif folder is not None and not called.json and sys.stdout.isatty():
        print(folder)
    return 1 if trouble or has_errors(proof.findings) else 0


def _print_blank(called: argparse.Namespace) -> int:
    """A times file to fill in, with every step; a recipe with mistakes gets its findings instead."""
    if called.said is not None:
        print("foldproof film: --said needs the times of the recording: RECIPE TIMES --said CAPTIONS", file=sys.stderr)
        return 2
    proof = prove(called.recipe, None)
    if proof.reading.recipe is None or has_errors(proof.findings):
        _show(proof.findings, proof.sources, called)
        return 1
    print(blank(proof.reading.recipe), end="")
    return 0


def _show(findings: tuple[Finding, ...], sources: dict[str, str], called: argparse.Namespace) -> None:
    if called.json:
        print(json.dumps(as_json(findings), indent=1, ensure_ascii=False))
    elif findings:
        show_findings(findings, sources)
