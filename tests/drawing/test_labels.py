"""Labels find a place that is free."""

from foldproof.drawing.labels import Wish, obstacles_of, set_labels
from foldproof.drawing.legible import faults
from foldproof.drawing.places import places_inside, places_round
from foldproof.drawing.scene import Hatch, Item, Kind, Label, Line, framed

RING = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))


def wish(text: str, must: bool = True) -> Wish:
    label = Label(text=text, at=(0.0, 0.0), pt=8.5)
    return Wish(label=label, places=tuple(places_inside(RING, text, 8.5)), room=RING, must=must)


def test_a_label_moves_off_a_line_through_the_middle() -> None:
    items: list[Item] = [
        Line(points=RING, kind=Kind.EDGE, closed=True), Line(points=((20.0, 0.0), (20.0, 30.0)), kind=Kind.VALLEY)]
    placed = set_labels([wish("cover")], obstacles_of(items))
    assert faults(framed((*items, *placed))) == []
    (label,) = placed
    assert isinstance(label, Label)
    assert label.box.right < 20.0 or label.box.left > 20.0


def test_labels_keep_clear_of_each_other() -> None:
    placed = set_labels([wish("one"), wish("two"), wish("three")], obstacles_of([]))
    assert len(placed) == 3
    assert faults(framed(placed)) == []


def test_a_label_that_finds_no_place_is_left_out_unless_it_must_stand() -> None:
    items = [Line(points=((0.0, float(y)), (40.0, float(y))), kind=Kind.EDGE) for y in range(0, 31, 2)]
    assert set_labels([wish("cover", must=False)], obstacles_of(items)) == ()
    assert len(set_labels([wish("cover")], obstacles_of(items))) == 1


def test_a_label_on_hatching_stands_on_a_patch() -> None:
    hatch = Hatch(rings=(RING,))
    (label,) = set_labels([wish("mat")], obstacles_of([hatch]))
    assert isinstance(label, Label) and label.patch
    assert faults(framed((hatch, label))) == []
    assert faults(framed((hatch, Label(text="mat", at=label.at, pt=8.5))))


def test_a_far_label_is_led_to_its_point() -> None:
    blocked = [Line(points=((-6.0, float(y)), (6.0, float(y))), kind=Kind.EDGE) for y in range(-5, 6)]
    middle = (0.0, 0.0)
    far = Wish(label=Label(text="button", at=middle, pt=8.5), places=tuple(places_round(middle, 8.5)), about=middle)
    lead, label = set_labels([far], obstacles_of(blocked))
    assert isinstance(lead, Line) and lead.points[-1] == middle
    assert isinstance(label, Label) and (label.box.left > 6.0 or label.box.right < -6.0)


def test_a_label_gives_way_to_one_that_has_no_other_place() -> None:
    def at(text: str, *places: float) -> Wish:
        label = Label(text=text, at=(0.0, 0.0), pt=8.5)
        return Wish(label=label, places=tuple(((x, 0.0), "middle", False) for x in places))

    # the first could stand anywhere; the second only where the first would go; the third makes both move on
    wishes = [at("free", 0.0, 20.0, 40.0), at("bound", 0.0), at("half free", 20.0, 0.0)]
    placed = {label.text: label.at[0] for label in set_labels(wishes, obstacles_of([])) if isinstance(label, Label)}
    assert placed == {"bound": 0.0, "half free": 20.0, "free": 40.0}


def test_the_same_wishes_are_set_the_same_way_every_time() -> None:
    wishes = [wish(f"label {i}") for i in range(12)]
    assert set_labels(wishes, obstacles_of([])) == set_labels(wishes, obstacles_of([]))
