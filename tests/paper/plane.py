"""Short ways to write exact points, and strategies for the laws of the plane."""

from fractions import Fraction

from hypothesis import strategies as st

from foldproof.paper.vector import Point, Ring, Segment


def point(x: float | str | Fraction, y: float | str | Fraction) -> Point:
    """A point; a float must be a short binary fraction."""
    return Point(Fraction(x), Fraction(y))


def exact(*values: float | str | Fraction) -> tuple[Fraction, ...]:
    """The values as fractions, to be held against reckoned ones."""
    return tuple(Fraction(value) for value in values)


def ring(*corners: tuple[float, float]) -> Ring:
    """A ring of points."""
    return tuple(point(x, y) for x, y in corners)


def segment(x1: float, y1: float, x2: float, y2: float) -> Segment:
    """A segment."""
    return Segment(point(x1, y1), point(x2, y2))


sixteenths = st.integers(-160, 160).map(lambda n: Fraction(n, 16))
points = st.builds(Point, sixteenths, sixteenths)
segments = st.tuples(points, points).filter(lambda pair: pair[0] != pair[1]).map(lambda pair: Segment(*pair))
on_grid = st.builds(Point, st.integers(0, 7).map(Fraction), st.integers(0, 7).map(Fraction))
grid_segments = st.tuples(on_grid, on_grid).filter(lambda pair: pair[0] != pair[1]).map(lambda pair: Segment(*pair))
"""Few places, so that crossings, T-junctions, overlaps and coincident segments are common."""
