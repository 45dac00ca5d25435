"""The resize command: what it writes, where, and what it refuses."""

import shutil
from pathlib import Path

import pytest

from foldproof.cli import main

GATE = Path(__file__).parents[1] / "recipes" / "tide-gate.yaml"


def test_the_new_recipe_stands_beside_the_first(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    first = tmp_path / "gate.yaml"
    shutil.copyfile(GATE, first)
    assert main(["resize", str(first), "A6"]) == 0
    assert "4 1/2 x 6 1/4 in when closed" in capsys.readouterr().out
    assert "size: [4 1/2, 6 1/4]" in (tmp_path / "gate-a6.yaml").read_text(encoding="utf-8")
    assert first.read_bytes() == GATE.read_bytes()
    assert main(["resize", str(first), "A6"]) == 2
    assert "left as it is" in capsys.readouterr().err


@pytest.mark.parametrize(("arguments", "status", "said"), [
    pytest.param(["A2"], 2, "already", id="the size that it has"),
    pytest.param(["105 x 148 mm"], 2, "give the numbers in inch", id="another unit"),
    pytest.param(["huge"], 2, "no size that is known", id="no size"),
])
def test_what_can_not_be_is_said_in_a_line(
    arguments: list[str], status: int, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["resize", str(GATE), *arguments, "--as", str(tmp_path / "new.yaml")]) == status
    err = capsys.readouterr().err
    assert said in err and err.count("\n") == 1 and not list(tmp_path.iterdir())


def test_a_recipe_with_errors_is_not_resized(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wrong = tmp_path / "wrong.yaml"
    wrong.write_text(GATE.read_text(encoding="utf-8").replace("- score: 2 1/8", "- score: 2", 1), encoding="utf-8")
    assert main(["resize", str(wrong), "A7"]) == 1
    assert "mend them first" in capsys.readouterr().err
