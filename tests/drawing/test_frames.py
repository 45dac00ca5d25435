"""A step divided into frames: a new one whenever the work lies or is folded another way."""

from fractions import Fraction

import pytest
from drawn import made_of

from foldproof.drawing.frame import Frame
from foldproof.drawing.frames import frames_of, looked_at, turn_between
from foldproof.drawing.shown_cuts import cut_shift
from foldproof.making.lying import turned, turned_over
from foldproof.making.table import UPRIGHT, Lie
from foldproof.paper.face import Face
from foldproof.paper.vector import Point, Segment, Vector
from foldproof.recipe import actions as do

GATE = """
pieces:
  base:
    paper: plain
    size: [8, 5]
    scores:
      left hinge: {across: 2, fold: valley}
      right hinge: {across: 6, fold: valley}
    panels:
      left door: left of left hinge
      middle: between left hinge and right hinge
      right door: right of right hinge
layers:
  plate: {paper: plain, size: [3, 4], upon: middle front, at: {centred: both}}
  other plate: {paper: plain, size: [3, 4], upon: middle back, at: {centred: both}}
poses:
  closed: {still: middle, folds: {left hinge: 180, right hinge: 180}}
steps:
  - title: Make
    piece: base
    do:
      - cut: [8, 5]
      - {cut: [3, 4], piece: plate}
      - {cut: [3, 4], piece: other plate}
    text: Make.
  - title: Step
    piece: base
    do:
"""


def frames(actions: str) -> list[tuple[list[str], list[str]]]:
    """For each frame of a second step the kinds of its actions and the motions that lead to it."""
    return [
        ([type(done.action).__name__ for done in frame.done], [motion.words or motion.kind for motion in frame.motions])
        for frame in frame_list(actions)
    ]


def frame_list(actions: str, earlier: str = "") -> tuple[Frame, ...]:
    lines = "".join(f"      - {line.strip()}\n" for line in actions.strip().splitlines())
    before = "".join(f"      - {line.strip()}\n" for line in (earlier or "note: burnish").strip().splitlines())
    text = GATE + before + "    text: Do.\n  - title: Step\n    piece: base\n    do:\n" + lines + "    text: Do it.\n"
    card, making = made_of(text, "4", "5")
    return frames_of(card, making.steps[-1])


ROLL = """
pieces:
  base:
    paper: plain
    size: [6, 5]
    scores:
      first: {across: 2, fold: valley}
      second: {across: 4, fold: valley}
    panels:
      left: left of first
      middle: between first and second
      right: right of second
poses:
  closed: {still: right, folds: {first: 180, second: 180}}
steps:
  - title: Cut
    piece: base
    do:
      - cut: [6, 5]
    text: Cut.
  - title: Roll
    piece: base
    do:
      - score: 2
      - score: 4
      - fold: {score: first, fold: valley}
      - fold: {score: second, fold: valley}
    text: Roll.
"""


def test_two_scores_as_the_work_lies_share_a_frame() -> None:
    assert frames("lay: {edge: long}\nscore: 2\nscore: 6") == [(["Lay", "ScoreAt", "ScoreAt"], [])]


def test_a_half_turn_makes_a_new_frame() -> None:
    assert frames("lay: {edge: long}\nscore: 2\nturn: half\nscore: 2") == [
        (["Lay", "ScoreAt"], []), (["ScoreAt"], ["half turn"])]


def test_a_turn_leads_to_the_picture_of_what_comes_of_it() -> None:
    assert frames("turn over: book page\nscore: 2\nturn: quarter clockwise") == [
        (["ScoreAt"], ["turn over like the page of a book"]), ([], ["quarter turn to the right"])]


def test_two_motions_without_work_between_lead_to_one_frame() -> None:
    assert frames("turn over: top to bottom\nturn: half\nscore: 2") == [
        (["ScoreAt"], ["turn over top to bottom", "half turn"])]


def test_a_turn_alone_shows_what_comes_of_it() -> None:
    assert frames("turn: half") == [([], ["half turn"])]


def test_turning_another_piece_says_which() -> None:
    assert frames("score: 2\n{turn over: book page, piece: plate}") == [
        (["ScoreAt"], []), ([], ["plate: turn over like the page of a book"])]


def test_laying_another_edge_on_the_fence_is_a_turn() -> None:
    assert frames("lay: {edge: long}\nscore: 2\nlay: {edge: right}\nscore: 1") == [
        (["Lay", "ScoreAt"], []), (["Lay", "ScoreAt"], ["quarter turn to the left"])]


def test_folds_that_do_not_move_each_other_share_a_frame_and_their_outcome_stands_beside_it() -> None:
    found = frames("score: 2\nscore: 6\nfold: {score: left hinge, fold: valley}\n"
                   "fold: {score: right hinge, fold: valley}\nmeasure: [4, 5]")
    assert found == [(["ScoreAt", "ScoreAt"], []), (["FoldOn", "FoldOn"], ["then"]), (["Measure"], ["then"])]


def test_folds_that_are_opened_at_once_share_a_frame_without_an_outcome() -> None:
    made = frame_list("score: 2\nscore: 6\nfold: {score: left hinge, fold: valley}\nunfold: left hinge\n"
                      "fold: {score: right hinge, fold: valley}\nunfold: right hinge")
    assert [[type(done.action).__name__ for done in frame.done] for frame in made] == [
        ["ScoreAt", "ScoreAt"], ["FoldOn", "FoldOn"]]
    assert all(made[1].goes_back(done) for done in made[1].done) and len(made[1].back) == 2


CLOSED = "score: 2\nscore: 6\nfold: {score: left hinge, fold: valley}\nfold: {score: right hinge, fold: valley}\n"


def test_opening_and_closing_again_is_one_frame_with_the_measures_that_follow() -> None:
    made = frame_list("unfold: right hinge\nunfold: left hinge\nfold: {score: left hinge, fold: valley}\n"
                      "fold: {score: right hinge, fold: valley}\nmeasure: [4, 5]", CLOSED)
    assert [type(done.action).__name__ for done in made[-1].done] == ["Unfold", "Unfold", "Measure"]
    assert len(made) == 1 and len(made[0].back) == 2


def test_opening_fold_by_fold_and_closing_again_is_one_frame() -> None:
    card, making = made_of(ROLL + TRY, "2", "5")
    (frame,) = frames_of(card, making.steps[-1])
    assert [type(done.action).__name__ for done in frame.done] == ["Unfold"]
    assert len(frame.rest) == 1 and len(frame.back) == 2


TRY = """
  - title: Try
    piece: base
    do:
      - unfold: second
      - unfold: first
      - fold: {score: first, fold: valley}
      - fold: {score: second, fold: valley}
    text: Try it.
"""


def test_closing_in_an_order_that_is_not_the_one_turned_round_is_drawn_for_itself() -> None:
    made = frame_list("unfold: right hinge\nunfold: left hinge\nfold: {score: right hinge, fold: valley}\n"
                      "fold: {score: left hinge, fold: valley}\nmeasure: [4, 5]", CLOSED)
    assert [[type(done.action).__name__ for done in frame.done] for frame in made] == [
        ["Unfold", "Unfold", "Measure"], ["FoldOn", "FoldOn"]]
    assert made[1].again == 0 and not made[0].back


def test_a_fold_on_paper_that_an_earlier_fold_has_moved_has_a_frame_of_its_own() -> None:
    card, making = made_of(ROLL, "2", "5")
    found = frames_of(card, making.steps[-1])
    assert [[type(done.action).__name__ for done in frame.done] for frame in found] == [
        ["ScoreAt", "ScoreAt"], ["FoldOn"], ["FoldOn"], []]


def test_pieces_cut_alike_share_a_frame() -> None:
    card, making = made_of(GATE + "      - measure: [8, 5]\n    text: Do it.\n", "4", "5")
    found = [[done.piece for done in frame.done] for frame in frames_of(card, making.steps[0])]
    assert found == [["base"], ["plate", "other plate"]]


def test_what_cannot_be_seen_has_no_frame() -> None:
    assert frames("note: burnish\ndry: 5 min") == []


def test_what_goes_on_the_face_that_is_down_is_shown_from_there() -> None:
    card, making = made_of(GATE + "      - attach: {what: other plate, centred: both}\n    text: Do it.\n", "4", "5")
    (frame,) = frames_of(card, making.steps[-1])
    assert [motion.kind for motion in frame.motions] == ["over"]
    assert looked_at(card, frame) == turned_over(UPRIGHT, "book page")


@pytest.mark.parametrize("amount", ["half", "quarter clockwise", "quarter anticlockwise"])
@pytest.mark.parametrize("lie", [
    pytest.param(UPRIGHT, id="upright"), pytest.param(turned_over(UPRIGHT, "book page"), id="over"),
    pytest.param(Lie(right=Vector(Fraction(3), Fraction(4)), up=Face.BACK), id="slanted"),
])
def test_the_turn_between_two_lies_is_the_turn_that_was_made(lie: Lie, amount: str) -> None:
    motion = turn_between(lie, turned(lie, amount))
    assert motion is not None and motion.way == amount


def test_no_turn_between_equal_lies_whatever_the_length_of_their_direction() -> None:
    assert turn_between(UPRIGHT, Lie(right=UPRIGHT.right * 3, up=Face.FRONT)) is None


def rectangle(width: int, height: int) -> tuple[Point, ...]:
    return tuple(Point(Fraction(x), Fraction(y)) for x, y in ((0, 0), (width, 0), (width, height), (0, height)))


@pytest.mark.parametrize(("kept", "line_at", "shift"), [
    pytest.param(5, 5, 0, id="left part kept: its frame stays"),
    pytest.param(3, 0, 5, id="right part kept: its corner was at 5"),
])
def test_the_part_that_is_kept_is_found_in_the_whole(kept: int, line_at: int, shift: int) -> None:
    line = Segment(Point(Fraction(line_at), Fraction(0)), Point(Fraction(line_at), Fraction(4)))
    assert cut_shift(rectangle(8, 4), rectangle(kept, 4), (line,)) == Vector(Fraction(shift), Fraction(0))


def test_every_action_that_changes_paper_is_among_those_that_are_shown() -> None:
    from foldproof.drawing.frames import SHOWN

    hidden = {do.Dry, do.Note, do.SetBlade}
    assert set(SHOWN) == {kind for kind in vars(do).values() if isinstance(kind, type)
                          and issubclass(kind, do.Doing) and kind is not do.Doing} - hidden
