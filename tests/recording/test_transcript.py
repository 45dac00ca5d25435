"""Caption files of what was said: WebVTT and SRT, whole and broken; and what is said wrongly, with its time."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_film import WHOLE, film, made, told

from foldproof.recording.transcript import read_transcript

SCORING = "00:00:45.000 --> 00:00:50.000\n"


@pytest.mark.parametrize(("said", "expected"), [
    pytest.param("", [("not a caption file", 1)], id="empty"),
    pytest.param("WEBVTT\n\nNOTE nothing yet\n", [("not a caption file", 1)], id="no caption"),
    pytest.param("step, begins\nCut the base, 0:10\n", [("not a caption file", 1)], id="a times file"),
    pytest.param("{\\rtf1 some other thing}\n", [("not a caption file", 1)], id="another kind of file"),
    pytest.param("WEBVTT\n\n00:00:45 --> 00:00:50\nhello\n", [("caption can't be read", 3)], id="no thousandths"),
    pytest.param("WEBVTT\n\n00:00:50.000 --> 00:00:45.000\nhello\n", [("caption can't be read", 3)], id="ends first"),
    pytest.param("WEBVTT\n\n00:00:75.000 --> 00:00:80.000\nhello\n", [("caption can't be read", 3)], id="75 seconds"),
    pytest.param(f"WEBVTT\n\n{SCORING}hello\n\n00:00:41.000 --> 00:00:42.000\nbefore\n",
                 [("captions run backwards", 6)],
                 id="backwards"),
    pytest.param("WEBVTT\n\n00:09:00.000 --> 00:09:01.000\nlate\n", [("past the end of the recording", 3)],
                 id="past the end"),
    pytest.param(f"WEBVTT\n\n{SCORING}hello\n\nand more\nwords\n", [("caption can't be read", 6)],
                 id="words without times"),
])
def test_what_is_wrong_is_told_at_its_line(said: str, expected: list[tuple[str, int]]) -> None:
    assert told(said=said) == expected
    assert film(WHOLE, said)[0] is None


@given(st.text(max_size=300))
def test_no_text_is_too_odd_to_be_judged(text: str) -> None:
    cues, findings = read_transcript(text, "said.vtt", None)
    assert cues or findings


@pytest.mark.parametrize("said", [
    pytest.param(f"WEBVTT\n\n{SCORING}Score at two and a quarter.\n", id="WebVTT"),
    pytest.param("WEBVTT Kind: captions\n\nSTYLE\n::cue {}\n\nNOTE\na note\n\nintro\n"
                 "00:45.000 --> 00:50.000 align:start\n<v Ada>Score at <i>two and a\nquarter</i>.\n",
                 id="with all that it may hold"),
    pytest.param("\ufeff1\r\n00:00:45,000 --> 00:00:50,000\r\nScore at two\r\nand a quarter.\r\n", id="SRT"),
    pytest.param("1\n00:00:45,000 --> 00:00:47,000\nScore at two\n\n2\n00:00:47,000 --> 00:00:50,000\nand a quarter\n",
                 id="split between two"),
])
def test_a_wrong_number_is_found_with_its_time_and_put_right(said: str) -> None:
    slips = made(said=said).slips
    assert [(int(slip.at) // 3, slip.right, slip.step) for slip in slips] == [(15, "2 1/8 in", 1)]
    finding = slips[0].finding
    assert finding.message.startswith("At 0:4") and "the distance of the score is 2 1/8 in" in finding.message
    assert finding.place is not None and finding.place.file == "said.vtt"
    assert finding.severity == "warning"


def test_a_right_number_near_a_border_may_be_the_next_steps() -> None:
    """Captions may be 1.5 s early or late (BBC Subtitle Guidelines)."""
    said = "WEBVTT\n\n00:05:{}.600 --> 00:05:{}.900\nIt sits a quarter of an inch in from the edge.\n"
    assert [slip.right for slip in made(said=said.format(28, 29)).slips] == []
    assert [slip.step for slip in made(said=said.format(18, 19)).slips] == [6]
    score = "WEBVTT\n\n00:00:20.000 --> 00:00:22.000\nScore at two and an eighth, not here but at nine inches.\n"
    assert [slip.written for slip in made(said=score).slips] == ["nine inches"]


def test_the_place_is_that_of_the_number_in_the_file() -> None:
    said = f"WEBVTT\n\n{SCORING}Now score it\nat two and a quarter inches\n"
    place = made(said=said).slips[0].finding.place
    assert place is not None
    line = said.split("\n")[place.line - 1]
    assert line[place.column - 1:place.column - 1 + place.length] == "two and a quarter inches"


def test_captions_of_what_was_said_keep_their_times_and_words() -> None:
    said = f"WEBVTT\n\n{SCORING}Score at two and an eighth, right across, &amp; turn the card half round now.\n"
    film_ = made(said=said)
    assert not film_.draft
    assert " ".join(film_.captions[0].lines).endswith("across, & turn the card half round now.")
    assert [int(film_.captions[0].start), int(film_.captions[0].end)] == [45, 50]
    assert max(map(len, film_.captions[0].lines)) <= 37


def test_numbers_of_steps_that_share_a_stretch_are_those_of_any_of_them() -> None:
    times = "Cut the base, 0:10\nFold the doors, 1:20\nlength, 7:30\n"
    said = "WEBVTT\n\n00:00:20.000 --> 00:00:25.000\nEight and a half by five and a half.\n\n" \
           "00:00:50.000 --> 00:00:55.000\nScore at {}.\n"
    assert made(times, said.format("two and an eighth")).slips == ()
    assert [slip.right for slip in made(times, said.format("two and a quarter")).slips] == ["2 1/8 in"]
