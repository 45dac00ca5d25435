"""Every place of a card where a number stands: in the recipe, in what the geometry makes of it, in steps and words."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from foldproof.checks.binding import Bound, Sense
from foldproof.checks.prose import bind_card, called, passages_of
from foldproof.findings.finding import Place
from foldproof.folding.card import Card, FlatPose
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind, Quantity
from foldproof.origins.paths import Paths
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.parts import every
from foldproof.recipe.pinpoint import words_round
from foldproof.recipe.records import Recipe
from foldproof.recipe.references import write


class Where(StrEnum):
    """What sort of place a use stands in; in the order in which they are told."""

    MEASURE = "named measures"
    PLAN = "the plan and the promises"
    RESULT = "what the geometry comes to"
    ACTION = "actions of the steps"
    DRAWING = "lengths drawn in the pictures of the steps"
    SENTENCE = "sentences"


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """One place where a number is used."""

    where: Where
    what: str
    """In plain words."""
    place: Place | None = None
    """Where the recipe says it; None for what was reckoned."""
    written: str = ""
    """As the author wrote it."""
    because: tuple[str, ...] = ()
    """The measures that it was reckoned from, those that they lean on after them."""
    comes_to: str = ""
    """Its value where that is not the number looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """The number that is looked for."""

    value: Fraction
    """A length in the recipe's unit, a time in seconds, an angle in degrees."""
    kind: Kind

    def is_(self, quantity: Quantity) -> bool:
        """Whether a quantity is this number; a sign says a direction only."""
        return quantity.kind is self.kind and abs(quantity.value) == abs(self.value)


def uses_in_recipe(recipe: Recipe, sought: Sought) -> tuple[Use, ...]:
    """Where the recipe itself gives the number, plainly or by arithmetic, and what leans on a measure of that value."""
    paths = Paths(recipe.texts)
    measures = {measure.name.value: measure.value for measure in recipe.measures}
    found = [
        Use(where=Where.MEASURE, what=measure.name.value, place=measure.value.place, written=measure.value.written,
            because=tuple(_because(measure.value, measures)))
        for measure in recipe.measures if sought.is_(measure.value)
    ]
    for quantity in quantities_of(recipe):
        keys = paths.to(quantity.place)
        if not sought.is_(quantity) or keys[:1] in (("measures",), ()):
            continue
        where = Where.ACTION if keys[0] == "steps" and "do" in keys else Where.PLAN
        found.append(Use(
            where=where, what=", ".join(keys), place=quantity.place, written=quantity.written,
            because=tuple(_because(quantity, measures))))
    return tuple(dict.fromkeys(found))


def leaning_on(recipe: Recipe, sought: Sought) -> tuple[Use, ...]:
    """Numbers of another value that are reckoned from a measure of this one: what changes when it changes."""
    paths = Paths(recipe.texts)
    measures = {measure.name.value: measure.value for measure in recipe.measures}
    roots = {name for name, value in measures.items() if sought.is_(value)}
    found = []
    for quantity in quantities_of(recipe):
        if not sought.is_(quantity) and roots & _names_behind(quantity, measures):
            keys = paths.to(quantity.place)
            where = Where.MEASURE if keys[:1] == ("measures",) else Where.PLAN
            found.append(Use(
                where=where, what=", ".join(keys), place=quantity.place, written=quantity.written,
                because=tuple(_because(quantity, measures)), comes_to=write(quantity, recipe.unit)))
    return tuple(dict.fromkeys(found))


def uses_in_card(card: Card, making: Making, sought: Sought) -> tuple[Use, ...]:
    """Where the folded card, the pictures and the words have it."""
    reckoned = dict.fromkeys(_results(card, sought)) if sought.kind is Kind.LENGTH else {}
    return (*reckoned, *_drawn(making, sought), *_said(card, sought))


def quantities_of(thing: object) -> Iterator[Quantity]:
    """Every quantity in a record, in the order of its fields."""
    return every(Quantity, thing)


def _because(quantity: Quantity, measures: Mapping[str, Quantity]) -> Iterator[str]:
    """Each measure that it was reckoned from, those that it leans on after it, each once."""
    told: set[str] = set()
    waiting = list(quantity.names)
    while waiting:
        name = waiting.pop(0)
        if name not in told and name in measures:
            told.add(name)
            yield name
            waiting += measures[name].names


def _names_behind(quantity: Quantity, measures: Mapping[str, Quantity]) -> set[str]:
    return set(_because(quantity, measures))


def _results(card: Card, sought: Sought) -> Iterator[Use]:
    """Widths and heights that follow from the plan."""
    def sized(what: str, width: Fraction, height: Fraction) -> Iterator[Use]:
        for side, value in (("width", width), ("height", height)):
            if value == abs(sought.value):
                yield Use(where=Where.RESULT, what=f"the {side} of {what}")

    for piece in card.pieces:
        box = bounding_box(piece.outline)
        yield from sized(f"the {'layer' if piece.layer else 'piece'} {piece.name}", box.width, box.height)
        if len(piece.panels) > 1:
            for name in piece.panels:
                panel = bounding_box(card.panels[name].ring)
                yield from sized(f"the panel {name}", panel.width, panel.height)
    for pose in card.poses:
        if isinstance(pose, FlatPose):
            yield from sized(f"the card in the pose {pose.name}", pose.width, pose.height)
            for meeting in pose.meetings:
                if meeting.gap and abs(meeting.gap) == abs(sought.value):
                    how = "gap" if meeting.gap > 0 else "overlap"
                    yield Use(where=Where.RESULT,
                              what=f"the {how} of {meeting.panels[0]} and {meeting.panels[1]} in the pose {pose.name}")


def _drawn(making: Making, sought: Sought) -> Iterator[Use]:
    for step in making.steps:
        for done in step.done:
            for dimension in done.dimensions:
                if sought.is_(dimension.measure):
                    yield Use(
                        where=Where.DRAWING, place=dimension.measure.place,
                        what=f"step {step.number}, {step.spec.title}: a length on {dimension.piece}")


def _said(card: Card, sought: Sought) -> Iterator[Use]:
    for number, (step, binding) in enumerate(zip(card.recipe.steps, bind_card(card), strict=True), start=1):
        texts = {name: text.value for name, text in passages_of(step)}
        for passage in binding.passages:
            for bound in passage.bound:
                mention = bound.mention
                if mention.kind is sought.kind and abs(mention.value) == abs(sought.value):
                    yield Use(
                        where=Where.SENTENCE, place=mention.place, written=mention.written,
                        what=f"step {number}, {step.title}, its {called(passage.name)}: "
                             f"“{words_round(texts[passage.name], mention.start, mention.end)}”{_stands_for(bound)}")


def _stands_for(bound: Bound) -> str:
    if bound.sense is Sense.PARAMETER and bound.parameter is not None:
        return f", the {bound.parameter.what}"
    if bound.sense is Sense.REPEAT and bound.parameter is not None:
        return f", the {bound.parameter.what} once more"
    return {Sense.KNOWN: ", a size of the card", Sense.CONVERSION: ", a conversion",
            Sense.LOOSE: ", bound to nothing"}.get(bound.sense, ", and it is not this step's")
