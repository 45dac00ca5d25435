"""A look: another recipe with other papers, ornaments and words laid over it."""

from fractions import Fraction
from pathlib import Path

import pytest

from foldproof.findings.finding import Severity
from foldproof.pipeline import Proof, prove
from foldproof.rescue.search import with_measure

BASE = (Path(__file__).parents[2] / "recipes" / "tide-gate.yaml").read_text(encoding="utf-8")
LOOK = """\
look of: tide-gate.yaml
title: Ember gate
papers:
  amber: {instead of: slate, tone: "#b0664c"}
supplies:
  umber ink: {instead of: gray ink}
layers:
  coin: {paper: amber, size: [1, 1], upon: inside mat front, at: {centred: across, bottom: 1/2}, adhesive: wet glue}
steps:
  - instead of: Stamp the greetings
    tip: The long greeting may be written by hand.
  - after: Glue the inside mat
    title: Glue the coin
    piece: base
    tools: [trimmer]
    supplies: [wet glue]
    do:
      - {cut: [1, 1], piece: coin}
      - attach: {what: coin, centred: across, bottom: 1/2, with: wet glue}
    text: Cut a coin 1 x 1 in from amber card. Glue it on the inside mat, centered, 1/2 in above its bottom edge.
"""


def look_at(folder: Path, look: str = LOOK, base: str = BASE) -> Proof:
    (folder / "tide-gate.yaml").write_text(base, encoding="utf-8")
    (folder / "ember-gate.yaml").write_text(look, encoding="utf-8")
    return prove(folder / "ember-gate.yaml")


def names(proof: Proof) -> list[str]:
    return [finding.name for finding in proof.findings if finding.severity is not Severity.ADVICE]


def test_a_look_is_a_whole_card_of_its_own(tmp_path: Path) -> None:
    proof = look_at(tmp_path)
    assert names(proof) == []
    recipe = proof.reading.recipe
    assert recipe is not None and recipe.name == "ember-gate" and recipe.title.value == "Ember gate"
    assert [paper.name.value for paper in recipe.papers] == ["amber", "waves", "chalk"]
    assert recipe.papers[0].tone is not None and recipe.papers[0].tone.value == "#b0664c"
    assert recipe.layers[-1].name.value == "coin"
    titles = [step.title.value for step in recipe.steps]
    assert titles.index("Glue the coin") == titles.index("Glue the inside mat") + 1
    stamping = next(step for step in recipe.steps if step.title.value == "Stamp the greetings")
    assert stamping.tip is not None and stamping.tip.value == "The long greeting may be written by hand."
    assert len(stamping.actions) == 2, "what the look does not say stays"


def test_the_name_of_a_paper_changes_in_the_words_with_its_article_and_capital(tmp_path: Path) -> None:
    said = "Cut one piece of slate card 8 1/2 x 5 1/2 in."
    base = BASE.replace(said, "Slate card: cut a slate piece 8 1/2 x 5 1/2 in.")
    recipe = look_at(tmp_path, base=base).reading.recipe
    assert recipe is not None
    assert recipe.steps[0].text.value.startswith("Amber card: cut an amber piece 8 1/2 x 5 1/2 in.")
    assert "slate" not in " ".join(step.text.value for step in recipe.steps)
    assert [supply.name.value for supply in recipe.supplies] == ["wet glue", "umber ink"]


def test_a_number_mended_or_spoilt_in_the_one_place_reaches_the_look(tmp_path: Path) -> None:
    spoilt = BASE.replace("      - score: 2 1/8\n      - turn", "      - score: 2 1/4\n      - turn")
    proof = look_at(tmp_path, base=spoilt)
    wrong = [finding for finding in proof.findings if finding.severity is Severity.ERROR]
    places = {Path(finding.place.file).name for finding in wrong if finding.place}
    assert wrong and places == {"tide-gate.yaml"}, "it is told where it stands"
    assert {Path(file).name for file in proof.sources} == {"tide-gate.yaml", "ember-gate.yaml"}
    wider = BASE.replace("width: 4 1/4", "width: 4 1/2")
    recipe = look_at(tmp_path, base=wider).reading.recipe
    assert recipe is not None and recipe.measures[0].value.value == Fraction(9, 2)


def test_a_word_of_the_base_is_pointed_at_in_the_base(tmp_path: Path) -> None:
    said = "Its left end is 1/4 in"
    assert said in BASE
    proof = look_at(tmp_path, base=BASE.replace(said, "Its left end is 3/4 in"))
    place = next(finding.place for finding in proof.findings if finding.severity is Severity.ERROR)
    assert place is not None
    line = BASE.splitlines()[place.line - 1].replace("1/4", "3/4")
    assert line[place.column - 1:].startswith("3/4 in")


def test_a_measure_is_moved_in_the_file_that_holds_it(tmp_path: Path) -> None:
    recipe = look_at(tmp_path).reading.recipe
    assert recipe is not None
    moved = with_measure(recipe, recipe.measures[0].value, Fraction(9, 2))
    assert moved is not None and moved.measures[0].value.value == Fraction(9, 2) and moved.title.value == "Ember gate"


LESS = """\
look of: tide-gate.yaml
title: Plain gate
leave out: {layers: [band], steps: [Glue the band to the left door], tools: greeting stamps}
"""


def test_what_is_left_out_is_gone(tmp_path: Path) -> None:
    proof = look_at(tmp_path, LESS)
    recipe = proof.reading.recipe
    assert recipe is not None
    assert "band" not in [layer.name.value for layer in recipe.layers]
    assert "Glue the band to the left door" not in [step.title.value for step in recipe.steps]
    assert "unknown name" in names(proof), "the step that cuts the band still speaks of it"


def test_photographs_of_the_other_look_are_not_taken_over(tmp_path: Path) -> None:
    base = "picture: none.jpg\n" + BASE.replace("    minutes: 6\n", "    minutes: 6\n    picture: none.jpg\n")
    assert names(look_at(tmp_path, base=base)) == []


HEAD = "look of: tide-gate.yaml\ntitle: Ember gate\n"


@pytest.mark.parametrize(
    ("look", "name", "mend"),
    [
        pytest.param("look of: tide-gat.yaml\ntitle: x\n", "file missing", "Look at the name", id="no such file"),
        pytest.param("look of: ../tide-gate.yaml\ntitle: x\n", "recipe elsewhere", "recipe's folder", id="above"),
        pytest.param("look of: /etc/passwd\ntitle: x\n", "recipe elsewhere", "recipe's folder", id="absolute"),
        pytest.param("look of: ember-gate.yaml\ntitle: x\n", "look of a look", "Build on the recipe", id="of itself"),
        pytest.param("look of: [a]\ntitle: x\n", "wrong kind of value", "look of: tide-gate.yaml", id="list"),
        pytest.param("look of: tide-gate.yaml\n", "missing part", "title", id="no title"),
        pytest.param(HEAD + "unit: mm\n", "construction in a look", "Change it in tide-gate.yaml", id="unit"),
        pytest.param(HEAD + "measures: {width: 5}\n", "construction in a look", "for every look", id="measures"),
        pytest.param(HEAD + "finished: {size: [1, 1]}\n", "construction in a look", "Write envelope:", id="finished"),
        pytest.param(HEAD + "paper: {}\n", "unknown key", "Did you mean `papers`?", id="unknown key"),
        pytest.param(HEAD + "papers: {clay: {instead of: slat}}\n", "unknown name", "mean `slate`?", id="paper"),
        pytest.param(HEAD + "papers: {chalk: {instead of: slate}}\n", "name given twice", "a new name", id="taken"),
        pytest.param(HEAD + "papers: {slate: {tune: red}}\n", "unknown key", "Its keys:", id="inner key"),
        pytest.param(HEAD + "leave out: {layers: [bend]}\n", "unknown name", "Did you mean `band`?", id="left out"),
        pytest.param(HEAD + "leave out: {layer: [band]}\n", "unknown key", "mean `layers`?", id="left out, key"),
        pytest.param(HEAD + "leave out: {steps: [Glue the bend to the left door]}\n", "unknown name",
                     "Did you mean `Glue the band to the left door`?", id="step left out"),
        pytest.param(HEAD + "steps: [{title: x, text: y}]\n", "place of a step missing", "after:", id="step nowhere"),
        pytest.param(HEAD + "steps: [{after: Cut the base, before: Score the doors, title: x, text: y}]\n",
                     "does not go together", "Keep one", id="step twice"),
        pytest.param(HEAD + "steps: [{after: Cut the bass, title: x, text: y}]\n", "unknown name",
                     "Did you mean `Cut the base`?", id="step after none"),
    ],
)
def test_what_is_wrong_with_a_look_is_told_with_its_mend(tmp_path: Path, look: str, name: str, mend: str) -> None:
    proof = look_at(tmp_path, look)
    told = [finding for finding in proof.findings if finding.name == name]
    assert told and mend in (told[0].mend or ""), proof.findings
    assert not proof.sound and told[0].place is not None


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    inside = tmp_path / "in"
    inside.mkdir()
    (tmp_path / "tide-gate.yaml").write_text(BASE, encoding="utf-8")
    (inside / "tide-gate.yaml").symlink_to(tmp_path / "tide-gate.yaml")
    (inside / "ember-gate.yaml").write_text(LOOK, encoding="utf-8")
    assert names(prove(inside / "ember-gate.yaml")) == ["recipe elsewhere"]


def test_several_steps_after_one_keep_their_order(tmp_path: Path) -> None:
    steps = "".join(f"  - {{after: Cut the base, title: {word}, text: Wait.}}\n" for word in ("First", "Second"))
    look = f"{HEAD}steps:\n{steps}  - {{before: Cut the base, title: Zero, text: Wait.}}\n"
    recipe = look_at(tmp_path, look).reading.recipe
    assert recipe is not None
    assert [step.title.value for step in recipe.steps][:4] == ["Zero", "Cut the base", "First", "Second"]
