"""What the steps made against what the plan needs: each fault is found and says by how much."""


import pytest
from small_steps import make

from foldproof.making.table import Making

SOUND = "cut: [8, 6]\nscore: 4\nfold: {score: spine, fold: valley}\nmeasure: [4, 6]"
MAT = """
layers:
  mat: {paper: plain, size: [3, 5], upon: front back, at: {centred: both}, adhesive: glue}
"""
CUT_MAT = "\n{cut: [3, 5], piece: mat}"
WEDGE = "{cut: [3, 5], piece: wedge}"


def faults(making: Making) -> list[str]:
    return [finding.name for finding in making.findings]


def test_sound_steps_are_silent() -> None:
    assert make(SOUND).findings == ()


@pytest.mark.parametrize(("actions", "names", "says"), [
    pytest.param(SOUND.replace("score: 4", "score: 4 1/16"), ["scored elsewhere than the plan"], "1/16 in farther left",
                 id="score off by a sixteenth"),
    pytest.param(SOUND.replace("[8, 6]", "[8, 6 1/16]"), ["cut to another size than the plan"],
                 "1/16 in less in height", id="cut too high"),
    pytest.param(SOUND.replace("measure: [4, 6]", "measure: [6, 4]"), ["measures otherwise"], "4 × 6 in",
                 id="measured the other way round"),
    pytest.param(SOUND.replace("fold: valley", "fold: mountain"), ["folded the wrong way"], "valley fold",
                 id="folded the wrong way"),
    pytest.param(SOUND.replace("fold: {", "turn over: book page\nfold: {", 1),
                 ["folded the wrong way"], "here it is a mountain fold", id="folded from the wrong face"),
    pytest.param("cut: [8, 6]\nfold: {score: spine, fold: valley}\nscore: 4",
                 ["folded before it is scored", "off the work", "a score that no step makes"],
                 "no step before this one scores", id="folded first"),
    pytest.param("score: 4\n" + SOUND, ["not cut yet"], "no step before this one cuts it", id="scored first"),
    pytest.param(SOUND.replace("\nscore: 4", "\nscore: 4\nscore: 2"), ["a score that the plan does not have"],
                 "2 in from the left", id="one score too many"),
    pytest.param("cut: [8, 6]\nscore: 9", ["off the work", "a score that no step makes", "a score that no step folds"],
                 "8 in long as it lies", id="score off the sheet"),
    pytest.param("cut: [8, 6]\nscore: 4", ["a score that no step folds"], "no step does", id="never folded"),
    pytest.param(SOUND.replace("[8, 6]", "[8, 6]\nlay: {edge: long, up: back}"), ["wrong face up"], "its front is up",
                 id="face said wrongly"),
    pytest.param("cut: [8, 6]\n" + SOUND, ["cut twice"], "cut already", id="cut twice"),
    pytest.param("cut: [8, 6]\ncut: {from: top left, to: bottom right, keep: bottom left}\n"
                 "score: {from: top right, to: bottom left}",
                 ["no such point", "cut to another size than the plan", "a score that no step makes",
                  "a score that no step folds"], "no corner at its top right", id="no such corner"),
    pytest.param(SOUND + "\nunfold: spine\nunfold: spine", ["unfolded while flat"], "not folded", id="unfolded twice"),
])
def test_each_slip_is_found(actions: str, names: list[str], says: str) -> None:
    making = make(actions)
    assert faults(making) == names
    assert says in " ".join(finding.message for finding in making.findings)
    assert all(finding.place is not None and finding.mend for finding in making.findings)


@pytest.mark.parametrize(("attach", "names", "says"), [
    pytest.param("attach: {what: mat, border: 1/2, with: glue}", [], "", id="right"),
    pytest.param("attach: {what: mat, left: 1/2, top: 1/2, with: glue}", [], "", id="right by two edges"),
    pytest.param("attach: {what: mat, left: 7/16, top: 1/2, with: glue}", ["attached elsewhere than the plan"],
                 "1/16 in too far left", id="a sixteenth off"),
    pytest.param("attach: {what: mat, border: 7/16, with: glue}", ["place not said"], "3 7/8",
                 id="border does not add up"),
    pytest.param("attach: {what: mat, left: 1/2, with: glue}", ["place not said"], "bottom or top", id="half said"),
    pytest.param("attach: {what: mat, centred: both, turned: half, with: glue}", ["attached elsewhere than the plan"],
                 "turned another way", id="the wrong way round"),
    pytest.param("note: Nothing.", ["never attached"], "no step does", id="forgotten"),
])
def test_a_layer_is_put_where_the_plan_says(attach: str, names: list[str], says: str) -> None:
    making = make(f"{SOUND}{CUT_MAT}\n{attach}", more=MAT)
    assert faults(making) == names
    assert says in " ".join(finding.message for finding in making.findings)


@pytest.mark.parametrize(("cuts", "names"), [
    pytest.param(WEDGE + "\n{cut: {from: top left, to: bottom right, keep: bottom left}, piece: wedge}",
                 [], id="right"),
    pytest.param(WEDGE + "\n{cut: {from: top left, to: bottom right, keep: top right}, piece: wedge}",
                 ["cut to another size than the plan"], id="the wrong half"),
    pytest.param(WEDGE + "\n{cut: {from: bottom left, to: top right, keep: bottom right}, piece: wedge}",
                 ["cut to another size than the plan"], id="the wrong diagonal"),
    pytest.param("{cut: [3, 6], piece: wedge}\n{cut: {at: 1 1/2, keep: left}, piece: wedge}",
                 ["cut to another size than the plan"], id="cut across instead"),
])
def test_a_triangle_is_cut_from_its_rectangle(cuts: str, names: list[str]) -> None:
    more = """
layers:
  wedge:
    paper: plain
    triangle: {size: [3, 5], right angle: bottom left}
    upon: front back
    at: {centred: both}
    adhesive: glue
"""
    making = make(f"{SOUND}\n{cuts}\nattach: {{what: wedge, border: 1/2, with: glue}}", more=more)
    assert faults(making) == names


@pytest.mark.parametrize(("actions", "mend"), [
    pytest.param("score: 4 1/16", "Score at 4 in, not 4 1/16 in", id="from the left end"),
    pytest.param("turn: half\nscore: 3 3/4", "Score at 4 in, not 3 3/4 in", id="after half a turn"),
    pytest.param("turn: quarter clockwise\nscore: 4", "Check the edge that lies against the fence", id="other edge"),
])
def test_the_mend_says_the_number_that_would_be_right(actions: str, mend: str) -> None:
    making = make(f"cut: [8, 6]\n{actions}\nfold: {{score: spine, fold: valley}}")
    found = next(finding for finding in making.findings if finding.name == "scored elsewhere than the plan")
    assert found.mend is not None and found.mend.startswith(mend)
