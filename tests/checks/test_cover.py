"""What is left of an area: areas add up, and nothing that is left is covered."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from foldproof.checks.cover import convex_parts, uncovered
from foldproof.paper.polygon import Where, area, interior_point, is_convex, locate
from foldproof.paper.vector import Point, Ring

ELL: Ring = tuple(Point(Fraction(x), Fraction(y)) for x, y in ((0, 0), (4, 0), (4, 1), (1, 1), (1, 3), (0, 3)))
whole = st.integers(0, 6).map(Fraction)


@st.composite
def boxes(draw: st.DrawFn) -> Ring:
    left, bottom = draw(whole), draw(whole)
    right, top = left + draw(st.integers(1, 4)), bottom + draw(st.integers(1, 4))
    return (Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top))


def test_an_ell_is_cut_into_convex_parts_of_the_same_area() -> None:
    parts = convex_parts(ELL)
    assert all(is_convex(part) for part in parts)
    assert sum(area(part) for part in parts) == area(ELL) == 6


@given(ring=st.one_of(boxes(), st.just(ELL)), covers=st.lists(st.one_of(boxes(), st.just(ELL)), max_size=3))
def test_what_is_left_is_the_area_less_what_is_covered(ring: Ring, covers: list[Ring]) -> None:
    left = uncovered(ring, covers)
    for part in left:
        inside = interior_point(part)
        assert locate(inside, ring) is Where.IN
        assert all(locate(inside, cover) is not Where.IN for cover in covers)
    # unit squares: all corners are whole numbers
    squares = [Point(Fraction(2 * x + 1, 2), Fraction(2 * y + 1, 2)) for x in range(11) for y in range(11)]
    bare = sum(1 for p in squares if locate(p, ring) is Where.IN and not any(locate(p, c) is Where.IN for c in covers))
    assert sum((area(part) for part in left), Fraction(0)) == bare
