"""The thin lines from labels to what they speak of do not cross where that can be helped."""

from foldproof.drawing.labels import Obstacles, Wish, set_labels
from foldproof.drawing.places import places_round
from foldproof.drawing.scene import Kind, Label, Line


def wish(name: str, about: tuple[float, float], at: list[tuple[float, float]]) -> Wish:
    return Wish(label=Label(text=name, at=about, pt=8), about=about,
                places=tuple((place, "middle", False) for place in at))


def test_a_place_whose_line_would_cross_another_is_passed_over() -> None:
    """`a` at the left speaks of the right point; `b` could stand at the right, its line across, or at the left."""
    first = wish("a", (20.0, 20.0), [(0.0, 0.0)])
    second = wish("b", (0.0, 20.0), [(20.0, 0.0), (-10.0, 20.0)])
    items = set_labels([first, second], Obstacles())
    label = next(item for item in items if isinstance(item, Label) and item.text == "b")
    assert label.at == (-10.0, 20.0)
    assert sum(isinstance(item, Line) and item.kind is Kind.MEASURE for item in items) == 2


def test_where_every_place_crosses_the_first_is_taken() -> None:
    first = wish("a", (20.0, 20.0), [(0.0, 0.0)])
    second = wish("b", (0.0, 20.0), [(20.0, 0.0)])
    items = set_labels([first, second], Obstacles())
    assert {item.text for item in items if isinstance(item, Label)} == {"a", "b"}


def test_a_label_beside_its_point_needs_no_line() -> None:
    label = Label(text="a", at=(0, 0), pt=8)
    items = set_labels([Wish(label=label, about=(0, 0), places=tuple(places_round((0, 0), 8)))], Obstacles())
    assert not any(isinstance(item, Line) for item in items)
