"""What was written earlier or by others is read within bounds, in one place, and refused in words."""

import json
import os
import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import foldproof
from foldproof.bounded import MOST_DOCUMENT, MOST_FACTS, TooLargeError, beginning, read_json, read_within
from foldproof.cli import main
from foldproof.documents.changes import since
from foldproof.documents.placing import place
from foldproof.documents.recording import TIMES
from foldproof.documents.standing import facts_of, standing_sets
from foldproof.documents.trouble import PlacingError
from foldproof.filmed import refuse_to_lose
from foldproof.measures.quantity import Unit
from foldproof.mirror.directions import direction_changes
from foldproof.pipeline import prove
from foldproof.recipe.reader import read_file
from fuzz import within_seconds

SOUND = Path(__file__).parent / "bad_input" / "sound.yaml"
Captured = pytest.CaptureFixture[str]
needs_pipes = pytest.mark.skipif(sys.platform == "win32", reason="needs pipes")
PACKAGE = Path(foldproof.__file__).parent
OWN = {
    "bounded.py": "the place itself", "kept.py": "the program's own files", "documents/fonts.py": "a library's fonts",
    "documents/pdf_marks.py": "streams of an opened PDF", "documents/pdf_text.py": "streams of an opened PDF",
    "preview/server.py": "the program's own files", "starting/constructions.py": "the program's own files"}
"""Where files are read whole without a bound, and whose they are."""


def pad(path: Path, most: int = MOST_FACTS) -> None:
    """Fill a file up with blanks that JSON allows, to one byte more than it may have."""
    text = path.read_bytes()
    path.write_bytes(text + b" " * (most + 1 - len(text)))


@pytest.fixture(scope="module")
def told() -> bytes:
    from foldproof.documents.facts_file import FORMAT, card_facts
    from foldproof.documents.telling import hands

    proof = prove(SOUND)
    assert proof.card is not None and proof.making is not None
    card = proof.card
    facts = card_facts(card, proof.making, tuple(hands(card, step) for step in proof.making.steps))
    return json.dumps({"format": FORMAT, "revision": "before", **facts, "title": "Another card"}).encode()


@pytest.fixture
def stood(tmp_path: Path, told: bytes) -> Path:
    """A set as a build leaves it, with facts that differ from those of the recipe in the title."""
    (tmp_path / "sound.yaml").write_bytes(SOUND.read_bytes())
    return place({"card.json": told, TIMES: b"", "page.html": b"<p>4 1/4 in</p>"}, tmp_path / "build", "sound")


def test_no_other_module_reads_whole_files() -> None:
    reads = re.compile(r"\.read_(?:text|bytes)\(|\.open\(\"rb?\"\)|\bjson\.load\(")
    found = {path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py")
             if reads.search(path.read_text(encoding="utf-8"))}
    assert found == set(OWN)


def test_as_much_as_may_be(tmp_path: Path) -> None:
    path = tmp_path / "file"
    path.write_bytes(b"12345")
    assert read_within(path, 5) == b"12345"
    with pytest.raises(TooLargeError, match=r"it holds 0\.0 million bytes, and 4e-06 million are the most"):
        read_within(path, 4)


def test_only_the_beginning_of_a_file_that_the_memory_could_not_hold(tmp_path: Path) -> None:
    path = tmp_path / "index.html"
    path.write_bytes(b"<html>")
    os.truncate(path, 1 << 40)
    assert beginning(path, 6) == b"<html>"


@needs_pipes
@pytest.mark.parametrize("read", [read_json, lambda path: beginning(path, 5), lambda path: read_within(path, 5)],
                         ids=["json", "beginning", "whole"])
def test_nobody_waits_for_a_pipe(read: Callable[[Path], object], tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(OSError, match="no ordinary file"):
        read(tmp_path / "pipe")


def test_json_without_a_ground(tmp_path: Path) -> None:
    (tmp_path / "deep").write_text("[" * 1_000_000)
    with pytest.raises(ValueError, match="nested"):
        read_json(tmp_path / "deep")


def test_earlier_facts_that_grew(stood: Path, capsys: Captured) -> None:
    recipe = str(stood.parent.parent / "sound.yaml")
    assert main(["compare", str(stood), recipe]) == 1
    assert "Another card" in capsys.readouterr().out
    pad(stood / "card.json")
    assert main(["compare", str(stood), recipe]) == 2
    assert "card.json cannot be read: it holds 5.0 million bytes, and 5 million are the most" in capsys.readouterr().err


def test_earlier_facts_that_grew_are_held_against_nothing(stood: Path, told: bytes) -> None:
    now = told.replace(b"Another card", b"Plain card")
    assert [change.what for change in since(stood, now)] == ["title"]
    assert facts_of(standing_sets(stood.parent)[0], "card.json")
    pad(stood / "card.json")
    assert since(stood, now) == ()
    assert facts_of(standing_sets(stood.parent)[0], "card.json") == {}


def test_a_list_of_files_that_grew(stood: Path) -> None:
    assert standing_sets(stood.parent)[0].files == ("card.json", "page.html", TIMES)
    with pytest.raises(PlacingError, match="would lose them"):
        refuse_to_lose(Path("sound.yaml"), stood)
    pad(stood / ".contents")
    refuse_to_lose(Path("sound.yaml"), stood)
    assert standing_sets(stood.parent)[0].files == ()
    place({"card.json": b"{}"}, stood.parent, "sound")
    assert (stood / "card.json").read_bytes() == b"{}"


@pytest.mark.parametrize("written", ["{", "[]", "{}", '{"target": 3}', "\N{SNOWMAN}" * 2_000_000])
def test_a_journal_that_says_nothing(written: str, stood: Path) -> None:
    (stood.parent / ".sets" / "sound.journal").write_text(written, encoding="utf-8")
    with pytest.raises(PlacingError, match=r"sound\.journal|cannot write"):
        place({"card.json": b"{}"}, stood.parent, "sound")
    assert (stood / "page.html").exists()


def test_documents_that_are_not_as_they_were_built(stood: Path, capsys: Captured) -> None:
    """They are left out of what is told of a number, one by one and in words."""
    (stood / "handout.pdf").write_bytes(b"%PDF-1.7\n%%EOF")
    (stood / "template.pdf").write_bytes(b"")
    (stood / "shots.csv").write_bytes(b'say,"\xff')
    call = ["number", str(stood.parent.parent / "sound.yaml"), "4 1/4", "--into", str(stood.parent)]
    assert main(call) == 0
    shown = capsys.readouterr()
    assert "page.html, the page: once" in shown.out
    assert re.findall(r"(\S+) is left out: it is not as it was built", shown.err) == [
        str(stood / name) for name in ("handout.pdf", "template.pdf", "shots.csv")]
    os.truncate(stood / "page.html", MOST_DOCUMENT + 1)
    pad(stood / "card.json")
    assert main(call) == 0
    shown = capsys.readouterr()
    assert "page.html is left out: it holds 100.0 million bytes, and 100 million are the most" in shown.err
    assert "page.html" not in shown.out


def _with_words(each: str, steps: int) -> str:
    more = f"  - {{title: More, piece: base, do: [{{note: Look.}}], text: '{each.strip()}'}}\n"
    return SOUND.read_text(encoding="utf-8") + more * steps


@pytest.mark.parametrize(("steps", "names"), [(12, []), (13, ["too many words"])])
def test_all_words_together_are_bounded(steps: int, names: list[str], tmp_path: Path) -> None:
    """Twelve passages of 4,950 are 59,400 characters; the recipe's own and one passage more are too many."""
    recipe = tmp_path / "card.yaml"
    recipe.write_text(_with_words("a" * 4_950, steps), encoding="utf-8")
    assert [one.name for one in read_file(recipe).findings] == names


def test_a_row_of_dashes_before_a_side_is_no_riddle() -> None:
    """It took hours once: the signs could be parted in two in very many ways."""
    with within_seconds():
        (change,) = direction_changes(f"Score it {'-' * 4_900} on the left.", Unit.INCH)
    assert change.said == "right"


@pytest.mark.parametrize(("count", "names"), [(100, []), (101, ["directions not all looked at"])])
def test_no_more_directions_of_a_passage_are_looked_at_than_may_be(
    count: int, names: list[str], tmp_path: Path,
) -> None:
    recipe = tmp_path / "card.yaml"
    recipe.write_text(_with_words("Look at the left edge. " * count, 1), encoding="utf-8")
    found = [one for one in prove(recipe).findings if one.name == "directions not all looked at"]
    assert [one.name for one in found] == names
    assert all(one.place and one.place.column > 2_300 for one in found), "where the first of the rest stands"
