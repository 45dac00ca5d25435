"""Which numbers of a plan make the card as wide and as high as it is, and which grow with it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from fractions import Fraction
from typing import Any

from foldproof.findings.finding import Place
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.recipe.cut_records import HoleSpec
from foldproof.recipe.records import Across, LayerSpec, PieceSpec, PlaceOn, Up
from foldproof.recipe.shape_records import Circle, Outline
from foldproof.rescue.search import with_measure
from foldproof.starting.sizes import MARK, Size
from foldproof.starting.trouble import CannotBeError

_WAYS = {"width": 0, "height": 1}
LARGEST_SHARE = 4
SMALL_MM = 20
"""Borders, tabs, ease and foam stay as they are: what is shorter does not grow with the card."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A number of the plan and what it becomes."""

    number: Quantity
    value: Fraction


def main_changes(card: Card, size: Size) -> tuple[Change, ...]:
    """The measures that the closed card's width and height hang on, for another size. Raises CannotBeError."""
    closed = card.closed
    assert closed is not None
    wanted = (size.width - closed.width, size.height - closed.height)
    found: dict[str, Change] = {}
    rates = dict(_rates(card))
    for way, amount in enumerate(wanted):
        if not amount:
            continue
        names = [name for name, rate in rates.items() if rate[way] and not rate[1 - way]]
        both = [name for name, rate in rates.items() if rate[way] and rate[0] == rate[1]]
        if not names and both and wanted[0] == wanted[1]:
            names = both
        if not names:
            side = ("width", "height")[way]
            hint = " Its width and height hang on the same measure, so it can only be square." if both else ""
            raise CannotBeError(f"no measure of the recipe makes the {side} of the closed card by itself.{hint}")
        name = min(names, key=lambda name: (name not in ("width", "height"), abs(rates[name][way] - 1)))
        measure = next(one.value for one in card.recipe.measures if one.name.value == name)
        found[name] = Change(number=measure, value=measure.value + amount / rates[name][way])
    return tuple(found.values())


def _rates(card: Card) -> Iterator[tuple[str, tuple[Fraction, Fraction]]]:
    """How much wider and higher the closed card becomes for each unit that a plain measure grows."""
    mark = MARK[card.recipe.unit]
    closed = card.closed
    assert closed is not None
    for measure in card.recipe.measures:
        if measure.value.kind is not Kind.LENGTH or measure.value.names:
            continue
        recipe = with_measure(card.recipe, measure.value, measure.value.value + mark)
        other = build_card(recipe)[0] if recipe is not None else None
        if other is not None and other.closed is not None:
            yield measure.name.value, (
                (other.closed.width - closed.width) / mark, (other.closed.height - closed.height) / mark)


def growing_changes(card: Card, size: Size, main: tuple[Change, ...]) -> tuple[Change, ...]:
    """The plain lengths of the plan that grow or shrink with the card, each to a mark of the ruler.

    A length across grows as the width, a length up as the height, one that is both as the smaller of the two. What a
    die or a punch makes, what is bought, and what is small stays as it is.
    """
    closed = card.closed
    assert closed is not None
    ratios = (size.width / closed.width, size.height / closed.height)
    ways: dict[Place, set[int]] = {}
    numbers: dict[Place, Quantity] = {}
    measures = {measure.name.value: measure.value for measure in card.recipe.measures}
    fixed = set(_fixed(card, measures))
    for quantity, way in _lengths_of_plan(card):
        for one in _plain(quantity, measures):
            numbers[one.place] = one
            ways.setdefault(one.place, set()).add(way)
    small = Fraction(SMALL_MM) / card.recipe.unit.millimetres
    taken = {change.number.place for change in main}
    changes: list[Change] = []
    for place, number in numbers.items():
        if place in taken or place in fixed or number.value <= small:
            continue
        way = min(ways[place], key=lambda way: ratios[way])
        share = number.value / (closed.width, closed.height)[way]
        value = _rounded(number.value * ratios[way], number.value, share, card.recipe.unit)
        if value != number.value:
            changes.append(Change(number=number, value=value))
    return (*changes, *_holes(card, ratios))


def _holes(card: Card, ratios: tuple[Fraction, Fraction]) -> Iterator[Change]:
    """Windows and notches keep their size; the middle of each lies in the card as it lay before."""
    specs: tuple[PieceSpec | LayerSpec, ...] = (*card.recipe.pieces, *card.recipe.layers)
    for spec in specs:
        for hole in spec.cuts.holes:
            if hole.at is None or isinstance(hole.shape, Outline):
                continue
            shape = hole.shape
            sides = (shape.across, shape.across) if isinstance(shape, Circle) else (shape.width, shape.height)
            for at, side, ratio in zip((hole.at.x, hole.at.y), sides, ratios, strict=True):
                mark = MARK[card.recipe.unit]
                value = round(((at.value + side.value / 2) * ratio - side.value / 2) / mark) * mark
                if not at.names and value > 0 and value != at.value:
                    yield Change(number=at, value=value)


def _rounded(value: Fraction, was: Fraction, share: Fraction, unit: Unit) -> Fraction:
    """To an eighth of an inch or a millimetre; to the half of it where the author's own number is as fine.

    A half, a third or a quarter of the card stays that where a ruler shows it.
    """
    if share.denominator <= LARGEST_SHARE and (value / MARK[unit]).denominator == 1:
        return value
    step = {Unit.INCH: Fraction(1, 8), Unit.MM: Fraction(1), Unit.CM: Fraction(1, 10)}[unit]
    step = step if (was / step).denominator == 1 else step / 2
    return max(round(value / step), 1) * step


def _plain(quantity: Quantity, measures: Mapping[str, Quantity]) -> Iterator[Quantity]:
    """The plain lengths that one is reckoned from, or itself."""
    if not quantity.names:
        yield quantity
    for name in quantity.names:
        if name in measures:
            yield from _plain(measures[name], measures)


def _fixed(card: Card, measures: Mapping[str, Quantity]) -> Iterator[Place]:
    for layer in card.recipe.layers:
        for piece in card.pieces:
            if piece.name == layer.name.value and (piece.bought or piece.round):
                for size in _sizes(layer):
                    yield from (one.place for one in _plain(size, measures))


def _sizes(spec: PieceSpec | LayerSpec) -> Iterator[Quantity]:
    """The lengths of a piece itself, not of where it lies."""
    for field in fields(spec):
        if field.name not in ("at", "upon", "glue", "glue_area"):
            yield from (quantity for quantity, _ in _walk(getattr(spec, field.name), None))


def _lengths_of_plan(card: Card) -> Iterator[tuple[Quantity, int]]:
    """Each length of the plan with its way: 0 across, 1 up."""
    recipe = card.recipe
    for spec in (*recipe.pieces, *recipe.layers, *recipe.joins):
        for quantity, way in _walk(spec, None):
            if quantity.kind is Kind.LENGTH:
                for each in (0, 1) if way is None else (way,):
                    yield quantity, each


def _walk(thing: Any, way: int | None) -> Iterator[tuple[Quantity, int | None]]:
    match thing:
        case Quantity():
            yield thing, way
        case Place() | str():
            return
        case HoleSpec():
            return
        case Across():
            yield thing.at, 0
        case Up():
            yield thing.at, 1
        case PlaceOn():
            for number, sides in enumerate((("left", "right"), ("top", "bottom"))):
                yield from ((side, number) for name in sides if (side := getattr(thing, name)) is not None)
        case (Quantity(), Quantity()):
            yield thing[0], 0
            yield thing[1], 1
        case tuple():
            for one in thing:
                yield from _walk(one, way)
        case _ if is_dataclass(thing):
            for field in fields(thing):
                yield from _walk(getattr(thing, field.name), _WAYS.get(field.name, way))
