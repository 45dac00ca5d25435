"""Looking for plans of the same construction that what lies on the table can still become."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from foldproof.checks.catalogue import run_checks
from foldproof.checks.directions.check import TURN_UNSAID
from foldproof.checks.prose import UNSAID
from foldproof.findings.finding import Finding, Severity, has_errors
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Bonded, Making, StepMade
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.writing import write_number
from foldproof.origins.uses import quantities_of
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Ring, Segment
from foldproof.recipe.actions import Attach, FoldOn
from foldproof.recipe.reader import read_text
from foldproof.recipe.records import Across, LayerSpec, PlaceOn, Recipe, Rectangle, ScoreSpec, Shape, Up
from foldproof.refit.hands import distances, said
from foldproof.refit.referents import placed_length
from foldproof.refit.steps import refit_promise, refit_steps
from foldproof.rescue.slip import Moment, Slip, moment_of
from foldproof.rescue.trimming import Saved, saved_for

MOST_OPTIONS = 3
_OF_WORDS = (UNSAID.name, TURN_UNSAID.name)
"""What is told of steps whose words are left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """A way to save the card, proved."""

    changed: str | None
    """The measure that has another value; None where the card simply stays as it was made."""
    before: Fraction
    after: Fraction
    """Of the measure, or of the slipped number, in the recipe's unit."""
    saved: Saved
    card: Card
    making: Making
    """What is still to be done, on the new plan."""
    warnings: tuple[Finding, ...]
    """What is not as good as it was, each named once."""

    @property
    def recipe(self) -> Recipe:
        """The card that comes of it."""
        return self.card.recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class _Trial:
    recipe: Recipe
    changed: str | None
    before: Fraction
    after: Fraction


def options(card: Card, making: Making, slip: Slip) -> tuple[Option, ...]:
    """The best ways to save the card, from little to much changed; none where nothing helps.

    Ways that leave nothing to warn of come first; the others are given only where there is no such way. Looking ends
    with the first way that changes no number and needs no paper.
    """
    moment = moment_of(card, making, slip)
    clean: list[Option] = []
    with_warnings: list[Option] = []
    for trial in _trials(card, slip, moment):
        option = _tried(card, making, moment, trial)
        if option is None or any(_alike(one, option) for one in clean):
            continue
        (with_warnings if option.warnings else clean).append(option)
        if len(clean) == MOST_OPTIONS or (clean and option.changed is None and not option.saved.anew):
            break
    return tuple(clean or with_warnings[:MOST_OPTIONS])


def _alike(one: Option, other: Option) -> bool:
    return (one.changed == other.changed and one.after == other.after) or (
        one.changed is not None and one.changed == other.changed)


def _trials(card: Card, slip: Slip, moment: Moment) -> Iterator[_Trial]:
    yield _Trial(recipe=card.recipe, changed=None, before=slip.parameter.value, after=slip.parameter.value)
    kept = _kept_as_made(card, slip, moment)
    if kept is not None:
        yield _Trial(recipe=kept, changed=None, before=slip.parameter.value, after=slip.made)
    measures = [measure for measure in card.recipe.measures if measure.name.value in _behind(card, moment)]
    for amount in amounts(card.recipe.unit):
        for sign in (-1, 1):
            for measure in measures:
                value = measure.value.value + sign * amount
                recipe = with_measure(card.recipe, measure.value, value) if value > 0 else None
                if recipe is not None:
                    yield _Trial(recipe=recipe, changed=measure.name.value, before=measure.value.value, after=value)


def _behind(card: Card, moment: Moment) -> set[str]:
    """The lengths that were measured by themselves and that the piece which slipped leans on."""
    measures = {measure.name.value: measure.value for measure in card.recipe.measures}
    piece = card.piece(moment.slipped.piece) if moment.slipped.piece is not None else None
    waiting = [name for quantity in quantities_of(piece.spec) for name in quantity.names] if piece is not None else []
    behind: set[str] = set()
    while waiting:
        name = waiting.pop()
        if name in measures and name not in behind:
            behind.add(name)
            waiting += measures[name].names
    return {name for name in behind if measures[name].witness and measures[name].kind is Kind.LENGTH}


def amounts(unit: Unit) -> tuple[Fraction, ...]:
    """How far a measure is moved, from little to much: by 1/32 to 1/2 in, or by 1/2 to 12 mm."""
    if unit is Unit.INCH:
        return tuple(Fraction(n, 32) for n in range(1, 17))
    return tuple(Fraction(n, 2) / (10 if unit is Unit.CM else 1) for n in range(1, 25))


def with_measure(recipe: Recipe, measure: Quantity, value: Fraction) -> Recipe | None:
    """The recipe with another value for a measure, all that leans on it reckoned anew; None where it cannot be read."""
    lines = recipe.texts[measure.place.file].split("\n")
    row, start = measure.place.line - 1, measure.place.column - 1
    if not lines[row].startswith(measure.written, start):
        return None
    unit = {Unit.INCH: "in", Unit.MM: "mm", Unit.CM: "cm"}[recipe.unit]
    fresh = f"{write_number(value)} {unit}"
    lines[row] = lines[row][:start] + fresh + lines[row][start + len(measure.written):]
    texts = {**recipe.texts, measure.place.file: "\n".join(lines)}
    reading = read_text(texts[recipe.file], recipe.file, lambda file: (texts[file], ()))
    return reading.recipe if reading.whole else None


def _kept_as_made(card: Card, slip: Slip, moment: Moment) -> Recipe | None:
    """The recipe whose plan is what was made: the score where it is, the piece as it was cut, the layer where it lies.

    None where the plan has nothing that the slip could have become.
    """
    recipe, done = card.recipe, moment.slipped
    if isinstance(done.action, Attach):
        made_bond = done.after.bonds[-1]
        return replace(recipe, layers=tuple(_relaid(card, layer, made_bond) for layer in recipe.layers))
    if done.piece is None or done.piece not in done.after.pieces:
        return None
    made = done.after.pieces[done.piece]
    planned = {frozenset((score.segment.start, score.segment.end))
               for piece in card.pieces if piece.name == done.piece for score in piece.scores}
    stray = [c.segment for c in made.creases if frozenset((c.segment.start, c.segment.end)) not in planned]
    pieces = tuple(
        replace(spec, shape=_resized(spec.shape, made.outline),
                scores=tuple(_moved(score, slip, stray) for score in spec.scores))
        if spec.name.value == done.piece else spec for spec in recipe.pieces)
    layers = tuple(
        replace(spec, shape=_resized(spec.shape, made.outline)) if spec.name.value == done.piece else spec
        for spec in recipe.layers)
    return replace(recipe, pieces=pieces, layers=layers)


def _resized(shape: Shape, outline: Ring) -> Shape:
    if not isinstance(shape, Rectangle):
        return shape
    box = bounding_box(outline)
    return Rectangle(width=said(shape.width, box.width), height=said(shape.height, box.height))


def _moved(score: ScoreSpec, slip: Slip, stray: Sequence[Segment]) -> ScoreSpec:
    """The score where it was pressed, when it is the one that was meant: as far off as the slip is."""
    line, off = score.line, abs(slip.made - slip.parameter.value)
    for crease in stray:
        if isinstance(line, Across) and abs(line.at.value - crease.start.x) == off:
            return replace(score, line=Across(at=said(line.at, crease.start.x)))
        if isinstance(line, Up) and abs(line.at.value - crease.start.y) == off:
            return replace(score, line=Up(at=said(line.at, crease.start.y)))
    return score


def _relaid(card: Card, spec: LayerSpec, made: Bonded) -> LayerSpec:
    """The layer where hands put it, by its distances from the left and the bottom of the panel beneath."""
    bond = next((bond for bond in card.bonds if bond.name == made.name), None)
    if bond is None or spec.name.value != made.name:
        return spec
    now = distances(card, replace(bond, fit=made.fit))
    return replace(spec, at=PlaceOn(
        left=placed_length(now["left"], spec.place), bottom=placed_length(now["bottom"], spec.place),
        turned=spec.at.turned))


def _tried(old: Card, making: Making, moment: Moment, trial: _Trial) -> Option | None:
    """The trial as an option, if the card that comes of it has no error."""
    plan, faults = build_card(trial.recipe)
    if plan is None or has_errors(faults):
        return None
    saved = saved_for(plan, moment.slipped.after)
    if saved is None or not _on_marks(saved, plan):
        return None
    left = (moment.rest, *making.steps[moment.rest.number:])
    rest = refit_steps(old, plan, tuple(map(wordless, left)), saved.table)
    recipe = replace(trial.recipe, finished=refit_promise(trial.recipe.finished, plan), steps=rest.steps)
    made = carry_out(replace(plan, recipe=recipe), saved.table)
    history = (*moment.done[:-1], wordless(moment.done[-1]))
    before = {one.action.score for step in history for one in step.done if isinstance(one.action, FoldOn)}
    scores = {score.place for piece in plan.pieces for score in piece.scores if score.name in before}
    specs = (*(step.spec for step in history), *rest.steps)
    whole = replace(plan, recipe=replace(recipe, steps=specs))
    wordless_ids = {step.spec.id for step in left}
    found = (
        *(finding for finding in made.findings if finding.place not in scores),
        *(finding for finding in run_checks(whole, Making(steps=(*history, *made.steps), findings=()))
          if not (finding.name in _OF_WORDS and finding.step in wordless_ids)))
    if has_errors(found):
        return None
    warnings = {finding.name: finding for finding in found if finding.severity is Severity.WARNING}
    return Option(
        changed=trial.changed, before=trial.before, after=trial.after, saved=saved,
        card=replace(plan, recipe=recipe), making=made, warnings=tuple(warnings.values()))


def _on_marks(saved: Saved, plan: Card) -> bool:
    """Whether what is trimmed can be set by a ruler: in whole 32nds of an inch, or in half millimetres."""
    unit = plan.recipe.unit
    mark = {Unit.INCH: Fraction(1, 32), Unit.MM: Fraction(1, 2), Unit.CM: Fraction(1, 20)}[unit]
    return all((amount / mark).denominator == 1 for trim in saved.trims for _, amount in trim.sides)


def wordless(step: StepMade) -> StepMade:
    """A part of a step without its words, which speak of the whole of it."""
    spec = step.spec
    shots = tuple(replace(shot, say=None) for shot in spec.shots)
    return replace(step, spec=replace(
        spec, actions=tuple(one.action for one in step.done), text=replace(spec.text, value=""), say=None, tip=None,
        shots=shots))
