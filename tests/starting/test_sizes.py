"""Finished sizes by name and by numbers, and the envelope that takes them."""

from fractions import Fraction

import pytest

from foldproof.facts.envelopes import find_envelope
from foldproof.measures.quantity import Unit
from foldproof.starting.sheets import SheetTooSmallError, smallest_sheet
from foldproof.starting.sizes import read_size
from foldproof.starting.trouble import CannotBeError


@pytest.mark.parametrize(("written", "unit", "width", "height", "envelope"), [
    # usual cards: envelope makers' size charts (secondary), as in facts/envelopes
    pytest.param("A2", None, "17/4", "11/2", "A2", id="A2 by name"),
    pytest.param("a7 upright", None, "5", "7", "A7", id="A7 with the way it stands"),
    pytest.param("A2", Unit.MM, "107", "139", "A2", id="107.95 x 139.7 mm, down to whole millimetres"),
    pytest.param("C6", None, "105", "148", "C6", id="C6 in its own unit"),
    pytest.param("C6", Unit.INCH, "33/8", "23/4", "C6", id="105 x 148.5 mm down to eighths of an inch"),
    pytest.param("DL", Unit.MM, "100", "210", "DL", id="DL"),
    pytest.param("square", None, "21/4", "21/4", "5 1/2 in square", id="square"),
    pytest.param("6 in square", None, "23/4", "23/4", "6 in square", id="a square by its envelope"),
    pytest.param("4 1/4 x 5 1/2", None, "17/4", "11/2", "A2", id="numbers"),
    pytest.param("7x5", None, "7", "5", "A7", id="numbers, lying"),
    pytest.param("105 × 148 mm", None, "105", "148", "C6", id="millimetres"),
    pytest.param("105 by 148", None, "105", "148", "C6", id="large numbers are millimetres"),
    pytest.param("10.5 x 14.8 cm", None, "21/2", "74/5", "C6", id="centimetres"),
    pytest.param('4.25" x 5.5"', None, "17/4", "11/2", "A2", id="inch marks"),
    pytest.param("3 x 9 1/2", None, "3", "19/2", None, id="no usual envelope"),
])
def test_sizes_are_read(written: str, unit: Unit | None, width: str, height: str, envelope: str | None) -> None:
    size = read_size(written, unit)
    assert (size.width, size.height, size.envelope) == (Fraction(width), Fraction(height), envelope)


@pytest.mark.parametrize("written", ["A2", "A6", "A7", "C6", "DL", "square"])
@pytest.mark.parametrize("unit", [Unit.INCH, Unit.MM, Unit.CM])
def test_a_named_card_goes_into_its_envelope_with_the_usual_room(written: str, unit: Unit) -> None:
    size = read_size(written, unit)
    envelope = find_envelope(size.envelope or "")
    assert envelope is not None
    room = envelope.clearance_mm((size.width * unit.millimetres, size.height * unit.millimetres))
    assert all(left >= usual for left, usual in zip(room, envelope.usual_clearance_mm, strict=True))
    assert all(left < usual + 4 for left, usual in zip(room, envelope.usual_clearance_mm, strict=True))


@pytest.mark.parametrize(("written", "said"), [
    pytest.param("A22", "A2", id="a name that is nearly one"),
    pytest.param("large", "4 1/4 x 5 1/2", id="no size at all"),
    pytest.param("1 x 5", '"2 x 5 in"', id="too small"),
    pytest.param("4 1/3 x 5", '"4 5/16 x 5 in"', id="on no mark of a ruler"),
    pytest.param("5 x tall", "can't be read", id="half a size"),
])
def test_what_is_no_size_is_said_with_what_would_be(written: str, said: str) -> None:
    with pytest.raises(CannotBeError) as caught:
        read_size(written)
    assert said in str(caught.value)


def test_numbers_in_one_unit_are_not_taken_for_another() -> None:
    with pytest.raises(CannotBeError, match="give the numbers in inch"):
        read_size("105 x 148 mm", Unit.INCH)


def test_the_smallest_sheet_is_taken_either_way_round() -> None:
    """Letter is 8 1/2 x 11 in (ASME Y14.1, secondary); A4 is 210 x 297 mm (ISO 216)."""
    assert smallest_sheet([(Fraction(11), Fraction(17, 2))], Unit.INCH) == (Fraction(17, 2), Fraction(11))
    wide = [(Fraction(5), Fraction(5)), (Fraction(23, 2), Fraction(5))]
    assert smallest_sheet(wide, Unit.INCH) == (Fraction(12), Fraction(12))
    assert smallest_sheet([(Fraction(297), Fraction(210))], Unit.MM) == (Fraction(210), Fraction(297))
    with pytest.raises(SheetTooSmallError, match="297 × 420 mm"):
        smallest_sheet([(Fraction(421), Fraction(10))], Unit.MM)
