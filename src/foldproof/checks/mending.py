"""Mends found by trial: a score or a width is moved and the card folded again; only a mend that works is offered."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import islice

from foldproof.findings.finding import has_errors
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.measures.quantity import Quantity
from foldproof.measures.writing import with_unit
from foldproof.recipe.records import Across, PieceSpec, Recipe, Rectangle, ScoreSpec, Up

_MOST_TRIALS = 60


def mend_by_trial(card: Card, amounts: Iterable[Fraction], sound: Callable[[Card], bool]) -> str | None:
    """Say which one score or side, moved by one of the amounts, makes the card sound; None where none does.

    Straight scores are tried first, in the recipe's order, then the sides of rectangular pieces. Of several that do,
    the first that the steps make as they stand is chosen: two accounts against one.
    """
    shifts = tuple(dict.fromkeys(shift for amount in amounts for shift in (amount, -amount)))
    first: str | None = None
    for recipe, says in islice(_trials(card.recipe, shifts), _MOST_TRIALS):
        tried, _ = build_card(recipe)
        if tried is None or not sound(tried):
            continue
        if not has_errors(carry_out(tried).findings):
            return says
        first = first or says
    return first


def _trials(recipe: Recipe, shifts: tuple[Fraction, ...]) -> Iterator[tuple[Recipe, str]]:
    for moved in (_scores_moved, _sides_moved):
        for index, piece in enumerate(recipe.pieces):
            for shift in shifts:
                for changed, says in moved(recipe, piece, shift):
                    yield replace(recipe, pieces=(*recipe.pieces[:index], changed, *recipe.pieces[index + 1:])), says


def _scores_moved(recipe: Recipe, piece: PieceSpec, shift: Fraction) -> Iterator[tuple[PieceSpec, str]]:
    for index, score in enumerate(piece.scores):
        if not isinstance(score.line, Across | Up) or score.line.at.value + shift <= 0:
            continue
        at = _moved(score.line.at, shift)
        line = Across(at=at) if isinstance(score.line, Across) else Up(at=at)
        changed: ScoreSpec = replace(score, line=line)
        edge = "left" if isinstance(line, Across) else "bottom"
        yield (
            replace(piece, scores=(*piece.scores[:index], changed, *piece.scores[index + 1:])),
            f"Score the {score.name} at {with_unit(at.value, recipe.unit)} from the {piece.name}'s {edge} edge, "
            f"not {with_unit(score.line.at.value, recipe.unit)}.",
        )


def _sides_moved(recipe: Recipe, piece: PieceSpec, shift: Fraction) -> Iterator[tuple[PieceSpec, str]]:
    shape = piece.shape
    if not isinstance(shape, Rectangle):
        return
    if shape.width.value + shift > 0:
        width = _moved(shape.width, shift)
        yield (replace(piece, shape=replace(shape, width=width)),
               f"Cut the {piece.name} {with_unit(width.value, recipe.unit)} wide, "
               f"not {with_unit(shape.width.value, recipe.unit)}.")
    if shape.height.value + shift > 0:
        height = _moved(shape.height, shift)
        yield (replace(piece, shape=replace(shape, height=height)),
               f"Cut the {piece.name} {with_unit(height.value, recipe.unit)} high, "
               f"not {with_unit(shape.height.value, recipe.unit)}.")


def _moved(quantity: Quantity, shift: Fraction) -> Quantity:
    return replace(quantity, value=quantity.value + shift, names=())
