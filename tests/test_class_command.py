"""The class command from the outside: one plan, in whole sheets, or a word on what is wrong."""

import csv
import io
import json
import subprocess
import sys
from fractions import Fraction
from math import ceil
from pathlib import Path
from typing import Any

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


def facts(*words: str, into: Path) -> dict[str, Any]:
    done = run(str(RECIPE), "--people", "12", *words, into=into)
    assert done.returncode == 0, done.stdout + done.stderr
    read: dict[str, Any] = json.loads((into / "class-tide-gate" / "class.json").read_text(encoding="utf-8"))
    return read


def exact(entry: dict[str, Any], key: str) -> Fraction:
    return Fraction(entry[key]["exact"])


def test_what_it_costs_reckoned_by_hand(tmp_path: Path) -> None:
    cost = facts(into=tmp_path)["cost"]
    # whole packs: slate, 3 sheets of waves, chalk, glue, ink, envelopes
    slate, waves, glue, ink = Fraction("8.40"), Fraction("1.25"), Fraction("3.20"), Fraction("6.50")
    assert exact(cost, "spend") == slate + 3 * waves + 12 + glue + ink + 6
    # the shares of the packs that 15 kits use
    used = slate * 8 / 25 + 3 * waves + Fraction(12 * 5, 50) + glue * 15 / 40 + ink * 15 / 60 + Fraction(6 * 15, 25)
    assert (exact(cost, "used"), exact(cost, "each")) == (used, used / 12)
    # a margin of 60 % on top, to the next whole cent
    assert exact(cost, "suggested") == Fraction(ceil(used / 12 * Fraction(160, 100) * 100), 100)


def test_what_is_on_hand_is_used_first(tmp_path: Path) -> None:
    stock = tmp_path / "shelf.yaml"
    shelf = "papers:\n  slate: {on hand: 7}\n  waves: {on hand: 1}\n  chalk: {on hand: 5}\n"
    stock.write_text(shelf, encoding="utf-8")
    packs = {row["name"]: row["packs"] for row in facts("--stock", str(stock), into=tmp_path)["shopping"]}
    assert (packs["slate"], packs["waves"], packs["chalk"]) == (1, 2, 0)


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
