"""The draft command prints or writes a draft, never over a file that is there."""

from pathlib import Path

import pytest

from foldproof.cli import main
from foldproof.draft_command import MOST_BYTES

NOTES = "Sea card\n\nCut the base 8 x 4 in. Score at 4 in.\n"
Captured = pytest.CaptureFixture[str]


@pytest.fixture
def notes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("sea.txt").write_text(NOTES, encoding="utf-8")
    return Path("sea.txt")


def test_a_draft_is_printed(notes: Path, capsys: Captured) -> None:
    assert main(["draft", str(notes)]) == 0
    assert "title: Sea card" in capsys.readouterr().out
    assert notes.read_text(encoding="utf-8") == NOTES


def test_a_draft_is_written_with_its_questions_and_their_lines(notes: Path, capsys: Captured) -> None:
    assert main(["draft", str(notes), "--as", "sea.yaml"]) == 0
    told = capsys.readouterr().out
    lines = Path("sea.yaml").read_text(encoding="utf-8").split("\n")
    asked = [number for number, line in enumerate(lines, start=1) if "# ?" in line]
    assert asked and all(f"sea.yaml:{number}: " in told for number in asked)
    assert f"{len(asked)} questions" in told
    assert main(["check", "sea.yaml"]) == 1
    found = capsys.readouterr().out
    assert "# ? which paper" in found and "Traceback" not in found


def test_a_file_that_is_there_is_never_written_over(notes: Path, capsys: Captured) -> None:
    Path("there.yaml").write_text("mine", encoding="utf-8")
    assert main(["draft", str(notes), "--as", "there.yaml"]) == 2
    assert Path("there.yaml").read_text(encoding="utf-8") == "mine"
    assert "stays as it is" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("content", "status", "said"),
    [(b"", 1, "empty"), (b"\xff\xfe\x00", 2, "UTF-8"), (b"x" * (MOST_BYTES + 1), 2, "longer"),
     (None, 2, "cannot be read")],
    ids=["empty", "no text", "too long", "missing"])
def test_what_cannot_be_read_is_said(
    content: bytes | None, status: int, said: str, notes: Path, capsys: Captured,
) -> None:
    if content is not None:
        Path("odd.txt").write_bytes(content)
    assert main(["draft", "odd.txt"]) == status
    assert said in capsys.readouterr().err
