"""Shapes taken away from paper, held against an independent library of plane geometry."""

from fractions import Fraction
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from foldproof.paper.cutaway import corner_waste, remaining, scallop_waste, shared
from foldproof.paper.keyhole import keyhole
from foldproof.paper.polygon import area, bounding_box
from foldproof.paper.shapes import disc, rectangle
from foldproof.paper.vector import Point, Ring

eighths = st.integers(-8, 40).map(lambda n: Fraction(n, 8))
SHEET = rectangle(Fraction(4), Fraction(3))


def _at(ring: Ring, x: Fraction, y: Fraction) -> Ring:
    return tuple(Point(p.x + x, p.y + y) for p in ring)


def _shapely(ring: Ring) -> Polygon:
    return Polygon([(float(p.x), float(p.y)) for p in ring])


@settings(deadline=None, max_examples=40)
@given(x=eighths, y=eighths, across=st.integers(4, 24).map(lambda n: Fraction(n, 8)), round_=st.booleans())
def test_what_is_left_and_shared_make_the_sheet(x: Fraction, y: Fraction, across: Fraction, round_: bool) -> None:
    shape = _at(disc(across) if round_ else rectangle(across, across / 2), x, y)
    left = sum((part.size for part in remaining(SHEET, (), [shape])), Fraction(0))
    gone = sum((part.size for part in shared(SHEET, (), shape)), Fraction(0))
    assert left + gone == area(SHEET)
    assert float(gone) == pytest.approx(_shapely(SHEET).intersection(_shapely(shape)).area, abs=1e-9)


def test_a_hole_stays_a_hole() -> None:
    hole = _at(disc(Fraction(1)), Fraction(1), Fraction(1))
    (left,) = remaining(SHEET, (hole,), [_at(rectangle(Fraction(1), Fraction(1)), Fraction(3), Fraction(2))])
    assert left.size == area(SHEET) - area(hole) - 1
    assert len(left.holes) == 1


@pytest.mark.parametrize("corner", ["bottom left", "bottom right", "top right", "top left"])
def test_a_rounded_corner_is_within_its_bound(corner: str) -> None:
    box = bounding_box(SHEET)
    waste = corner_waste(box, corner, Fraction(1))
    true = 1 - pi / 4
    # the polygon takes off more than the arc does, by less than 1/100 of the radius along a quarter of a circle
    assert true < float(area(waste)) < true + 0.01 * pi / 2
    centre = Point(*(Fraction(1) if side in ("left", "bottom") else high - 1
                     for side, high in zip(corner.split()[::-1], (box.right, box.top), strict=True)))
    arc = [p for p in waste if p not in SHEET]
    assert all((p - centre).square == 1 for p in arc)


@pytest.mark.parametrize("edge", ["left", "right", "top", "bottom"])
def test_scallops_are_half_discs_side_by_side(edge: str) -> None:
    waste = scallop_waste(bounding_box(SHEET), edge, Fraction(1))
    count = 4 if edge in ("top", "bottom") else 3
    (left,) = remaining(SHEET, (), waste)
    assert left.size == area(SHEET) - count * (Fraction(1, 2) - area(disc(Fraction(1))) / 2)
    assert bounding_box(left.ring) == bounding_box(SHEET)  # each scallop just reaches the edge that was there


@settings(deadline=None, max_examples=40)
@given(spots=st.lists(st.tuples(st.integers(0, 2), st.integers(0, 1)), unique=True, min_size=1, max_size=6))
def test_a_keyhole_has_the_area_of_the_sheet_with_its_holes(spots: list[tuple[int, int]]) -> None:
    holes = [_at(disc(Fraction(1)), Fraction(3 * x) / 2, Fraction(5 * y) / 4 + Fraction(1, 4)) for x, y in spots]
    big = rectangle(Fraction(6), Fraction(3))
    holes = [_at(hole, Fraction(1, 4), Fraction(0)) for hole in holes]
    ring, rims = keyhole(big, [hole[::-1] for hole in holes])
    assert area(ring) == area(big) - sum((area(hole) for hole in holes), Fraction(0))
    assert rims.count(True) == len(big) + sum(len(hole) for hole in holes)
