"""Every action in every way of writing it."""

from fractions import Fraction

import pytest
from small_recipe import SOUND

from foldproof.measures.quantity import Quantity
from foldproof.paper.face import Face, Fold
from foldproof.recipe import actions as do
from foldproof.recipe.reader import read_text


def first_action(written: str) -> do.Action:
    """The action of a step with nothing else to do, on the piece `base`, after a mark `nick` was made."""
    mark = "mark: {at: 1, edge: top, from: left, name: nick}"
    text = f"{SOUND}  - title: Try\n    piece: base\n    do:\n      - {mark}\n      - {written}\n    text: Try.\n"
    reading = read_text(text.replace("name: nick}\n      - score: 2", "name: nack}\n      - score: 2").replace(
        "from: nick, to: bottom middle", "from: nack, to: bottom middle"), "small.yaml")  # fmt: skip
    assert reading.findings == ()
    assert reading.recipe is not None
    return reading.recipe.steps[-1].actions[1]


def values(*quantities: Quantity | None) -> list[Fraction | int]:
    return [quantity.value for quantity in quantities if quantity is not None]


@pytest.mark.parametrize("written", ["cut: [8 1/2, 5 1/2]", "cut: {size: [8 1/2, 5 1/2]}"])
def test_cut_out(written: str) -> None:
    action = first_action(written)
    assert isinstance(action, do.CutOut)
    assert values(*action.size) == [Fraction(17, 2), Fraction(11, 2)]
    assert action.piece is None


def test_cut_across() -> None:
    action = first_action("cut: {at: 4 1/4, keep: right}")
    assert isinstance(action, do.CutAcross)
    assert (values(action.at), action.keep) == ([Fraction(17, 4)], "right")


def test_cut_between() -> None:
    action = first_action("cut: {from: nick, to: bottom right, keep: top left, other: flap}")
    assert isinstance(action, do.CutBetween)
    assert (action.start.name, action.end.name, action.keep, action.other) == (
        "nick",
        "bottom right",
        "top left",
        "flap",
    )


@pytest.mark.parametrize("written", ["die cut: [1, 2]", "die cut: {size: [1, 2]}"])
def test_die_cut(written: str) -> None:
    action = first_action(written)
    assert isinstance(action, do.DieCut)
    assert values(*action.size) == [1, 2]


def test_lay() -> None:
    short, full = first_action("lay: short"), first_action("lay: {edge: bottom, up: back}")
    assert isinstance(short, do.Lay) and isinstance(full, do.Lay)
    assert (short.edge, short.face, full.edge, full.face) == ("short", None, "bottom", Face.BACK)


def test_mark() -> None:
    action = first_action("mark: {at: 0, edge: left, from: bottom, name: low mark}")
    assert isinstance(action, do.MarkAt)
    assert (values(action.at), action.edge, action.start, action.name) == ([0], "left", "bottom", "low mark")


@pytest.mark.parametrize("written", ["score: 2 1/8", "score: {at: 2 1/8}"])
def test_score_at(written: str) -> None:
    action = first_action(written)
    assert isinstance(action, do.ScoreAt)
    assert values(action.at) == [Fraction(17, 8)]


def test_score_between() -> None:
    action = first_action("score: {from: left middle, to: nick}")
    assert isinstance(action, do.ScoreBetween)
    assert (action.start.name, action.end.name) == ("left middle", "nick")


def test_turn() -> None:
    action, over = first_action("turn: quarter anticlockwise"), first_action("turn over: top to bottom")
    assert isinstance(action, do.Turn) and isinstance(over, do.TurnOver)
    assert (action.amount, over.way) == ("quarter anticlockwise", "top to bottom")


def test_fold() -> None:
    plain = first_action("fold: {score: left hinge, fold: mountain}")
    soft = first_action("fold: {score: left hinge, fold: valley, angle: 90, sharp: false}")
    assert isinstance(plain, do.FoldOn) and isinstance(soft, do.FoldOn)
    assert (plain.score, plain.fold, plain.angle, plain.sharp) == ("left hinge", Fold.MOUNTAIN, None, True)
    assert (soft.fold, values(soft.angle), soft.sharp) == (Fold.VALLEY, [90], False)


def test_unfold() -> None:
    action = first_action("unfold: left hinge")
    assert isinstance(action, do.Unfold) and action.score == "left hinge"


def test_attach() -> None:
    short = first_action("attach: flap on door")
    full = first_action(
        "attach: {what: left mat, left: 1/8, right: 1/4, top: 1/2, centred: up, centred on: card, turned: half, "
        "with: wet glue}".replace("top: 1/2, ", "")
    )
    assert isinstance(short, do.Attach) and isinstance(full, do.Attach)
    assert (short.bond, short.at, short.adhesive) == ("flap on door", do.PlacedAt(), None)
    assert (full.bond, full.adhesive, full.at.centred, full.at.centred_on, full.at.turned) == (
        "left mat", "wet glue", "up", "card", "half")  # fmt: skip
    assert values(full.at.left, full.at.right) == [Fraction(1, 8), Fraction(1, 4)]
    border = first_action("attach: {what: left mat, border: 1/16}")
    assert isinstance(border, do.Attach) and values(border.at.border) == [Fraction(1, 16)]


def test_stamp() -> None:
    short, full = first_action("stamp: middle front"), first_action("stamp: {upon: left mat front, words: Hello}")
    assert isinstance(short, do.Stamp) and isinstance(full, do.Stamp)
    assert (short.panel, short.face, short.words) == ("middle", Face.FRONT, None)
    assert (full.panel, full.words) == ("left mat", "Hello")


def test_tie() -> None:
    short, full = first_action("tie: ribbon"), first_action("tie: {with: ribbon, length: 18}")
    assert isinstance(short, do.Tie) and isinstance(full, do.Tie)
    assert (short.supply, short.length, values(full.length)) == ("ribbon", None, [18])


def test_dry() -> None:
    action, hours = first_action("dry: 5"), first_action("dry: 2 h")
    assert isinstance(action, do.Dry) and isinstance(hours, do.Dry)
    assert values(action.time, hours.time) == [300, 7200]
    assert action.time.written == "5"


def test_measure_and_note() -> None:
    measure, note = first_action("measure: [4 1/4, 5 1/2]"), first_action("note: Rub out the mark.")
    assert isinstance(measure, do.Measure) and isinstance(note, do.Note)
    assert values(*measure.size) == [Fraction(17, 4), Fraction(11, 2)]
    assert note.words == "Rub out the mark."


def test_the_piece_may_stand_beside_the_action() -> None:
    action = first_action("{turn: half, piece: flap}")
    assert isinstance(action, do.Turn)
    assert (action.piece, action.amount) == ("flap", "half")


def test_an_action_stands_where_it_is_written() -> None:
    action = first_action("turn: half")
    assert action.place.length == len("turn")


@pytest.mark.parametrize(
    "written",
    [
        "cut: {at: 4 1/4}",
        "cut: {keep: left}",
        "cut: {from: nick}",
        "cut: 4 1/4",
        "cut: {}",
        "score: {}",
        "score: {from: nick}",
        "fold: left hinge",
        "fold: {score: left hinge}",
        "fold: {score: left hinge, fold: none}",
        "mark: 2",
        "attach: {border: 1/8}",
        "attach: {what: base}",
        "attach: {what: left mat, left: 0, centred: across}",
        "attach: {what: left mat, centred on: card}",
        "stamp: middle",
        "tie: {length: 18}",
        "dry: soon",
        "measure: 4 1/4",
        "unfold: base",
        "turn over: half",
        "note:",
        "piece: base",
        "{}",
        "[turn, half]",
    ],
)
def test_an_action_that_cannot_be_read_is_told_on_its_line(written: str) -> None:
    text = f"{SOUND}  - title: Try\n    piece: base\n    do:\n      - {written}\n    text: Try.\n"
    reading = read_text(text, "small.yaml")
    line = text.split("\n").index(f"      - {written}") + 1
    assert {finding.place.line for finding in reading.findings if finding.place} == {line}
    assert reading.recipe is not None and len(reading.recipe.steps) == 2
