"""The card as hands made it: outlines and scores taken from the table, everything else from the plan."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeVar

from foldproof.findings.finding import has_errors
from foldproof.folding.build import put_together
from foldproof.folding.card import Card, StandingPose
from foldproof.folding.poses import placed_flat
from foldproof.folding.standing import stand
from foldproof.frozen import dataclass
from foldproof.making.carry_out import do_steps
from foldproof.making.folds import same_line
from foldproof.making.table import OnTable, StepMade, Table
from foldproof.paper.isometry import Isometry
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A card put together, and where its panels come to lie in the poses that the outcomes speak of."""

    card: Card
    """In no pose."""
    closed: Mapping[str, Isometry]
    """For each panel where it lies in the closed pose, as `FlatPose.placements`; empty where the card has no such."""
    stands: StandingPose | None


def as_planned(card: Card) -> Made:
    """The card as its plan has it."""
    closed, stands = card.closed, _stands(card)
    pose = card.pose(stands.name.value) if stands is not None else None
    return Made(
        card=card, closed=closed.placements if closed is not None else {},
        stands=pose if isinstance(pose, StandingPose) else None)


def as_made(card: Card, nominal: Sequence[StepMade], steps: tuple[StepSpec, ...]) -> Made | None:
    """The card that comes of other steps; None where it cannot be folded.

    `nominal` are the card's own steps carried out (see `paper_work`), so that each score is known by its turn, and
    nothing is done again that comes before the first other step. Who lies over whom is not asked again: small errors
    leave that as it is.
    """
    first = next((at for at, (own, other) in enumerate(zip(card.recipe.steps, steps, strict=True)) if own is not other),
                 len(steps))
    end = paper_work(card, steps[first:], nominal[first].before)[-1].after if first < len(steps) else nominal[-1].after
    recipe = _recipe(card, nominal[-1].after, end)
    built, faults = put_together(recipe) if recipe is not None else (None, ())
    if built is None or has_errors(faults):
        return None
    closed: Mapping[str, Isometry] | None = {}
    if card.closed is not None:
        closed = placed_flat(built, card.closed.spec)
    pose, stands = None, _stands(card)
    if stands is not None and isinstance(card.pose(stands.name.value), StandingPose):
        pose, faults = stand(built, stands)
        if pose is None or has_errors(faults):
            return None
    return None if closed is None else Made(card=built, closed=closed, stands=pose)


def _stands(card: Card) -> PoseSpec | None:
    """The pose whose height the recipe promises."""
    wanted = card.recipe.finished.stands
    return next((pose for pose in card.recipe.poses if wanted and pose.name.value == wanted.pose.value), None)


def paper_work(card: Card, steps: Sequence[StepSpec], table: Table | None = None) -> tuple[StepMade, ...]:
    """The steps carried out with nothing put on anything: all that shapes the paper, and nothing else."""
    bare = [
        replace(step, actions=tuple(action for action in step.actions if not isinstance(action, _LEAVES_PAPER)))
        for step in steps]
    return do_steps(card, bare, table or Table())[0]


def _recipe(card: Card, nominal: Table, made: Table) -> Recipe | None:
    recipe = card.recipe
    if made.pieces.keys() != nominal.pieces.keys():
        return None
    pieces = tuple(_kept(spec, _piece(card, spec, nominal.pieces, made.pieces)) for spec in recipe.pieces)
    layers = tuple(
        _kept(spec, replace(spec, shape=_shape(spec.shape, spec, made.pieces[spec.name.value])))
        if spec.name.value in made.pieces else spec for spec in recipe.layers)
    return replace(recipe, pieces=pieces, layers=layers)


Sheet = TypeVar("Sheet", PieceSpec, LayerSpec)


def _kept(spec: Sheet, made: Sheet) -> Sheet:
    """The very sheet of the plan where it was made so: what is known of it holds."""
    return spec if made == spec else made


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
