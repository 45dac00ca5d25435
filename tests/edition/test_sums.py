"""Sums worked out anew: what is made of rounded parts is the rounded whole, by the author's own arithmetic."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from foldproof.edition.sums import literals, measures_at, worked
from foldproof.findings.finding import Finding, Place
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.reading import read_quantity

PLACE = Place(file="a.yaml", line=1, column=1)
marks = st.integers(1, 600).map(lambda n: Fraction(n, 2))


def length(text: str, names: dict[str, Quantity]) -> Quantity:
    found = read_quantity(text, place=PLACE, kind=Kind.LENGTH, unit=Unit.MM, names=names)
    assert not isinstance(found, Finding)
    return found


WIDTH = length("107.95", {})
BORDER = length("3.175", {"width": WIDTH})
NAMES = {"width": WIDTH, "border": BORDER}
DOOR = length("width / 2", NAMES)


@given(width=marks, border=marks, eighth=marks)
def test_parts_make_the_whole(width: Fraction, border: Fraction, eighth: Fraction) -> None:
    chosen = {Fraction("3.175"): eighth}
    names = measures_at({**NAMES, "door": DOOR}, {"width": width, "border": border}, chosen, Unit.MM)
    assert names["door"].value * 2 == width
    mat = worked(length("door - 2 * border - 1/8 in", {**NAMES, "door": DOOR}), names, chosen, Unit.MM)
    assert mat.value + 2 * border + eighth == names["door"].value


@given(mark=marks)
def test_a_plain_length_keeps_its_sign(mark: Fraction) -> None:
    chosen = {Fraction(5): mark}
    assert worked(length("-5", {}), {}, chosen, Unit.MM).value == -mark
    assert worked(length("5", {}), {}, chosen, Unit.MM).value == mark


def test_plain_lengths_of_a_sum() -> None:
    assert literals(length("width - 1/8 in", NAMES), NAMES, Unit.MM) == (Fraction("3.175"),)
    assert literals(length("2 * width - border", NAMES), NAMES, Unit.MM) == ()
    assert literals(length("0", {}), {}, Unit.MM) == ()
