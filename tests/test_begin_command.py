"""The begin command: what it writes, where, and what it refuses."""

from pathlib import Path

import pytest

from foldproof.cli import main


def test_a_recipe_is_written_and_named_after_its_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    file = tmp_path / "harvest-gate.yaml"
    assert main(["begin", "gate fold", "A2", "--as", str(file)]) == 0
    text = file.read_text(encoding="utf-8")
    assert text.startswith("title: Harvest gate\n") and "«" not in text
    assert max(map(len, text.splitlines())) <= 120
    assert "4 1/4 x 5 1/2 in when closed" in capsys.readouterr().out
    assert main(["check", str(file)]) == 0


def test_an_existing_file_is_left_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "mine.yaml"
    file.write_text("mine", encoding="utf-8")
    assert main(["begin", "side", "A2", "--as", str(file)]) == 2
    assert file.read_text(encoding="utf-8") == "mine" and "left as it is" in capsys.readouterr().err


def test_without_a_name_it_goes_into_recipes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["begin", "tent", "A6", "--unit", "mm"]) == 0
    assert (tmp_path / "recipes" / "tent-card.yaml").is_file()
    assert "goes into a C6 envelope" in capsys.readouterr().out


@pytest.mark.parametrize(("arguments", "status", "said"), [
    pytest.param(["begin", "gat", "A2"], 2, "Write gate", id="no such construction"),
    pytest.param(["begin", "gate", "B9"], 2, "no size that is known", id="no such size"),
    pytest.param(["begin", "roll", "9 x 9"], 1, 'The nearest that can is "5 5/8 x 9 in"', id="too large"),
    pytest.param(["begin", "side", "A2", "--as", "card.txt"], 2, "ends in .yaml", id="no recipe's name"),
    pytest.param(["begin", "side", "A2", "--as", "nowhere/card.yaml"], 2, "no folder nowhere", id="no folder"),
])
def test_what_can_not_be_is_said_in_a_line(
    arguments: list[str], status: int, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(arguments) == status
    err = capsys.readouterr().err
    assert said in err and err.count("\n") == 1 and not list(tmp_path.rglob("*.yaml"))
