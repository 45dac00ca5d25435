"""The number command as a teacher calls it."""

import json
from pathlib import Path

import pytest

from foldproof.cli import main

SOUND = (Path(__file__).parent / "bad_input" / "sound.yaml").read_text(encoding="utf-8")
Captured = pytest.CaptureFixture[str]


@pytest.fixture
def card(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    Path("card.yaml").write_text(SOUND, encoding="utf-8")
    return "card.yaml"


def test_a_number_is_told_with_its_places(card: str, capsys: Captured) -> None:
    assert main(["number", card, "4 1/4"]) == 0
    out = capsys.readouterr().out
    assert "4 1/4 in" in out.split("\n")[0]
    assert "Actions of the steps" in out and "Sentences" in out
    assert "build the card" in out
    assert sorted(path.name for path in Path().iterdir()) == ["card.yaml"]


def test_a_length_in_another_unit_is_the_same_number(card: str, capsys: Captured) -> None:
    assert main(["number", card, "107.95 mm", "--json"]) == 0
    there = json.loads(capsys.readouterr().out)
    assert main(["number", card, "4 1/4", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == there
    assert there["uses"]


def test_a_number_that_is_nowhere_names_the_nearest(card: str, capsys: Captured) -> None:
    assert main(["number", card, "4 5/16"]) == 1
    out = capsys.readouterr().out
    assert "4 5/16 in stands nowhere" in out
    assert "4 1/4 in" in out


def test_the_documents_of_a_built_card_are_searched_sheet_by_sheet(card: str, capsys: Captured) -> None:
    assert main(["build", card, "--into", "out"]) == 0
    capsys.readouterr()
    assert main(["number", card, "4 1/4", "--into", "out", "--json"]) == 0
    printed = json.loads(capsys.readouterr().out)["printed"]
    assert {part["file"] for part in printed} >= {"handout.pdf", "page.html", "shots.csv", "shots.pdf"}
    assert main(["number", card, "4 1/4", "--into", "out"]) == 0
    assert "The recipe has changed" not in capsys.readouterr().out
    Path(card).write_text(SOUND + "# a later thought\n", encoding="utf-8")
    assert main(["number", card, "4 1/4", "--into", "out"]) == 0
    assert "The recipe has changed" in capsys.readouterr().out


@pytest.mark.parametrize("number", ["", "wide", "1 / 0", "4 1/4 + 2", "x" * 5000])
def test_what_is_no_number_is_a_wrong_call(card: str, capsys: Captured, number: str) -> None:
    assert main(["number", card, number]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err.startswith("foldproof number: ")


def test_a_recipe_that_cannot_be_read_shows_its_findings(card: str, capsys: Captured) -> None:
    Path(card).write_text("title: [", encoding="utf-8")
    assert main(["number", card, "4 1/4"]) == 1
    assert "ERROR" in capsys.readouterr().out
    assert main(["number", "nowhere.yaml", "4 1/4"]) == 1
