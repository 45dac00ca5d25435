"""From the shape that the author wrote to an outline with corners."""

from fractions import Fraction

from foldproof.findings.finding import Finding
from foldproof.folding.words import error, point_in_words
from foldproof.measures.quantity import Unit
from foldproof.paper.polygon import anticlockwise, area, bounding_box, crossing, without_straight_corners
from foldproof.paper.shapes import disc, rectangle, right_triangle
from foldproof.paper.vector import Point, Ring
from foldproof.recipe.records import (
    Bought,
    Circle,
    LayerSpec,
    Outline,
    PieceSpec,
    PointAt,
    PointSpec,
    Rectangle,
    Shape,
    Triangle,
)


def outline_of(spec: PieceSpec | LayerSpec, unit: Unit) -> tuple[Ring | None, tuple[Finding, ...]]:
    """The outline in the piece's own frame, anticlockwise; None with findings where it encloses nothing."""
    match spec.shape:
        case Rectangle(width=width, height=height) | Bought(width=width, height=height):
            return rectangle(width.value, height.value), ()
        case Triangle(width=width, height=height, right_angle=corner):
            return right_triangle(width.value, height.value, corner), ()
        case Circle(across=across):
            return disc(across.value), ()
        case Outline() as shape:
            return _polygon(spec, shape, unit)


def is_round(shape: Shape) -> bool:
    """Whether the outline stands for a circle."""
    return isinstance(shape, Circle)


def standard_points(outline: Ring) -> dict[str, Point]:
    """The corners, middles and centre of the bounding rectangle by name."""
    box = bounding_box(outline)
    xs = {"left": box.left, "": box.centre.x, "right": box.right}
    ys = {"top": box.top, "": box.centre.y, "bottom": box.bottom}
    points = {f"{v} {h}": Point(xs[h], ys[v]) for v in ("top", "bottom") for h in ("left", "right")}
    points |= {f"{v} middle": Point(xs[""], ys[v]) for v in ("top", "bottom")}
    points |= {f"{h} middle": Point(xs[h], ys[""]) for h in ("left", "right")}
    return points | {"centre": box.centre}


def point_at(spec: PointAt) -> Point:
    """The point of written coordinates."""
    return Point(spec.x.value, spec.y.value)


def resolve(spec: PointSpec, points: dict[str, Point]) -> Point:
    """The point that is meant; the reader has seen to it that the name is known."""
    return point_at(spec) if isinstance(spec, PointAt) else points[spec.name]


def _polygon(spec: PieceSpec | LayerSpec, shape: Outline, unit: Unit) -> tuple[Ring | None, tuple[Finding, ...]]:
    ring = tuple(point_at(corner) for corner in shape.corners)
    where = crossing(ring)
    if where is not None:
        return None, (error(
            "outline crosses itself",
            f"The outline of {spec.name} touches or crosses itself at {point_in_words(where, unit)}.", spec.place,
            "List the corners in the order in which a blade would go round them."),)
    if area(ring) == 0:
        return None, (error("outline without area", f"All corners of {spec.name} lie on one line.", spec.place),)
    ring = without_straight_corners(anticlockwise(ring))
    box = bounding_box(ring)
    if box.left != Fraction(0) or box.bottom != Fraction(0):
        at = point_in_words(Point(box.left, box.bottom), unit)
        return None, (error(
            "outline off its origin",
            f"A piece is measured from its bottom left corner, but the outline of {spec.name} starts {at}.",
            spec.place, "Move all corners so that the leftmost is at 0 across and the lowest at 0 up."),)
    return ring, ()
