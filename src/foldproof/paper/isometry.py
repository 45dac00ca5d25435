"""Isometries of the plane: how a flat panel lies, exactly."""

from fractions import Fraction
from functools import lru_cache

from foldproof.frozen import dataclass
from foldproof.paper.face import Face
from foldproof.paper.vector import Point, Ring, Segment, Vector

_0, _1 = Fraction(0), Fraction(1)


@dataclass(frozen=True, slots=True)
class Isometry:
    """(x, y) goes to (xx x + xy y + dx, yx x + yy y + dy); the 2 by 2 part is orthogonal and rational.

    A panel that keeps its front toward the viewer has determinant 1; one that is turned over has -1.
    """

    xx: Fraction = _1
    xy: Fraction = _0
    yx: Fraction = _0
    yy: Fraction = _1
    dx: Fraction = _0
    dy: Fraction = _0

    @property
    def flips(self) -> bool:
        """Whether the panel lies turned over, its back toward the viewer."""
        if not self.xy and not self.yx:
            return (self.xx.numerator > 0) is not (self.yy.numerator > 0)
        return self.xx * self.yy - self.xy * self.yx < 0

    @property
    def shows(self) -> Face:
        """The face that the viewer sees."""
        return Face.BACK if self.flips else Face.FRONT

    def point(self, p: Point) -> Point:
        """Where a point goes."""
        if not self.xy and not self.yx:  # no turn, or a half one, or over: nothing to multiply
            x, y = p.x if self.xx.numerator > 0 else -p.x, p.y if self.yy.numerator > 0 else -p.y
            return Point(x + self.dx if self.dx else x, y + self.dy if self.dy else y)
        return Point(self.xx * p.x + self.xy * p.y + self.dx, self.yx * p.x + self.yy * p.y + self.dy)

    def vector(self, v: Vector) -> Vector:
        """Where a displacement goes."""
        return Vector(self.xx * v.x + self.xy * v.y, self.yx * v.x + self.yy * v.y)

    def segment(self, s: Segment) -> Segment:
        """Where a segment goes, start to start."""
        return Segment(self.point(s.start), self.point(s.end))

    def ring(self, ring: Ring) -> Ring:
        """Where an outline goes, kept anticlockwise."""
        moved = tuple(self.point(p) for p in ring)
        return moved[::-1] if self.flips else moved

    def after(self, first: "Isometry") -> "Isometry":
        """The isometry that does `first` and then this one."""
        a, b = self, first
        if not (a.xy or a.yx or b.xy or b.yx):
            x, y = b.dx if a.xx.numerator > 0 else -b.dx, b.dy if a.yy.numerator > 0 else -b.dy
            return Isometry(a.xx * b.xx, _0, _0, a.yy * b.yy, x + a.dx, y + a.dy)
        return Isometry(
            a.xx * b.xx + a.xy * b.yx, a.xx * b.xy + a.xy * b.yy,
            a.yx * b.xx + a.yy * b.yx, a.yx * b.xy + a.yy * b.yy,
            a.xx * b.dx + a.xy * b.dy + a.dx, a.yx * b.dx + a.yy * b.dy + a.dy,
        )

    @property
    def inverse(self) -> "Isometry":
        """The isometry that undoes this one (the transpose undoes an orthogonal matrix)."""
        if not self.xy and not self.yx:
            x, y = self.dx if self.xx.numerator < 0 else -self.dx, self.dy if self.yy.numerator < 0 else -self.dy
            return Isometry(self.xx, _0, _0, self.yy, x, y)
        return Isometry(
            self.xx, self.yx, self.xy, self.yy,
            -(self.xx * self.dx + self.yx * self.dy), -(self.xy * self.dx + self.yy * self.dy),
        )


IDENTITY = Isometry()


def translation(by: Vector) -> Isometry:
    """A shift without a turn."""
    return Isometry(dx=by.x, dy=by.y)


@lru_cache(maxsize=1024)  # a card is folded again and again over the same few lines
def reflection(line: Segment) -> Isometry:
    """The flat fold over the line through a segment.

    With d the direction and n = d . d, the matrix is (2 d d^T - n) / n: rational whenever the line is.
    """
    d = line.along
    n = d.square
    xx, xy = (d.x * d.x - d.y * d.y) / n, 2 * d.x * d.y / n
    p = line.start
    return Isometry(xx, xy, xy, -xx, p.x - (xx * p.x + xy * p.y), p.y - (xy * p.x - xx * p.y))


def quarter_turns(count: int) -> Isometry:
    """A turn about the origin by `count` quarters, anticlockwise."""
    c, s = ((_1, _0), (_0, _1), (-_1, _0), (_0, -_1))[count % 4]
    return Isometry(c, -s, s, c)
