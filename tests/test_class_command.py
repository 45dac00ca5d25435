"""The class command from the outside: one plan, in whole sheets, or a word on what is wrong."""

import csv
import io
import json
import re
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


def shown_in_the_guide() -> list[str]:
    """The YAML of the guide's page on classes: a recipe with its class part, a stock file, a desk file."""
    page = (RECIPE.parent / "guide" / "class.md").read_text(encoding="utf-8")
    return re.findall(r"```yaml \w+\n(.*?)```", page, flags=re.S)


def test_what_the_guide_shows_can_be_planned(tmp_path: Path) -> None:
    recipe, stock, desk = shown_in_the_guide()
    (tmp_path / "gate.yaml").write_text(recipe, encoding="utf-8")
    (tmp_path / "shelf.yaml").write_text(stock, encoding="utf-8")
    (tmp_path / "desk.yaml").write_text(desk, encoding="utf-8")
    own = ("--stock", str(tmp_path / "shelf.yaml"), "--desk", str(tmp_path / "desk.yaml"))
    done = subprocess.run(
        [sys.executable, "-m", "foldproof", "class", str(tmp_path / "gate.yaml"), *own, "--into", str(tmp_path)],
        capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stdout + done.stderr
    told = json.loads((tmp_path / "class-gate" / "class.json").read_text(encoding="utf-8"))
    # 12, 2 and the teacher: 15 bases of 8 1/2 x 5 1/2, one to a sheet that measures 10 15/16; 12 are there
    slate = told["cutting"]["slate"]
    assert (told["kits"], slate["sheets"], slate["ahead"]["at_least"]) == (15, 15, 15)
    item = next(one for one in told["shopping"] if one["name"] == "slate")
    assert item["packs"] == 1 and exact(item, "on_hand") == 12 and exact(item, "price") == Fraction("7.90")


def test_build_reads_the_teachers_files_too(tmp_path: Path) -> None:
    """The same recipe with seven sheets of slate on hand of the eight that it takes, and with nonsense."""
    recipe, _, _ = shown_in_the_guide()
    (tmp_path / "gate.yaml").write_text(recipe, encoding="utf-8")
    shelf = tmp_path / "shelf.yaml"

    def build() -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "foldproof", "build", str(tmp_path / "gate.yaml"), "--stock", str(shelf), "--into",
             str(tmp_path / "out")], capture_output=True, text=True, check=False, timeout=180)

    shelf.write_text("papers:\n  slate: {on hand: 7}\n", encoding="utf-8")
    done = build()
    assert done.returncode == 0, done.stdout + done.stderr
    told = json.loads((tmp_path / "out" / "gate" / "class.json").read_text(encoding="utf-8"))
    item = next(one for one in told["shopping"] if one["name"] == "slate")
    assert exact(item, "need") == 8 and exact(item, "on_hand") == 7 and item["packs"] == 1
    shelf.write_text("papers:\n  slate: {on hand: some}\n", encoding="utf-8")
    done = build()
    assert done.returncode == 1
    assert "`some` can't be read as a number." in done.stdout and "shelf.yaml:2:20" in done.stdout
    assert json.loads((tmp_path / "out" / "gate" / "class.json").read_text(encoding="utf-8")) == told
