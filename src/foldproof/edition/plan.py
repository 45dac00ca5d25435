"""The plan in the other unit: its independent lengths at chosen marks, all else by the author's own sums."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from foldproof.checks.envelope import envelope_fit
from foldproof.edition.centring import centred_again
from foldproof.edition.records import in_unit, lengths_of, with_lengths
from foldproof.edition.roundings import Choice, choices
from foldproof.edition.stock import envelope_side, loosely, paper_in, supply_in, tolerance_in
from foldproof.edition.sums import literals, measures_at, worked
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.recipe.edition_records import OtherSizes
from foldproof.recipe.records import FinishedSpec, MeasureSpec, Recipe

MOST_CHOICES = 8
"""Marks that are tried for each length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A length that the plan gives by itself: a named measure, or a plain length wherever it stands."""

    measure: str | None
    exact: Fraction
    """In the edition's unit; a plain length without its sign."""
    choices: tuple[Choice, ...]
    """A single one where the recipe says it."""

    @property
    def called(self) -> str:
        """What it is, in a sentence."""
        return f"`{self.measure}`" if self.measure is not None else "a length that is written as a plain number"


Chosen = Mapping[Part, Fraction]


def parts_of(exact: Card, own: OtherSizes | None) -> tuple[Part, ...]:
    """All lengths that may move, measures first; a side of the finished card grows only as far as its envelope allows.
    """
    recipe, unit = exact.recipe, exact.recipe.unit
    names = named(recipe)
    said = {name.value: value for name, value in own.measures} if own is not None else {}
    sides, room = {side.value for side in recipe.finished.size}, _room(exact, own)
    parts: list[Part] = []
    plain: dict[Fraction, None] = {}
    for spec in recipe.measures:
        value = spec.value
        if value.kind is not Kind.LENGTH:
            continue
        if spec.name.value in said:
            given = said[spec.name.value].value
            parts.append(Part(measure=spec.name.value, exact=value.value, choices=(
                Choice(value=given, cost=Fraction(0)),)))
        elif not value.names and value.value:
            parts.append(Part(measure=spec.name.value, exact=value.value, choices=choices(
                value.value, unit, MOST_CHOICES, above=room if value.value in sides else None)))
        else:
            plain.update(dict.fromkeys(literals(value, names, unit)))
    for quantity in in_plan(recipe):
        plain.update(dict.fromkeys(literals(quantity, names, unit)))
    return (*parts, *(Part(measure=None, exact=one, choices=choices(one, unit, MOST_CHOICES)) for one in plain))


def replanned(exact: Card, chosen: Chosen, own: OtherSizes | None) -> Recipe:
    """The recipe with its plan at the chosen marks, its steps still the old ones."""
    recipe, unit = exact.recipe, exact.recipe.unit
    marks = {part.exact: value for part, value in chosen.items() if part.measure is None}
    at = {part.measure: value for part, value in chosen.items() if part.measure is not None}
    measures = measures_at({one.name.value: one.value for one in recipe.measures}, at, marks, unit)

    def anew(quantity: Quantity) -> Quantity:
        return worked(quantity, measures, marks, unit)

    pieces = tuple(centred_again(spec, with_lengths(spec, anew)) for spec in recipe.pieces)
    layers = tuple(centred_again(spec, with_lengths(spec, anew)) for spec in recipe.layers)
    finished = replace(recipe.finished, meets=with_lengths(recipe.finished.meets, anew))
    return replace(
        recipe, pieces=pieces, layers=layers, joins=with_lengths(recipe.joins, anew),
        slides=with_lengths(recipe.slides, anew), poses=with_lengths(recipe.poses, anew),
        finished=_envelope(finished, own, unit),
        measures=tuple(MeasureSpec(name=one.name, value=measures[one.name.value]) for one in recipe.measures),
        papers=tuple(paper_in(paper, exact, own) for paper in recipe.papers),
        supplies=tuple(supply_in(supply, unit) for supply in recipe.supplies),
        tolerance=tolerance_in(recipe.tolerance, unit), class_part=loosely(recipe.class_part, unit),
        filming=loosely(recipe.filming, unit), metric=None, inches=None)


def exactly(recipe: Recipe, unit: Unit) -> Recipe:
    """The recipe with every length in the other unit, exact, and everything else as it is."""
    return in_unit(recipe, unit)


def named(recipe: Recipe) -> dict[str, Quantity]:
    """The named measures."""
    return {one.name.value: one.value for one in recipe.measures}


def in_plan(recipe: Recipe) -> Iterator[Quantity]:
    """Every length of the plan that hands set; a point that only names a panel is none."""
    pieces = tuple(replace(spec, panels=()) for spec in recipe.pieces)
    for part in (pieces, recipe.joins, recipe.layers, recipe.slides, recipe.poses, recipe.finished.meets):
        yield from lengths_of(part)


def _room(exact: Card, own: OtherSizes | None) -> Fraction | None:
    """How much the card may grow in its envelope before that is tight; None where nothing is known of it."""
    fit = envelope_fit(exact)
    if fit is None or (own is not None and own.envelope is not None):
        return None
    free = min(room - usual for room, usual in zip(fit.room_mm, fit.usual_room_mm, strict=True))
    return max(free, Fraction(0)) / exact.recipe.unit.millimetres


def _envelope(finished: FinishedSpec, own: OtherSizes | None, unit: Unit) -> FinishedSpec:
    if own is not None and own.envelope is not None:
        return replace(finished, envelope=own.envelope, envelope_size=None)
    size = finished.envelope_size
    if size is None:
        return finished
    return replace(finished, envelope_size=(envelope_side(size[0], unit), envelope_side(size[1], unit)))
