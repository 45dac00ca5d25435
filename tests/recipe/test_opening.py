"""Files and texts that hold no recipe: each is a finding, never an error of ours, and nothing large is read."""

import os
from pathlib import Path

import pytest
from small_recipe import SOUND

from foldproof.recipe.reader import read_file, read_text


def names(path: Path) -> list[str]:
    reading = read_file(path)
    assert reading.recipe is None
    assert not reading.whole
    return [finding.name for finding in reading.findings]


def test_a_sound_file(tmp_path: Path) -> None:
    path = tmp_path / "small gate.yaml"
    path.write_text(SOUND, encoding="utf-8")
    reading = read_file(path)
    assert reading.findings == ()
    assert reading.recipe is not None
    assert (reading.recipe.file, reading.recipe.name) == (str(path), "small gate")
    assert reading.source == SOUND


def test_a_missing_file(tmp_path: Path) -> None:
    assert names(tmp_path / "none.yaml") == ["file missing"]


def test_a_folder(tmp_path: Path) -> None:
    assert names(tmp_path) == ["not a file"]


def test_a_name_that_no_file_can_have() -> None:
    assert names(Path("a\0b.yaml")) == ["file not readable"]
    assert names(Path("n" * 5000 + ".yaml")) == ["file not readable"]


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "pipe.yaml"
    os.mkfifo(path)
    assert names(path) == ["not a file"]


def test_a_file_of_40_megabytes_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "large.yaml"
    with path.open("wb") as stream:
        stream.truncate(40_000_000)
    monkeypatch.setattr(Path, "open", lambda *_args, **_more: pytest.fail("it was opened"))
    assert names(path) == ["file too large"]


def test_a_file_that_grows_after_its_size_was_seen(tmp_path: Path) -> None:
    assert [finding.name for finding in read_text("a" * 1_000_001, "large.yaml").findings] == ["file too large"]


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        pytest.param(b"", [("empty recipe", 1, 1)], id="nothing"),
        pytest.param(b"\n\n  \n", [("empty recipe", 1, 1)], id="blank lines"),
        pytest.param(b"# a note\n", [("empty recipe", 1, 1)], id="comments"),
        pytest.param(b"---\n", [("empty recipe", 1, 1)], id="three dashes"),
        pytest.param(b"Tide gate\n", [("wrong kind of value", 1, 1)], id="a sentence"),
        pytest.param(b"- title: Tide gate\n", [("wrong kind of value", 1, 1)], id="a list"),
        pytest.param("title: Tür".encode("latin-1"), [("not UTF-8", 1, 9)], id="latin-1"),
        pytest.param("a: 1\nb: ä\nc: Tür".encode() + b"\xfcr", [("not UTF-8", 3, 7)], id="half latin-1"),
        pytest.param("title: Tide".encode("utf-16"), [("not UTF-8", 1, 1)], id="utf-16"),
        pytest.param(b"title: Ti\0de", [("odd character", 1, 10)], id="a zero byte"),
        pytest.param(b"title: x\nskill: \x1b[31mred", [("odd character", 2, 8)], id="an escape sequence"),
        pytest.param("a: 1\nb: x\u2028y".encode(), [("odd character", 2, 5)], id="a line separator"),
        pytest.param("a: x\ufeffy".encode(), [("odd character", 1, 5)], id="a mark of byte order inside"),
    ],
)
def test_a_file_that_holds_no_recipe(data: bytes, expected: list[tuple[str, int, int]], tmp_path: Path) -> None:
    path = tmp_path / "odd.yaml"
    path.write_bytes(data)
    reading = read_file(path)
    assert reading.recipe is None
    found = [(finding.name, finding.place.line, finding.place.column) for finding in reading.findings if finding.place]
    assert found == expected


def test_a_mark_of_byte_order_at_the_start_is_no_matter(tmp_path: Path) -> None:
    path = tmp_path / "marked.yaml"
    path.write_text(SOUND, encoding="utf-8-sig")
    assert read_file(path).findings == ()


@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_line_ends_of_other_systems(end: str) -> None:
    reading = read_text(SOUND.replace("\n", end).replace("unit: inch", "unit: furlong"), "small.yaml")
    assert "\r" not in reading.source
    assert [(finding.name, finding.place.line) for finding in reading.findings if finding.place] == [
        ("unknown word", 4)
    ]


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("[" * 100_000, id="brackets"),
        pytest.param("title: " + "{a: " * 300 + "1" + "}" * 300, id="braces"),
        pytest.param("\n".join(" " * depth + "a:" for depth in range(1000)), id="lines"),
        pytest.param("- " * 300 + "a", id="dashes"),
        pytest.param("\n".join(" " * depth + "? " for depth in range(0, 900, 2)), id="keys"),
    ],
)
def test_deep_nesting(text: str) -> None:
    reading = read_text(text, "deep.yaml")
    assert "nested too deep" in [finding.name for finding in reading.findings]
    assert reading.recipe is None


def test_forty_levels_are_the_most() -> None:
    inner = "{a: " * 38 + "1" + "}" * 38
    deep = "{a: " * 40 + "1" + "}" * 40
    assert "nested too deep" not in [finding.name for finding in read_text(f"title: {inner}", "deep.yaml").findings]
    assert "nested too deep" in [finding.name for finding in read_text(f"title: {deep}", "deep.yaml").findings]


def test_copies_do_not_multiply() -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 10)]
    found = [finding.name for finding in read_text("\n".join(lines), "bomb.yaml").findings]
    assert found.count("copy") == 19  # ten marks, and nine names copied


def test_more_values_than_any_card_has() -> None:
    found = [finding.name for finding in read_text(f"steps: [{'x, ' * 60_000}]", "many.yaml").findings]
    assert found == ["too many values"]


def test_a_mapping_that_holds_itself() -> None:
    assert "copy" in [finding.name for finding in read_text("papers: &p\n  slate: *p\n", "ring.yaml").findings]
