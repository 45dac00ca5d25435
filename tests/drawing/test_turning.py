"""A card turned in the hand, in parts."""

from math import cos, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.drawing.turning import inverse, part_of
from foldproof.folding.space import Motion, Vec, length, minus

angles = st.sampled_from([0.0, 30.0, 90.0, 179.0, 180.0, 233.0])
small = st.integers(-5, 5).map(float)
spots = st.tuples(small, small, small)


def about_axis(axis: int, degrees: float, origin: Vec) -> Motion:
    c, s = cos(radians(degrees)), sin(radians(degrees))
    columns: list[tuple[Vec, Vec, Vec]] = [
        ((1, 0, 0), (0, c, s), (0, -s, c)), ((c, 0, -s), (0, 1, 0), (s, 0, c)), ((c, s, 0), (-s, c, 0), (0, 0, 1))]
    return Motion(*columns[axis], origin)


@given(axis=st.integers(0, 2), other=st.integers(0, 2), one=angles, two=angles, origin=spots, about=spots, p=spots)
def test_no_part_is_none_and_the_whole_is_the_whole(
    axis: int, other: int, one: float, two: float, origin: Vec, about: Vec, p: Vec,
) -> None:
    motion = about_axis(axis, one, origin).after(about_axis(other, two, (0.0, 0.0, 0.0)))
    assert part_of(motion, 0.0, about).point(p) == pytest.approx(p, abs=1e-6)
    assert part_of(motion, 1.0, about).point(p) == pytest.approx(motion.point(p), abs=1e-5)
    assert inverse(motion).point(motion.point(p)) == pytest.approx(p, abs=1e-9)


@given(axis=st.integers(0, 2), degrees=angles, about=spots, p=spots, q=spots, share=st.floats(0, 1))
def test_paper_keeps_its_size_and_the_middle_goes_straight(
    axis: int, degrees: float, about: Vec, p: Vec, q: Vec, share: float,
) -> None:
    motion = about_axis(axis, degrees, (3.0, -2.0, 1.0))
    part = part_of(motion, share, about)
    assert length(minus(part.point(p), part.point(q))) == pytest.approx(length(minus(p, q)), abs=1e-9)
    goes = minus(motion.point(about), about)
    assert part.point(about) == pytest.approx(tuple(a + share * g for a, g in zip(about, goes, strict=True)), abs=1e-9)


def test_half_of_a_quarter_turn_is_an_eighth() -> None:
    part = part_of(about_axis(2, 90, (0.0, 0.0, 0.0)), 0.5, (0.0, 0.0, 0.0))
    assert part.point((1.0, 0.0, 0.0)) == pytest.approx((2**-0.5, 2**-0.5, 0.0))
