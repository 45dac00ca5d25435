"""A sample of the changes that wrong_numbers.py tries in full, and tests of the program itself."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import chain
from pathlib import Path

import pytest

import wrong_numbers
from literals import Literal, literals, replaced
from wrong_numbers import RECIPES, SAME_CARD, WITHIN_TOLERANCE, changes, check_text, try_change

F = Fraction
PATHS = sorted(RECIPES.glob("*.yaml"))
ALL = [pytest.param(path, id=path.stem) for path in PATHS]
EACH = 29
"""One change in so many is tried here; a number without small factors, so that ups and downs both come."""


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


def test_a_sample_of_all_changes_is_caught() -> None:
    every = [one for one in chain.from_iterable(changes(path) for path in PATHS) if one[1].group != "stock"]
    tried = sorted(every, key=lambda one: one[1].group)[::EACH]
    assert {change[1].group for change in tried} == {"plan", "finished", "steps", "prose"}
    verdicts = [(path.name, try_change(path, literal, value)) for path, literal, value in tried]
    assert [(name, v.literal.line, v.value) for name, v in verdicts if v.outcome == "missed"] == []
    caught = sum(v.outcome == "caught" for _, v in verdicts)
    assert caught >= 0.95 * len(verdicts)


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
    assert [try_change(path, one, F(193, 16)).outcome for one in sheet] == [SAME_CARD, SAME_CARD]


def test_a_sheet_that_is_too_small_is_caught() -> None:
    path, _, found = _found("coast-road")
    sheet = [one for one in found if one.group == "stock" and one.value == 297][:1]
    assert [try_change(path, one, F(296)).by for one in sheet] == [("sheet too small",)]


def test_a_thicker_paper_is_within_tolerance_only_while_the_envelope_holds_it() -> None:
    path, _, found = _found("tide-gate")
    thickness = [one for one in found if one.value == F(5, 1000)]
    assert [try_change(path, one, F(6, 1000)).outcome for one in thickness] == [WITHIN_TOLERANCE]
    assert [try_change(path, one, F(200, 1000)).outcome for one in thickness] == ["caught"]


@pytest.mark.parametrize("group", ["plan", "finished", "steps", "prose"])
def test_what_no_check_reports_is_missed(group: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the checks switched off a change of the card must count as missed, never as harmless."""
    path, _, found = _found("tide-gate")
    wrong_numbers._sound.cache_clear()

    def silent(*_: object) -> Sequence[object]:
        return ()

    monkeypatch.setattr(wrong_numbers, "run_checks", silent)
    chosen = [one for one in found if one.group == group][:3]
    outcomes = {try_change(path, one, one.value + F(1, 16)).outcome for one in chosen}
    wrong_numbers._sound.cache_clear()
    assert outcomes == {"missed"}
