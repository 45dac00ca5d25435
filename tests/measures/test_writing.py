from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.measures.quantity import Unit
from foldproof.measures.speaking import speak_length, speak_whole
from foldproof.measures.writing import (
    Pieces,
    in_inches,
    in_metric,
    pieces,
    size_in_metric,
    with_unit,
    write_length,
    write_number,
    write_size,
)


@pytest.mark.parametrize(
    ("value", "unit", "written"),
    [
        ("11/2", Unit.INCH, "5 1/2"),
        ("5", Unit.INCH, "5"),
        ("0", Unit.INCH, "0"),
        ("3/16", Unit.INCH, "3/16"),
        ("63/64", Unit.INCH, "63/64"),
        ("-17/8", Unit.INCH, "-2 1/8"),
        ("-1/8", Unit.INCH, "-1/8"),
        ("11/3", Unit.INCH, "about 3.6667"),
        ("1/128", Unit.INCH, "about 0.0078"),
        ("1/5", Unit.INCH, "0.2"),
        ("700/127", Unit.INCH, "about 5.5118"),
        ("0.011", Unit.INCH, "0.011"),
        ("139.7", Unit.MM, "139.7"),
        ("140", Unit.MM, "140"),
        ("0.396875", Unit.MM, "0.396875"),
        ("297/4", Unit.MM, "74.25"),
        ("100/3", Unit.MM, "about 33.3333"),
        ("-1/2", Unit.MM, "-0.5"),
        ("13.97", Unit.CM, "13.97"),
    ],
)
def test_lengths(value: str, unit: Unit, written: str) -> None:
    assert write_length(Fraction(value), unit) == written


@pytest.mark.parametrize(("unit", "written"), [(Unit.INCH, "5 1/2 in"), (Unit.MM, "5.5 mm"), (Unit.CM, "5.5 cm")])
def test_units(unit: Unit, written: str) -> None:
    assert with_unit(Fraction(11, 2), unit) == written


def test_sizes_have_a_true_multiplication_sign() -> None:
    size = (Fraction(17, 4), Fraction(11, 2))
    assert write_size(size, Unit.INCH) == "4 1/4 × 5 1/2 in"
    assert size_in_metric(size, Unit.INCH) == "108.0 × 139.7 mm"
    assert size_in_metric((Fraction(105), Fraction(297, 2)), Unit.MM) == "105 × 148.5 mm"


@pytest.mark.parametrize(
    ("value", "unit", "written"),
    [
        ("11/2", Unit.INCH, "139.7 mm"),
        ("5", Unit.INCH, "127 mm"),
        ("3/4", Unit.INCH, "19.0 mm"),  # 19.05, half to even (NIST SP 811, B.7.1)
        ("1/4", Unit.INCH, "6.4 mm"),
        ("17/4", Unit.INCH, "108.0 mm"),
        ("14", Unit.CM, "140 mm"),
        ("-1/8", Unit.INCH, "-3.2 mm"),
    ],
)
def test_metric(value: str, unit: Unit, written: str) -> None:
    assert in_metric(Fraction(value), unit) == written


@pytest.mark.parametrize(
    ("value", "unit", "parts", "written"),
    [
        ("127", Unit.MM, 32, "5 in"),
        ("105", Unit.MM, 32, "about 4 1/8 in"),
        ("105", Unit.MM, 16, "about 4 1/8 in"),
        ("140", Unit.MM, 32, "about 5 1/2 in"),
        ("139.7", Unit.MM, 32, "5 1/2 in"),
        ("1/32", Unit.INCH, 32, "1/32 in"),
        ("5.3", Unit.CM, 32, "about 2 3/32 in"),
        ("5.3", Unit.CM, 16, "about 2 1/16 in"),
    ],
)
def test_inches(value: str, unit: Unit, parts: int, written: str) -> None:
    assert in_inches(Fraction(value), unit, parts) == written


@pytest.mark.parametrize(
    ("value", "parts"),
    [
        ("11/2", Pieces(negative=False, whole="5", numerator="1", denominator="2")),
        ("3/16", Pieces(negative=False, whole="", numerator="3", denominator="16")),
        ("5", Pieces(negative=False, whole="5", numerator="", denominator="")),
        ("0", Pieces(negative=False, whole="0", numerator="", denominator="")),
        ("-17/8", Pieces(negative=True, whole="2", numerator="1", denominator="8")),
        ("1/3", None),
        ("1/128", None),
    ],
)
def test_pieces_of_a_true_fraction(value: str, parts: Pieces | None) -> None:
    assert pieces(Fraction(value)) == parts


def test_numbers() -> None:
    assert [write_number(Fraction(n)) for n in ("7/2", "0.3", "1/3")] == ["3 1/2", "0.3", "about 0.3333"]


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        ("11/2", Unit.INCH, "five and a half inches"),
        ("17/8", Unit.INCH, "two and an eighth inches"),
        ("1/2", Unit.INCH, "half an inch"),
        ("1/4", Unit.INCH, "a quarter of an inch"),
        ("1/8", Unit.INCH, "an eighth of an inch"),
        ("3/16", Unit.INCH, "three sixteenths of an inch"),
        ("1", Unit.INCH, "one inch"),
        ("12", Unit.INCH, "twelve inches"),
        ("21", Unit.INCH, "twenty-one inches"),
        ("3/2", Unit.INCH, "one and a half inches"),
        ("5/32", Unit.INCH, "five thirty-seconds of an inch"),
        ("1/64", Unit.INCH, "a sixty-fourth of an inch"),
        ("-1/8", Unit.INCH, "minus an eighth of an inch"),
        ("11/3", Unit.INCH, "about 3.6667 inches"),
        ("97", Unit.MM, "97 millimetres"),
        ("1", Unit.MM, "1 millimetre"),
        ("14.5", Unit.CM, "14.5 centimetres"),
    ],
)
def test_lengths_said_aloud(value: str, unit: Unit, said: str) -> None:
    assert speak_length(Fraction(value), unit) == said


def test_whole_numbers_said_aloud() -> None:
    assert [speak_whole(n) for n in (0, 13, 20, 45, 99, 100)] == [
        "zero",
        "thirteen",
        "twenty",
        "forty-five",
        "ninety-nine",
        "100",
    ]


@given(sixteenths=st.integers(0, 1000))
def test_a_tenth_of_a_millimetre_leads_back_to_the_same_sixteenth(sixteenths: int) -> None:
    shown = Fraction(in_metric(Fraction(sixteenths, 16), Unit.INCH).removesuffix(" mm"))
    assert round(shown / Fraction("25.4") * 16) == sixteenths


def test_seven_places_are_too_many_and_inches_go_to_the_nearest_thirty_second() -> None:
    assert write_length(Fraction(1, 128), Unit.MM) == "about 0.0078"
    assert write_length(Fraction(1, 64), Unit.MM) == "0.015625"
    assert in_inches(Fraction("5.3"), Unit.CM) == "about 2 3/32 in"
