"""A step that is done again with another piece: carried out on each, mirrored where said, told once."""

from fractions import Fraction

import pytest

from foldproof.checks.counts import check_counts
from foldproof.checks.parameters import parameters
from foldproof.documents.telling import shot_hands
from foldproof.documents.words import again_words
from foldproof.drawing.scene import Label
from foldproof.drawing.steps import draw_step, step_scene
from foldproof.filming.plan import plan_film
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.paper.face import Face
from foldproof.paper.vector import Point
from foldproof.recipe.reader import read_text

WINGS = """\
title: Wings
finished: {size: [4, 6]}
papers:
  plain: {kind: cardstock, weight: 80 lb cover, sheet: [12, 12]}
pieces:
  left wing:
    paper: plain
    size: [7, 6]
    scores:
      left hinge: {across: 3, fold: valley}
      left slope: {from: [1, 6], to: bottom left, fold: none}
    panels: {left door: left of left hinge, left back: right of left hinge}
  right wing:
    paper: plain
    size: [7, 6]
    scores:
      right hinge: {across: 4, fold: valley}
      right slope: {from: [6, 6], to: bottom right, fold: none}
    panels: {right back: left of right hinge, right door: right of right hinge}
joins:
  backs: {put: right back back, upon: left back front, at: {centred: both}, adhesive: tape}
layers:
  left mat: {paper: plain, size: [2, 5], upon: left door front, at: {centred: both}, adhesive: tape}
  right mat: {paper: plain, size: [2, 5], upon: right door front, at: {centred: both}, adhesive: tape}
poses:
  closed: {still: left back, folds: {left hinge: 180, right hinge: 180}}
supplies: {tape: {kind: tape}}
tools: {trimmer: {}, scoring board: {}}
steps:
  - title: Cut
    piece: left wing
    do: [cut: [7, 6]]
    text: Cut two wings 7 x 6 in.
    repeat: right wing
  - title: Mats
    piece: left mat
    do: [cut: [2, 5]]
    text: Cut two mats 2 x 5 in.
    repeat: [right mat]
  - title: Score
    piece: left wing
    do:
      - turn over: book page
      - lay: {edge: long, up: back}
      - mark: {at: 1, edge: top, from: right, name: left dot}
      - score: {from: left dot, to: bottom right}
      - score: {at: 3, from: right}
      - lay: short
      - turn: quarter anticlockwise
      - turn over: book page
    text: Mark 1 in from the end and score to the corner. Score at 3 in.
    repeat: {for: right wing, mirrored: true}
  - title: Dress
    piece: left mat
    do: [attach: {what: left mat, border: 1/2, with: tape}]
    text: Tape it on with a border of 1/2 in.
    repeat: right mat
  - title: Join
    piece: left wing
    do: [attach: {what: backs, left: 0, right: 0, top: 0, bottom: 0, with: tape}]
    text: Tape the backs together.
  - title: Fold
    piece: left wing
    do: [fold: {score: left hinge, fold: valley}]
    text: Fold it.
    repeat: right wing
"""


def built(text: str) -> tuple[Card, Making]:
    reading = read_text(text, "wings.yaml")
    assert reading.recipe is not None and not reading.findings, reading.findings
    card, findings = build_card(reading.recipe)
    assert card is not None, findings
    return card, carry_out(card)


def swapped(old: str, new: str) -> str:
    assert WINGS.count(old) == 1, old
    return WINGS.replace(old, new)


def test_a_repeat_is_carried_out_on_each_piece_and_mirrored_where_said() -> None:
    _, making = built(WINGS)
    assert [finding.message for finding in making.findings] == []
    assert {name: len(piece.creases) for name, piece in making.end.pieces.items() if "wing" in name} == {
        "left wing": 2, "right wing": 2}
    assert making.end.pieces["left wing"].lie == making.end.pieces["right wing"].lie
    assert making.end.pieces["right wing"].lie.up is Face.FRONT
    [mark] = making.end.pieces["right wing"].marks
    assert (mark.name, mark.at) == ("right dot", Point(Fraction(6), Fraction(6)))
    assert dict(making.end.folded) == {"left hinge": 180, "right hinge": 180}


def test_a_repeat_is_told_once_with_its_count() -> None:
    card, making = built(WINGS)
    score = making.steps[2]
    assert {done.piece for done in score.done} == {"left wing"}
    assert {done.piece for done in score.again} == {"right wing"}
    assert again_words(score.spec) == (
        "Do the same with the right wing, mirrored (left and right change places): twice in all")
    assert [parameter.value for parameter in parameters(score.spec) if parameter.needed] == [1, 3]
    drawing = draw_step(card, score)
    assert drawing is not None and "The same is done with the right wing as in a mirror." in drawing.alt
    scene = step_scene(card, score)
    assert scene is not None
    lettering = " ".join(item.text for item in scene.items if isinstance(item, Label))
    assert "the same with the right wing as in a mirror" in lettering
    assert not list(check_counts(card, making))


def test_the_count_in_the_words_is_that_of_all_rounds() -> None:
    card, making = built(swapped("Cut two mats", "Cut three mats"))
    assert [finding.name for finding in check_counts(card, making)] == ["count that is wrong"]


@pytest.mark.parametrize(("old", "new", "names"), [
    pytest.param("repeat: {for: right wing, mirrored: true}", "repeat: right wing",
                 ["scored elsewhere than the plan", "scored elsewhere than the plan"], id="not mirrored"),
    pytest.param("    text: Fold it.\n    repeat: right wing\n", "    text: Fold it.\n",
                 ["a score that no step folds"], id="forgotten"),
    pytest.param("    repeat: [right mat]\n", "", ["not cut yet", "a piece that no step makes", "never attached"],
                 id="only one mat is cut"),
    pytest.param("    text: Fold it.\n    repeat: right wing\n",
                 "    text: Fold it.\n    repeat: {for: right wing, instead: {of: left hinge, take: left hinge}}\n",
                 ["a repeat that does not fit", "a score that no step folds"], id="the first piece again"),
    pytest.param("    text: Fold it.\n    repeat: right wing\n",
                 "    text: Fold it.\n    repeat: {for: right wing, instead: {of: left hinge, take: top hinge}}\n",
                 ["a repeat that does not fit", "a score that no step folds"], id="no such score"),
    pytest.param("      - lay: {edge: long, up: back}\n", "      - lay: {edge: left, against: stop}\n",
                 ["mirrored at the stop"], id="the stop is not mirrored"),
    pytest.param("[cut: [2, 5]]", "[cut: [2 1/16, 5]]",
                 ["cut to another size than the plan", "cut to another size than the plan"],
                 id="both are cut wrong"),
])
def test_slips_in_a_repeat(old: str, new: str, names: list[str]) -> None:
    _, making = built(swapped(old, new))
    assert sorted(finding.name for finding in making.findings) == sorted(names)
    assert all(finding.mend for finding in making.findings)


def test_the_film_runs_on_while_the_repeat_is_done() -> None:
    card, making = built(WINGS)
    film = plan_film(card, making)
    shots = [shot for shot in film.shots if shot.step is not None and shot.step.number == 3]
    assert {done.piece for shot in shots for done in shot.done} == {"left wing", "right wing"}
    told = [line for shot in shots for line in shot_hands(card, shot)]
    assert len(told) == len(making.steps[2].done) + 1
    assert told[-1] == again_words(making.steps[2].spec)


def test_a_name_may_be_given_instead() -> None:
    other = WINGS.replace("right hinge", "far fold").replace(
        "    text: Fold it.\n    repeat: right wing\n",
        "    text: Fold it.\n    repeat: {for: right wing, instead: [{of: left hinge, take: far fold}]}\n")
    assert built(other)[1].findings == ()


def test_a_repeat_needs_a_first_piece() -> None:
    loose = swapped("    piece: left mat\n    do: [cut: [2, 5]]", "    do: [{cut: [2, 5], piece: left mat}]")
    reading = read_text(loose, "wings.yaml")
    assert [finding.name for finding in reading.findings] == ["piece missing"]
