"""What is said of a film that is wrong, and silence over one that is right."""

import pytest
from film_recipe import read_film, small_film

from foldproof.filming.film_checks import film_findings
from foldproof.filming.plan import shots_of
from foldproof.findings.finding import Finding

LONG = " ".join(["word"] * 45)


def found(**changes: str) -> list[Finding]:
    return list(film_findings(*small_film(**changes)))


def test_a_sound_film_is_quiet() -> None:
    assert found() == []
    assert found(stamp="{framing: overhead close, seconds: 10}", score="{seconds: 6}") == []


def test_a_line_longer_than_its_shot() -> None:
    (finding,) = found(stamp=f"{{seconds: 15, say: {LONG}}}")
    assert finding.name == "line longer than its shots" and finding.step == "stamp-the-mat"
    assert "45 words take 21 s at 130 words a minute, 6 s more than the 15 s" in finding.message
    assert finding.mend == "Give it 21 seconds, or say it in 32 words."
    assert finding.place is not None and finding.place.line == 44
    assert found(stamp=f"{{seconds: 15, say: {LONG}}}", filming="{words a minute: 180}") == []


def test_the_caution_that_must_be_said_takes_time_too() -> None:
    (finding,) = found(cut_base="{seconds: 5}")
    assert "with its spoken caution" in finding.message
    assert found(cut_mat="{seconds: 5}") == [], "said once, at the first use"
    (moved,) = found(cut_base="off camera", cut_mat="{seconds: 5}")
    assert moved.step == "cut-the-mat", "the first use that is filmed"


def test_a_caution_is_said_in_the_shot_that_uses_its_tool() -> None:
    card, making = small_film(
        cut_base="[{framing: overhead close, actions: 0, seconds: 5, say: Here is the sheet.}, {seconds: 20}]")
    first, second, *_ = shots_of(card, making)
    assert first.cautions == () and any("cutting track" in words for words in second.cautions)


@pytest.mark.parametrize(("filming", "quiet"), [("", False), ("{longest silence: 60}", True)])
def test_silence_longer_than_the_teacher_wants(filming: str, quiet: bool) -> None:
    findings = found(stamp="{seconds: 40}", filming=filming)
    assert [finding.name for finding in findings] == ([] if quiet else ["silence longer than wanted"])


@pytest.mark.parametrize(("said", "quiet"), [("4 by 5 inches", True), ("4 1/16 by 5 inches", False)])
def test_the_line_of_a_beauty_shot_gives_sizes_that_the_card_has(said: str, quiet: bool) -> None:
    findings = found(filming=f"{{beauty: {{pose: closed, say: It is {said}.}}}}")
    assert [finding.name for finding in findings] == (
        [] if quiet else ["size in a beauty shot that the card has not"])


def test_a_frame_too_narrow() -> None:
    (finding,) = found(score="{width: 6}")
    assert finding.name == "frame too narrow"
    assert "a frame 6 in wide does not show the base with room for hands; that takes 13 in" in finding.message


def test_a_shot_of_what_is_not_there_yet() -> None:
    (finding,) = found(score="{inside: mat}")
    assert finding.name == "not there to be filmed" and "the mat is not on the table yet" in finding.message


@pytest.mark.parametrize(("film", "name", "words"), [
    pytest.param("{framing: from the moon}", "unknown word", "moon", id="unknown framing"),
    pytest.param("{seconds: 0}", "not more than zero", "0", id="no seconds"),
    pytest.param("{seconds: -3}", "not more than zero", "-3", id="negative seconds"),
    pytest.param("{say: ''}", "nothing written", "quotes", id="empty line"),
    pytest.param("{say: '...'}", "nothing to say", "no words", id="a line without words"),
    pytest.param("{of: stamp-the-matt}", "insert of a step that is not there", "stamp-the-matt", id="unknown step"),
    pytest.param("[{actions: 9}, {actions: 1}]", "more actions than the step has", "10 actions", id="too many actions"),
    pytest.param("{actions: 1/2}", "not a whole number", "1/2", id="half an action"),
    pytest.param("{width: 0}", "not more than zero", "0", id="no width"),
    pytest.param("{inside: nothing such}", "unknown name", "nothing such", id="unknown thing"),
    pytest.param("[{framing: off camera}, {framing: overhead}]", "shot of a step off camera", "off camera", id="both"),
    pytest.param("{framing: off camera, seconds: 5}", "shot of a step off camera", "off camera", id="timed"),
])
def test_bad_film_keys_are_findings(film: str, name: str, words: str) -> None:
    findings = read_film(stamp=film).findings
    assert findings, film
    told = " ".join(f"{finding.name}: {finding.message}" for finding in findings)
    assert words in told
    assert name in {finding.name for finding in findings}, told
    assert all(finding.place is not None and finding.place.line == 44 for finding in findings)


@pytest.mark.parametrize("filming", [
    "{bottom: left}", "{picture: round}", "{words a minute: 0}", "{words a minute: 9000}", "{duplicates: 1/2}",
    "{duplicates: 99}", "{beauty: {pose: upside down}}", "{beauty: {pose: closed, say: '!'}}", "{longest silence: 0}",
])
def test_bad_words_about_the_whole_film_are_findings(filming: str) -> None:
    assert read_film(filming=filming).findings


def test_a_step_that_is_broken_brings_no_second_finding() -> None:
    findings = read_film(cut_mat="{framing: nowhere}", stamp="{of: cut-the-mat}").findings
    assert [finding.place.line for finding in findings if finding.place] == [37]
