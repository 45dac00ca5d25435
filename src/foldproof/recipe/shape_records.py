"""Points and shapes as written."""

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity
from foldproof.recipe.points import PointAt as PointAt


@dataclass(frozen=True, slots=True, kw_only=True)
class PointNamed:
    """A point by name: a corner (`top left`, `bottom right`), an edge's `top middle`, `centre`, or a named point."""

    name: str
    place: Place


PointSpec = PointAt | PointNamed


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """A rectangle with its bottom left corner at the origin."""

    width: Quantity
    height: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A polygon by its corners, in either sense of turning."""

    corners: tuple[PointAt, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Triangle:
    """A right triangle in the rectangle width by height, its right angle at the named corner of that rectangle."""

    width: Quantity
    height: Quantity
    right_angle: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A disc that touches both axes."""

    across: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """A die-cut, punched or bought shape, known by its outer width and height only."""

    width: Quantity
    height: Quantity


Shape = Rectangle | Outline | Triangle | Circle | Bought
