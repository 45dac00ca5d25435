"""Bad input through the command line: a clear finding, exit status 1, never a traceback, outputs untouched."""

import json
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from foldproof.cli import main
from foldproof.documents.placing import place

BAD = Path(__file__).resolve().parent / "bad_input"

EXPECTED = [
    ("absurd_size", "measure too fine", 9),
    ("alias_bomb", "copy", 3),
    ("circular_measures", "measures in a ring", 3),
    ("copied_piece", "name given twice", 17),
    ("divided_by_zero", "divided by zero", 11),
    ("empty", "empty recipe", 1),
    ("empty_steps", "too few", 18),
    ("huge_digits", "measure too long", 11),
    ("image_outside", "picture elsewhere", 20),
    ("list_for_mapping", "wrong kind of value", 5),
    ("list_on_top", "wrong kind of value", 1),
    ("missing_image", "picture missing", 20),
    ("negative_size", "not more than zero", 9),
    ("no_steps", "missing part", 1),
    ("not_a_size", "measure can't be read", 9),
    ("only_comments", "empty recipe", 1),
    ("own_alias", "copy", 3),
    ("score_outside", "score outside its piece", 11),
    ("score_step_outside", "off the work", 25),
    ("tabs", "tabs for indentation", 8),
    ("twice", "written twice", 3),
    ("unclosed", "bracket not closed", 9),
    ("zero_size", "not more than zero", 9),
]
CASES = [pytest.param(BAD / f"{name}.yaml", fault, line, id=name) for name, fault, line in EXPECTED]


def _check(path: Path, capsys: pytest.CaptureFixture[str]) -> tuple[int, list[dict[str, Any]]]:
    status = main(["check", "--json", str(path)])
    return status, json.loads(capsys.readouterr().out)


def _files(folder: Path) -> Mapping[str, bytes]:
    """Every file of an output folder but its gallery, which is made anew after every build."""
    return {
        str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*"))
        if path.is_file() and path != folder / "index.html"}


def test_every_file_has_its_row() -> None:
    assert {path.stem for path in BAD.glob("*.yaml")} == {name for name, _, _ in EXPECTED} | {"sound"}


def test_the_recipe_that_they_spoil_is_sound(capsys: pytest.CaptureFixture[str]) -> None:
    assert _check(BAD / "sound.yaml", capsys) == (0, [])


@pytest.mark.parametrize(("path", "fault", "line"), CASES)
def test_told_as_a_finding(path: Path, fault: str, line: int, capsys: pytest.CaptureFixture[str]) -> None:
    status, findings = _check(path, capsys)
    assert status == 1
    places = {(one["name"], one["place"]["line"]) for one in findings if one["severity"] == "error" and one["place"]}
    assert (fault, line) in places


@pytest.mark.parametrize(("path", "fault", "line"), CASES)
def test_outputs_stay_as_they_were(
    path: Path, fault: str, line: int, tmp_path: Path, capsys: pytest.CaptureFixture[str],
) -> None:
    place({"handout.pdf": b"the last good one", "pictures/step-1.svg": b"<svg/>"}, tmp_path, path.stem)
    before = _files(tmp_path)
    status = main(["build", str(path), "--into", str(tmp_path)])
    shown = capsys.readouterr()
    assert status == 1
    assert _files(tmp_path) == before
    assert (tmp_path / path.stem / "handout.pdf").read_bytes() == b"the last good one"
    assert fault in shown.out
    assert "Traceback" not in shown.out + shown.err


@pytest.mark.parametrize(("text", "fault"), [
    pytest.param("[" * 200_000, "nested too deep", id="200,000 brackets"),
    pytest.param("\n".join(" " * depth + "a:" for depth in range(1_000)), "nested too deep", id="1,000 steps in"),
    pytest.param("{a: " * 50_000, "nested too deep", id="50,000 braces"),
    pytest.param("- " * 100_000, "nested too deep", id="100,000 dashes"),
    pytest.param("title: \x00\n", "odd character", id="a null byte"),
    pytest.param("!!python/object/apply:os.system [true]\n", "", id="a tag that asks to run something"),
])
def test_made_up_text(text: str, fault: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "made_up.yaml"
    path.write_text(text, encoding="utf-8")
    status, findings = _check(path, capsys)
    assert status == 1
    assert any(fault in one["name"] and one["severity"] == "error" for one in findings)


def test_forty_megabytes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "large.yaml"
    path.write_bytes(b"title: large\n" + b"# a\n" * (10 * 1024 * 1024))
    status, findings = _check(path, capsys)
    assert status == 1
    assert [one["name"] for one in findings] == ["file too large"]


@pytest.mark.parametrize("data", [
    pytest.param(b"\x89PNG\r\n\x1a\n" + bytes(range(256)), id="a picture"),
    pytest.param("title: Kärtchen\n".encode("latin-1"), id="not UTF-8"),
    pytest.param("title: card\n".encode("utf-16"), id="UTF-16"),
])
def test_no_text(data: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "no_text.yaml"
    path.write_bytes(data)
    status, findings = _check(path, capsys)
    assert status == 1
    assert [one["name"] for one in findings] == ["not UTF-8"]


def test_no_traceback_from_a_process_of_its_own() -> None:
    """As a person calls it, all bad recipes at once: the findings of each, nothing on the error stream."""
    paths = [str(path) for path in sorted(BAD.glob("*.yaml"))]
    done = subprocess.run(
        [sys.executable, "-m", "foldproof", "check", *paths], capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 1
    assert done.stderr == ""
    assert all(fault in done.stdout for _, fault, _ in EXPECTED)
