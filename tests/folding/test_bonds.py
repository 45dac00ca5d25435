"""Where layers and joined pieces lie, on either face, turned or not, and what they cannot do."""

from fractions import Fraction

import pytest
from plans import built, card_of, exact, names_of

from foldproof.folding.card import Card
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Point

BASE = """
pieces:
  base: {paper: card, size: [10, 6], scores: {spine: {across: 4, fold: valley}},
         panels: {small: left of spine, large: right of spine}}
"""


def _layer(upon: str, at: str, size: str = "[2, 1]", glue: str = "back") -> Card:
    label = f"paper: card, size: {size}, upon: {upon}, at: {{{at}}}, glue on: {glue}"
    return card_of(f"{BASE}layers: {{label: {{{label}}}}}")


def _box(card: Card) -> tuple[Fraction, ...]:
    bond = card.bonds[0]
    box = bounding_box(bond.fit.ring(card.panels[bond.over.panel].ring))
    return (box.left, box.bottom, box.right, box.top)


@pytest.mark.parametrize(("upon", "at", "box"), [
    pytest.param("large front", "left: 1, bottom: 2", (5, 2, 7, 3), id="from the left and the bottom"),
    pytest.param("large front", "right: 1, top: 2", (7, 3, 9, 4), id="from the right and the top"),
    pytest.param("large front", "centred: both", (6, 2.5, 8, 3.5), id="in the middle"),
    pytest.param("large front", "centred: across, top: 0", (6, 5, 8, 6), id="centred across"),
    pytest.param("large front", "centred: up, left: 0", (4, 2.5, 6, 3.5), id="centred up"),
    pytest.param("large front", "left: -1, bottom: 2", (3, 2, 5, 3), id="sticking out"),
    pytest.param("large back", "left: 1, bottom: 2", (7, 2, 9, 3), id="a back is turned like a page"),
    pytest.param("large back", "right: 1, top: 2", (5, 3, 7, 4), id="on a back, from the right and the top"),
    pytest.param("small back", "left: 0, bottom: 0", (2, 0, 4, 1), id="on the back of the small panel"),
    pytest.param("large front", "left: 1, bottom: 2, turned: quarter clockwise", (5, 2, 6, 4), id="turned a quarter"),
])
def test_boxes_in_the_frame_of_the_base(upon: str, at: str, box: tuple[float, ...]) -> None:
    assert _box(_layer(upon, at)) == box


@pytest.mark.parametrize(("upon", "glue", "turned", "top_left"), [
    pytest.param("large front", "back", "none", (5, 3), id="front, upright"),
    pytest.param("large front", "back", "half", (7, 2), id="front, turned half"),
    pytest.param("large front", "back", "quarter clockwise", (6, 4), id="front, its top to the right"),
    pytest.param("large front", "back", "quarter anticlockwise", (5, 2), id="front, its top to the left"),
    pytest.param("large front", "front", "none", (7, 3), id="face down: its left is seen on the right"),
    pytest.param("large back", "back", "none", (9, 3), id="on the back, its left at the far side"),
    pytest.param("large back", "front", "none", (7, 3), id="on the back, face down"),
    pytest.param("large back", "back", "quarter clockwise", (8, 4), id="on the back, its top to the viewer's right"),
])
def test_where_the_top_left_corner_of_the_layer_comes(
    upon: str, glue: str, turned: str, top_left: tuple[int, int],
) -> None:
    card = _layer(upon, f"left: 1, bottom: 2, turned: {turned}", glue=glue)
    assert card.bonds[0].fit.point(Point(Fraction(0), Fraction(1))) == Point(*map(Fraction, top_left))


@pytest.mark.parametrize(("upon", "glue"), [
    (upon, glue) for upon in ("large front", "large back") for glue in ("front", "back")])
def test_a_fit_flips_when_like_faces_meet(upon: str, glue: str) -> None:
    assert _layer(upon, "centred: both", glue=glue).bonds[0].fit.flips == upon.endswith(glue)


def test_the_area_is_where_they_touch() -> None:
    area = _layer("large front", "left: -1, bottom: 2").bonds[0].area
    assert area is not None
    box = bounding_box(area)
    assert (box.left, box.bottom, box.right, box.top) == exact(4, 2, 5, 3)


JOINED = """
pieces:
  one: {paper: card, size: [6, 4], scores: {a: {across: 2, fold: valley}},
        panels: {tab: left of a, rear: right of a}}
  two: {paper: card, size: [7, 4], scores: {b: {across: 4, fold: valley}},
        panels: {face: left of b, tongue: right of b}}
joins: {seam: {put: tongue PUT, upon: tab UPON, at: {left: 0, bottom: 0}}}
"""


@pytest.mark.parametrize(("put", "upon", "joint"), [
    pytest.param("back", "front", (0, 0), id="back on front: the put panel's left on the left"),
    pytest.param("front", "front", (3, 0), id="front on front: turned like a page"),
    pytest.param("front", "back", (-1, 0), id="front on back"),
    pytest.param("back", "back", (2, 0), id="back on back"),
])
def test_a_join_lays_panel_on_panel_and_takes_the_piece_along(put: str, upon: str, joint: tuple[int, int]) -> None:
    card = card_of(JOINED.replace("PUT", put).replace("UPON", upon))
    # the joint of the put piece: the lower end of its score, where its tongue begins
    at = card.bonds[0].fit.point(Point(Fraction(4), Fraction(0)))
    assert (at.x, at.y) == exact(*joint)


CLOSED = "poses: {closed: {still: large, folds: {spine: 180}}}\n"


def test_centred_on_the_closed_card() -> None:
    card = card_of(f"""{BASE}layers:
  label: {{paper: card, size: [2, 1], upon: small back, at: {{centred: both, centred on: card}}}}
{CLOSED}""")
    pose = card.poses[0]
    assert hasattr(pose, "placements")
    box = bounding_box(pose.placements["label"].ring(card.panels["label"].ring))
    assert (box.left, box.bottom, box.right, box.top) == exact(2, "5/2", 4, "7/2")


def test_centred_on_the_card_is_reckoned_without_the_layer_itself() -> None:
    card = card_of(f"""{BASE}layers:
  tag: {{paper: card, size: [1, 1], upon: large front, at: {{right: -1/2, bottom: 0}}}}
  label: {{paper: card, size: [2, 1], upon: small back,
          at: {{centred: across, bottom: 0, centred on: card}}}}
{CLOSED}""")
    # large reaches from 4 to 10 and tag to 10 1/2, so the middle is at 7 1/4
    fit = {bond.name: bond.fit for bond in card.bonds}["label"]
    spots = [fit.point(p).x for p in card.panels["label"].ring]
    assert (min(spots), max(spots)) == exact("-1/4", "7/4")  # 6 1/4 to 8 1/4, folded over x = 4


def test_centred_on_a_panel_that_is_elsewhere_until_the_card_is_closed() -> None:
    card = card_of(f"""{BASE}layers:
  label: {{paper: card, size: [2, 1], upon: small back, at: {{centred: both, centred on: large}}}}
{CLOSED}""")
    spots = [card.bonds[0].fit.point(p).x for p in card.panels["label"].ring]
    assert (min(spots), max(spots)) == exact(0, 2)  # the middle of large, 7, folded over x = 4


def test_a_layer_on_a_layer_that_is_written_later() -> None:
    card = card_of(BASE + """layers:
  top: {paper: card, size: [1, 1], upon: low front, at: {centred: both}}
  low: {paper: card, size: [2, 2], upon: large front, at: {centred: both}}""")
    assert [bond.name for bond in card.bonds] == ["low", "top"]


@pytest.mark.parametrize(("rest", "name"), [
    pytest.param("layers: {m: {paper: card, size: [1, 1], upon: m front, at: {centred: both}}}", "fixed to itself",
                 id="on itself"),
    pytest.param("layers: {m: {paper: card, size: [1, 1], upon: o front, at: {centred: both}},"
                 " o: {paper: card, size: [1, 1], upon: m front, at: {centred: both}}}", "layers in a ring",
                 id="two on each other"),
    pytest.param("layers: {m: {paper: card, size: [1, 1], upon: large front, at: {left: 6, bottom: 0}}}",
                 "nothing to stick to", id="edge to edge"),
    pytest.param("layers: {m: {paper: card, size: [1, 1], upon: large front, at: {centred: both, centred on: card}}}\n"
                 "poses: {closed: {folds: {spine: 90}}}", "nothing to centre on", id="centred on a card that stands"),
])
def test_what_layers_cannot_do(rest: str, name: str) -> None:
    assert names_of(BASE + rest) == [name]


def test_a_piece_that_is_never_attached() -> None:
    _, (finding,) = built("pieces: {one: {paper: card, size: [2, 2]}, two: {paper: card, size: [2, 2]}}")
    assert finding.name == "piece never attached" and "two" in finding.message
    assert finding.place is not None and finding.place.line == 5
