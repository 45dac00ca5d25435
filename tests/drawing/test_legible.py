"""The check of legibility fires on each thing that it looks for, and is silent on a good drawing."""

from dataclasses import replace

import pytest

from foldproof.drawing.legible import faults
from foldproof.drawing.record import PLAIN, DrawingStyle
from foldproof.drawing.scene import Area, Dimension, Fill, Item, Kind, Label, Line, Scene

GOOD: tuple[Item, ...] = (
    Area(rings=(((5.0, 10.0), (45.0, 10.0), (45.0, 35.0), (5.0, 35.0)),), fill=Fill.FRONT, edge=Kind.EDGE),
    Label(text="cover", at=(25.0, 22.0), pt=8.5),
    Dimension(start=(5.0, 10.0), end=(45.0, 10.0), row=((5.0, 5.0), (45.0, 5.0)),
              label=Label(text="4 in", at=(25.0, 5.0), pt=8.5, patch=True)),
)


def scene(*more: Item) -> Scene:
    return Scene(width=50.0, height=40.0, items=(*GOOD, *more))


def test_a_good_drawing_has_no_faults() -> None:
    assert faults(scene()) == []


@pytest.mark.parametrize(("item", "told"), [
    pytest.param(Label(text="tiny", at=(10.0, 30.0), pt=7.0), "smaller than", id="small text"),
    pytest.param(Label(text="outside", at=(48.0, 30.0), pt=8.5), "outside", id="off the drawing"),
    pytest.param(Label(text="rear", at=(26.0, 22.5), pt=8.5), "run into", id="on another label"),
    pytest.param(Line(points=((25.0, 11.0), (25.0, 34.0)), kind=Kind.VALLEY), "through", id="a line through a label"),
    pytest.param(Label(text="edge", at=(45.0, 30.0), pt=8.5), "through", id="on the edge of an area"),
    pytest.param(Label(text=" ", at=(10.0, 30.0), pt=8.5), "without words", id="nothing said"),
    pytest.param(
        Area(rings=(((24.0, 21.0), (27.0, 21.0), (27.0, 23.0)),), fill=Fill.INK), "through", id="a head on a label"),
])
def test_each_fault_is_told(item: Item, told: str) -> None:
    assert any(told in fault for fault in faults(scene(item)))


def test_a_line_that_is_too_thin_is_told() -> None:
    assert any("thinner" in fault for fault in faults(scene(), DrawingStyle(thin_pt=0.3)))
    assert not faults(scene(), PLAIN)


def test_a_number_nearer_to_another_line_is_told() -> None:
    def upright(x: float, low: float, number: Label) -> Dimension:
        return Dimension(start=(5.0, low), end=(5.0, 30.0), row=((x, low), (x, 30.0)), label=number)

    short = upright(15.0, 24.0, Label(text="6", at=(12.5, 27.0), pt=8.5))
    far = upright(25.0, 10.0, Label(text="20", at=(18.5, 17.0), pt=8.5))
    over = upright(25.0, 10.0, Label(text="20", at=(16.5, 33.0), pt=8.5))

    def told(*items: Item) -> list[str]:
        return [fault for fault in faults(Scene(width=50.0, height=40.0, items=items)) if "read as" in fault]

    assert told(short) == []
    assert told(short, over) == ["“20” may be read as the length beside it, “6”"]
    assert told(short, replace(far, label=replace(far.label, at=(25.0, 17.0)))) == []
