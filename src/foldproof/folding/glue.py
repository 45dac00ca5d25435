"""Where adhesive may go: on both surfaces that it is to hold together, a margin short of where one of them ends."""

from fractions import Fraction

from foldproof.folding.card import Bond, Card
from foldproof.measures.quantity import Unit
from foldproof.paper.polygon import bounding_box
from foldproof.paper.shapes import rectangle
from foldproof.paper.subdivision import common
from foldproof.paper.vector import Point, Ring, Vector


def margin(card: Card) -> Fraction:
    """How far adhesive stays from an edge that something reaches over: 1/8 in or 3 mm (common practice, no source)."""
    return {Unit.INCH: Fraction(1, 8), Unit.MM: Fraction(3), Unit.CM: Fraction(3, 10)}[card.recipe.unit]


def safe_area(card: Card, bond: Bond) -> Ring | None:
    """Where both surfaces lie on each other, less the margin along each side at which the laid one reaches farther.

    In the receiving piece's frame. None where nothing is left.
    """
    if bond.area is None:
        return None
    laid = bounding_box(bond.fit.ring(card.panels[bond.over.panel].ring))
    box, by = bounding_box(bond.area), margin(card)
    left = box.left + (by if laid.left < box.left else 0)
    right = box.right - (by if laid.right > box.right else 0)
    bottom = box.bottom + (by if laid.bottom < box.bottom else 0)
    top = box.top - (by if laid.top > box.top else 0)
    if (left, right, bottom, top) == (box.left, box.right, box.bottom, box.top):
        return bond.area
    if left >= right or bottom >= top:
        return None
    shift = Vector(left, bottom)
    room = tuple(Point(p.x + shift.x, p.y + shift.y) for p in rectangle(right - left, top - bottom))
    return common(bond.area, room)


def glue_to_draw(card: Card, bond: Bond) -> tuple[Ring, ...]:
    """Where the maker puts the adhesive: where the recipe says, or else the safe area, or what little there is."""
    if bond.glue:
        return bond.glue
    safe = safe_area(card, bond)
    return (safe,) if safe is not None else bond.glued
