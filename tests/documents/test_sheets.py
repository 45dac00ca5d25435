"""How many sheets a card takes."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.documents.sheets import Size, sheets_for

LETTER = (F(17, 2), F(11))


def size(width: str, height: str) -> Size:
    return F(width), F(height)


@pytest.mark.parametrize(("parts", "turn", "count"), [
    pytest.param([size("17/2", "11/2")] * 2, True, 1, id="a letter sheet makes two bases, edge to edge"),
    pytest.param([size("17/2", "11/2")] * 3, True, 2, id="and not three"),
    pytest.param([size("17/4", "11/2")] * 4, False, 1, id="four quarters"),
    pytest.param([size("11/2", "17/2")] * 2, True, 1, id="turned to fit"),
    pytest.param([size("11/2", "17/2")] * 2, False, 2, id="may not be turned"),
    pytest.param([size("9", "11")], True, None, id="too large"),
    pytest.param([], True, 0, id="nothing"),
])
def test_counts(parts: list[Size], turn: bool, count: int | None) -> None:
    assert sheets_for(parts, LETTER, turn=turn) == count


sizes = st.tuples(st.integers(1, 17), st.integers(1, 22)).map(lambda s: (F(s[0], 2), F(s[1], 2)))


@given(st.lists(sizes, min_size=1, max_size=12), st.booleans())
def test_never_fewer_than_the_area_asks_and_never_more_than_one_each(parts: list[Size], turn: bool) -> None:
    count = sheets_for(parts, LETTER, turn=turn)
    assert count is not None
    assert count * LETTER[0] * LETTER[1] >= sum(width * height for width, height in parts)
    assert count <= len(parts)
