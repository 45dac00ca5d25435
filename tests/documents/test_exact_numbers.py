"""The numbers of a card.json that somebody else wrote: read as they are, or refused at once."""

from fractions import Fraction

import pytest

from foldproof.documents.standing import exact, exactly


@pytest.mark.parametrize(("written", "number"), [
    ("17/8", Fraction(17, 8)), ("-3", Fraction(-3)), ("0", Fraction(0)), ("9" * 200, Fraction("9" * 200)),
])
def test_a_number(written: str, number: Fraction) -> None:
    assert exactly(written) == exact({"exact": written}) == number


@pytest.mark.parametrize("written", [
    "1e999999999", "1E9", "1/0", "1/1e9", "0.5", "", " 1", "1_0", "9" * 201, "1/" + "9" * 201, "nan", "inf", None, [],
    "\u0663",
])
def test_no_number(written: object) -> None:
    with pytest.raises(ValueError, match="is no number of a card"):
        exactly(written)
    assert exact({"exact": written}) is None
