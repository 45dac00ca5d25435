"""Numbers in words against a general-purpose library (num2words, LGPL), and a table by hand for the rest."""

from fractions import Fraction

import pytest
from num2words import num2words

from foldproof.measures.quantity import Unit
from foldproof.measures.speaking import speak_length, speak_whole
from foldproof.measures.spotting import spot_numbers


def read(text: str) -> list[Fraction]:
    return [number.value for number in spot_numbers(text)]


@pytest.mark.parametrize("joined", [True, False], ids=["hyphens", "no hyphens, no and"])
def test_whole_numbers_as_the_library_says_them(joined: bool) -> None:
    for number in range(2, 1000):
        words = num2words(number)
        said = words if joined else words.replace("-", " ").replace(" and ", " ")
        assert read(f"{said} millimetres") == [number], said


def test_decimals_as_the_library_says_them() -> None:
    for hundredths in range(101, 3000, 7):
        value = Fraction(hundredths, 100)
        if value.denominator > 1:
            assert read(f"{num2words(float(value))} inches") == [value], num2words(float(value))


def test_what_is_said_for_the_maker_is_what_the_library_says() -> None:
    assert [speak_whole(number) for number in range(100)] == [num2words(number) for number in range(100)]


def test_every_ruler_mark_that_is_said_is_heard_again() -> None:
    for sixteenths in range(1, 16 * 13):
        value = Fraction(sixteenths, 16)
        assert read(f"Score at {speak_length(value, Unit.INCH)}.") == [value]


@pytest.mark.parametrize(("said", "inches"), [
    ("two and an eighth", Fraction(17, 8)), ("two and one eighth inches", Fraction(17, 8)),
    ("two point one two five", Fraction(17, 8)), ("2.125", Fraction(17, 8)), ("2 1/8", Fraction(17, 8)),
    ("2 and 1/8th", Fraction(17, 8)), ("two and a 1/8", Fraction(17, 8)), ("two an eighth", Fraction(17, 8)),
    ("two 1/8", Fraction(17, 8)), ("two inches and an eighth", Fraction(17, 8)), ("2 point 125", Fraction(17, 8)),
    ("two and two sixteenths", Fraction(17, 8)), ("two eighths", Fraction(1, 4)), ("a quarter inch", Fraction(1, 4)),
    ("point two five inches", Fraction(1, 4)), ("two and three eighths of an inch", Fraction(19, 8)),
    ("two five eighths", Fraction(21, 8)),
    ("five point oh five", Fraction(101, 20)), ("five and a half", Fraction(11, 2)),
    ("six three quarters", Fraction(27, 4)), ("half an inch", Fraction(1, 2)), ("an inch and a half", Fraction(3, 2)),
])
def test_lengths_as_they_are_said(said: str, inches: Fraction) -> None:
    assert read(f"Score at {said}, right across.") == [inches]


@pytest.mark.parametrize("said", [
    "Cut two three-quarter inch strips", "at this point two doors are open", "from that point one fold is left",
    "fold it by half",
])
def test_what_only_sounds_like_one(said: str) -> None:
    assert not {Fraction(11, 4), Fraction(1, 5), Fraction(1, 10), Fraction(1, 2)} & set(read(said))
