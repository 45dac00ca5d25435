"""`foldproof class`: recipes and the teacher's own files in, one class plan out."""

import argparse
import hashlib
import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from foldproof import __version__
from foldproof.classroom.class_plan import SECONDS_A_PAPER, plan_class
from foldproof.classroom.lesson import Lesson, Wanted
from foldproof.classroom.own_files import read_own
from foldproof.documents.theme_folders import add_theme
from foldproof.documents.trouble import DocumentsError
from foldproof.findings.finding import Finding, has_errors
from foldproof.findings.show import as_json, in_order
from foldproof.pipeline import prove
from foldproof.shell import add_own_files, show_findings, show_gallery

MOST_CARDS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassOutcome:
    """What became of a call."""

    findings: tuple[Finding, ...]
    sources: dict[str, str]
    folder: Path | None
    trouble: str | None = None


def add_class_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "class",
        help="plan a class: kits, cutting, shopping, cost, time",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Plan a class that makes one card or several: class.pdf, class.csv and class.json, with kits, a\n"
        "cutting plan proved to give every part, a shopping list, the cost, a time line and cautions.",
        epilog="examples:\n  foldproof class recipes/tide-gate.yaml --people 12\n"
        "  foldproof class recipes/tide-gate.yaml recipes/beacon.yaml --people 8 --stock shelf.yaml\n\n"
        "exit status: 0 when all is sound, 1 when a recipe has errors, 2 for a wrong call",
    )
    command.add_argument("recipes", nargs="+", type=Path, metavar="RECIPE", help="the cards of the class")
    command.add_argument("--people", type=int, metavar="N", help="how many come; the recipe's own number without it")
    command.add_argument("--spares", type=int, metavar="N", help="kits beyond one for each person")
    add_own_files(command)
    command.add_argument(
        "--seconds",
        type=_some_seconds,
        default=SECONDS_A_PAPER,
        metavar="N",
        help=f"the longest search for the cutting plan of a paper ({SECONDS_A_PAPER:g})",
    )
    command.add_argument("--json", action="store_true", help="print the findings only, as one JSON value")
    command.add_argument("--into", type=Path, default=Path("build"), metavar="DIR", help="the output folder (build)")
    add_theme(command)
    command.add_argument("--dated", metavar="DATE", help="a date to print; none without it")


def _some_seconds(text: str) -> float:
    try:
        seconds = float(text)
    except ValueError:
        seconds = 0.0
    if not 0.1 <= seconds <= 3_600:
        raise argparse.ArgumentTypeError(f"{text!r} is no number of seconds from 0.1 to 3600")
    return seconds


def run_class(called: argparse.Namespace) -> int:
    """Plan the class, print the findings; 0 when it was planned, 1 when something is wrong."""
    recipes = tuple(dict.fromkeys(called.recipes))
    if len(recipes) > MOST_CARDS:
        print(f"foldproof class: {len(recipes)} cards; at most {MOST_CARDS} are planned together", file=sys.stderr)
        return 2
    outcome = make_class(recipes, called)
    if outcome.folder is not None:
        show_gallery(called.into, called.theme)
    if called.json:
        print(json.dumps(as_json(outcome.findings), indent=1, ensure_ascii=False))
    elif outcome.findings:
        show_findings(outcome.findings, outcome.sources)
    if outcome.trouble:
        print(f"foldproof: the class plan is not built: {outcome.trouble}", file=sys.stderr)
    elif outcome.folder is not None and not called.json and sys.stdout.isatty():
        print(outcome.folder)
    return 1 if outcome.trouble or has_errors(outcome.findings) else 0


def make_class(recipes: Sequence[Path], called: argparse.Namespace) -> ClassOutcome:
    """Prove the cards, read the teacher's files, plan, and put the documents into place."""
    findings: list[Finding] = []
    sources: dict[str, str] = {}
    lessons: list[Lesson] = []
    for recipe in recipes:
        proof = prove(recipe)
        findings += proof.findings
        sources |= proof.reading.texts
        if proof.sound and proof.card is not None and proof.making is not None:
            lessons.append(Lesson(card=proof.card, making=proof.making))
    own = read_own(called.stock, called.desk)
    findings += own.findings
    sources |= own.sources
    if has_errors(tuple(findings)) or len(lessons) < len(recipes):
        return ClassOutcome(findings=_told(findings), sources=sources, folder=None)
    wanted = Wanted(people=called.people, spares=called.spares)
    plan, more = plan_class(lessons, wanted, stock=own.stock, desk=own.desk, seconds=called.seconds)
    findings += more
    if plan is None:
        return ClassOutcome(findings=_told(findings), sources=sources, folder=None)
    from foldproof.documents.class_plan import class_set
    from foldproof.documents.hush import hushed
    from foldproof.documents.placing import place
    from foldproof.documents.theme_chosen import chosen

    try:
        with hushed():
            theme = chosen(called.theme, lessons[0].card.recipe, recipes[0].parent)
            files = class_set(plan, theme, tuple(sources.values()), __version__, called.dated or "")
        folder = place(files, called.into, folder_name([lesson.card.recipe.name for lesson in lessons]))
    except DocumentsError as error:
        return ClassOutcome(findings=_told(findings), sources=sources, folder=None, trouble=str(error))
    return ClassOutcome(findings=_told(findings), sources=sources, folder=folder)


def _told(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """In order, each once; the recipe's own advice on prices gives way to the plan's."""
    return in_order(tuple(dict.fromkeys(findings)))


def folder_name(names: Sequence[str]) -> str:
    """`class-NAME` or `class-NAME-and-NAME`; short for many cards."""
    name = "class-" + "-and-".join(names)
    if len(name) <= 80:
        return name
    return f"class-of-{len(names)}-cards-" + hashlib.sha256(name.encode()).hexdigest()[:8]
