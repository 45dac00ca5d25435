"""The film command from the outside: what comes after filming, and that nothing of it is lost or mixed."""

import csv
import html
import io
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import isodate
import pytest

RECIPES = Path(__file__).resolve().parent.parent / "recipes"
TIMES = """\
step, begins
chapter: Welcome, 0:00
Check the base, 0:12
Score the two folds, 0:40.5
Fold the roll, 1:20
Cut the mats and the tag, 2:00
6, 4:00
7, 4:40
8, 5:20
10, 7:00
length, 1:07:30
address, https://example.org/gate-film?part=1&at={seconds}
"""
SAID = """\
WEBVTT

00:00:45.000 --> 00:00:48.000
Score at ninety five millimetres

00:00:48.000 --> 00:00:52.000
and at a hundred and ninety / seven millimetres.
"""


@pytest.fixture()
def recipe(tmp_path: Path) -> Path:
    """A copy of a demo recipe in a folder of its own."""
    copy = tmp_path / "mine" / "coast-road.yaml"
    copy.parent.mkdir()
    shutil.copy(RECIPES / "coast-road.yaml", copy)
    return copy


def run(*words: str | Path, into: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "foldproof", *map(str, words), "--into", str(into)], capture_output=True, text=True,
        check=False, timeout=240)


def film(recipe: Path, times: str, into: Path, said: str | None = None) -> subprocess.CompletedProcess[str]:
    file = into.parent / "when.csv"
    file.write_text(times, encoding="utf-8")
    extra: list[str | Path] = []
    if said is not None:
        spoken = into.parent / "spoken.vtt"
        spoken.write_text(said, encoding="utf-8")
        extra = ["--said", spoken]
    return run("film", recipe, file, *extra, into=into)


def shown(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir() if not path.name.startswith(".") and path.is_file()}


def machine_part(folder: Path) -> Any:
    page = (folder / "page.html").read_text(encoding="utf-8")
    found = re.search(r'<script type="application/ld\+json">(.*?)</script>', page, re.DOTALL)
    assert found
    return json.loads(found[1])


def test_everything_that_comes_after(recipe: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    done = film(recipe, TIMES, out)
    assert (done.returncode, done.stderr) == (0, "")
    assert "steps without captions" in done.stdout and "Stamp the tag" not in done.stdout.split("captions:")[0]
    folder = out / "coast-road"
    assert shown(folder) >= {
        "handout.pdf", "handout-letter.pdf", "page.html", "shots.pdf", "shots.csv", "card.json", "recording.csv",
        "chapters.txt", "chapters.vtt", "captions-draft.vtt", "captions-draft.srt", "description.txt"}
    assert not shown(folder) & {"captions.vtt", "captions.srt"}
    chapters = (folder / "chapters.txt").read_text(encoding="utf-8").splitlines()
    assert chapters[:3] == ["0:00 Welcome", "0:12 Check the base", "0:40 Score the two folds"]
    description = (folder / "description.txt").read_text(encoding="utf-8")
    for words in ("600 mm", "297 × 210 mm", "\n0:40 Score the two folds\n", "5 Stamp the tag and write the letter",
                  "Keep twine away from babies"):
        assert words in description, words
    assert "Corrections" not in description
    assert (folder / "captions-draft.vtt").read_text(encoding="utf-8").startswith("WEBVTT\n\nNOTE\nDRAFT")


def test_the_page_tells_times_to_readers_and_machines(recipe: Path, tmp_path: Path) -> None:
    assert film(recipe, TIMES, tmp_path / "out").returncode == 0
    folder = tmp_path / "out" / "coast-road"
    page = html.unescape((folder / "page.html").read_text(encoding="utf-8"))
    assert 'In the recording: <a href="https://example.org/gate-film?part=1&at=40">0:40</a>' in page
    told = machine_part(folder)
    assert told["@type"] == "HowTo" and len(told["step"]) == 10
    video = told["video"]
    assert isodate.parse_duration(video["duration"]).total_seconds() == 67.5 * 60
    clips = {clip["@id"]: clip for clip in video["hasPart"]}
    of_step: dict[int, Any] = {
        step["position"]: clips.get(step.get("video", {}).get("@id")) for step in told["step"]}
    assert (of_step[2]["startOffset"], of_step[2]["endOffset"]) == (40.5, 80)
    assert of_step[4]["startOffset"] == 120 and "endOffset" not in of_step[4]  # the fifth step's time is not known
    assert of_step[5] is None and of_step[9] is None
    assert "uploadDate" not in video and "thumbnailUrl" not in video  # not known, so not said


def test_a_page_without_a_recording_says_nothing_of_one(recipe: Path, tmp_path: Path) -> None:
    assert run("build", recipe, into=tmp_path / "out").returncode == 0
    told = machine_part(tmp_path / "out" / "coast-road")
    assert "video" not in told and all("video" not in step for step in told["step"])
    assert isodate.parse_duration(told["totalTime"]).total_seconds() == 58 * 60
    assert "recording" not in (tmp_path / "out" / "coast-road" / "page.html").read_text(encoding="utf-8")


def test_a_wrong_number_said_is_found_and_put_right(recipe: Path, tmp_path: Path) -> None:
    done = film(recipe, TIMES, tmp_path / "out", SAID)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "WARNING: wrong number said on camera" in done.stdout and "spoken.vtt:4:10" in done.stdout
    folder = tmp_path / "out" / "coast-road"
    line = "At 0:45 of the recording, “ninety five millimetres” is said. It should be 97 mm, the distance of the score"
    assert line in (folder / "description.txt").read_text(encoding="utf-8")
    assert line in re.sub(r"<[^>]*>", "", (folder / "page.html").read_text(encoding="utf-8")).replace("\xa0", " ")
    assert {"captions.vtt", "captions.srt"} <= shown(folder) and "captions-draft.vtt" not in shown(folder)
    assert "ninety five" in (folder / "captions.srt").read_text(encoding="utf-8")


def test_a_build_does_not_lose_a_recording(recipe: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert film(recipe, TIMES, out, SAID).returncode == 0
    before = shown(out / "coast-road")
    done = run("build", recipe, into=out)
    assert done.returncode == 1
    assert "would lose them" in done.stderr and str(recipe.with_name("coast-road.times.csv")) in done.stderr
    assert shown(out / "coast-road") == before
    shutil.copy(out / "coast-road" / "recording.csv", recipe.with_name("coast-road.times.csv"))
    shutil.copy(out.parent / "spoken.vtt", recipe.with_name("coast-road.said.vtt"))
    filmed = {name: (out / "coast-road" / name).read_bytes() for name in ("captions.srt", "chapters.vtt")}
    done = run("build", recipe, into=out)
    assert done.returncode == 0, done.stdout + done.stderr
    assert shown(out / "coast-road") == before
    for name, before_it in filmed.items():
        told = (out / "coast-road" / name).read_bytes()
        assert re.sub(rb"times \w+", b"", told) == re.sub(rb"times \w+", b"", before_it)


def test_kept_times_do_not_go_with_a_changed_recipe_unsaid(recipe: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert film(recipe, TIMES, out).returncode == 0
    shutil.copy(out / "coast-road" / "recording.csv", recipe.with_name("coast-road.times.csv"))
    text = recipe.read_text(encoding="utf-8")
    recipe.write_text(text.replace("right across", "straight across").replace(
        "Stamp the tag. The page mat", "Stamp the tag first. The page mat").replace(
        "Cross face down, long edge on the fence.", "Cross down, long edge on the fence."), encoding="utf-8")
    done = subprocess.run([sys.executable, "-m", "foldproof", "check", str(recipe)], capture_output=True, text=True,
                          check=False, timeout=120)
    assert "step changed since it was filmed" in done.stdout
    assert "coast-road.times.csv:3:1" in done.stdout and done.stdout.count("WARNING") == 1


@pytest.mark.parametrize(("times", "says", "status"), [
    pytest.param("Check the base, 2:00\nScore the two folds, 1:00\nlength, 9:00\n", "when.csv:2:1", 1, id="backwards"),
    pytest.param("", "when.csv:1:1", 1, id="empty"),
    pytest.param("Check the bass, 2:00\nlength, 9:00\n", "Write Check the base", 1, id="unknown step"),
    pytest.param("Check the base, 2:00\nlength, 1:00\n", "when.csv:1:1", 1, id="past the end"),
])
def test_bad_times_are_told_with_file_and_line_and_nothing_is_lost(
    times: str, says: str, status: int, recipe: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    kept = out / "coast-road"
    done = film(recipe, times, out)
    assert done.returncode == status and says in done.stdout, done.stdout + done.stderr
    assert "Traceback" not in done.stdout + done.stderr
    assert not kept.exists()


@pytest.mark.parametrize(("data", "says"), [
    pytest.param("Check the base, 0:10\nlength, 9:00\n".encode("utf-16"), "UTF-16", id="UTF-16"),
    pytest.param(b"Check the base, 0:10\nlength \xff, 9:00\n", "bad.csv:2:8", id="not UTF-8"),
    pytest.param(b"Check the base, 0:10\n" * 60_000, "million bytes", id="huge"),
    pytest.param(b"\x00\x01\x02" * 50, "bad.csv:1:1", id="no text"),
])
def test_files_that_are_no_text(data: bytes, says: str, recipe: Path, tmp_path: Path) -> None:
    bad, good = tmp_path / "bad.csv", tmp_path / "good.csv"
    bad.write_bytes(data)
    good.write_text(TIMES, encoding="utf-8")
    for words in ((bad,), (good, "--said", bad)):
        done = run("film", recipe, *words, into=tmp_path / "out")
        assert done.returncode == 1 and "Traceback" not in done.stderr
        assert says.split(":")[0] in " ".join(done.stdout.split())
    assert says in " ".join(run("film", recipe, bad, into=tmp_path / "out").stdout.split())
    assert not (tmp_path / "out").exists()


def test_missing_files_and_wrong_calls(recipe: Path, tmp_path: Path) -> None:
    done = run("film", recipe, tmp_path / "nowhere.csv", into=tmp_path / "out")
    assert done.returncode == 1 and "no file" in done.stdout
    done = run("film", recipe, "--said", tmp_path / "nowhere.vtt", into=tmp_path / "out")
    assert done.returncode == 2 and "--said needs the times" in done.stderr
    assert run("film", into=tmp_path / "out").returncode == 2


def test_a_file_to_fill_in(recipe: Path, tmp_path: Path) -> None:
    done = run("film", recipe, into=tmp_path / "out")
    rows = list(csv.DictReader(io.StringIO(done.stdout), skipinitialspace=True))
    assert done.returncode == 0 and len(rows) == 11
    assert (rows[1]["step"], rows[1]["title"]) == ("score-the-two-folds", "Score the two folds")
    assert rows[-1]["step"] == "length"


def test_findings_as_json(recipe: Path, tmp_path: Path) -> None:
    file = tmp_path / "when.csv"
    file.write_text("Check the bass, 1:00\n", encoding="utf-8")
    done = run("film", recipe, file, "--json", into=tmp_path / "out")
    found = {finding["name"]: finding["place"]["line"] for finding in json.loads(done.stdout) if finding["place"]}
    assert found["unknown step"] == found["length of the recording missing"] == 1
