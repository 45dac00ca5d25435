"""Directions in words: each wrong one is told at its place; what is no direction, or can't be told, stays quiet."""

import pytest
from recipes_for_checks import GATE, changed, proved

from foldproof.checks.directions.check import check_directions, read_directions
from foldproof.findings.finding import Finding

SCORE = (
    "    text: Turn the base over. Score at 2 1/8 in. Turn it half round, keep the same face up, score at 2 1/8 in "
    "again. Turn it over.\n"
)
GLUE = "Glue the inside mat between the folds with a border of 1/8 in. Fold the doors in."
LEFT_MAT = "Glue the left mat on the left door with a border of 1/8 in, and the band on it, 1/4 in from its left edge"
OVER = "Turn the base over like the page of a book. "
REST = "Turn it half round. Score at 2 1/8 in again. Turn it over from top to bottom."
ALL = f"{OVER}Score at 2 1/8 in. {REST}"


def scoring(text: str) -> tuple[str, str]:
    """Other words for the step that scores the doors."""
    return SCORE, f"    text: {text}\n"


def gluing(text: str) -> tuple[str, str]:
    return GLUE, text


def found(change: tuple[str, str]) -> tuple[tuple[Finding, ...], str]:
    recipe = changed(change)
    card, making = proved(recipe)
    return tuple(check_directions(card, making)), recipe


def underlined(finding: Finding, recipe: str) -> str:
    assert finding.place is not None
    line = recipe.split("\n")[finding.place.line - 1]
    return line[finding.place.column - 1 : finding.place.column - 1 + finding.place.length]


WRONG_WORD, NO_TURN, UNSAID = "direction that is wrong", "turn that hands do not make", "turn missing from the text"

CASES: dict[str, tuple[tuple[str, str], str, str | None]] = {
    "turned over the other way": (
        scoring(f"Turn the base over from top to bottom. Score at 2 1/8 in. {REST}"),
        WRONG_WORD,
        "from top to bottom",
    ),
    "a quarter turn for half a turn": (
        scoring(ALL.replace("half round", "a quarter turn clockwise")),
        WRONG_WORD,
        "a quarter turn clockwise",
    ),
    "a turn too many": (
        scoring(ALL.replace("Turn it half round.", "Turn it half round. Turn it half round.")),
        NO_TURN,
        "half round",
    ),
    "a turn left out": (scoring(ALL.replace("Turn it half round. ", "")), UNSAID, None),
    "a turning over left out": (scoring(ALL.replace(OVER, "")), UNSAID, None),
    "the stop at the wrong end": (
        scoring(ALL.replace("Score at", "Lay a long edge against the fence, the right end at the stop. Score at", 1)),
        WRONG_WORD,
        "right",
    ),
    "the outside for the inside": (
        scoring(ALL.replace("book.", "book, so that the inside is up.")),
        WRONG_WORD,
        "inside",
    ),
    "scored from the other end": (
        scoring(ALL.replace("Score at 2 1/8 in.", "Score at 2 1/8 in from the right end.", 1)),
        WRONG_WORD,
        "right",
    ),
    "the edge nearer the maker": (
        scoring(ALL.replace("book.", "book, with a short edge toward you.")),
        WRONG_WORD,
        "toward you",
    ),
    "the score at the other side": (
        scoring(ALL.replace("half round.", "half round. The first score is now at your left.")),
        WRONG_WORD,
        "left",
    ),
    "its ridge down": (
        scoring(ALL.replace("bottom.", "bottom. The first score is at your right, its ridge down.")),
        WRONG_WORD,
        "down",
    ),
    "the other door folded": (
        gluing(GLUE.replace("Fold the doors in.", "Fold the left door in, then the right door.")),
        WRONG_WORD,
        None,
    ),
    "folded away": (
        gluing(GLUE.replace("Fold the doors in.", "Fold the right door away from you, then the left door.")),
        WRONG_WORD,
        "away from you",
    ),
    "folded to the wrong side": (
        gluing(GLUE.replace("Fold the doors in.", "Fold the right door in to the right, then the left door.")),
        WRONG_WORD,
        "right",
    ),
    "a distance from the other edge": (
        (LEFT_MAT, LEFT_MAT.replace("its left edge", "its right edge")),
        WRONG_WORD,
        "right",
    ),
    "above for below": (("below its top edge", "above the top edge"), WRONG_WORD, "above"),
    "the mat on the other door": (
        (LEFT_MAT, LEFT_MAT.replace("on the left door", "on the right door")),
        WRONG_WORD,
        "right",
    ),
    "a mat that the card has not": (gluing(GLUE.replace("inside mat", "outside mat")), WRONG_WORD, "outside"),
    "the face that is not glued": (gluing(f"Dot glue on the front of the inside mat. {GLUE}"), WRONG_WORD, "front"),
    "glue at the wrong end": (
        ("Wait 5 minutes.", "Press on the right half of the band only. Wait 5 minutes."),
        WRONG_WORD,
        "right",
    ),
}
WRONG = {case: (name, mark) for case, (_, name, mark) in CASES.items()}


@pytest.mark.parametrize(("change", "name", "mark"), CASES.values(), ids=CASES.keys())
def test_wrong_direction_is_told_at_its_place(change: tuple[str, str], name: str, mark: str | None) -> None:
    findings, recipe = found(change)
    assert {finding.name for finding in findings} == {name}
    if mark is not None:
        assert underlined(findings[0], recipe) == mark
        assert findings[0].message.endswith(".") and (findings[0].mend or "").endswith(".")


QUIET = {
    "the right way over": scoring(ALL),
    "said short": scoring(
        "Over like the page of a book. Score at 2 1/8 in, turn, score at 2 1/8 in again. Turn it back."
    ),
    "right on to the score": scoring(
        ALL.replace("Score at 2 1/8 in.", "Lay the tool right on to the score line. Score at 2 1/8 in.")
    ),
    "left over, back to": scoring(ALL + " Put what is left over back to the pile."),
    "right across, right in the middle": scoring(
        ALL.replace("in again", "in again, right across, right in the middle")
    ),
    "the outside is up": scoring(ALL.replace("book.", "book, so that the outside is up.")),
    "from the left end": scoring(ALL.replace("Score at 2 1/8 in.", "Score at 2 1/8 in from the left end.", 1)),
    "the first score at the right": scoring(
        ALL.replace("half round.", "half round. The first score is now at your right.")
    ),
    "something that the table can't know": scoring(ALL + " Keep the tray on your left."),
    "both doors at once": gluing(GLUE.replace("Fold the doors in.", "Fold both doors in.")),
    "the doors in their turn": gluing(
        GLUE.replace("Fold the doors in.", "Fold the right door in, then the left door.")
    ),
    "to the side to which it goes": gluing(
        GLUE.replace("Fold the doors in.", "Fold the right door in to the left, then the left door in to the right.")
    ),
    "the glued face": gluing(f"Dot glue on the back of the inside mat. {GLUE}"),
    "the glued end": ("Wait 5 minutes.", "Press on the left half of the band only. Wait 5 minutes."),
}


@pytest.mark.parametrize("change", QUIET.values(), ids=QUIET.keys())
def test_right_directions_are_left_alone(change: tuple[str, str]) -> None:
    findings, _ = found(change)
    assert findings == ()


def test_what_the_table_cannot_tell_is_listed_and_not_reported() -> None:
    recipe = changed(scoring(ALL + " Keep the tray on your left."))
    card, making = proved(recipe)
    left_alone = [read for read in read_directions(card, making) if read.verdict is None]
    assert [read.phrase.written for read in left_alone] == ["left"]
    assert left_alone[0].place.line == recipe[: recipe.index("Keep the tray")].count("\n") + 1


def test_the_small_gate_is_sound() -> None:
    card, making = proved(GATE)
    assert tuple(check_directions(card, making)) == ()


@pytest.mark.parametrize(("end", "wrong"), [("right", 0), ("left", 1)])
def test_a_score_measured_from_the_right_end_is_said_so(end: str, wrong: int) -> None:
    recipe = changed(
        ("      - score: 2 1/8\n      - turn: half", "      - score: {at: 2 1/8, from: right}\n      - turn: half"),
        scoring(ALL.replace("Score at 2 1/8 in.", f"Score at 2 1/8 in from the {end} end.", 1)),
    )
    card, making = proved(recipe)
    assert [finding.name for finding in check_directions(card, making)] == [WRONG_WORD] * wrong
