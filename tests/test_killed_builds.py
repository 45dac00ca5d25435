"""Real builds, with their real documents, that are killed in the middle or run side by side: one whole set stands."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from foldproof import kept
from foldproof.cli import main
from foldproof.options import Options

SOUND = (Path(__file__).parent / "bad_input" / "sound.yaml").read_text(encoding="utf-8")
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs SIGKILL")
MOMENTS = (0.3, 0.6, 0.85, 0.97)
"""When a build is killed, in parts of its length: it reads, draws, prints, and puts its set in place."""


def _begin(recipe: Path, into: Path) -> "subprocess.Popen[bytes]":
    return subprocess.Popen(
        [sys.executable, "-m", "foldproof", "build", "--all", str(recipe), "--into", str(into)],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)


def _whole(recipe: Path, into: Path, title: str) -> None:
    """The set that stands is of a title, holds what its list says to the byte, and nothing else."""
    folder = into / recipe.stem
    assert json.loads((folder / "card.json").read_text(encoding="utf-8"))["title"] == title
    assert title in (folder / "page.html").read_text(encoding="utf-8")
    assert (folder / "handout.pdf").read_bytes().rstrip().endswith(b"%%EOF")
    listed = set(json.loads((folder / ".contents").read_text(encoding="utf-8")))
    assert {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()} == {
        *listed, ".contents"}


def test_a_real_build_killed_at_moments_of_its_length(tmp_path: Path) -> None:
    recipe, into = tmp_path / "card.yaml", tmp_path / "out"
    recipe.write_text(SOUND.replace("Plain card", "The first"), encoding="utf-8")
    begun = time.monotonic()
    assert _begin(recipe, into).wait(timeout=120) == 0
    length = time.monotonic() - begun
    _whole(recipe, into, "The first")
    recipe.write_text(SOUND.replace("Plain card", "The other"), encoding="utf-8")
    ends = []
    stood = ["The first"]
    for moment in MOMENTS:
        process = _begin(recipe, into)
        try:
            process.wait(timeout=length * moment)
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
        ends.append(process.wait(timeout=60))
        stood.append(json.loads((into / "card" / "card.json").read_text(encoding="utf-8"))["title"])
        _whole(recipe, into, stood[-1])
    assert stood == sorted(stood, key=("The first", "The other").index), "one switch, and no way back"
    assert -signal.SIGKILL in ends
    assert main(["build", "--all", str(recipe), "--into", str(into)]) == 0
    _whole(recipe, into, "The other")
    assert kept.unchanged(recipe, Options(), into) is not None
    assert len([path for path in (into / ".sets").iterdir() if path.name != "lock"]) == 1, "nothing is left over"


def test_two_real_builds_at_once(tmp_path: Path) -> None:
    """Two recipes of one name are built into one place by two processes: the set is one's or the other's."""
    recipes = []
    for title in ("The first", "The other"):
        folder = tmp_path / title
        folder.mkdir()
        (folder / "card.yaml").write_text(SOUND.replace("Plain card", title), encoding="utf-8")
        recipes.append(folder / "card.yaml")
    into = tmp_path / "out"
    building = [_begin(recipe, into) for recipe in recipes]
    assert [process.wait(timeout=120) for process in building] == [0, 0]
    told = json.loads((into / "card" / "card.json").read_text(encoding="utf-8"))["title"]
    _whole(recipes[0], into, told)
    assert told in ("The first", "The other")
    assert len([path for path in (into / ".sets").iterdir() if path.name != "lock"]) == 1
    assert told in (into / "index.html").read_text(encoding="utf-8")
