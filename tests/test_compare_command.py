"""The compare command, as it is called."""

import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from foldproof.cli import main

RECIPE = Path(__file__).parents[1] / "recipes" / "tide-gate.yaml"


@pytest.fixture
def other(tmp_path: Path) -> Path:
    """The gate with another score in its second step."""
    path = tmp_path / "tide-gate.yaml"
    text = RECIPE.read_text(encoding="utf-8")
    text = text.replace("      - score: 2 1/8\n      - turn", "      - score: 2 1/4\n      - turn")
    path.write_text(text, encoding="utf-8")
    return path


def test_nothing_changed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", str(RECIPE), str(RECIPE)]) == 0
    assert capsys.readouterr().out == "Tide gate: nothing changed.\n"


def test_what_changed_is_told_with_what_is_stale(other: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", str(RECIPE), str(other)]) == 1
    assert capsys.readouterr().out == (
        "Tide gate: 1 change.\n\nStep 2, Score the doors\n"
        "  Score 2 1/4 in from the stop; it was: Score 2 1/8 in from the stop\n\n"
        "Stale: handout, page, shot list and cue sheet. Build the card again.\n"
        "To be filmed again, where it was filmed: step 2, Score the doors.\n")


def test_as_data(other: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["compare", str(RECIPE), str(other), "--json"])
    (change,) = json.loads(capsys.readouterr().out)
    assert change["step"] == "score-the-doors" and change["stale"] == [
        "film", "handout", "page", "shot list and cue sheet"]


def test_an_erratum_is_printed(other: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "erratum.pdf"
    assert main(["compare", str(RECIPE), str(other), "--erratum", str(sheet), "--dated", "2026-03-01"]) == 1
    text = " ".join(page.extract_text() for page in PdfReader(sheet).pages)
    assert text.count("Score 2 1/4 in from the stop") == 2 and "2026-03-01" in text
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        pytest.param(None, "build the card first", id="none"),
        pytest.param("{", "is not the card.json of a built card", id="no JSON"),
        pytest.param("[" * 100_000, "is not the card.json of a built card", id="nested"),
        pytest.param('{"format": "other"}', "is not the card.json of a built card", id="another file"),
        pytest.param('{"format": "foldproof card facts", "unit": "inch"}', "another version", id="old"),
    ],
)
def test_what_cannot_be_compared_is_said(
    text: str | None, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    built = tmp_path / "tide-gate"
    if text is not None:
        built.mkdir()
        (built / "card.json").write_text(text, encoding="utf-8")
    assert main(["compare", str(RECIPE), "--into", str(tmp_path)]) == 2
    assert said in capsys.readouterr().err


def test_an_erratum_that_cannot_be_written_is_said(
    other: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["compare", str(RECIPE), str(other), "--erratum", str(tmp_path / "no" / "erratum.pdf")]) == 2
    assert "cannot be written" in capsys.readouterr().err
