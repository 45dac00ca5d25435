"""Where a number comes from and where it is used: a small card reckoned by hand."""

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from foldproof.measures.quantity import Kind
from foldproof.origins.uses import Sought, Use, Where, leaning_on, uses_in_card, uses_in_recipe
from foldproof.pipeline import Proof, prove

SOUND = """\
title: Plain card
unit: inch
measures:
  width: 4 1/4
  height: 5 1/2
  sheet width: 2 * width
finished: {size: [4 1/4, 5 1/2]}
papers:
  slate: {kind: cardstock, thickness: 0.011 in, sheet: [8 1/2, 11]}
pieces:
  base:
    paper: slate
    size: [sheet width, height]
    scores: {spine: {across: width, fold: valley}}
    panels: {front: left of spine, back: right of spine}
poses:
  closed: {still: front, folds: {spine: 180}}
opening: [closed]
tools: {trimmer: {}}
steps:
  - title: Cut and fold
    piece: base
    tools: [trimmer]
    do:
      - cut: [8 1/2, 5 1/2]
      - lay: {edge: long}
      - score: 4 1/4
      - fold: {score: spine, fold: valley}
    text: Cut 8 1/2 x 5 1/2 in. Lay a long edge against the fence. Score at 4 1/4 in. Fold.
    say: Cut eight and a half by five and a half, and score at four and a quarter.
"""


@pytest.fixture(scope="module")
def proof(tmp_path_factory: pytest.TempPathFactory) -> Proof:
    path = tmp_path_factory.mktemp("origins") / "plain.yaml"
    path.write_text(SOUND, encoding="utf-8")
    return prove(path)


def line_of(words: str) -> int:
    return next(number for number, line in enumerate(SOUND.split("\n"), start=1) if words in line)


def all_uses(proof: Proof, value: Fraction, kind: Kind = Kind.LENGTH) -> tuple[Use, ...]:
    sought = Sought(value=value, kind=kind)
    assert proof.reading.recipe and proof.card and proof.making
    return (*uses_in_recipe(proof.reading.recipe, sought),
            *uses_in_card(proof.card, proof.making, sought))


def test_every_place_of_a_width_is_told(proof: Proof) -> None:
    uses = all_uses(proof, Fraction(17, 4))
    told = [(use.where, use.place.line if use.place else 0) for use in uses]
    assert Counter(told) == Counter([
        (Where.MEASURE, line_of("  width: 4 1/4")),
        (Where.PLAN, line_of("finished:")),
        (Where.PLAN, line_of("scores:")),
        (Where.ACTION, line_of("- score: 4 1/4")),
        (Where.DRAWING, line_of("- score: 4 1/4")),
        (Where.SENTENCE, line_of("text: Cut")),
        (Where.SENTENCE, line_of("say: Cut")),
        (Where.RESULT, 0), (Where.RESULT, 0), (Where.RESULT, 0),
    ])
    assert {use.what for use in uses if use.where is Where.RESULT} == {
        "the width of the panel front", "the width of the panel back", "the width of the card in the pose closed"}


def test_a_reckoned_number_names_its_measures_from_near_to_far(proof: Proof) -> None:
    (piece,) = [use for use in all_uses(proof, Fraction(17, 2)) if use.where is Where.PLAN and use.because]
    assert piece.written == "sheet width"
    assert piece.because == ("sheet width", "width")
    assert piece.what == "pieces, base, size, 1"


def test_what_leans_on_a_measure_is_told_with_what_it_comes_to(proof: Proof) -> None:
    assert proof.reading.recipe
    leaning = leaning_on(proof.reading.recipe, Sought(value=Fraction(17, 4), kind=Kind.LENGTH))
    assert {(use.what, use.comes_to) for use in leaning} == {
        ("measures, sheet width", "8 1/2 in"), ("pieces, base, size, 1", "8 1/2 in")}
    none = leaning_on(proof.reading.recipe, Sought(value=Fraction(17, 2), kind=Kind.LENGTH))
    assert none == ()


def test_a_sentence_is_quoted_with_what_its_number_stands_for(proof: Proof) -> None:
    (text,) = [use for use in all_uses(proof, Fraction(17, 4))
               if use.where is Where.SENTENCE and use.place and use.place.line == line_of("text: Cut")]
    assert text.what == "step 1, Cut and fold, its text: “fence. Score at 4 1/4 in. Fold.”, the distance of the score"


def test_an_angle_is_not_a_length_of_the_same_value(proof: Proof) -> None:
    assert {use.where for use in all_uses(proof, Fraction(180), Kind.ANGLE)} == {Where.PLAN}
    assert all_uses(proof, Fraction(180)) == ()


@pytest.mark.parametrize("name", ["tide-gate", "harbour-coat", "beacon"])
def test_every_length_of_a_demo_is_found_again(name: str) -> None:
    proof = prove(Path(__file__).parents[2] / "recipes" / f"{name}.yaml")
    assert proof.reading.recipe and proof.card
    for piece in proof.card.recipe.pieces:
        for score in piece.scores:
            at = getattr(score.line, "at", None)
            if at is not None:
                places = {use.place for use in all_uses(proof, at.value)}
                assert at.place in places
