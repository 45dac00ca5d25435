"""What hands do, for the mirrored card: the same actions with left and right changed over.

The fence and the stop are tools, and are not mirrored: a score or a cut at a distance from the stop is made at the
distance that the original has from the other end of the work as it lies. A long or short edge that came to the fence
by a quarter turn clockwise comes by one anticlockwise, and so it is named by its side; an edge that lay against the
stop is told by the one that lies at the fence.
"""

from dataclasses import replace
from fractions import Fraction

from foldproof.folding.card import Card
from foldproof.making.lying import SIDES, brought_to_fence
from foldproof.making.table import Done
from foldproof.making.work import Work, work_with
from foldproof.mirror.plan import mirrored_points, other_end
from foldproof.recipe.actions import Action, Attach, CutAcross, Lay, PlacedAt, ScoreAt, SlitAt
from foldproof.recipe.changing_over import changed_over
from foldproof.recipe.sides import other_side


def mirrored_action(card: Card, done: Done) -> Action:
    """An action that was carried out on the original, as it is done on the mirrored card."""
    action = changed_over(done.action)
    if isinstance(action, ScoreAt | CutAcross) and from_stop(done.action) and done.piece is not None:
        length = _length(work_with(card, done.before, done.piece))
        return replace(action, start="left", at=other_end(action.at, length))
    if isinstance(action, SlitAt) and done.piece is not None:
        return replace(action, at=other_end(action.at, _length(work_with(card, done.before, done.piece))))
    if isinstance(action, Lay) and action.against == "stop" and done.piece is not None:
        return replace(action, edge=_edge(done, "top"), against="fence")
    if isinstance(action, Lay) and action.edge in ("long", "short") and done.piece is not None:
        return replace(action, edge=_edge(done, action.edge))
    if isinstance(action, Attach):
        return replace(action, at=_slanted(card, action))
    return action


def _slanted(card: Card, action: Attach) -> PlacedAt:
    """The place of what is put on; where points say it, every x is taken from the other edge of its piece."""
    at, bond = action.at, next((bond for bond in card.bonds if other_side(bond.name) == action.bond), None)
    if at.points is None or at.lie_on is None or bond is None:
        return at
    put, under = bond.over.panel, bond.under.panel
    return replace(at, points=mirrored_points(card, put, at.points), lie_on=mirrored_points(card, under, at.lie_on))


def from_stop(action: Action) -> bool:
    """Whether a score, a cut or a slit is measured from the stop.

    A score or a cut from the other end is measured from its mirror image.
    """
    return isinstance(action, SlitAt) or (isinstance(action, ScoreAt | CutAcross) and action.start == "left")


def _length(work: Work) -> Fraction:
    """From the left end to the right end as it lies; for work that lies square, in the recipe's unit."""
    low, high = work.span(work.lie.right)
    return high - low


def _edge(done: Done, named: str) -> str:
    """The edge by its kind where the work is not turned; else by the side that it is brought from."""
    assert done.piece is not None
    root = done.before.root(done.piece)
    before, after = done.before.pieces[root].lie, done.after.pieces[root].lie
    came_from = next((side for side in SIDES if brought_to_fence(before, side) == after), "top")
    if came_from == "top" and named in ("long", "short"):
        return named
    return other_side(came_from)
