"""A sample of the slips that wrong_numbers.py tries in full, and tests of the program itself."""

from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

import pytest

import slips.verdict as verdicts
from literals import Literal, literals, replaced
from slips.hands import hand_slips
from slips.slip import Slip, slipped
from slips.verdict import HANDS, KINDS, NUMBERS, OTHER_HANDS, SAME_CARD, WITHIN_TOLERANCE, WORDS, check_text
from slips.words import word_slips
from wrong_numbers import RECIPES, slips_of, sound, table, try_slip

F = Fraction
PATHS = sorted(RECIPES.glob("*.yaml"))
ALL = [pytest.param(path, id=path.stem) for path in PATHS]
EACH = 61
"""One slip in so many is tried here; a number without small factors, so that ups and downs both come."""


def _found(name: str) -> tuple[Path, str, tuple[Literal, ...]]:
    path = RECIPES / f"{name}.yaml"
    source = path.read_text(encoding="utf-8")
    recipe = check_text(source, path.name).recipe
    assert recipe is not None
    return path, source, literals(recipe, source)


def _standing_in(name: str, line_part: str) -> tuple[Path, list[Literal]]:
    path, source, found = _found(name)
    lines = source.splitlines()
    return path, [one for one in found if line_part in lines[one.line - 1]]


def _number(literal: Literal, value: Fraction) -> Slip:
    new = str(float(value))
    return Slip(kind=literal.group, start=literal.start, end=literal.end, new=new, line=literal.line, what="")


def _of_kind(path: Path, kind: str, what: str = "") -> list[Slip]:
    return [slip for slip in slips_of(path) if slip.kind == kind and what in slip.what]


def test_a_sample_of_all_slips_is_caught() -> None:
    every = [(path, slip) for path in PATHS for slip in slips_of(path) if slip.kind in (*NUMBERS, *HANDS)]
    every = [one for one in every if one[1].kind not in ("stock", "counts in prose")]
    tried = sorted(every, key=lambda one: KINDS.index(one[1].kind))[::EACH]
    found = [(path.name, try_slip(path, slip)) for path, slip in tried]
    assert [(name, v.slip.line, v.slip.what) for name, v in found if v.outcome == "missed"] == []
    numbers = [v for _, v in found if v.slip.kind in NUMBERS]
    assert sum(v.outcome == "caught" for v in numbers) >= 0.95 * len(numbers)


def test_a_sample_of_the_words_is_caught() -> None:
    every = [(path, slip) for path in PATHS for slip in word_slips(sound(path).source)]
    tried = every[::29]
    missed = [slip for path, slip in tried if try_slip(path, slip).outcome == "missed"]
    assert len(missed) <= 0.2 * len(tried)


@pytest.mark.parametrize("path", ALL)
def test_every_kind_of_slip_changes_the_text(path: Path) -> None:
    source = sound(path).source
    for slip in slips_of(path):
        assert slip.kind in KINDS
        assert slipped(source, slip) != source or slip.kind == "actions swapped"
        assert source.count("\n", 0, slip.start) - slip.line in (-1, -2)


def test_turns_edges_folds_and_order_are_tried() -> None:
    path = RECIPES / "tide-gate.yaml"
    found = [slip.kind for slip in hand_slips(sound(path).source)]
    assert [found.count(kind) for kind in ("turn removed", "turn doubled", "turn reversed")] == [3, 3, 2]
    assert found.count("steps swapped") == len(sound(path).recipe.steps) - 1  # type: ignore[union-attr]
    assert set(HANDS) == set(found)
    assert {slip.kind for slip in word_slips(sound(path).source)} == set(WORDS)


@pytest.mark.parametrize(("kind", "what", "by"), [
    pytest.param("turn removed", "turn: half", "turn that hands do not make", id="a turn left out"),
    pytest.param("turn doubled", "turn: half", "turn missing from the text", id="a turn made twice"),
    pytest.param("turn reversed", "book page", "direction that is wrong", id="turned over the other way"),
    pytest.param("fold flipped", "valley to mountain", "folded the wrong way", id="a fold flipped"),
    pytest.param("steps swapped", "lines 104", "folded before it is scored", id="folded before it is scored"),
    pytest.param("left and right", "left to right", "direction that is wrong", id="a word swapped"),
    pytest.param("times", "5 to 6", "number that is not this step's", id="a time by one"),
    pytest.param("factors", "2 to 3", "cut to another size than the plan", id="a factor by one"),
])
def test_a_slip_is_caught_for_its_own_reason(kind: str, what: str, by: str) -> None:
    path = RECIPES / "tide-gate.yaml"
    chosen = _of_kind(path, kind, what) or _of_kind(path, kind)
    found = [try_slip(path, slip) for slip in chosen]
    assert {verdict.outcome for verdict in found} <= {"caught", OTHER_HANDS, "missed"}
    assert any(by in verdict.by for verdict in found)


def test_two_cuts_from_the_same_sheet_may_change_places_only_with_their_words() -> None:
    path = RECIPES / "tide-gate.yaml"
    source = sound(path).source
    first = "- {cut: [1 7/8, 5 1/4], piece: left mat}"
    line = source[:source.index(first)].count("\n") + 1
    (swap,) = [slip for slip in _of_kind(path, "actions swapped") if slip.line == line]
    assert try_slip(path, swap).outcome in ("caught", OTHER_HANDS)


def test_the_table_has_a_row_for_every_kind_that_was_tried() -> None:
    rows = table({"plan": [4, 3, 1, 0], "left and right": [2, 1, 0, 1]}).splitlines()
    assert rows[2:] == ["| lengths of the plan | 4 | 3 | 1 | 0 |", "| left and right in the words | 2 | 1 | 0 | 1 |"]


@pytest.mark.parametrize("path", ALL)
def test_a_literal_written_as_it_was_changes_nothing(path: Path) -> None:
    source = path.read_text(encoding="utf-8")
    recipe = check_text(source, path.name).recipe
    assert recipe is not None
    every = literals(recipe, source)
    assert len(every) > 50
    for one in every:
        again = replaced(source, one, one.value)
        assert again[:one.start] == source[:one.start]
        written = again[one.start:len(again) - len(source) + one.end]
        if not one.spoken:
            assert _exact(written) == _exact(source[one.start:one.end])


def _exact(written: str) -> Fraction:
    sign = -1 if written.startswith("-") else 1
    return sign * sum((F(part) for part in written.lstrip("-").replace("-", " ").split()), F(0))


@pytest.mark.parametrize(("old", "value", "new"), [
    pytest.param("five and a half", F(89, 16), "five and nine sixteenths", id="sixteenths"),
    pytest.param("an eighth", F(3, 16), "three sixteenths", id="less than one"),
    pytest.param("half", F(7, 16), "seven sixteenths", id="a half"),
    pytest.param("seven", F(113, 16), "seven and one sixteenth", id="from a whole number"),
    pytest.param("seven and one sixteenth", F(7), "seven", id="to a whole number"),
])
def test_spoken_numbers_stay_spoken(old: str, value: Fraction, new: str) -> None:
    literal = Literal(start=9, end=9 + len(old), value=F(0), line=1, group="prose", spoken=True)
    assert replaced(f"Score at {old} inches.", literal, value) == f"Score at {new} inches."


def test_every_spoken_and_written_length_of_a_step_is_found() -> None:
    _, source, found = _found("tide-gate")
    step = source[source.index("title: Score the doors"):source.index("title: Fold the doors")]
    start = source.index(step)
    said = [source[one.start:one.end] for one in found if start <= one.start < start + len(step)]
    assert said == ["2 1/8", "2 1/8", "2 1/8", "2 1/8", "two and one eighth", "two and one eighth"]


def test_a_larger_sheet_makes_the_same_card() -> None:
    path, found = _standing_in("tide-gate", "kind: patterned paper")
    sheet = [one for one in found if one.value == 12]
    assert [try_slip(path, _number(one, F(193, 16))).outcome for one in sheet] == [SAME_CARD, SAME_CARD]


def test_a_sheet_that_is_too_small_is_caught() -> None:
    path, _, found = _found("coast-road")
    sheet = [one for one in found if one.group == "stock" and one.value == 297][:1]
    assert [try_slip(path, _number(one, F(296))).by for one in sheet] == [("sheet too small",)]


def test_a_thicker_paper_is_within_tolerance_only_while_the_envelope_holds_it() -> None:
    path, _, found = _found("tide-gate")
    thickness = [one for one in found if one.value == F(5, 1000)]
    assert [try_slip(path, _number(one, F(6, 1000))).outcome for one in thickness] == [WITHIN_TOLERANCE]
    assert [try_slip(path, _number(one, F(200, 1000))).outcome for one in thickness] == ["caught"]


@pytest.mark.parametrize("kind", ["plan", "finished", "steps", "prose", "times", "left and right"])
def test_what_no_check_reports_is_missed(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the checks switched off a change of the card or its words must count as missed, never as harmless."""
    path = RECIPES / "tide-gate.yaml"
    chosen = _of_kind(path, kind)[:3]
    sound.cache_clear()

    def silent(*_: object) -> Sequence[object]:
        return ()

    monkeypatch.setattr(verdicts, "run_checks", silent)
    outcomes = {try_slip(path, slip).outcome for slip in chosen}
    sound.cache_clear()
    assert outcomes == {"missed"}
