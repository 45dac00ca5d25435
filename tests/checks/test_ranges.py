"""Bare numbers that mark out a stretch are lengths: `from 34 to 68`."""

import pytest

from foldproof.checks.mentions import mentions_in
from foldproof.findings.finding import Place
from foldproof.measures.quantity import Kind, Unit
from foldproof.recipe.text import Text


@pytest.mark.parametrize(("said", "lengths"), [
    pytest.param("Then again from 74 to 146.", [74, 146], id="a stretch"),
    pytest.param("Score the strip at 74, from 34 to 68.", [74, 34, 68], id="after a score"),
    pytest.param("It comes from 3 to 4 people.", [], id="people are counted"),
    pytest.param("Go on to 3 and then to 5.", [], id="no beginning"),
    pytest.param("Wait from 10 to 12 minutes.", [], id="a time"),
])
def test_a_stretch_in_bare_numbers(said: str, lengths: list[int]) -> None:
    text = Text(value=said, place=Place(file="x", line=1, column=1, length=len(said)))
    found = mentions_in(text, "say", Unit.MM)
    assert [mention.value for mention in found if mention.kind is Kind.LENGTH] == lengths
