"""The table from above: what shows, where, and what is on it, in the maker's frame."""

from fractions import Fraction

import pytest
from small_steps import make, small_card

from foldproof.making.carry_out import carry_out
from foldproof.making.seen import Seen, seen, seen_after
from foldproof.paper.face import Face
from foldproof.paper.polygon import area, bounding_box
from foldproof.paper.vector import Point

PANELS = "{front: left of spine, rear: right of spine}"
MAT = "layers:\n  mat: {paper: plain, size: [3, 5], upon: front front, at: {left: 1/4, top: 1/2}, adhesive: glue}\n"
READY = "cut: [8, 6]\n{cut: [3, 5], piece: mat}\nscore: 4\n"
ON = "attach: {what: mat, left: 1/4, top: 1/2, with: glue}\n"


def looked(actions: str, *, behind: bool = False, more: str = MAT) -> Seen:
    card = small_card(
        actions, "spine: {across: 4, fold: valley}", PANELS, "rear", "{spine: 180}", more,
        "{trimmer: {}, scoring board: {}}")
    return seen(card, carry_out(card).end, "base", behind=behind)


def shown(whole: Seen) -> list[tuple[str | None, str, list[Fraction]]]:
    """Each visible part: its panel, its face, and left, bottom, right, top."""
    return sorted(
        (part.panel, part.face.value, [box.left, box.bottom, box.right, box.top])
        for part in whole.shown for box in [bounding_box(part.ring)])


MAT_LOW, MAT_HIGH, MAT_RIGHT = Fraction(1, 2), Fraction(11, 2), Fraction(13, 4)


@pytest.mark.parametrize(("actions", "parts"), [
    pytest.param(READY, [("front", "front", [0, 0, 4, 6]), ("rear", "front", [4, 0, 8, 6])], id="flat"),
    pytest.param(READY + ON, [
        ("front", "front", [0, 0, 4, 6]), ("mat", "front", [Fraction(1, 4), MAT_LOW, MAT_RIGHT, MAT_HIGH]),
        ("rear", "front", [4, 0, 8, 6])], id="with a mat"),
    pytest.param(READY + ON + "turn: half", [
        ("front", "front", [4, 0, 8, 6]),
        ("mat", "front", [8 - MAT_RIGHT, MAT_LOW, 8 - Fraction(1, 4), MAT_HIGH]),
        ("rear", "front", [0, 0, 4, 6])], id="turned half round"),
    pytest.param(READY + ON + "turn: quarter clockwise", [
        ("front", "front", [0, 4, 6, 8]), ("mat", "front", [MAT_LOW, 8 - MAT_RIGHT, MAT_HIGH, 8 - Fraction(1, 4)]),
        ("rear", "front", [0, 0, 6, 4])], id="a quarter clockwise"),
    pytest.param(READY + ON + "turn over: book page", [
        ("front", "back", [4, 0, 8, 6]), ("rear", "back", [0, 0, 4, 6])], id="turned over: the mat is hidden"),
    pytest.param(READY + ON + "fold: {score: spine, fold: valley}", [("front", "back", [0, 0, 4, 6])],
                 id="folded: the mat is inside"),
    pytest.param(READY + ON + "fold: {score: spine, fold: valley}\nturn over: book page",
                 [("rear", "back", [0, 0, 4, 6])], id="folded and turned over"),
])
def test_what_shows(actions: str, parts: list[tuple[str, str, list[Fraction]]]) -> None:
    whole = looked(actions)
    assert shown(whole) == parts
    # nothing is shown twice and nothing is left out
    seen_area = sum(area(part.ring) - sum(area(hole[::-1]) for hole in part.holes) for part in whole.shown)
    assert seen_area == whole.width * whole.height


def test_looking_from_behind_is_turning_over_like_a_page() -> None:
    assert shown(looked(READY + ON, behind=True)) == shown(looked(READY + ON + "turn over: book page"))


def test_what_is_on_a_face_is_seen_where_it_shows() -> None:
    marked = READY + "mark: {at: 1, edge: top, from: left, name: dot}\nstamp: {upon: front front, words: Hello}\n" + ON
    [front] = looked(marked).of("front", Face.FRONT)
    assert front.marks == (("dot", Point(Fraction(1), Fraction(6))),)
    assert [one.words for one in front.stamped] == ["Hello"]
    assert front.wet == ("mat",)
    assert [[line.start.x, line.end.x] for line in front.creases] == [[4, 4]]
    folded = looked(marked + "fold: {score: spine, fold: valley}")
    assert all(not part.marks and not part.stamped for part in folded.shown)


def test_marks_and_creases_under_a_mat_are_hidden() -> None:
    inside = READY + "mark: {at: 1, edge: top, from: left, in: 2, name: dot}\n"
    assert looked(inside).of("front", Face.FRONT)[0].marks
    assert not looked(inside + ON).of("front", Face.FRONT)[0].marks


def test_glue_dries() -> None:
    [front] = looked(READY + ON + "dry: 5 min").of("front", Face.FRONT)
    assert front.wet == ()


def test_every_body_on_the_table_is_seen() -> None:
    making = make(READY, more=MAT)
    card = small_card(READY, "spine: {across: 4, fold: valley}", PANELS, "rear", "{spine: 180}", MAT,
                      "{trimmer: {}, scoring board: {}}")
    assert [whole.root for whole in seen_after(card, making.end)] == ["base", "mat"]
