"""How a piece is turned on the table. A lie is a direction and a face, so a turn never moves a coordinate."""

from foldproof.making.table import Lie
from foldproof.paper.vector import Vector

SIDES = ("left", "right", "top", "bottom")


def turned(lie: Lie, amount: str) -> Lie:
    """The lie after a turn in the plane as the maker sees it; the same face stays up.

    A quarter clockwise brings the left edge to the far side: what pointed away then points right.
    """
    right = {
        "none": lie.right,
        "half": -lie.right,
        "quarter clockwise": lie.away,
        "quarter anticlockwise": -lie.away,
    }[amount]
    return Lie(right=right, up=lie.up)


def turned_over(lie: Lie, way: str) -> Lie:
    """The lie after turning over: like a book page left and right change places, top to bottom far and near do."""
    return Lie(right=-lie.right if way == "book page" else lie.right, up=lie.up.other)


def direction(lie: Lie, side: str) -> Vector:
    """The direction, in the piece's own frame, of a side as it lies: right, left, top (away) or bottom (near)."""
    return {"right": lie.right, "left": -lie.right, "top": lie.away, "bottom": -lie.away}[side]


def side_facing(lie: Lie, vector: Vector) -> str:
    """The side as it lies toward which a direction of the piece's own frame points most."""
    return max(SIDES, key=lambda side: direction(lie, side).dot(vector))


def brought_to_fence(lie: Lie, side: str) -> Lie:
    """The lie after turning so that the side as it lies now is the far one."""
    amount = {"top": "none", "left": "quarter clockwise", "right": "quarter anticlockwise", "bottom": "half"}[side]
    return turned(lie, amount)


def brought_to_stop(lie: Lie, side: str) -> Lie:
    """The lie after turning so that the side as it lies now is the left one."""
    amount = {"left": "none", "bottom": "quarter clockwise", "top": "quarter anticlockwise", "right": "half"}[side]
    return turned(lie, amount)
