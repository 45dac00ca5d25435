"""Actions in plain words."""

from fractions import Fraction as F

import pytest

from foldproof.documents.words import action_words, clock, listed, placed_words, plain_face, time_words
from foldproof.findings.finding import Place
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.paper.face import Face, Fold
from foldproof.recipe import actions as do

HERE = Place(file="r", line=1, column=1)


def length(value: str) -> Quantity:
    return Quantity(value=F(value), kind=Kind.LENGTH, written=value, place=HERE)


def time(seconds: int) -> Quantity:
    return Quantity(value=F(seconds), kind=Kind.TIME, written="", place=HERE)


def point(name: str) -> do.TablePoint:
    return do.TablePoint(name=name, place=HERE)


@pytest.mark.parametrize(("action", "words"), [
    (do.CutOut(place=HERE, size=(length("17/2"), length("11/2"))), "Cut the base 8 1/2 × 5 1/2 in"),
    (do.CutOut(place=HERE, piece="mat", size=(length("4"), length("1/8"))), "Cut the mat 4 × 1/8 in"),
    (do.CutAcross(place=HERE, at=length("3"), keep="left"), "Cut across 3 in from the stop; keep the left part"),
    (do.CutBetween(place=HERE, start=point("top left"), end=point("door mark"), keep="bottom left", other="wedge"),
     "Cut from the top left corner to the door mark; keep the part with the bottom left corner; "
     "the other part is the wedge"),
    (do.DieCut(place=HERE, piece="sun", size=(length("1"), length("5/4"))),
     "Cut or punch the sun, or take one ready made: 1 × 1 1/4 in over all"),
    (do.Lay(place=HERE, edge="long", face=Face.BACK), "Lay the base with a long edge against the fence, back up"),
    (do.Lay(place=HERE, edge="top"), "Lay the base with the top edge against the fence"),
    (do.MarkAt(place=HERE, at=length("3/2"), edge="top", start="left", name="collar mark"),
     "Mark the top edge 1 1/2 in from its left end (collar mark)"),
    (do.ScoreAt(place=HERE, at=length("17/8")), "Score 2 1/8 in from the stop"),
    (do.ScoreBetween(place=HERE, start=point("top middle"), end=point("centre")),
     "Score from the middle of the top edge to the center"),
    (do.Turn(place=HERE, amount="half"), "Turn the base half round, the same face up"),
    (do.Turn(place=HERE, amount="quarter clockwise"), "Turn the base a quarter clockwise, the same face up"),
    (do.Turn(place=HERE, amount="quarter anticlockwise"), "Turn the base a quarter counterclockwise, the same face up"),
    (do.TurnOver(place=HERE, way="book page"), "Turn the base over like the page of a book"),
    (do.TurnOver(place=HERE, way="top to bottom"), "Turn the base over from top to bottom"),
    (do.FoldOn(place=HERE, score="spine", fold=Fold.VALLEY), "Fold on the spine toward you (valley)"),
    (do.FoldOn(place=HERE, score="spine", fold=Fold.MOUNTAIN, sharp=False,
               angle=Quantity(value=F(90), kind=Kind.ANGLE, written="90", place=HERE)),
     "Fold on the spine away from you (mountain) by 90 degrees, without sharpening it"),
    (do.Unfold(place=HERE, score="spine"), "Open the spine flat again"),
    (do.Attach(place=HERE, bond="mat", at=do.PlacedAt(border=length("1/8")), adhesive="tape"),
     "Fix the mat with tape: 1/8 in border all round"),
    (do.Stamp(place=HERE, panel="cover", face=Face.FRONT, words="Hello"),
     "Stamp or write “Hello” on the front of the cover"),
    (do.Tie(place=HERE, supply="ribbon", length=length("18")), "Tie the ribbon, 18 in of it"),
    (do.Dry(place=HERE, time=time(300)), "Let it dry for 5 min"),
    (do.Measure(place=HERE, size=(length("4"), length("5"))), "Check with a ruler: the base measures 4 × 5 in now"),
    (do.Note(place=HERE, words="rub out the mark."), "Rub out the mark"),
], ids=lambda value: type(value).__name__ if not isinstance(value, str) else "")
def test_actions(action: do.Action, words: str) -> None:
    assert action_words(action, Unit.INCH, piece="base") == words


@pytest.mark.parametrize(("at", "words"), [
    (do.PlacedAt(left=length("0"), top=length("-1/4")), "level with the left edge, 1/4 in past the top edge"),
    (do.PlacedAt(centred="across", bottom=length("1")), "1 in from the bottom edge, centered from left to right"),
    (do.PlacedAt(centred="both", centred_on="card", turned="half"), "centered on the closed card, turned half round"),
    (do.PlacedAt(), ""),
], ids=["edges", "one way", "card", "nothing"])
def test_places(at: do.PlacedAt, words: str) -> None:
    assert placed_words(at, Unit.INCH) == words


def test_a_circle_is_so_much_across() -> None:
    punched = do.DieCut(place=HERE, piece="moon", size=(length("1"), length("1")))
    assert action_words(punched, Unit.INCH, circle=True) == "Cut or punch the moon, or take one ready made: 1 in across"


@pytest.mark.parametrize(("panel", "up", "called"), [
    pytest.param("front", True, "the face-up side of the front panel", id="a panel called like a face"),
    pytest.param("front", False, "the underside of the front panel", id="the face that takes the glue"),
    pytest.param("left back", True, "the face-up side of the left back", id="ends like a face"),
    pytest.param("cover", True, "the back of the cover", id="any other"),
])
def test_no_face_is_called_front_of_the_front(panel: str, up: bool, called: str) -> None:
    assert plain_face(panel, Face.BACK, up) == called


def test_metric_editions_spell_the_british_way() -> None:
    assert placed_words(do.PlacedAt(centred="both"), Unit.MM) == "centred"
    assert "anticlockwise" in action_words(do.Turn(place=HERE, amount="quarter anticlockwise"), Unit.MM)


@pytest.mark.parametrize(("seconds", "said", "shown"), [
    (25, "25 s", "0:25"), (65, "1 min 5 s", "1:05"), (300, "5 min", "5:00"), (5400, "1 h 30 min", "90:00"),
    (0, "0 s", "0:00"),
])
def test_times(seconds: int, said: str, shown: str) -> None:
    assert (time_words(F(seconds)), clock(F(seconds))) == (said, shown)


@pytest.mark.parametrize(("names", "said"), [
    ([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c"),
])
def test_lists(names: list[str], said: str) -> None:
    assert listed(names) == said
