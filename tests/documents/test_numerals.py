"""The numbers that a reader finds in a text."""

from fractions import Fraction as F

import pytest

from foldproof.documents.numerals import numbers


@pytest.mark.parametrize(("text", "found"), [
    pytest.param("5 1/2", [F(11, 2)], id="mixed"),
    pytest.param("5-1/2 in", [F(11, 2)], id="hyphen"),
    pytest.param("5½", [F(11, 2)], id="glyph"),
    pytest.param("5 ½", [F(11, 2)], id="glyph apart"),
    pytest.param("⅛", [F(1, 8)], id="glyph alone"),
    pytest.param("1½¼ ¼½", [F(3, 2), F(1, 4), F(1, 4), F(1, 2)], id="glyph after glyph"),
    pytest.param("5\u00a01/2", [F(11, 2)], id="space that does not break"),
    pytest.param("5 1\u20442", [F(11, 2)], id="fraction slash"),
    pytest.param("12.10.", [F(121, 10)], id="decimal before a full stop"),
    pytest.param("4 1/4 × 5 1/2", [F(17, 4), F(11, 2)], id="size"),
    pytest.param("9\n1/8", [F(9), F(1, 8)], id="two lines are two numbers"),
    pytest.param("A2, C6, version 1.2.3, x4", [], id="codes"),
    pytest.param("51/2", [F(51, 2)], id="run together: the wrong that the audit must see"),
    pytest.param("1/0", [], id="no number"),
])
def test_numbers(text: str, found: list[F]) -> None:
    assert list(numbers(text)) == found
