"""Numbers in words: each wrong one is told once, at its place; what a teacher would wave through stays quiet."""

from dataclasses import replace

import pytest
from recipes_for_checks import GATE, changed, proved

from foldproof.checks.catalogue import run_checks
from foldproof.checks.prose import bind_card
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card

CUT = (
    "    text: Cut the base 8 1/2 x 5 1/2 in, the left mat 1 7/8 x 5 1/4 in, the inside mat 4 x 5 1/4 in, "
    "the band 3 1/2 x 1 3/4 in.\n"
)
SCORE = (
    "    text: Turn the base over. Score at 2 1/8 in. Turn it half round, keep the same face up, score at 2 1/8 in "
    "again. Turn it over.\n"
)
WAIT = "Wait 5 minutes."
LEFT_OUT = "turn missing from the text"
"""The short texts of these tests are about numbers: they leave turns out."""
TWO_SCORES = [("      - turn: half\n      - score: 2 1/8\n", "      - score: 6 3/8\n")]


def found(*changes: tuple[str, str]) -> tuple[tuple[Finding, ...], str]:
    recipe = changed(*changes)
    card, making = proved(recipe)
    findings = run_checks(card, making)[len(making.findings) :]
    return tuple(finding for finding in findings if finding.name != LEFT_OUT), recipe


def underlined(finding: Finding, recipe: str) -> str:
    assert finding.place is not None
    line = recipe.split("\n")[finding.place.line - 1]
    return line[finding.place.column - 1 : finding.place.column - 1 + finding.place.length]


def words(text: str) -> tuple[str, str]:
    return SCORE, f"    text: {text}\n"


WRONG = {
    "one wrong score": (
        [words("Turn it over. Score at 2 1/16 in, turn, score at 2 1/8 in again.")],
        "number that is not this step's",
        "2 1/16 in",
    ),
    "one wrong score, the second": (
        [*TWO_SCORES, words("Score at 2 1/8 in and at 6 5/16 in.")],
        "number that is not this step's",
        "6 5/16 in",
    ),
    "spelled out": (
        [words("Score at two and a quarter inches, turn, and score again.")],
        "number that is not this step's",
        "two and a quarter inches",
    ),
    "without a unit": (
        [words("Score at 2 1/4, turn, and score at the same mark.")],
        "number that is not this step's",
        "2 1/4",
    ),
    "scores the other way round": (
        [*TWO_SCORES, words("Score at 6 3/8 in and then at 2 1/8 in.")],
        "numbers out of order",
        None,
    ),
    "size the other way round": ([(CUT, CUT.replace("3 1/2 x 1 3/4", "1 3/4 x 3 1/2"))], "numbers out of order", None),
    "one side for the other": (
        [(CUT, CUT.replace("left mat 1 7/8 x 5 1/4", "left mat 1 7/8 x 1 7/8"))],
        "number that is not this step's",
        "1 7/8 in",
    ),
    "a size that is the base's only in one number": (
        [(CUT, CUT.replace("base 8 1/2 x 5 1/2", "base 8 1/4 x 5 1/2"))],
        "number that is not this step's",
        "8 1/4",
    ),
    "a border that a ribbon also has": (
        [("with a border of 1/8 in. Fold", "with a border of 3/16 in. Fold")],
        "number that is not this step's",
        "3/16 in",
    ),
    "minutes that are not waited": ([(WAIT, "Wait 6 minutes.")], "number that is not this step's", "6 minutes"),
    "how long it takes": (
        [(CUT, CUT.replace("in.\n", "in. It takes 6 minutes.\n"))],
        "number that is not this step's",
        "6 minutes",
    ),
    "degrees of a fold": (
        [("Fold the doors in.", "Fold the doors in by 90 degrees.")],
        "number that is not this step's",
        "90 degrees",
    ),
    "a metric number that does not convert": (
        [words("Score at 2 1/8 in (54.1 mm), turn, and score again.")],
        "conversion that is wrong",
        "54.1 mm",
    ),
    "a metric size of which one side does not convert": (
        [(CUT, CUT.replace("8 1/2 x 5 1/2 in", "8 1/2 x 5 1/2 in (215.9 x 139.8 mm)"))],
        "conversion that is wrong",
        "139.8 mm",
    ),
    "a line to speak": (
        [(SCORE, SCORE + "    say: Score at two and three eighths, turn, and score again.\n")],
        "number that is not this step's",
        "two and three eighths",
    ),
    "a tip": (
        [(SCORE, SCORE + "    tip: A score at 2 3/16 in would be too far in.\n")],
        "number that is not this step's",
        "2 3/16 in",
    ),
    "a title": (
        [("  - title: Score the doors", "  - title: Score at 2 1/16 in")],
        "number that is not this step's",
        "2 1/16 in",
    ),
    "a shot's line": (
        [(SCORE, SCORE + "    film: [{say: Score at 2 3/16 in and again.}]\n")],
        "number that is not this step's",
        "2 3/16 in",
    ),
    "a cut that the text leaves out": (
        [(CUT, CUT.replace(", the band 3 1/2 x 1 3/4 in", ""))],
        "number missing from the text",
        None,
    ),
    "all scores left out": ([words("Score both doors as before.")], "number missing from the text", None),
    "three pieces for one": (
        [(CUT, CUT.replace("Cut the base", "Cut 2 pieces for the base"))],
        "count that is wrong",
        None,
    ),
    "a size in the summary": (
        [("title: Small gate\n", "title: Small gate\nsummary: A card of 4 3/16 x 5 1/2 in with two doors.\n")],
        "size in the summary that the card has not",
        "4 3/16",
    ),
}


@pytest.mark.parametrize(("changes", "name", "mark"), WRONG.values(), ids=WRONG.keys())
def test_wrong_number_is_told_once_at_its_place(changes: list[tuple[str, str]], name: str, mark: str | None) -> None:
    findings, recipe = found(*changes)
    assert [finding.name for finding in findings] == [name]
    if mark is not None:
        assert underlined(findings[0], recipe) == mark
        assert mark in findings[0].message


QUIET = {
    "said again": [words("Score at 2 1/8 in, turn, score at 2 1/8 in. So both scores stand 2 1/8 in from an edge.")],
    "one mention for two equal actions": [words("Score at 2 1/8 in. Turn it half round and score again.")],
    "a hedged number": [words("Score at 2 1/8 in, about 1/4 in deep into the board, turn, and score again.")],
    "a hair under": [words("Score at 2 1/8 in or a hair under 2 1/8 in, turn, score again.")],
    "a weight": [words("Score the 80 lb card at 2 1/8 in, turn, and score again.")],
    "a price": [words("Score at 2 1/8 in with a $12 board, turn, and score again.")],
    "a count": [words("Score at 2 1/8 in with 3 light strokes, turn, and score again.")],
    "minutes of something else": [words("Let it rest 10 minutes first. Score at 2 1/8 in, turn, and score again.")],
    "degrees without an angle": [(CUT, CUT.replace("in.\n", "in. Every corner has 90 degrees.\n"))],
    "half a turn in degrees": [words("Score at 2 1/8 in. Rotate it 180 degrees and score again.")],
    "a conversion to one digit": [words("Score at 2 1/8 in (54.0 mm), turn, and score again.")],
    "a conversion to whole millimetres": [words("Score at 2 1/8 in (54 mm), turn, and score again.")],
    "sizes with their conversions": [(CUT, CUT.replace("8 1/2 x 5 1/2 in", "8 1/2 x 5 1/2 in (215.9 x 139.7 mm)"))],
    "the sheet that it is cut from": [(CUT, CUT.replace("Cut the base", "From an 8 1/2 x 11 in sheet cut the base"))],
    "the sheet the other way": [(CUT, CUT.replace("Cut the base", "From an 11 x 8 1/2 in sheet cut the base"))],
    "the size of what is in hand": [
        ("Glue the inside mat between", "Take the 4 x 5 1/4 in inside mat. Glue the inside mat between")
    ],
    "the finished size": [words("Score at 2 1/8 in, turn, and score again. It will be a card of 4 1/4 x 5 1/2 in.")],
    "a panel in a tip": [(SCORE, SCORE + "    tip: The middle is 4 1/4 in wide.\n")],
    "a reference": [words("Score at {door}, turn it half round, and score again.")],
    "minutes that the step takes": [(CUT, CUT.replace("in.\n", "in. It takes 5 minutes.\n"))],
    "how many are cut": [(CUT, CUT.replace("Cut the base", "Cut 4 pieces, which are the base"))],
    "one of them": [(CUT, CUT.replace("Cut the base", "Cut one piece for the base,"))],
    "a caution": [(SCORE, SCORE + "    caution: Keep your fingers 1 in from the blade.\n")],
    "a spoken line": [(SCORE, SCORE + "    say: Score at two and one eighth, turn, and two and one eighth again.\n")],
    "the summary": [
        ("title: Small gate\n", "title: Small gate\nsummary: A card of 4 1/4 x 5 1/2 in, two doors of 2 1/8 in.\n")
    ],
}


@pytest.mark.parametrize("changes", QUIET.values(), ids=QUIET.keys())
def test_right_words_are_left_alone(changes: list[tuple[str, str]]) -> None:
    findings, _ = found(*changes)
    assert findings == ()


def test_the_number_in_a_folded_passage_is_pointed_at() -> None:
    findings, recipe = found(("and 1 3/4 in\n      below its top edge", "and 1 5/8 in\n      below its top edge"))
    assert len(findings) == 1 and underlined(findings[0], recipe) == "1 5/8 in"
    assert findings[0].asides[0].place is not None
    assert "top: 1 3/4" in recipe.split("\n")[findings[0].asides[0].place.line - 1]


def test_without_the_source_the_passage_is_pointed_at() -> None:
    recipe = changed(("and 1 3/4 in\n      below its top edge", "and 1 5/8 in\n      below its top edge"))
    card, making = proved(recipe)
    card = replace(card, recipe=replace(card.recipe, texts={}))
    (finding,) = (one for one in run_checks(card, making)[len(making.findings) :] if one.name != LEFT_OUT)
    assert finding.place is not None and recipe.split("\n")[finding.place.line - 1].strip() == "text: >"
    assert "left edge and 1 5/8 in below its" in finding.message


def test_every_number_is_bound_to_the_action_that_sets_it() -> None:
    card: Card = proved(GATE)[0]
    scoring = bind_card(card)[1]
    text = next(passage for passage in scoring.passages if passage.name == "text")
    assert [(bound.mention.written, bound.parameter and bound.parameter.action) for bound in text.bound] == [
        ("2 1/8 in", 2),
        ("2 1/8 in", 4),
    ]
    assert [one.what for one in text.unsaid if one.needed] == []


def test_swapped_numbers_show_both_places() -> None:
    findings, recipe = found((CUT, CUT.replace("3 1/2 x 1 3/4", "1 3/4 x 3 1/2")))
    (finding,) = findings
    lines = recipe.split("\n")
    shown = [underlined(finding, recipe)]
    for aside in finding.asides:
        assert aside.place is not None
        shown.append(lines[aside.place.line - 1][aside.place.column - 1 :][: aside.place.length])
    assert sorted(one.removesuffix(" in") for one in shown) in (
        ["1 3/4", "1 3/4", "3 1/2"],
        ["1 3/4", "3 1/2", "3 1/2"],
    )
