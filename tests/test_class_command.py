"""The class command from the outside: one plan, in whole sheets, or a word on what is wrong."""

import csv
import io
import json
import subprocess
import sys
from pathlib import Path

import pytest

RECIPE = Path(__file__).resolve().parent.parent / "recipes" / "tide-gate.yaml"


def run(*words: str, into: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "foldproof", "class", *words, "--into", str(into)], capture_output=True, text=True,
        check=False, timeout=120)


def test_a_class_of_twelve(tmp_path: Path) -> None:
    done = run(str(RECIPE), "--people", "12", into=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    folder = tmp_path / "class-tide-gate"
    shown = {path.name for path in folder.iterdir() if not path.name.startswith(".")}
    assert shown == {"class.pdf", "class.csv", "class.json"}
    rows = list(csv.DictReader(io.StringIO((folder / "class.csv").read_text(encoding="utf-8"))))
    sheets = {row["item"]: row["all kits"] for row in rows if row["section"] == "shopping"}
    # 12 people, 2 spares and the teacher: 15 bases, two to a letter sheet; 15 inside mats and bands have the area of
    # 4.4 sheets
    assert (sheets["slate"], sheets["chalk"]) == ("8 sheets", "5 sheets")
    assert json.loads((folder / "class.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize(("words", "status"), [
    pytest.param(("--people", "0"), 1, id="nobody"),
    pytest.param(("--people", "many"), 2, id="no number"),
    pytest.param(("--people", "12", "--stock", "nowhere.yaml"), 1, id="no such stock file"),
])
def test_a_wrong_call_is_told_and_writes_nothing(words: tuple[str, ...], status: int, tmp_path: Path) -> None:
    done = run(str(RECIPE), *words, into=tmp_path / "out")
    assert done.returncode == status, done.stdout + done.stderr
    assert "Traceback" not in done.stdout + done.stderr
    assert done.stdout + done.stderr
    assert not (tmp_path / "out" / "class-tide-gate").exists()
