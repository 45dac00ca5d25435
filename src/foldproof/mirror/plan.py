"""The pieces and layers of a plan, mirrored left to right in their own frames."""

from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from foldproof.folding.card import Card
from foldproof.measures.quantity import Quantity
from foldproof.measures.writing import write_number
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.changing_over import changed_over
from foldproof.recipe.cut_records import HoleSpec
from foldproof.recipe.records import (
    Across,
    Between,
    Circle,
    Cuts,
    JoinSpec,
    LayerSpec,
    Outline,
    PieceSpec,
    PointAt,
    PointSpec,
    Rectangle,
    ScoreSpec,
    Shape,
)

Shaped = PieceSpec | LayerSpec
Fixed = TypeVar("Fixed", JoinSpec, LayerSpec)


def mirrored_piece(card: Card, spec: PieceSpec) -> PieceSpec:
    """A piece whose every x is taken from its other edge."""
    sum_of_x = _sum_of_x(card, spec.name.value)
    return replace(
        changed_over(spec), shape=_shape(spec, sum_of_x),
        points=tuple(replace(changed_over(point), at=_point_at(point.at, sum_of_x)) for point in spec.points),
        scores=tuple(_score(score, sum_of_x) for score in spec.scores),
        panels=tuple(
            replace(changed_over(panel), where=_point_at(panel.where, sum_of_x))
            if isinstance(panel.where, PointAt) else changed_over(panel) for panel in spec.panels),
        cuts=_cuts(spec.cuts, sum_of_x),
    )


def mirrored_layer(card: Card, spec: LayerSpec) -> LayerSpec:
    """A layer, its shape mirrored; one that is bought keeps its shape, which is known by its size only."""
    sum_of_x = _sum_of_x(card, spec.name.value)
    return replace(
        _slanted(card, spec, spec.name.value), shape=_shape(spec, sum_of_x), cuts=_cuts(spec.cuts, sum_of_x))


def mirrored_join(card: Card, spec: JoinSpec) -> JoinSpec:
    """A join; where points say how it lies, every x is taken from the other edge of its piece."""
    return _slanted(card, spec, spec.put.panel.value)


def _slanted(card: Card, spec: Fixed, put: str) -> Fixed:
    """A join or a layer with the points of its place mirrored, each in its own piece."""
    fresh = changed_over(spec)
    if spec.at.points is None or spec.at.lie_on is None:
        return fresh
    return replace(fresh, at=replace(
        fresh.at, points=mirrored_points(card, put, spec.at.points),
        lie_on=mirrored_points(card, spec.upon.panel.value, spec.at.lie_on)))


def mirrored_points(card: Card, panel: str, pair: tuple[PointAt, PointAt]) -> tuple[PointAt, PointAt]:
    """Two points of the piece of a panel, mirrored in it."""
    whole = _sum_of_x(card, card.panels[panel].piece)
    return _point_at(pair[0], whole), _point_at(pair[1], whole)


def _cuts(cuts: Cuts, sum_of_x: Fraction) -> Cuts:
    """Slits, windows and notches in their places from the other edge."""
    return replace(
        changed_over(cuts),
        slits=tuple(
            replace(changed_over(slit), start=_point(slit.start, sum_of_x), end=_point(slit.end, sum_of_x))
            for slit in cuts.slits),
        holes=tuple(_hole(hole, sum_of_x) for hole in cuts.holes))


def _hole(hole: HoleSpec, sum_of_x: Fraction) -> HoleSpec:
    """A window or a notch; its corner `at` is the one at the left again."""
    match hole.shape:
        case Outline(corners=corners):
            return replace(
                changed_over(hole), shape=Outline(corners=tuple(_point_at(corner, sum_of_x) for corner in corners)))
        case Circle(across=wide) | Rectangle(width=wide):
            assert hole.at is not None
            return replace(changed_over(hole), at=_point_at(hole.at, sum_of_x - wide.value))


def other_end(quantity: Quantity, whole: Fraction) -> Quantity:
    """The distance that is left of a whole: measured from its other end. A plain number takes its place."""
    value = whole - quantity.value
    return replace(quantity, value=value, written=write_number(value))


def _sum_of_x(card: Card, name: str) -> Fraction:
    """What the x of a point of a piece and of its mirror image add up to."""
    piece = card.piece(name)
    assert piece is not None, "a card that was proved has all its pieces"
    box = bounding_box(piece.outline)
    return box.left + box.right


def _shape(spec: Shaped, sum_of_x: Fraction) -> Shape:
    if isinstance(spec.shape, Outline):
        return Outline(corners=tuple(_point_at(corner, sum_of_x) for corner in spec.shape.corners))
    return changed_over(spec.shape)


def _point_at(point: PointAt, sum_of_x: Fraction) -> PointAt:
    return replace(point, x=other_end(point.x, sum_of_x))


def _point(point: PointSpec, sum_of_x: Fraction) -> PointSpec:
    return _point_at(point, sum_of_x) if isinstance(point, PointAt) else changed_over(point)


def _score(score: ScoreSpec, sum_of_x: Fraction) -> ScoreSpec:
    line = score.line
    if isinstance(line, Across):
        line = Across(at=other_end(line.at, sum_of_x))
    elif isinstance(line, Between):
        line = Between(start=_point(line.start, sum_of_x), end=_point(line.end, sum_of_x))
    return replace(changed_over(score), line=line)
