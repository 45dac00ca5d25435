"""Times files: every way of writing them, and every way of getting them wrong."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_film import RECIPES, STEPS, WHOLE, card, film, made, tide_gate, told

from foldproof.recording.records import stretches
from foldproof.recording.times import blank, read_times


def at(times: str) -> list[tuple[int | None, Fraction]]:
    return [(began.step, began.at) for began in made(times).recording.begins]


@pytest.mark.parametrize("times", [
    pytest.param("step, begins\nCut the base, 0:10\nScore the doors, 0:40.5\nlength, 7:30\n",
                 id="by title, with a heading"),
    pytest.param("cut-the-base;10\nscore-the-doors;40.5\nlength;450\n", id="by id, semicolons, seconds"),
    pytest.param("1\t0:10\n2\t0:40.5\nlength\t7:30\n", id="by number, tabs"),
    pytest.param("0:10 Cut the base\n0:40.5 Score the doors\n7:30 length\n", id="lines of text, time first"),
    pytest.param("Cut the base 0:10\nScore the doors 0:40.5\nlength 7:30\n", id="lines of text, time last"),
    pytest.param("1. Cut the base, 0:10\nStep 2, 0:40.5\nLength, 7:30\n", id="numbers with words"),
    pytest.param("\ufeff# one day\r\n\r\nCut the base,0:10\r\nScore the doors,0:00:40.5\r\nlength,0:07:30\r\n",
                 id="byte order mark, comment, blank line, carriage returns"),
    pytest.param("length, 7:30\nScore the doors, 0:40.5\nCut the base, 0:10\n", id="rows in any order"),
    pytest.param('time, name\n0:10, "Cut the base"\n0:40.5, CUT-THE-BASE\n'.replace("CUT-THE-BASE", "score the DOORS")
                 + "7:30, length\n", id="columns by their heading, quotes, capitals"),
])
def test_ways_of_writing_it(times: str) -> None:
    assert at(times) == [(0, Fraction(10)), (1, Fraction(81, 2))]
    assert made(times).recording.length == 450


@pytest.mark.parametrize(("times", "expected"), [
    pytest.param("", [("no times", 1)], id="empty"),
    pytest.param("# nothing yet\n", [("length of the recording missing", 1)], id="a comment only"),
    pytest.param("length, 7:30\n", [("no times", 1)], id="only a length"),
    pytest.param("Cut the base, 0:10\n", [("length of the recording missing", 1)], id="no length"),
    pytest.param("Cut the bass, 0:10\nlength, 7:30\n", [("unknown step", 1)], id="an unknown step"),
    pytest.param("12, 0:10\nlength, 7:30\n", [("unknown step", 1)], id="an unknown number"),
    pytest.param("2. Cut the base, 0:10\nlength, 7:30\n", [("unknown step", 1)], id="number and title disagree"),
    pytest.param("Cut the base, 0:10\n1, 0:20\nlength, 7:30\n", [("step timed twice", 2)], id="twice the same step"),
    pytest.param("Cut the base, 0:10\nlength, 7:30\nlength, 7:31\n", [("step timed twice", 3)], id="two lengths"),
    pytest.param("Cut the base, 0:40\nScore the doors, 0:10\nlength, 7:30\n", [("times run backwards", 2)],
                 id="backwards"),
    pytest.param("Cut the base, 0:40\nScore the doors, 0:40\nlength, 7:30\n", [("times run backwards", 2)],
                 id="together"),
    pytest.param("Cut the base, 7:30\nlength, 7:30\n", [("past the end of the recording", 1)], id="at the very end"),
    pytest.param("Cut the base, 0:75\nlength, 7:30\n", [("time can't be read", 1)], id="75 seconds"),
    pytest.param("Cut the base, soon\nlength, 7:30\n", [("time can't be read", 1)], id="no time"),
    pytest.param("Cut the base\nlength, 7:30\n", [("row can't be read", 1)], id="a step without a time"),
    pytest.param("0:10\nlength, 7:30\n", [("row can't be read", 1)], id="a time without a step"),
    pytest.param("address, here\nCut the base, 0:10\nlength, 7:30\n", [("address can't be used", 1)], id="no address"),
    pytest.param("address, javascript:alert(1)\nCut the base, 0:10\nlength, 7:30\n", [("address can't be used", 1)],
                 id="an address that runs"),
    pytest.param("step, begins\nCut the base, with care, 0:10\nlength, 7:30\n", [("row can't be read", 2)],
                 id="a comma without quotes under a heading"),
])
def test_what_is_wrong_is_told_at_its_line(times: str, expected: list[tuple[str, int]]) -> None:
    assert told(times) == expected
    assert film(times)[0] is None


def test_all_mistakes_are_told_in_one_run() -> None:
    times = "Cut the bass, 0:10\nScore the doors, 0:75\nFold the doors, 9:00\nFold the doors, 1:00\nlength, 7:30\n"
    assert sorted(told(times)) == [
        ("past the end of the recording", 3), ("step timed twice", 4), ("time can't be read", 2), ("unknown step", 1)]


def test_a_file_of_noise_stops_early() -> None:
    assert len(told("lorem ipsum\n" * 5000)) <= 21


@given(st.text(max_size=300))
def test_no_text_is_too_odd_to_be_judged(text: str) -> None:
    recording, findings = read_times(text, "times.csv", tide_gate().recipe)
    assert recording is not None or findings


def test_the_whole_is_quiet_and_a_step_ends_where_the_next_begins() -> None:
    assert told() == []
    film_ = made()
    assert [film_.ends(step) for step in range(9)] == [40, 80, 120, 180, 220, 270, 330, 400, 450]


def test_nothing_is_guessed_between_known_times() -> None:
    film_ = made("Cut the base, 0:10\nFold the doors, 1:20\nCut the mats and the band, 2:00\nlength, 7:30\n")
    assert [(int(part.start), int(part.end), part.steps) for part in stretches(film_.recording)] == [
        (0, 10, ()), (10, 80, (0, 1)), (80, 120, (2,)), (120, 450, (3, 4, 5, 6, 7, 8))]
    assert [film_.begins(step) for step in range(4)] == [10, None, 80, 120]
    assert [film_.ends(step) for step in range(4)] == [None, None, 120, None]


def test_a_chapter_of_the_teachers_own_ends_the_step_before_it() -> None:
    film_ = made(WHOLE + "chapter: A cup of tea, 4:00\nchapter: Thank you, 7:00\n")
    assert film_.ends(5) == 240 and film_.ends(8) == 420
    assert [chapter.title for chapter in film_.chapters][-4:] == [
        "Glue the door mats", "Glue the band to the left door", "Check the card and slide it into its envelope",
        "Thank you"]


def test_the_times_that_are_written_are_read_as_they_were() -> None:
    times = WHOLE + 'chapter: Tea, biscuits "and" more, 4:00.125\naddress, https://example.org/watch\n'
    first = made(times)
    again = made(first.times)
    assert [(b.step, b.title, b.at) for b in again.recording.begins] == [
        (b.step, b.title, b.at) for b in first.recording.begins]
    assert (int(again.recording.length), again.recording.address) == (450, "https://example.org/watch")
    assert again.times == first.times and told(first.times, kept=True) == []


def test_a_blank_file_holds_every_step_and_asks_for_times() -> None:
    text = blank(tide_gate().recipe)
    assert len(text.splitlines()) == len(STEPS) + 2
    assert told(text) == [("length of the recording missing", 1)]


def test_a_step_that_changed_since_it_was_filmed_is_told() -> None:
    kept = made().times
    changed = kept.replace("Score the doors, ", "Score the doors, 0", 1)
    assert [name for name, _ in told(changed, kept=True)] == ["step changed since it was filmed"]


def test_times_kept_by_number_alone_are_pointed_out_only_where_they_are_kept() -> None:
    times = WHOLE.replace("Cut the base,", "1,")
    assert told(times) == []
    assert told(times, kept=True) == [("steps named by number alone", 1)]


@pytest.mark.parametrize("name", sorted(path.stem for path in RECIPES.glob("*.yaml")))
def test_a_fingerprint_is_the_same_wherever_the_step_stands(name: str) -> None:
    from foldproof.recipe.reader import read_text
    from foldproof.recording.times import fingerprint

    source = (RECIPES / f"{name}.yaml").read_text(encoding="utf-8")
    moved = read_text("\n\n# moved down\n" + source, "elsewhere (copy).yaml").recipe
    assert moved is not None
    steps = card(name).recipe.steps
    assert [fingerprint(step) for step in steps] == [fingerprint(step) for step in moved.steps]
    assert len({fingerprint(step) for step in steps}) == len(steps)
