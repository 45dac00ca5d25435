"""Points and vectors of the plane with rational coordinates."""

from fractions import Fraction

from foldproof.frozen import dataclass


def _sum_of_products(a: Fraction, b: Fraction, c: Fraction, d: Fraction) -> Fraction:
    """a b + c d, brought to lowest terms once and not three times."""
    (an, ad), (bn, bd) = a.as_integer_ratio(), b.as_integer_ratio()
    (cn, cd), (dn, dd) = c.as_integer_ratio(), d.as_integer_ratio()
    one, two = ad * bd, cd * dd
    return Fraction(an * bn * two + cn * dn * one, one * two)


@dataclass(frozen=True, slots=True)
class Vector:
    """A displacement, in the recipe's unit."""

    x: Fraction
    y: Fraction

    def __add__(self, other: "Vector") -> "Vector":
        return Vector(self.x + other.x, self.y + other.y)

    def __sub__(self, other: "Vector") -> "Vector":
        return Vector(self.x - other.x, self.y - other.y)

    def __neg__(self) -> "Vector":
        return Vector(-self.x, -self.y)

    def __mul__(self, factor: Fraction | int) -> "Vector":
        return Vector(self.x * factor, self.y * factor)

    def dot(self, other: "Vector") -> Fraction:
        """The inner product."""
        return _sum_of_products(self.x, other.x, self.y, other.y)

    def cross(self, other: "Vector") -> Fraction:
        """Positive when `other` lies anticlockwise of this vector."""
        return _sum_of_products(self.x, other.y, -self.y, other.x)

    @property
    def square(self) -> Fraction:
        """The square of the length: exact where the length may not be rational."""
        return self.dot(self)

    @property
    def left(self) -> "Vector":
        """This vector turned a quarter anticlockwise."""
        return Vector(-self.y, self.x)


@dataclass(frozen=True, slots=True, order=True)
class Point:
    """A place on a piece, on the table or in a pose, in the recipe's unit; x to the right, y up."""

    x: Fraction
    y: Fraction

    def __add__(self, step: Vector) -> "Point":
        return Point(self.x + step.x, self.y + step.y)

    def __sub__(self, other: "Point") -> Vector:
        return Vector(self.x - other.x, self.y - other.y)


ORIGIN = Point(Fraction(0), Fraction(0))


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight stretch from `start` to `end`; the two differ."""

    start: Point
    end: Point

    @property
    def along(self) -> Vector:
        """From start to end."""
        return self.end - self.start

    @property
    def middle(self) -> Point:
        """Halfway along."""
        return Point((self.start.x + self.end.x) / 2, (self.start.y + self.end.y) / 2)


Ring = tuple[Point, ...]
"""A simple closed outline, anticlockwise, at least three corners, the last joined to the first."""
