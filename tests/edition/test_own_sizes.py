"""A recipe's own sizes in the other unit, and cards that have no sound plan there."""

from fractions import Fraction
from pathlib import Path

import pytest

from foldproof.edition.measures import Measures
from foldproof.edition.search import REFUSED
from foldproof.pipeline import Proof, in_edition, prove

RECIPE = """\
title: Quiet card
unit: inch
measures: {width: 4 1/4, height: 5 1/2, border: 1/8}
finished: {size: [4 1/4, 5 1/2], envelope: A2}
papers:
  slate: {kind: cardstock, weight: 80 lb cover, thickness: 0.011 in, sheet: [8 1/2, 11]}
pieces:
  base:
    paper: slate
    size: [2 * width, height]
    scores: {spine: {across: width, fold: mountain}}
    panels: {rear: left of spine, cover: right of spine}
layers:
  mat:
    {paper: slate, size: [width - 2 * border, height - 2 * border], upon: cover front, at: {centred: both},
     adhesive: wet glue}
poses: {closed: {still: cover, folds: {spine: -180}}}
supplies: {wet glue: {kind: wet glue, dries: 5 min}}
tools: {trimmer: {}, scoring board: {}}
steps:
  - title: Cut and score the base
    piece: base
    tools: [trimmer, scoring board]
    do: [cut: [8 1/2, 5 1/2], lay: {edge: long, up: front}, score: 4 1/4, fold: {score: spine, fold: mountain}]
    text: >-
      Cut the base 8 1/2 x 5 1/2 in. Lay a long edge against the fence and score at 4 1/4 in. Fold the left half away
      from you.
  - title: Glue the mat
    piece: mat
    tools: [trimmer]
    do: [cut: [4, 5 1/4], attach: {what: mat, border: 1/8, with: wet glue}]
    text: Cut the mat 4 x 5 1/4 in. Glue it on the cover with a border of {border} all round.
"""


def proof_of(folder: Path, more: str = "", text: str = RECIPE) -> Proof:
    path = folder / "quiet.yaml"
    path.write_text(text + more, encoding="utf-8")
    return prove(path)


def test_own_sizes_are_taken(tmp_path: Path) -> None:
    proof = in_edition(proof_of(tmp_path, """\
metric: {measures: {width: 105, height: 148, border: 4}, papers: {slate: 320 x 450 mm}, envelope: C6}
"""), Measures.METRIC)
    assert [f.name for f in proof.findings] == []
    assert proof.card is not None
    recipe = proof.card.recipe
    assert [side.value for side in recipe.finished.size] == [105, 148]
    assert str(recipe.finished.envelope) == "C6"
    assert [side.value for side in recipe.papers[0].sheet or ()] == [320, 450]
    assert str(recipe.papers[0].weight) == "216 gsm"
    assert recipe.steps[1].text.value == (
        "Cut the mat 97 x 140 mm. Glue it on the cover with a border of {border} all round.")


def test_a_measure_that_is_left_out_is_rounded(tmp_path: Path) -> None:
    proof = in_edition(proof_of(tmp_path, "metric: {measures: {border: 5}}\n"), Measures.METRIC)
    assert proof.card is not None
    values = {one.name.value: one.value.value for one in proof.card.recipe.measures}
    assert values == {"width": 107, "height": 139, "border": 5}


def test_own_sizes_that_are_no_sound_card_are_refused_with_the_sum_and_the_key(tmp_path: Path) -> None:
    """130 mm does not go into an A2 envelope of 111 mm."""
    proof = in_edition(proof_of(tmp_path, "metric: {measures: {width: 130}}\n"), Measures.METRIC)
    (finding,) = proof.findings
    assert finding.name == REFUSED and not proof.sound
    assert "does not go in" in finding.message and "`metric: {measures:" in (finding.mend or "")


def test_a_sum_that_meets_no_mark_is_named(tmp_path: Path) -> None:
    """139 / 4 = 34.75 mm."""
    text = RECIPE.replace("border: 1/8}", "border: 1/8, strip: height / 4}").replace(
        "[width - 2 * border, height - 2 * border]", "[width - 2 * border, strip]").replace(
        "cut: [4, 5 1/4], attach: {what: mat, border: 1/8,", "cut: [4, 1 3/8], attach: {what: mat, centred: both,"
    ).replace(
        "Cut the mat 4 x 5 1/4 in. Glue it on the cover with a border of {border} all round.",
        "Cut the mat 4 x 1 3/8 in. Glue it in the middle of the cover.")
    proof = proof_of(tmp_path, "metric: {measures: {height: 139}}\n", text)
    assert proof.findings == ()
    (finding,) = in_edition(proof, Measures.METRIC).findings
    assert "`height / 4` comes to 34.75, which is no whole or half millimetre" in finding.message
    free = in_edition(proof_of(tmp_path, "", text), Measures.METRIC)
    assert free.sound and free.card is not None
    values = {one.name.value: one.value.value for one in free.card.recipe.measures}
    assert values["height"] == 138 and values["strip"] == Fraction("34.5")


@pytest.mark.parametrize(("more", "name"), [
    pytest.param("metric: {papers: {slate: A44}}\n", "unknown sheet", id="a sheet that nobody knows"),
    pytest.param("metric: {papers: {stone: A4}}\n", "unknown name", id="a paper that is not there"),
    pytest.param("metric: {measures: {wide: 105}}\n", "unknown name", id="a measure that is not there"),
    pytest.param("metric: {envelope: C66}\n", "unknown envelope", id="an envelope that nobody knows"),
    pytest.param("inches: {measures: {width: 4}}\n", "sizes in the recipe's own unit", id="its own unit"),
])
def test_a_wrong_key_is_told_by_every_check(more: str, name: str, tmp_path: Path) -> None:
    assert [f.name for f in proof_of(tmp_path, more).findings] == [name]


def test_both_units_fill_in_references(tmp_path: Path) -> None:
    proof = in_edition(proof_of(tmp_path), Measures.BOTH)
    assert proof.card is not None and proof.findings == ()
    text = proof.card.recipe.steps[1].text.value
    assert text == (
        "Cut the mat 4 x 5 1/4 in (101.6 × 133.4 mm). Glue it on the cover with a border of 1/8 in (3.2 mm) all round.")
