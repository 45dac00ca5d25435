"""Dimensions in rows: each as long as what it measures, none on another."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foldproof.drawing import rows
from foldproof.drawing.legible import faults
from foldproof.drawing.nearest import away, dimension_line
from foldproof.drawing.plane import Box, length, minus
from foldproof.drawing.rows import Wanted, set_in_rows
from foldproof.drawing.scene import framed

BOX = Box(0.0, 0.0, 60.0, 40.0)
stops = st.sets(st.integers(1, 59), min_size=1, max_size=4)


@settings(deadline=None)
@given(across=stops, up=st.sets(st.integers(5, 39), max_size=2))
def test_stacked_dimensions_never_touch(across: set[int], up: set[int]) -> None:
    wanted = [Wanted(start=(0.0, 0.0), end=(float(x), 0.0), text=f"{x} mm", sides=("below",)) for x in across | {60}]
    wanted += [Wanted(start=(0.0, 0.0), end=(0.0, float(y)), text=f"{y} mm", sides=("left",)) for y in up | {40}]
    found = set_in_rows(wanted, BOX, 8.5)
    assert len(found) == len(wanted)
    for dimension in found:
        assert f"{length(minus(*dimension.row)):g} mm" == dimension.label.text
    assert faults(framed(found)) == []


def test_the_shortest_stands_next_to_the_work() -> None:
    wanted = [Wanted(start=(0.0, 0.0), end=(x, 0.0), text=f"{x:g}", sides=("below",)) for x in (60.0, 20.0, 40.0)]
    found = set_in_rows(wanted, BOX, 8.5)
    depth = {dimension.label.text: -dimension.row[0][1] for dimension in found}
    assert depth["20"] < depth["40"] < depth["60"]


def test_a_narrow_dimension_has_its_number_outside() -> None:
    (found,) = set_in_rows([Wanted(start=(10.0, 0.0), end=(11.0, 0.0), text="1/8 in")], BOX, 8.5)
    assert found.outward
    assert found.label.box.left > 11.0 or found.label.box.right < 10.0


def test_a_slanted_length_runs_beside_itself_outside() -> None:
    (found,) = set_in_rows([Wanted(start=(0.0, 0.0), end=(30.0, 40.0), text="50 mm")], BOX, 8.5)
    assert length(minus(*found.row)) == pytest.approx(50.0)
    assert found.row[0][0] < 0.0


def test_each_number_stands_nearest_to_its_own_line() -> None:
    # two short lengths from the same edge: the number of the longer stood over the arrow of the shorter
    found = set_in_rows([
        Wanted(start=(60.0, 40.0), end=(60.0, 40.0 - far), text=text, sides=("right",))
        for far, text in ((3.1, "1 1/8 in"), (8.6, "3 1/8 in"))], BOX, 8.5)
    assert faults(framed(found)) == []
    lines = {dimension.label.text: dimension_line(dimension) for dimension in found}
    for dimension in found:
        own = dimension.label.text
        assert min(lines, key=lambda text: away(dimension.label.box, *lines[text])) == own


def test_how_far_a_stroke_stays_away_from_a_box() -> None:
    box = Box(0.0, 0.0, 4.0, 2.0)
    assert away(box, (7.0, 6.0), (7.0, 9.0)) == pytest.approx(5.0)
    assert away(box, (6.0, -9.0), (6.0, 9.0)) == pytest.approx(2.0)
    assert away(box, (-1.0, 1.0), (9.0, 1.0)) == 0.0


@pytest.mark.parametrize("count", [60, 200])
def test_hundreds_of_lengths_end_in_good_time(count: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """No arrangement of them can be read; each still has its dimension, and the search for one has its bound."""
    looks = 0

    def counted(one: Any, other: Any) -> bool:
        nonlocal looks
        looks += 1
        return clear(one, other)

    clear = rows._clear
    monkeypatch.setattr(rows, "_clear", counted)
    wanted = [Wanted(start=(n * 0.1, 0.0), end=(n * 0.1 + 0.05, 0.0), text="12 15/16 in", sides=("below", "above"))
              for n in range(count)]
    assert len(set_in_rows(wanted, Box(0.0, 0.0, 30.0, 20.0), 8.5)) == count
    assert rows.MOST_PAIRS < looks < 1.5 * rows.MOST_PAIRS
