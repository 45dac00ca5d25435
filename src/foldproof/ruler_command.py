"""The ruler command: what a ruler says of a finished card, and which step went off."""

import argparse
import sys
from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path

from foldproof.findings.finding import Finding
from foldproof.findings.nearest import nearest
from foldproof.folding.card import Card
from foldproof.measures.quantity import Kind
from foldproof.measures.reading import read_quantity
from foldproof.measures.writing import with_unit
from foldproof.pipeline import prove
from foldproof.recipe.records import Recipe
from foldproof.shell import show_findings
from foldproof.tolerance.outcomes import told
from foldproof.tolerance.ruler import Cause, Diagnosis, Measurable, diagnose, fineness, measurable
from foldproof.tolerance.settings import Setting

FOUND, NOT_FOUND, WRONG_CALL = 0, 1, 2


class _WrongCall(Exception):
    """What is wrong with the call, in one line."""


def add_ruler_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "ruler", help="tell which step went off, from what a ruler says of a finished card",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Lists what can be measured on a finished card and what a ruler should say. With readings, tells\n"
        "which setting of which step was off, and by how much, that explains all of them; and what to measure next\n"
        "where several do. Measure what came out right, too: it tells which steps were sound.",
        epilog="examples:\n  foldproof ruler recipes/tide-gate.yaml\n"
        '  foldproof ruler recipes/tide-gate.yaml "width of left door: 2 1/16" "width of right door: 2 1/16"\n\n'
        "exit status: 0 when the readings are right or explained, 1 when they are not, 2 for a wrong call")
    command.add_argument("recipe", type=Path, metavar="RECIPE", help="the card")
    command.add_argument("readings", nargs="*", metavar="READING", help="what was measured, a colon, and the length")


def run_ruler(called: argparse.Namespace) -> int:
    """Explain the readings, or list what can be measured."""
    proof = prove(called.recipe)
    if not proof.sound or proof.card is None or proof.making is None:
        show_findings(proof.findings, proof.sources)
        print("foldproof ruler: the recipe itself has errors; mend them first", file=sys.stderr)
        return NOT_FOUND
    card = proof.card
    known = measurable(card)
    if not called.readings:
        print(f"{card.recipe.title}, as a ruler should find it:")
        print(*(f"  {one.name}: {told(card, one.value)}" for one in known), sep="\n")
        return FOUND
    try:
        readings = dict(_reading(text, known, card.recipe) for text in called.readings)
    except _WrongCall as wrong:
        print(f"foldproof ruler: {wrong}", file=sys.stderr)
        return WRONG_CALL
    found = diagnose(card, proof.making, readings)
    print("\n".join(_told(card, known, readings, found)))
    right = all(abs(error) <= fineness(card.recipe.unit) for error in found.off.values())
    return FOUND if right or found.causes else NOT_FOUND


def _reading(text: str, known: Sequence[Measurable], recipe: Recipe) -> tuple[str, Fraction]:
    name, colon, length = text.partition(":")
    words = " ".join(name.replace("the ", " ").split())
    if not colon:
        raise _WrongCall(f"{text!r} has no colon between what was measured and its length: width of base: 8 7/16")
    one = next((each for each in known if each.name.replace("the ", "") == words), None)
    if one is None:
        guess = nearest(words, [each.name for each in known])
        raise _WrongCall(f"nothing is called {words}" + (f"; did you mean {guess}?" if guess else
                                                         "; without a reading the command lists what can be measured"))
    read = read_quantity(length.strip(), place=recipe.place, kind=Kind.LENGTH, unit=recipe.unit, names={})
    if isinstance(read, Finding):
        raise _WrongCall(f"{length.strip()!r} is no length: {read.message}")
    return one.key, read.value


def _told(
    card: Card, known: Sequence[Measurable], readings: dict[str, Fraction], found: Diagnosis,
) -> Iterator[str]:
    unit = card.recipe.unit
    for one in known:
        if one.key in readings:
            error = found.off[one.key]
            how = "as it should be" if abs(error) <= fineness(unit) else (
                f"{told(card, abs(error))} too {'large' if error > 0 else 'small'}; "
                f"it should be {told(card, one.value)}")
            yield f"{one.name}: {with_unit(readings[one.key], unit)}, {how}"
    if all(abs(error) <= fineness(unit) for error in found.off.values()):
        yield "Nothing is off by more than a ruler can be read."
        return
    if not found.causes:
        yield "No error of one setting, or of two, explains this. Measure more, or look for a piece laid the wrong way."
        return
    yield "What explains it" + (", the likeliest first:" if len(found.causes) > 1 else ":")
    yield from (f"  {_cause(card, cause)}" for cause in found.causes)
    if found.ask is not None:
        yield f"To tell the first two apart, measure the {found.ask}."


def _cause(card: Card, cause: Cause) -> str:
    return "; and ".join(_error(card, setting, error) for setting, error in cause.errors)


def _error(card: Card, setting: Setting, error: Fraction) -> str:
    amount = told(card, abs(error))
    if not setting.value:  # a layer that is laid down by eye
        sides = ("right", "left") if setting.spots[0][2] == "across" else ("top", "bottom")
        return f"step {setting.step}: the {setting.what} was {amount} too far to the {sides[error < 0]}"
    made, meant = told(card, setting.value + error), with_unit(setting.value, card.recipe.unit)
    way = "large" if error > 0 else "small"
    return f"step {setting.step}: the {setting.what} was {amount} too {way}, {made} instead of {meant}"
