"""The rescue command as a teacher calls it."""

from pathlib import Path

import pytest

from foldproof.cli import main

RECIPE = str(Path(__file__).parent.parent / "recipes" / "tide-gate.yaml")
Captured = pytest.CaptureFixture[str]


def test_a_way_is_told_with_every_number_that_is_another_from_there_on(capsys: Captured) -> None:
    assert main(["rescue", RECIPE, "2", "2 1/8", "2"]) == 0
    out = capsys.readouterr().out
    assert "the distance of the score is 2 in, not 2 1/8 in" in out
    assert "Trim the base, front up and upright: 1/2 in off its left edge." in out
    assert "a width of 4 in instead of 4 1/4 in" in out
    assert "step 4: width of the cut of the inside mat 3 3/4 in instead of 4 in" in out
    assert "closes to 4 × 5 1/2 in and goes into its A2 envelope" in out


def test_where_there_is_no_way_the_status_says_so(capsys: Captured) -> None:
    assert main(["rescue", RECIPE, "8", "1/4", "1 1/4"]) == 1
    assert "No way to save it was found" in capsys.readouterr().out


@pytest.mark.parametrize(("arguments", "said"), [
    pytest.param(["0", "2 1/8", "2"], "no step 0", id="no such step"),
    pytest.param(["99", "2 1/8", "2"], "has steps 1 to 9", id="past the last step"),
    pytest.param(["2", "2 3/16", "2"], "2 1/8 in", id="no such number in the step"),
    pytest.param(["2", "2 1/8", "2 1/8"], "there is no slip", id="no slip"),
    pytest.param(["2", "2 1/8", "5"], "more than an inch", id="too much"),
    pytest.param(["2", "2 1/8", "-1"], "more than nothing", id="negative"),
    pytest.param(["2", "2 1/8", "two"], "MADE", id="not a number"),
    pytest.param(["2", "2 1/8", "2", "--time", "3"], "--time is 1 to 2", id="not that often"),
])
def test_a_wrong_call_says_what_is_wrong(arguments: list[str], said: str, capsys: Captured) -> None:
    assert main(["rescue", RECIPE, *arguments]) == 2
    shown = capsys.readouterr()
    assert said in shown.err
    assert shown.out == ""


def test_a_recipe_with_errors_is_mended_first(tmp_path: Path, capsys: Captured) -> None:
    path = tmp_path / "wrong.yaml"
    path.write_text(Path(RECIPE).read_text(encoding="utf-8").replace("score: 2 1/8", "score: 2 3/16", 1), "utf-8")
    assert main(["rescue", str(path), "2", "2 1/8", "2"]) == 1
    assert "mend them first" in capsys.readouterr().err
