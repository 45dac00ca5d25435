"""Captions against the published limits: BBC Subtitle Guidelines, sections 3.1, 3.3, 3.4, 4, 4.5."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_film import RECIPES, WHOLE, card, made, told

from foldproof.documents.spoken import spoken_lines
from foldproof.recording.captions import cut_lines, lay_out

WORDS = st.lists(st.sampled_from(
    ["score", "at", "two", "and", "an", "eighth,", "the", "fence.", "half", "round;", "8 1/2 x 11 in", "a" * 50]
), min_size=1, max_size=60).map(" ".join)
SECOND = Fraction(1)


@given(WORDS)
def test_lines_are_short_and_no_word_is_lost(text: str) -> None:
    captions = cut_lines(text)
    assert all(len(line) <= 37 for caption in captions for line in caption)  # 3.1, the stricter figure
    assert all(1 <= len(caption) <= 2 for caption in captions)  # 3.3
    assert "".join("".join(caption) for caption in captions).replace(" ", "") == text.replace(" ", "")


@given(WORDS, st.fractions(0, 100, max_denominator=25), st.fractions(1, 120, max_denominator=25))
def test_captions_can_be_read_in_their_time(text: str, start: Fraction, room: Fraction) -> None:
    captions = lay_out([text], start, start + room)
    if captions is None:
        least = sum(max(SECOND, Fraction(sum(len(line.split()) for line in cut), 3)) for cut in cut_lines(text))
        assert least > room
        return
    assert captions[0].start == round(start, 3)
    assert captions[-1].end <= start + room + Fraction(1, 1000)
    for caption in captions:
        words = sum(len(line.split()) for line in caption.lines)
        lasts = caption.end - caption.start
        assert words * 60 <= 180 * (lasts + Fraction(1, 1000))  # 4: at most 180 words a minute
        assert Fraction(999, 1000) <= lasts <= max(7 * SECOND, Fraction(words, 3)) + Fraction(1, 1000)
    for first, second in pairwise(captions):
        gap = second.start - first.end
        assert gap == 0 or gap >= 1  # 4.5


@pytest.mark.parametrize("name", sorted(path.stem for path in RECIPES.glob("*.yaml")))
def test_every_spoken_line_of_the_demo_cards(name: str) -> None:
    for lines in spoken_lines(card(name).recipe):
        for line in lines:
            ends = [" ".join(cut).split()[-1].strip(".,;:").casefold() for cut in cut_lines(line)]
            assert not {"a", "an", "the", "of"} & set(ends[:-1]), line  # 3.4
            assert max(len(part) for cut in cut_lines(line) for part in cut) <= 37


@pytest.mark.parametrize(("text", "lines"), [
    pytest.param("Seven by five.", [("Seven by five.",)], id="short"),
    pytest.param("Score at 2 1/8 in, right across. Turn the card half round.",
                 [("Score at 2 1/8 in, right across.", "Turn the card half round.")], id="at a sentence"),
    pytest.param("The first score is at seven and a half inches, near the right-hand end.",
                 [("The first score", "is at seven and a half inches,"), ("near the right-hand end.",)],
                 id="a measure is whole"),
])
def test_where_lines_break(text: str, lines: list[tuple[str, ...]]) -> None:
    assert list(cut_lines(text)) == lines


def test_a_draft_stays_inside_its_step() -> None:
    film = made()
    ends = {step: (film.begins(step), film.ends(step)) for step in range(9)}
    for caption in film.captions:
        assert any(start is not None and end is not None and start <= caption.start and caption.end <= end
                   for start, end in ends.values())
    assert film.draft and film.uncaptioned == ()


def test_a_line_too_long_for_its_step_gets_none_and_is_told() -> None:
    times = WHOLE.replace("Fold the doors, 1:20", "Fold the doors, 0:44")
    assert told(times) == [("chapters that may not show", 1), ("line too long for its step", 2)]
    film = made(times)
    assert film.uncaptioned == (1,)
    assert not any(40 <= caption.start < 44 for caption in film.captions)


def test_steps_without_a_known_end_get_none_and_are_told() -> None:
    times = "Cut the base, 0:10\nScore the doors, 0:40\nlength, 7:30\n"
    assert told(times) == [("steps without captions", 2)]
    assert {caption.start < 40 for caption in made(times).captions} == {True}
