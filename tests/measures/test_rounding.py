from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.measures.rounding import (
    convert_by_error,
    convert_by_first_digit,
    decimal,
    exponent,
    half_even,
    limits_inward,
    significant_digits,
    to_digits,
)

FOOT, INCH_CM, INCH = Fraction("0.3048"), Fraction("2.54"), Fraction("25.4")


@pytest.mark.parametrize("rule", [convert_by_error, convert_by_first_digit], ids=["by error", "by first digit"])
@pytest.mark.parametrize(
    ("written", "factor", "converted"),
    [
        # NIST SP 811 (2008), B.7.2: 36 ft is 11.0 m, neither 11 m nor 10.9728 m.
        pytest.param("36", FOOT, "11.0", id="36 ft"),
        # NIST LC 1137: 36 in is 91 cm, 40.1 in is 101.9 cm.
        pytest.param("36", INCH_CM, "91", id="36 in"),
        pytest.param("40.1", INCH_CM, "101.9", id="40.1 in"),
    ],
)
def test_published_conversions(rule: object, written: str, factor: Fraction, converted: str) -> None:
    assert callable(rule)
    assert rule(written, factor) == converted


@pytest.mark.parametrize(
    ("value", "digits", "written"),
    [
        # NIST SP 811, B.7.1 (examples from memory): the same but for the tie.
        ("6.9749515", 7, "6.974952"),
        ("6.9749505", 7, "6.974950"),
        ("9.96", 2, "10"),
        ("0.0996", 2, "0.10"),
        ("12345", 2, "12000"),
        ("0", 3, "0.00"),
        ("-9.96", 2, "-10"),
    ],
)
def test_significant_digits(value: str, digits: int, written: str) -> None:
    assert to_digits(Fraction(value), digits) == written


@pytest.mark.parametrize(
    ("inches", "places", "millimetres"),
    [
        # Ties among sixteenths (reckoned): half to even, as SP 811 has it.
        ("3/4", 1, "19.0"),
        ("7/8", 2, "22.22"),
        ("1/4", 1, "6.4"),
        ("1/8", 2, "3.18"),
        ("1/16", 3, "1.588"),
    ],
)
def test_ties_among_sixteenths(inches: str, places: int, millimetres: str) -> None:
    assert decimal(half_even(Fraction(inches) * INCH, places), places) == millimetres


@pytest.mark.parametrize(
    ("low", "high", "places", "inward"),
    [
        # After ANSI/IEEE 268 and Y14.5M-1994: 11 +-0.3 mm in inches; plain rounding would open it to 0.421 / 0.445.
        pytest.param(Fraction("10.7") / INCH, Fraction("11.3") / INCH, 3, ("0.422", "0.444"), id="11 +-0.3 mm"),
        # In the form of ASTM E380, method B: 1.950 +-0.016 in.
        pytest.param(Fraction("1.934") * INCH, Fraction("1.966") * INCH, 2, ("49.13", "49.93"), id="1.950 +-0.016 in"),
        pytest.param(Fraction("-1.15"), Fraction("-1.05"), 1, ("-1.1", "-1.1"), id="below nought"),
    ],
)
def test_limits_are_never_passed(low: Fraction, high: Fraction, places: int, inward: tuple[str, str]) -> None:
    assert limits_inward(low, high, places) == (Fraction(inward[0]), Fraction(inward[1]))


@pytest.mark.parametrize(("written", "digits"), [("36", 2), ("40.1", 3), ("0.050", 2), ("100", 3), ("0", 1)])
def test_counting_digits(written: str, digits: int) -> None:
    assert significant_digits(written) == digits


def test_a_decimal_that_does_not_end_is_our_mistake() -> None:
    with pytest.raises(ValueError, match="more than 2 decimal places"):
        decimal(Fraction(1, 3), 2)


@given(value=st.fractions(-1000, 1000), places=st.integers(0, 5))
def test_rounding_is_within_half_a_unit(value: Fraction, places: int) -> None:
    rounded = half_even(value, places)
    assert abs(rounded - value) <= Fraction(1, 2 * 10**places)
    assert Fraction(decimal(rounded, places)) == rounded


@given(tenths=st.integers(1, 9999), factor=st.fractions(Fraction(1, 100), 100))
def test_conversion_is_never_relatively_coarser(tenths: int, factor: Fraction) -> None:
    written = decimal(Fraction(tenths, 10), 1)
    shown = Fraction(convert_by_error(written, factor))
    exact = Fraction(written) * factor
    # half a step of the original over its value, with room for the value that was shown instead of the exact one
    assert abs(shown - exact) / shown <= Fraction(1, 20) / Fraction(written)


@pytest.mark.parametrize(
    ("value", "power"),
    [("0", 0), ("1", 0), ("9.99", 0), ("10", 1), ("999", 2), ("0.1", -1), ("0.099", -2), ("0.00105", -3), ("-36", 1)],
)
def test_the_power_of_ten_of_the_first_digit(value: str, power: int) -> None:
    assert exponent(Fraction(value)) == power


@pytest.mark.parametrize(
    ("written", "factor", "converted"),
    [
        # Half a unit over the value, reckoned by hand: 50 %, 50 %, 5 %, 1.351 % against 1.389 % with two digits.
        ("1", "2.54", "3"),
        ("1", "1", "1"),
        ("1.0", "1", "1.0"),
        ("37", "36/3700", "0.360"),
        ("0", "2.54", "0"),
    ],
)
def test_no_more_digits_than_the_precision_asks(written: str, factor: str, converted: str) -> None:
    assert convert_by_error(written, Fraction(factor)) == converted


@pytest.mark.parametrize(
    ("written", "factor", "converted"),
    [
        pytest.param("2", "1.1", "2", id="the same first digit keeps the count"),
        pytest.param("90", "89/900", "8.90", id="a lower first digit takes one more"),
        pytest.param("0", "2.54", "0", id="nought"),
    ],
)
def test_the_first_digit_decides(written: str, factor: str, converted: str) -> None:
    assert convert_by_first_digit(written, Fraction(factor)) == converted
