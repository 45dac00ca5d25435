"""Marks of a ruler near a length: reckoned by hand, and laws.

1 in = 25.4 mm exactly (yard and pound agreement, 1959; NIST SP 811 (2008), appendix B).
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.edition.roundings import FINEST, choices, nearest
from foldproof.measures.quantity import Unit

MM_IN_INCH = Fraction("25.4")
lengths = st.integers(1, 64 * 24).map(lambda n: Fraction(n, 64))
units = st.sampled_from((Unit.MM, Unit.INCH))


@pytest.mark.parametrize(("inches", "millimetres"), [
    pytest.param("11/2", "140", id="5 1/2 in = 139.7 mm"),
    pytest.param("17/8", "54", id="2 1/8 in = 53.975 mm"),
    pytest.param("1/8", "3", id="1/8 in = 3.175 mm, a border"),
    pytest.param("1/16", "3/2", id="1/16 in = 1.5875 mm: a whole millimetre would be a quarter too much"),
    pytest.param("3/8", "10", id="3/8 in = 9.525 mm"),
    pytest.param("0", "0", id="nothing stays nothing"),
])
def test_inches_come_to_marks_of_a_metric_rule(inches: str, millimetres: str) -> None:
    assert nearest(Fraction(inches) * MM_IN_INCH, Unit.MM) == Fraction(millimetres)


@pytest.mark.parametrize(("millimetres", "inches"), [
    pytest.param("210", "33/4", id="210 mm = 8.2677 in"),
    pytest.param("12", "1/2", id="12 mm = 0.4724 in"),
    pytest.param("60", "19/8", id="60 mm = 2.3622 in"),
    pytest.param("5", "3/16", id="5 mm = 0.19685 in"),
])
def test_millimetres_come_to_marks_of_an_inch_rule(millimetres: str, inches: str) -> None:
    assert nearest(Fraction(millimetres) / MM_IN_INCH, Unit.INCH) == Fraction(inches)


def test_a_side_that_must_not_grow_does_not() -> None:
    """4 1/4 in = 107.95 mm: 108 would leave an A2 envelope less than its usual room."""
    found = [one.value for one in choices(Fraction("107.95"), Unit.MM, 8, above=Fraction(0))]
    assert found[:2] == [107, Fraction("107.5")]
    assert all(value <= Fraction("107.95") for value in found)
    assert choices(Fraction("107.95"), Unit.MM, 1)[0].value == 108


@given(length=lengths, unit=units)
def test_choices_are_marks_near_by_in_order_and_never_nothing(length: Fraction, unit: Unit) -> None:
    exact = length * MM_IN_INCH / unit.millimetres
    found = choices(exact, unit, 6)
    assert len(found) == 6 and len({one.value for one in found}) == 6
    assert [one.cost for one in found] == sorted(one.cost for one in found)
    assert all(one.value > 0 and (one.value / FINEST[unit]).denominator == 1 for one in found)
    assert abs(found[0].value - exact) * unit.millimetres <= 2


@given(length=lengths, unit=units)
def test_a_sign_is_kept(length: Fraction, unit: Unit) -> None:
    assert nearest(-length, unit) == -nearest(length, unit)
