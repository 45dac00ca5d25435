"""Right triangles cut from rectangles: which diagonal leaves them."""

from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Point, Ring

FALLING, RISING = "from upper left to lower right", "from upper right to lower left"


def right_angle_at(ring: Ring) -> tuple[str, str] | None:
    """The corner of its bounding rectangle where a right triangle has its right angle: (`upper`, `left`), ...

    None for every other outline.
    """
    box = bounding_box(ring)
    corners = {
        ("lower", "left"): Point(box.left, box.bottom), ("lower", "right"): Point(box.right, box.bottom),
        ("upper", "left"): Point(box.left, box.top), ("upper", "right"): Point(box.right, box.top),
    }
    there = [name for name, corner in corners.items() if corner in ring]
    if len(ring) != 3 or len(there) != 3:
        return None
    return next(name for name in there if opposite(name) not in there)


def opposite(corner: tuple[str, str]) -> tuple[str, str]:
    """The corner across the rectangle."""
    return ("lower" if corner[0] == "upper" else "upper", "left" if corner[1] == "right" else "right")


def diagonal(corner: tuple[str, str]) -> str:
    """The diagonal that leaves a triangle with its right angle at a corner, and another at the corner across."""
    return FALLING if corner in (("lower", "left"), ("upper", "right")) else RISING
