"""The grammar command tells a key, writes the page and the schema, and says what it can't do."""

import json
from pathlib import Path

import pytest

from foldproof.cli import main
from foldproof.grammar.schema import schema
from foldproof.grammar_command import FILES, page_text

Captured = pytest.CaptureFixture[str]


def test_a_key_is_told_with_its_forms(capsys: Captured) -> None:
    assert main(["grammar", "score"]) == 0
    told = capsys.readouterr().out
    assert "`score` of an action: Score at a distance, or from point to point." in told
    assert "A score: A line pressed for folding" in told
    assert "](" not in told


@pytest.mark.parametrize(
    ("word", "said"),
    [("colour", "Did you mean tone?"), ("right angel", "right angle"), ("qqqq", "`--page FILE` lists")])
def test_a_word_that_is_no_key_brings_the_nearest(word: str, said: str, capsys: Captured) -> None:
    assert main(["grammar", word]) == 1
    assert said in capsys.readouterr().out


@pytest.mark.parametrize("of", FILES)
def test_the_schema_of_each_file_is_written(of: str, tmp_path: Path) -> None:
    path = tmp_path / "written.json"
    assert main(["grammar", "--schema", str(path), "--of", of]) == 0
    assert json.loads(path.read_text(encoding="utf-8")) == schema(FILES[of])


def test_the_page_is_written(tmp_path: Path) -> None:
    assert main(["grammar", "--page", str(tmp_path / "keys.md")]) == 0
    assert (tmp_path / "keys.md").read_text(encoding="utf-8") == page_text()


def test_a_file_that_cannot_be_written_is_said(tmp_path: Path, capsys: Captured) -> None:
    assert main(["grammar", "--schema", str(tmp_path / "no" / "x.json")]) == 2
    assert "cannot be written" in capsys.readouterr().err
    assert main(["grammar"]) == 2
