"""The words against the hands: each number in a step's prose is the number of its action whose turn it is."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from math import floor, log10

from foldproof.checks.binding import Bound, Passage, Sense, StepBinding, bind
from foldproof.checks.check import error, warning
from foldproof.checks.known import known_sizes
from foldproof.checks.mentions import Mention, mentions_in
from foldproof.checks.parameters import Parameter, parameters
from foldproof.checks.phrases import length, listed
from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind, Unit
from foldproof.measures.rounding import half_even
from foldproof.recipe.pinpoint import words_round
from foldproof.recipe.records import StepSpec, Text
from foldproof.recipe.references import references

WRONG_NUMBER = error(
    "number that is not this step's", "The words of a step give a number that none of its actions has in that place.")
SWAPPED = error("numbers out of order", "The words of a step give its numbers in another order than its actions.")
WRONG_CONVERSION = error(
    "conversion that is wrong", "A number in another unit is not the number before it, as far as its digits go.")
UNSAID = warning(
    "number missing from the text", "A cut, a mark or a score of a step is not in its text, so a reader lacks it.")


def passages_of(step: StepSpec) -> Iterator[tuple[str, Text]]:
    """The passages whose numbers are bound, each for itself. A caution speaks of other things."""
    yield "title", step.title
    yield "text", step.text
    if step.say is not None:
        yield "say", step.say
    if step.tip is not None:
        yield "tip", step.tip
    for number, shot in enumerate(step.shots, 1):
        if shot.say is not None:
            yield f"shot {number}", shot.say


def bind_step(card: Card, step: StepSpec) -> StepBinding:
    """Every number in the words of a step, with what it stands for."""
    known, found = known_sizes(card, step), parameters(step)
    unit = card.recipe.unit
    return StepBinding(step=step.id, parameters=found, passages=tuple(
        bind(name, mentions_in(text, name, unit, card.recipe.texts), found, known) for name, text in passages_of(step)))


def bind_card(card: Card) -> tuple[StepBinding, ...]:
    """All steps, in order."""
    return tuple(bind_step(card, step) for step in card.recipe.steps)


def check_words(card: Card, making: Making) -> Iterable[Finding]:
    """Each length, time, angle in a step's words is bound to a number of its actions, in order of mention."""
    for step, binding in zip(card.recipe.steps, bind_card(card), strict=True):
        for passage in binding.passages:
            yield from (_fault(card, step, passage, bound) for bound in passage.bound
                        if bound.sense in (Sense.UNBOUND, Sense.OUT_OF_ORDER))
            for bound in passage.bound:
                if bound.sense is Sense.CONVERSION and not converts(bound, card.recipe.unit):
                    yield _wrong_conversion(card, step, passage, bound)
        yield from _unsaid(card, step, binding)


def _fault(card: Card, step: StepSpec, passage: Passage, bound: Bound) -> Finding:
    mention, meant = bound.mention, bound.parameter
    who = f"The {called(passage.name)} of the step {step.title}"
    asides = (Aside(text=f"the {meant.what}: {said(card, meant)}", place=meant.place),) if meant is not None else ()
    where = _excerpt(step, passage.name, mention)
    if bound.sense is Sense.OUT_OF_ORDER and meant is not None:
        other = bound.of
        turn = ""
        if other is not None:
            asides = (*asides, Aside(text=f"it changes places with {other.written}", place=other.place))
            first, second = (mention, other) if other.start < mention.start else (other, mention)
            turn = f": hands meet {first.written} before {second.written}"
        return SWAPPED.finding(
            f"{who} says {mention.written}{where} out of its turn{turn}. It is the {meant.what}.",
            mend="Say the numbers in the order in which hands meet them, or change the actions.",
            place=mention.place, asides=asides, step=step.id)
    if meant is None:
        return WRONG_NUMBER.finding(
            f"{who} says {mention.written}{where}, and no action of the step has a number like it.",
            mend=f"Take it out, or give the step the action that it belongs to. {_for_others(mention)}",
            place=mention.place, step=step.id)
    return WRONG_NUMBER.finding(
        f"{who} says {mention.written}{where}; the {meant.what} is {said(card, meant)}"
        f"{_off(card, mention, meant)}.",
        mend=f"Say {said(card, meant)}, or change the action. {_for_others(mention)}",
        place=mention.place, asides=asides, step=step.id)


def _for_others(mention: Mention) -> str:
    if mention.kind is not Kind.LENGTH:
        return "A number that is only a guide may be said with `about`."
    return ("A number that belongs to something else may be left out, said with `about`, or checked by a `measure` of "
            "the step.")


def _off(card: Card, mention: Mention, meant: Parameter) -> str:
    if mention.kind is not Kind.LENGTH:
        return ""
    return f", {length(card, mention.value - meant.value)} {'less' if meant.value < mention.value else 'more'}"


def called(passage: str) -> str:
    """A passage in a sentence, after `the`."""
    if passage.startswith("shot "):
        return f"line of {passage}"
    return {"say": "line to speak"}.get(passage, passage)


def _excerpt(step: StepSpec, passage: str, mention: Mention) -> str:
    """The words round a number, so that it is found without counting columns."""
    text = dict(passages_of(step))[passage].value
    return f" (“{words_round(text, mention.start, mention.end)}”)"


def said(card: Card, parameter: Parameter) -> str:
    """A parameter as prose says it."""
    if parameter.kind is Kind.LENGTH:
        return length(card, parameter.value)
    if parameter.kind is Kind.ANGLE:
        return f"{parameter.value} degrees"
    seconds = parameter.value
    for size, word in ((3600, "hour"), (60, "minute")):
        if seconds % size == 0 and seconds:
            return f"{seconds / size} {word}{'' if seconds == size else 's'}"
    return f"{seconds} seconds"


def converts(bound: Bound, unit: Unit) -> bool:
    """Whether a number in another unit is the one before it, rounded half to even to the digits that it is given in.

    A decimal is as fine as its last digit; inches as fractions are as fine as their denominator.
    """
    mention, first = bound.mention, bound.of
    assert first is not None
    own = {"in": Unit.INCH, "mm": Unit.MM, "cm": Unit.CM}.get(mention.unit or "")
    if own is None:
        return mention.value == first.value
    ratio = unit.millimetres / own.millimetres
    printed, exact = mention.value * ratio, first.value * ratio
    step = _fineness(mention.written, printed)
    return printed in (exact, half_even(exact / step, 0) * step)


def _fineness(written: str, value: Fraction) -> Fraction:
    figures = written.split()[0]
    if "." in figures:
        return Fraction(1, 10 ** len("".join(c for c in figures.split(".")[1] if c.isdigit())))
    return Fraction(1, value.denominator) if value.denominator > 1 else Fraction(1)


def _wrong_conversion(card: Card, step: StepSpec, passage: Passage, bound: Bound) -> Finding:
    mention, first = bound.mention, bound.of
    assert first is not None
    own = {"in": Unit.INCH, "mm": Unit.MM, "cm": Unit.CM}.get(mention.unit or "", card.recipe.unit)
    ratio = card.recipe.unit.millimetres / own.millimetres
    step_size = _fineness(mention.written, mention.value * ratio)
    right = half_even(first.value * ratio / step_size, 0) * step_size
    digits = max(0, -floor(log10(step_size))) if step_size < 1 else 0
    shown = f"{float(right):.{digits}f}" if own is not Unit.INCH else length(card, right).removesuffix(" in")
    return WRONG_CONVERSION.finding(
        f"The {called(passage.name)} of the step {step.title} says {first.written} and then {mention.written}; "
        f"{first.written} is {shown} {mention.unit}.",
        mend=f"Write {shown} {mention.unit}, or leave the conversion to the metric edition.",
        place=mention.place, asides=(Aside(text="the number that it converts", place=first.place),), step=step.id)


def _unsaid(card: Card, step: StepSpec, binding: StepBinding) -> Iterator[Finding]:
    """Cuts, marks and scores that neither the text nor the title says, in a number or by a reference."""
    in_title = _passage(binding, "title").unsaid
    missing = [one for one in _passage(binding, "text").unsaid if one.needed and one in in_title]
    names = {name for _, text in passages_of(step) for name in references(text.value)}
    filled = {measure.value.value for measure in card.recipe.measures if measure.name.value in names}
    missing = [one for one in missing if one.value not in filled]
    faults = [bound for bound in _passage(binding, "text").bound if bound.sense in (Sense.UNBOUND, Sense.OUT_OF_ORDER)]
    if missing and not faults:
        told = dict.fromkeys(f"the {one.what}, {said(card, one)}" for one in missing)
        yield UNSAID.finding(
            f"The text of the step {step.title} does not say {listed(told)}.",
            mend="Say it: someone who follows the text alone would lack it.", place=step.text.place, step=step.id,
            asides=tuple(Aside(text=f"the {one.what}", place=one.place) for one in missing))


def _passage(binding: StepBinding, name: str) -> Passage:
    return next(passage for passage in binding.passages if passage.name == name)
