"""The rescue command: a slip of the hand, and how the card is saved."""

import argparse
import sys
from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path

from foldproof.checks.parameters import parameters
from foldproof.findings.finding import Finding, Place
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind, Unit
from foldproof.measures.reading import read_quantity
from foldproof.measures.writing import with_unit, write_size
from foldproof.pipeline import prove
from foldproof.recipe.records import Recipe
from foldproof.rescue.search import Option, options
from foldproof.rescue.slip import Slip, moment_of, only_a_mark, slips_like
from foldproof.rescue.telling import changes
from foldproof.shell import show_findings

SAVED, LOST, WRONG_CALL = 0, 1, 2


class _WrongCall(Exception):
    """What is wrong with the call, in one line."""


def add_rescue_command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "rescue", help="tell how a card is saved after a slip of the hand",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Tell whether a card can be saved after a slip, and how: what to trim, which numbers are others\n"
        "from there on, what it closes to. Every way is folded and carried out like any card before it is told.",
        epilog='examples:\n  foldproof rescue recipes/tide-gate.yaml 2 "2 1/8" "2 1/4"\n'
        "                       in step 2 the score that belongs at 2 1/8 was made at 2 1/4\n"
        '  foldproof rescue recipes/tide-gate.yaml 1 "8 1/2" "8 7/16"\n'
        "                       in step 1 the piece was cut 1/16 too short\n\n"
        "exit status: 0 when there is a way, 1 when there is none, 2 for a wrong call")
    command.add_argument("recipe", type=Path, metavar="RECIPE", help="the card")
    command.add_argument("step", type=int, metavar="STEP", help="the number of the step, as in the handout")
    command.add_argument("meant", metavar="MEANT", help="the number of the step that was meant")
    command.add_argument("made", metavar="MADE", help="what was made instead")
    command.add_argument(
        "--time", type=int, default=1, metavar="N", help="which one, where the step has that number several times (1)")


def run_rescue(called: argparse.Namespace) -> int:
    """Look for ways to save the card and print them."""
    proof = prove(called.recipe)
    if not proof.sound or proof.card is None or proof.making is None:
        show_findings(proof.findings, proof.reading.texts)
        print("foldproof rescue: the recipe itself has errors; mend them first", file=sys.stderr)
        return LOST
    try:
        slip = _slip(proof.card, proof.making, called)
    except _WrongCall as wrong:
        print(f"foldproof rescue: {wrong}", file=sys.stderr)
        return WRONG_CALL
    card, making = proof.card, proof.making
    moment = moment_of(card, making, slip)
    if only_a_mark(moment):
        print("Only a pencil mark stands in the wrong place: rub it out and make it again. Nothing is lost.")
        return SAVED
    found = options(card, making, slip)
    print("\n".join(_told(card, making, slip, found)))
    return SAVED if found else LOST


def _slip(card: Card, making: Making, called: argparse.Namespace) -> Slip:
    recipe = card.recipe
    if not 1 <= called.step <= len(making.steps):
        raise _WrongCall(f"there is no step {called.step}; {recipe.title} has steps 1 to {len(making.steps)}")
    meant, made = _length(recipe, called.meant, "MEANT"), _length(recipe, called.made, "MADE")
    if meant == made:
        raise _WrongCall(f"{with_unit(meant, recipe.unit)} was meant and made: there is no slip")
    if made <= 0:
        raise _WrongCall("what was made has to be more than nothing")
    inch = Unit.INCH.millimetres / recipe.unit.millimetres
    if abs(made - meant) > inch:
        raise _WrongCall(f"{with_unit(abs(made - meant), recipe.unit)} is no slip: it is more than an inch")
    slips = tuple(slips_like(making, called.step, meant, made))
    if not slips:
        numbers = _numbers(card, making, called.step)
        told = f"; its cuts, scores and places are {', '.join(numbers)}" if numbers else ""
        raise _WrongCall(f"no cut, score, mark or place of step {called.step} has "
                         f"{with_unit(meant, recipe.unit)}{told}")
    if not 1 <= called.time <= len(slips):
        raise _WrongCall(f"step {called.step} has that number {len(slips)} times; --time is 1 to {len(slips)}")
    chosen: int = called.time - 1
    return slips[chosen]


def _length(recipe: Recipe, text: str, name: str) -> Fraction:
    place = Place(file=name, line=1, column=1, length=max(1, len(text)))
    names = {measure.name.value: measure.value for measure in recipe.measures}
    read = read_quantity(text, place=place, kind=Kind.LENGTH, unit=recipe.unit, names=names)
    if isinstance(read, Finding):
        raise _WrongCall(f"{name}: {read.message} {read.mend or ''}".rstrip())
    return read.value


def _numbers(card: Card, making: Making, step: int) -> tuple[str, ...]:
    return tuple(dict.fromkeys(
        with_unit(one.value, card.recipe.unit) for one in parameters(making.steps[step - 1].spec)
        if one.kind is Kind.LENGTH))


def _told(card: Card, making: Making, slip: Slip, found: Sequence[Option]) -> Iterator[str]:
    unit, step = card.recipe.unit, making.steps[slip.step - 1]
    meant, made = with_unit(slip.parameter.value, unit), with_unit(slip.made, unit)
    yield (f"{card.recipe.title}, step {step.number}, {step.spec.title}: the {slip.parameter.what} is {made}, "
           f"not {meant}.")
    if not found:
        yield ("No way to save it was found: not as it is, and not with any one measure of the recipe changed by up to "
               f"{'1/2 in' if unit is Unit.INCH else '12 mm'} and the edges trimmed.")
        yield "Cut the piece again; what was spoiled may still serve for a smaller part."
        return
    yield "It can be saved." if len(found) == 1 else f"It can be saved in {len(found)} ways."
    for number, option in enumerate(found, start=1):
        yield ""
        yield from _way(card, making, slip, option, f"{number}. " if len(found) > 1 else "")


def _way(card: Card, making: Making, slip: Slip, option: Option, number: str) -> Iterator[str]:
    unit = card.recipe.unit
    first: list[str] = []
    for trim in option.saved.trims:
        sides = " and ".join(f"{with_unit(amount, unit)} off its {side} edge" for side, amount in trim.sides)
        first.append(f"Trim the {trim.piece}, front up and upright: {sides}.")
    for name in option.saved.anew:
        first.append(f"Cut the {name} again.")
    if option.changed is not None:
        first.append(f"The card is made with a {option.changed} of {with_unit(option.after, unit)} instead of "
                     f"{with_unit(option.before, unit)}.")
    elif option.after != option.before:
        first.append("Leave it as it was made.")
    yield f"{number}{' '.join(first)}"
    others = tuple(changes(card, making, option, slip.step))
    if others:
        yield "   From here on:"
        yield from (f"   - {line}" for line in others)
    else:
        yield "   Every number that follows stays as it is."
    closed, was = option.card.closed, card.closed
    if closed is not None:
        envelope = card.recipe.finished.envelope
        goes = f" and goes into its {envelope} envelope" if envelope is not None else ""
        still = " still" if was is not None and (closed.width, closed.height) == (was.width, was.height) else ""
        yield f"   It{still} closes to {write_size((closed.width, closed.height), unit)}{goes}."
    for warning in option.warnings:
        yield f"   But: {warning.message}"
