"""Fewest lens distances: against every choice of widths that could matter."""

from fractions import Fraction as F
from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from foldproof.filming.distances import Reach, fewest_widths

reaches = st.lists(
    st.builds(
        Reach, position=st.just("overhead"), need=st.integers(3, 30).map(F),
        fixed=st.one_of(st.none(), st.none(), st.integers(3, 30).map(F))),
    min_size=1, max_size=6)


@given(reaches)
def test_no_choice_has_fewer_widths(found: list[Reach]) -> None:
    widths = fewest_widths(found)
    assert all(reach.least <= width <= reach.most for reach, width in zip(found, widths, strict=True))
    ends = sorted({reach.most for reach in found})
    fewest = next(
        count for count in range(1, len(ends) + 1)
        if any(all(any(r.least <= w <= r.most for w in chosen) for r in found) for chosen in combinations(ends, count)))
    assert len(set(widths)) == fewest


def test_positions_of_the_camera_are_apart() -> None:
    found = [Reach(position="overhead", need=F(10)), Reach(position="front on", need=F(12))]
    assert [int(width) for width in fewest_widths(found)] == [10, 12]


def test_a_width_is_no_wider_than_its_shots_need() -> None:
    found = [Reach(position="overhead", need=F(n)) for n in (10, 12, 20)]
    assert [int(width) for width in fewest_widths(found)] == [12, 12, 20]
