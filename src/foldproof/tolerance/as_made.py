"""The card as hands made it: outlines and scores taken from the table, everything else from the plan."""

from collections.abc import Mapping
from dataclasses import replace

from foldproof.findings.finding import has_errors
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.folds import same_line
from foldproof.making.table import OnTable, Table
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Point, Segment
from foldproof.recipe.actions import Attach, Dry, Measure, Note, SlideIn, Stamp, Tie, Tuck
from foldproof.recipe.records import (
    Across,
    Between,
    LayerSpec,
    Outline,
    PieceSpec,
    PointAt,
    PoseSpec,
    Recipe,
    Rectangle,
    ScoreSpec,
    Shape,
    StepSpec,
    Up,
)
from foldproof.refit.hands import said
from foldproof.refit.referents import placed_length

_LEAVES_PAPER = (Attach, SlideIn, Tuck, Stamp, Tie, Dry, Measure, Note)
"""Actions after which each piece has the shape and the scores that it had."""


def as_made(card: Card, nominal: Table, steps: tuple[StepSpec, ...], poses: tuple[PoseSpec, ...]) -> Card | None:
    """The card that comes of other steps, in some of its poses; None where it cannot be folded.

    `nominal` is the table after the card's own steps (see `paper_work`), so that each score is known by its turn.
    """
    recipe = _recipe(card, nominal, paper_work(card, steps), poses)
    if recipe is None:
        return None
    built, faults = build_card(recipe)
    return None if built is None or has_errors(faults) else built


def paper_work(card: Card, steps: tuple[StepSpec, ...]) -> Table:
    """The table after the steps with nothing put on anything: all that shapes the paper, and nothing else."""
    bare = tuple(
        replace(step, actions=tuple(action for action in step.actions if not isinstance(action, _LEAVES_PAPER)))
        for step in steps)
    return carry_out(replace(card, recipe=replace(card.recipe, steps=bare))).end


def _recipe(card: Card, nominal: Table, made: Table, poses: tuple[PoseSpec, ...]) -> Recipe | None:
    recipe = card.recipe
    if made.pieces.keys() != nominal.pieces.keys():
        return None
    pieces = tuple(_piece(card, spec, nominal.pieces, made.pieces) for spec in recipe.pieces)
    layers = tuple(
        replace(spec, shape=_shape(spec.shape, spec, made.pieces[spec.name.value]))
        if spec.name.value in made.pieces else spec for spec in recipe.layers)
    return replace(recipe, pieces=pieces, layers=layers, poses=poses)


def _piece(
    card: Card, spec: PieceSpec, nominal: Mapping[str, OnTable], made: Mapping[str, OnTable],
) -> PieceSpec:
    name = spec.name.value
    if name not in made:
        return spec
    plan = card.piece(name)
    assert plan is not None
    moved: dict[str, Segment] = {}
    for before, after in zip(nominal[name].creases, made[name].creases, strict=False):
        score = next((one for one in plan.scores if same_line(one.segment, before.segment)), None)
        if score is not None:
            moved[score.name] = after.segment
    scores = tuple(
        replace(score, line=_line(score, moved[score.name.value])) if score.name.value in moved else score
        for score in spec.scores)
    return replace(spec, shape=_shape(spec.shape, spec, made[name]), scores=scores)


def _line(score: ScoreSpec, made: Segment) -> Across | Up | Between:
    line = score.line
    if isinstance(line, Across) and made.start.x == made.end.x:
        return Across(at=said(line.at, made.start.x))
    if isinstance(line, Up) and made.start.y == made.end.y:
        return Up(at=said(line.at, made.start.y))
    return Between(start=_point(score, made.start), end=_point(score, made.end))


def _point(spec: ScoreSpec | PieceSpec | LayerSpec, point: Point) -> PointAt:
    return PointAt(x=placed_length(point.x, spec.place), y=placed_length(point.y, spec.place), place=spec.place)


def _shape(shape: Shape, spec: PieceSpec | LayerSpec, made: OnTable) -> Shape:
    if isinstance(shape, Rectangle):
        box = bounding_box(made.outline)
        return Rectangle(width=said(shape.width, box.width), height=said(shape.height, box.height))
    if isinstance(shape, Outline):
        return Outline(corners=tuple(_point(spec, corner) for corner in made.outline))
    return shape
