"""What lies on the bench as results of saves come in."""

from pathlib import Path
from typing import Any

import pytest

from foldproof.preview.bench import Bench
from foldproof.preview.task import Task

SOUND: dict[str, Any] = {"sound": True, "notes": [], "count": "", "sources": {}, "title": "T", "files": ["c.yaml"]}


@pytest.fixture
def asked() -> list[tuple[str, int]]:
    return []


@pytest.fixture
def bench(asked: list[tuple[str, int]], tmp_path: Path) -> Bench:
    return Bench(Task(recipe=tmp_path / "c.yaml", theme="plain"), lambda work, number: asked.append((work, number)))


def test_page_and_handout_come_first_then_the_shot_list(bench: Bench, asked: list[tuple[str, int]]) -> None:
    bench.saved()
    bench.take(1, "findings", SOUND)
    assert asked == [("page", 1), ("handout", 1)] and bench.told["working"] == "page"
    bench.take(1, "page", b"<p>one")
    bench.take(1, "findings", SOUND)
    assert bench.told["working"] == "sheets" and len(asked) == 2
    bench.take(1, "done", "page")
    assert asked == [("page", 1), ("handout", 1), ("shots", 1)] and bench.told["working"] == "sheets"
    bench.take(1, "done", "shots")
    assert bench.told["working"] == "sheets"
    bench.take(1, "done", "handout")
    assert bench.told["working"] == ""


def test_trouble_with_one_document_leaves_the_others(bench: Bench, asked: list[tuple[str, int]]) -> None:
    bench.saved()
    bench.take(1, "trouble", "no ink")
    bench.take(1, "done", "handout")
    bench.take(1, "findings", SOUND)
    bench.take(1, "page", b"<p>one")
    bench.take(1, "done", "page")
    bench.take(1, "done", "shots")
    assert (bench.told["trouble"], bench.told["working"], bool(bench.told["page"])) == ("no ink", "", True)
    bench.saved()
    assert (bench.told["trouble"], bench.told["working"]) == ("", "findings")


def test_what_belongs_to_an_older_save_is_dropped(bench: Bench) -> None:
    bench.saved()
    bench.saved()
    before = dict(bench.told)
    for kind, result in (("findings", SOUND), ("page", b"old"), ("trouble", "old"), ("done", "page")):
        bench.take(1, kind, result)
    assert bench.told == before and bench.files == {}


def test_mistakes_leave_the_last_good_page(bench: Bench, asked: list[tuple[str, int]]) -> None:
    bench.saved()
    bench.take(1, "findings", SOUND)
    bench.take(1, "page", b"good")
    page = bench.told["page"]
    bench.saved()
    bench.take(2, "findings", {**SOUND, "sound": False})
    assert bench.told["working"] == ""
    bench.take(2, "done", "page")
    bench.take(2, "done", "handout")
    assert (bench.told["page"], bench.told["sound"], bench.told["working"]) == (page, False, "")
    assert bench.files[page].data == b"good" and ("shots", 2) not in asked


def test_a_page_is_kept_until_its_second_successor(bench: Bench) -> None:
    names = []
    for number, data in enumerate((b"one", b"two", b"three"), start=1):
        bench.saved()
        bench.take(number, "page", data)
        names.append(bench.told["page"])
    assert list(bench.files) == names[1:]


def test_sheets_that_stay_as_they_are_keep_their_names(bench: Bench) -> None:
    def sheets(*pictures: bytes) -> dict[str, Any]:
        return {"name": "handout.pdf", "pdf": b"%PDF", "pictures": [
            {"png": one, "width": 612, "height": 792} for one in pictures]}

    bench.saved()
    bench.take(1, "sheets", sheets(b"a", b"b"))
    first = [one["file"] for one in bench.told["sheets"]["handout"]["sheets"]]
    bench.take(1, "sheets", sheets(b"a", b"c"))
    second = [one["file"] for one in bench.told["sheets"]["handout"]["sheets"]]
    assert first[0] == second[0] and first[1] != second[1]
    assert bench.files["handout.pdf"].media == "application/pdf"


def test_which_files_matter(bench: Bench, tmp_path: Path) -> None:
    theme = tmp_path / "theme"
    assert bench.concerns(tmp_path / "c.yaml", theme) and bench.concerns(tmp_path / "c.times.csv", theme)
    assert bench.concerns(theme / "page.css", theme) and bench.concerns(tmp_path / "photo.jpg", theme)
    assert not bench.concerns(tmp_path / "other.yaml", theme) and not bench.concerns(tmp_path / "c.yaml~", theme)
