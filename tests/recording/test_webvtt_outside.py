"""Chapters and captions before an independent judge: webvtt-parser (npm, by W3C contributors, CC0), run by node.

`.ci/run` installs it beside the virtual environment's own packages:
`npm install --prefix .venv webvtt-parser@2.2.0`. Where it is missing the tests are skipped, but never where CI is set.
"""

import json
import os
import shutil
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from small_film import RECIPES, WHOLE, card, made

from foldproof.documents.spoken import spoken_lines
from foldproof.recording.captions import Caption
from foldproof.recording.chapters import Chapter
from foldproof.recording.film import Film, Written, make_film
from foldproof.recording.texts import captions_srt, captions_webvtt, chapters_webvtt
from foldproof.recording.transcript import read_transcript

PARSER = Path(sys.prefix) / "node_modules" / "webvtt-parser"
SCRIPT = Path(__file__).with_name("webvtt_validator.js")
NODE = shutil.which("node")
needs_parser = pytest.mark.skipif(
    not os.environ.get("CI") and (NODE is None or not PARSER.is_dir()),
    reason=f"node, or webvtt-parser in {PARSER}, is missing: npm install --prefix {sys.prefix} webvtt-parser@2.2.0")


def judged(text: str, kind: str = "captions") -> dict[str, Any]:
    assert NODE is not None and PARSER.is_dir(), "CI must have node and webvtt-parser: see .ci/run"
    done = subprocess.run(
        [NODE, str(SCRIPT), str(PARSER), kind], input=text, capture_output=True, text=True, check=True, timeout=60)
    told: dict[str, Any] = json.loads(done.stdout)
    return told


def film_of(name: str) -> Film:
    """Each step of a demo card lasts a minute; the card's own spoken lines."""
    recipe = card(name).recipe
    rows = [f"{index + 1}, {index}:07.125" for index in range(len(recipe.steps))]
    times = "\n".join((*rows, f"length, {len(recipe.steps)}:30"))
    film, findings = make_film(card(name), Written(file="t.csv", text=times), None, spoken_lines(recipe))
    assert film is not None, findings
    return film


@needs_parser
def test_the_judge_does_find_fault() -> None:
    assert judged("WEBVTT\n\n00:02.000 --> 00:01.000\nbackwards\n")["errors"]
    assert judged("no header\n")["errors"]
    assert judged("WEBVTT\n\n00:01.000 --> 00:02.000\na < b & c\n")["errors"]


@needs_parser
@pytest.mark.parametrize("name", sorted(path.stem for path in RECIPES.glob("*.yaml")))
def test_chapters_and_captions_of_every_demo_card(name: str) -> None:
    film = film_of(name)
    chapters = judged(chapters_webvtt(film.chapters, "a note"), "chapters")
    assert chapters["errors"] == []
    assert [(cue["text"].strip(), cue["start"]) for cue in chapters["cues"]] == [
        (chapter.title, pytest.approx(float(chapter.start))) for chapter in film.chapters]
    captions = judged(captions_webvtt(film.captions, "a note"))
    assert captions["errors"] == []
    assert [(cue["text"].split(), cue["end"]) for cue in captions["cues"]] == [
        (" ".join(one.lines).split(), pytest.approx(float(one.end))) for one in film.captions]


@needs_parser
def test_awkward_words_stay_sound() -> None:
    words = ("a < b && c --> d", "<v Nobody> &lt;", "WEBVTT")
    caption = Caption(start=Fraction(1), end=Fraction(5), lines=words)
    told = judged(captions_webvtt([caption], "a note --> with an arrow"))
    assert told["errors"] == []
    assert told["cues"][0]["text"].split("\n") == list(words)
    chapter = Chapter(title="Fold & <glue> --> done", start=Fraction(0), end=Fraction(400_000))
    told = judged(chapters_webvtt([chapter], "note"), "chapters")
    assert (told["errors"], told["cues"][0]["text"].strip()) == ([], chapter.title)


@needs_parser
def test_captions_of_what_was_said() -> None:
    said = "1\n00:00:45,000 --> 00:00:50,000\nScore at two & an eighth <right across>\n"
    assert judged(captions_webvtt(made(WHOLE, said).captions, "said"))["errors"] == []


@pytest.mark.parametrize("write", [
    pytest.param(lambda film: captions_webvtt(film.captions, "note"), id="WebVTT"),
    pytest.param(lambda film: captions_srt(film.captions), id="SRT"),
])
def test_captions_are_read_again_as_they_were(write) -> None:  # type: ignore[no-untyped-def]
    film = made()
    cues, findings = read_transcript(write(film), "again", film.recording.length)
    assert findings == ()
    assert tuple(cue.caption for cue in cues) == film.captions
