"""The order of the steps: what cannot be done yet, or any more, is found; what can is left alone."""

import pytest
from small_steps import make

from foldproof.making.table import Making

READY = "cut: [8, 6]\nturn over: book page\nscore: 4\nturn over: book page\n"
MATS = """
layers:
  mat: {paper: plain, size: [3, 5], upon: front front, at: {centred: both}, adhesive: glue}
  cover: {paper: plain, size: [3, 5], upon: rear back, at: {centred: both}, adhesive: glue}
"""
MAT = "{cut: [3, 5], piece: mat}\n{cut: [3, 5], piece: cover}\n"
FOLD = "fold: {score: spine, fold: valley}\n"
ON = "attach: {what: mat, border: 1/2, with: glue}\n"
OVER = "turn over: book page\n"
COVER = "attach: {what: cover, border: 1/2, with: glue}\n"


def told(making: Making) -> list[str]:
    return [finding.name for finding in making.findings]


@pytest.mark.parametrize(("actions", "names", "says"), [
    pytest.param(READY + MAT + ON + "dry: 5 min\n" + FOLD + OVER + COVER, [], "", id="sound"),
    pytest.param(READY + MAT + ON + "dry: 4 min\n" + FOLD + OVER + COVER, ["folded while the glue is wet"],
                 "needs another 1 min", id="dries too short"),
    pytest.param(READY + MAT + ON + FOLD + OVER + COVER, ["folded while the glue is wet"], "needs another 5 min",
                 id="not dry at all"),
    pytest.param(READY + MAT + OVER + COVER + OVER + ON + "dry: 5 min\n" + FOLD, [], "",
                 id="glued to the side that lies still and to the one that moves, and dry"),
    pytest.param(READY + MAT + OVER + COVER + OVER + FOLD + "unfold: spine\n" + ON, [], "",
                 id="the part that lies still may be wet"),
    pytest.param(MAT + "cut: [8, 6]\n" + ON + "turn over: book page\nscore: 4\nturn over: book page\ndry: 5 min\n"
                 + FOLD + OVER + COVER, [], "", id="a score beside the mat"),
    pytest.param(READY + MAT + ON + "dry: 5 min\n" + FOLD + COVER, ["glued to a face that is down"],
                 "back of the rear", id="not turned over before gluing"),
    pytest.param(READY + MAT + FOLD + ON + OVER + COVER, ["glued to a face that is covered"], "front of the front",
                 id="glued into a closed card"),
])
def test_gluing_and_drying(actions: str, names: list[str], says: str) -> None:
    making = make(actions, more=MATS)
    assert told(making) == names
    assert says in " ".join(finding.message for finding in making.findings)


@pytest.mark.parametrize(("actions", "names"), [
    pytest.param(READY + FOLD + "unfold: spine\n" + FOLD, [], id="opened between"),
    pytest.param(READY + FOLD + FOLD, ["folded twice"], id="folded again while folded"),
    pytest.param(READY + "fold: {score: spine, fold: valley, angle: 90}\n" + FOLD, [], id="folded further"),
])
def test_folding_what_is_folded(actions: str, names: list[str]) -> None:
    assert told(make(actions)) == names


PARTLY = "layers:\n  mat: {paper: plain, size: [3, 5], upon: rear front, at: {left: 1/4, top: 1/2}, adhesive: glue}\n"


@pytest.mark.parametrize(("before", "names"), [
    pytest.param("", [], id="it lies open"),
    pytest.param(FOLD, ["glued to a face that is covered"], id="a strip of it shows, and the middle is covered"),
])
def test_gluing_where_a_flap_lies(before: str, names: list[str]) -> None:
    scores = "spine: {across: 3 1/2, fold: valley}"
    making = make(
        "cut: [8, 6]\nturn over: book page\nscore: 4 1/2\nturn over: book page\n{cut: [3, 5], piece: mat}\n" + before
        + "attach: {what: mat, left: 1/4, top: 1/2, with: glue}\ndry: 5 min\n" + ("" if before else FOLD),
        scores=scores, more=PARTLY)
    assert [name for name in told(making) if name.startswith("glued")] == names


@pytest.mark.parametrize(("minutes", "names"), [
    pytest.param("5", [], id="the minutes of a step between are minutes of drying"),
    pytest.param("4", ["folded while the glue is wet"], id="too few of them"),
])
def test_glue_dries_while_hands_do_something_else(minutes: str, names: list[str]) -> None:
    glue = READY + MAT + ON
    making = make(glue + "~\n" + "note: Wash the brush.\n" + "~\n" + FOLD + OVER + COVER, more=MATS,
                  minutes=("60", minutes, "1"))
    assert told(making) == names


@pytest.mark.parametrize(("actions", "names"), [
    pytest.param(READY + "stamp: front front\n" + FOLD, [], id="lying open"),
    pytest.param(READY + OVER + "stamp: front back\n" + OVER + FOLD, [], id="turned over"),
    pytest.param(READY + "stamp: front back\n" + FOLD, ["stamped on a face that is down"], id="face down"),
    pytest.param(READY + FOLD + "stamp: front front", ["stamped after it is covered"], id="folded in"),
    pytest.param(READY + FOLD + "stamp: front back", [], id="the folded part shows its back"),
    pytest.param(READY + FOLD + "unfold: spine\nstamp: front front", [], id="opened again"),
])
def test_stamping(actions: str, names: list[str]) -> None:
    assert told(make(actions)) == names


WHOLE = "layers:\n  mat: {paper: plain, size: [4, 6], upon: front front, at: {centred: both}, adhesive: glue}\n"


def test_stamping_under_a_mat() -> None:
    glued = READY + "{cut: [4, 6], piece: mat}\nattach: {what: mat, border: 0, with: glue}\ndry: 5 min\n"
    assert told(make(glued + "stamp: front front\n" + FOLD, more=WHOLE)) == ["stamped after it is covered"]
    assert told(make(glued + "stamp: mat front\n" + FOLD, more=WHOLE)) == []


SHEET = "layers:\n  sheet: {paper: plain, size: [8, 6], upon: rear front, at: {right: 0, top: 0}, adhesive: glue}\n"


def test_a_score_after_gluing_is_told_once() -> None:
    glued = ("cut: [8, 6]\n{cut: [8, 6], piece: sheet}\nattach: {what: sheet, right: 0, top: 0, with: glue}\n"
             "dry: 5 min\n")
    making = make(glued + "turn over: book page\nscore: 4\nturn over: book page\n" + FOLD, more=SHEET)
    assert told(making) == ["scored after gluing"]
    assert "The sheet and the base lie on each other" in making.findings[0].message


def test_a_score_through_folded_layers_is_told_once() -> None:
    making = make(READY + FOLD + "score: 1")
    assert told(making) == ["scored through folded layers"]


def test_a_score_that_the_plan_has_in_both_layers_is_meant() -> None:
    scores = "spine: {across: 4, fold: valley}\nlow: {across: 3, fold: none}\nhigh: {across: 5, fold: none}"
    making = make(READY + FOLD + "score: 1", scores=scores)
    assert told(making) == []
