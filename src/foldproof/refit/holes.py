"""Windows and notches found again on the card with other measures."""

from dataclasses import replace
from fractions import Fraction

from foldproof.folding.card import CardPiece
from foldproof.making.table import Done
from foldproof.making.work import Work
from foldproof.measures.quantity import Quantity
from foldproof.measures.writing import write_number
from foldproof.paper.polygon import Box, bounding_box
from foldproof.paper.vector import Point, Vector
from foldproof.recipe.actions import CutAway
from foldproof.recipe.cut_records import HoleSpec
from foldproof.recipe.shape_records import Circle, Rectangle


def refitted_hole(action: CutAway, done: Done, before: CardPiece, after: CardPiece, work: Work) -> CutAway:
    """A window or a notch as the new plan has it; one that is cut from mark to mark follows its marks."""
    if action.corners or not done.gone:
        return action
    gone = bounding_box(done.gone[0])
    holes = zip(before.spec.cuts.holes, after.spec.cuts.holes, strict=True)
    plan = next((new for old, new in holes if (box := _box(old)) is not None and _alike(box, gone)), None)
    box = _box(plan) if plan is not None else None
    if plan is None or box is None:
        return action
    across, up = _reach(box, work.lie.right), _reach(box, work.lie.away)
    (left, right), (bottom, top) = work.span(work.lie.right), work.span(work.lie.away)
    at = action.at
    at = replace(
        at, left=_said(at.left, across[0] - left), right=_said(at.right, right - across[1]),
        bottom=_said(at.bottom, up[0] - bottom), top=_said(at.top, top - up[1]))
    size = action.size
    if size is not None:
        sides = _said(size[0], across[1] - across[0]), _said(size[1], up[1] - up[0])
        size = (sides[0] or size[0], sides[1] or size[1])
    round_ = plan.shape.across.value if isinstance(plan.shape, Circle) else Fraction(0)
    return replace(action, at=at, size=size, circle=_said(action.circle, round_))


def _box(hole: HoleSpec) -> Box | None:
    """Where a hole is in its piece; None for an outline, which is cut from mark to mark."""
    if hole.at is None or not isinstance(hole.shape, Rectangle | Circle):
        return None
    shape = hole.shape
    wide, high = (shape.across, shape.across) if isinstance(shape, Circle) else (shape.width, shape.height)
    x, y = hole.at.x.value, hole.at.y.value
    return Box(left=x, right=x + wide.value, bottom=y, top=y + high.value)


def _alike(one: Box, other: Box) -> bool:
    return (one.left, one.right, one.bottom, one.top) == (other.left, other.right, other.bottom, other.top)


def _reach(box: Box, way: Vector) -> tuple[Fraction, Fraction]:
    """From where to where a box reaches along a direction."""
    corners = (Point(x, y) for x in (box.left, box.right) for y in (box.bottom, box.top))
    values = [way.x * p.x + way.y * p.y for p in corners]
    return min(values), max(values)


def _said(quantity: Quantity | None, value: Fraction) -> Quantity | None:
    if quantity is None or quantity.value == value:
        return quantity
    return replace(quantity, value=value, written=write_number(value))
