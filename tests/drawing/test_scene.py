"""A scene is plain records that can be taken apart, moved and measured."""

import pytest

from foldproof.drawing.lettering import cap_height, text_width, wrap
from foldproof.drawing.scene import (
    Arrow,
    Dimension,
    Hatch,
    HeadKind,
    Kind,
    Label,
    Line,
    framed,
    items_box,
    moved,
    parts,
)

NUMBER = Label(text="2 1/8 in", at=(10.0, -5.0), pt=8.5, patch=True)
DIMENSION = Dimension(start=(0.0, 0.0), end=(20.0, 0.0), row=((0.0, -5.0), (20.0, -5.0)), label=NUMBER)


def test_a_dimension_has_two_extension_lines_two_heads_and_its_number() -> None:
    found = list(parts(DIMENSION))
    lines = [part for part in found if isinstance(part, Line)]
    assert all(line.kind is Kind.MEASURE for line in lines)
    assert [part for part in found if isinstance(part, Label)] == [NUMBER]
    upright = [line for line in lines if line.points[0][0] == line.points[1][0]]
    assert sorted(line.points[0][0] for line in upright) == [0.0, 20.0]
    # the extension lines start clear of the work and run past the dimension line
    assert all(line.points[0][1] < 0 and line.points[1][1] < -5 for line in upright)


def test_the_heads_of_a_narrow_dimension_point_inward_from_outside() -> None:
    narrow = Dimension(start=(0.0, 0.0), end=(1.0, 0.0), row=((0.0, -5.0), (1.0, -5.0)), label=NUMBER, outward=True)
    level = [p for part in parts(narrow) if isinstance(part, Line) for p in part.points if part.points[0][1] == -5.0]
    assert min(p[0] for p in level) < -2.0
    assert max(p[0] for p in level) > 3.0


def test_a_label_is_as_wide_as_its_letters() -> None:
    label = Label(text="half turn", at=(0.0, 0.0), pt=10.0)
    assert label.box.width == pytest.approx(text_width("half turn", 10.0))
    assert label.box.top == pytest.approx(cap_height(10.0) / 2)
    assert Label(text="half turn", at=(0.0, 0.0), pt=10.0, anchor="end").box.right == pytest.approx(0.0)
    upright = Label(text="half turn", at=(0.0, 0.0), pt=10.0, upright=True).box
    assert (upright.height, upright.width) == pytest.approx((label.box.width, label.box.height))


def test_widths_come_from_the_font() -> None:
    # advance widths of Source Sans Pro Regular, in thousandths of an em, read from its own metrics table
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    from foldproof.drawing.lettering import font_files

    font = TTFont(font_files()[0])
    ems = sum(font["hmtx"][font.getBestCmap()[ord(letter)]][0] for letter in "stop") / 1000
    assert text_width("stop", 10.0) == pytest.approx(ems * 10 * 25.4 / 72, rel=0.03)


def test_lines_break_between_words_and_never_inside_a_measurement() -> None:
    assert wrap("base, slate; sheet 8 1/2 × 11 in", 8.5, 25.0)[-1] == "8 1/2 × 11 in"
    assert " ".join(wrap("turn over like the page of a book", 7.5, 20.0)) == "turn over like the page of a book"
    assert len(wrap("turn over like the page of a book", 7.5, 20.0)) > 1


@pytest.mark.parametrize("item", [
    pytest.param(DIMENSION, id="dimension"),
    pytest.param(NUMBER, id="label"),
    pytest.param(Arrow(points=((0.0, 0.0), (5.0, 5.0)), head=HeadKind.HOLLOW_HALF), id="arrow"),
    pytest.param(Hatch(rings=(((0.0, 0.0), (16.0, 0.0), (16.0, 16.0), (0.0, 16.0)),)), id="hatch"),
])
def test_moving_an_item_moves_all_of_it(item: Dimension | Label | Arrow | Hatch) -> None:
    before, after = items_box((item,)), items_box((moved(item, (30.0, 40.0)),))
    # hatching keeps its lattice, so it may end a spacing earlier or later
    slack = 1.7 if isinstance(item, Hatch) else 1e-6
    assert after.left == pytest.approx(before.left + 30.0, abs=slack)
    assert after.top == pytest.approx(before.top + 40.0, abs=slack)


def test_a_framed_scene_holds_everything_with_its_margin() -> None:
    scene = framed((DIMENSION,), margin=2.0)
    box = items_box(scene.items)
    assert (box.left, box.bottom) == pytest.approx((2.0, 2.0))
    assert (scene.width, scene.height) == pytest.approx((box.right + 2.0, box.top + 2.0))
