"""Which part of a piece is kept at a slanted cut, said by the side of the cut on which it lies."""

from dataclasses import replace

from foldproof.folding.card import Card
from foldproof.making.lying import side_facing
from foldproof.making.points import find_point
from foldproof.making.table import Done
from foldproof.making.work import work_with
from foldproof.paper.vector import Point
from foldproof.recipe.actions import CutBetween

_SIDES = {"left": "on the left of the cut", "right": "on the right of the cut",
          "top": "on the far side of the cut", "bottom": "on the near side of the cut"}


def kept_side(card: Card, done: Done) -> str:
    """`on the left of the cut`, as the piece lies; empty where the action is no cut between two points.

    A cut that leans counts as running away from the maker up to 45 degrees, and as running across beyond that.
    """
    action = done.action
    if not isinstance(action, CutBetween) or done.piece is None:
        return ""
    work = work_with(card, done.before, done.piece)
    start, end, kept = (
        find_point(card, done.before, work, point)
        for point in (action.start, action.end, replace(action.start, name=action.keep)))
    if not (isinstance(start, Point) and isinstance(end, Point) and isinstance(kept, Point)):
        return ""
    along = end - start
    return _SIDES[side_facing(work.lie, along.left if along.cross(kept - start) > 0 else -along.left)]
