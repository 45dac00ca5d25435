"""Lines as they are said. Expected words by hand, as an English speaker reads a ruler aloud."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.filming.lines import count_words, plain, speak_number, speaking_seconds, spoken
from foldproof.measures.quantity import Unit
from foldproof.measures.spotting import spot_numbers
from foldproof.measures.writing import write_number


@pytest.mark.parametrize(("written", "said"), [
    pytest.param("Score at 5 1/2 in.", "Score at five and a half inches.", id="mixed number"),
    pytest.param("Score at 5-1/2 in.", "Score at five and a half inches.", id="hyphen"),
    pytest.param("Score at 5½ in.", "Score at five and a half inches.", id="one glyph"),
    pytest.param("A border of 3/16 in", "A border of three sixteenths of an inch", id="fraction alone"),
    pytest.param("Cut 1/2 in off", "Cut half an inch off", id="half an inch"),
    pytest.param("Leave 1/8 all round", "Leave an eighth all round", id="no unit"),
    pytest.param("Leave 1 in", "Leave one inch", id="one inch"),
    pytest.param("8 1/2 x 5 1/2 in", "Eight and a half by five and a half inches", id="size, capital first"),
    pytest.param("at 2 1/8 and 6 3/8 in", "at two and an eighth and six and three eighths inches", id="shared unit"),
    pytest.param("cut 8x11 in", "cut eight by eleven inches", id="size without spaces"),
    pytest.param("Wait 5 min.", "Wait five minutes.", id="minutes"),
    pytest.param("Wait 1 min.", "Wait one minute.", id="one minute"),
    pytest.param("Cut 2 pieces", "Cut two pieces", id="count"),
    pytest.param("Turn 90 degrees", "Turn ninety degrees", id="angle"),
    pytest.param("an A2 envelope", "an A2 envelope", id="a name stays"),
    pytest.param("costs $5", "costs $5", id="a price stays"),
    pytest.param("five and a half inches", "five and a half inches", id="words stay"),
    pytest.param("Lay it *down*, see [here](https://x.example/1)", "Lay it down, see here", id="markdown"),
])
def test_inches_are_said_as_people_say_them(written: str, said: str) -> None:
    assert spoken(written, Unit.INCH) == said


@pytest.mark.parametrize(("written", "said"), [
    pytest.param("Score at 97 mm", "Score at ninety-seven millimetres", id="two figures"),
    pytest.param("297 x 210 mm", "Two hundred and ninety-seven by two hundred and ten millimetres", id="size"),
    pytest.param("Score at 97.5 mm", "Score at ninety-seven point five millimetres", id="decimal"),
    pytest.param("Leave 1 mm", "Leave one millimetre", id="one"),
    pytest.param("cut 13.97 cm", "cut thirteen point nine seven centimetres", id="centimetres"),
])
def test_metric_is_said_as_people_say_it(written: str, said: str) -> None:
    assert spoken(written, Unit.MM) == said


def test_an_inch_edition_says_meters() -> None:
    assert spoken("13.97 cm", Unit.INCH) == "Thirteen point nine seven centimeters"


@given(st.integers(0, 99), st.sampled_from((1, 2, 4, 8, 16, 32, 64)), st.data())
def test_what_is_said_is_the_number_again(whole: int, parts: int, data: st.DataObject) -> None:
    """Said aloud and read again by the reader of prose, a ruler's length stays what it was."""
    value = whole + F(data.draw(st.integers(0, parts - 1)), parts)
    if value == 0:
        return
    said = spoken(f"Score at {write_number(value)} in.", Unit.INCH)
    assert [n.amount(Unit.INCH) for n in spot_numbers(said)] == [value]
    assert not any(char.isdigit() for char in said)


@given(st.integers(2, 999))
def test_whole_millimetres_are_read_again(value: int) -> None:
    assert [n.value for n in spot_numbers(spoken(f"Score at {value} mm", Unit.MM))] == [value]


def test_speaking_time_is_words_over_words_a_minute() -> None:
    assert speaking_seconds(" ".join(["word"] * 300), F(150)) == 120  # facts: 300 words at 150 a minute are 120 s
    assert count_words("ninety-seven millimetres, don't!") == 4


def test_plain_keeps_figures() -> None:
    assert plain("- **Cut** 8 1/2 in\n- fold_it") == "Cut 8 1/2 in fold_it"


def test_large_numbers_stay_figures() -> None:
    assert speak_number(F(1500)) == "1500"
