"""The numbers of a card.json that somebody else wrote: read as they are, or refused at once."""

import json
from fractions import Fraction

import pytest

from foldproof.documents.changes import comparable
from foldproof.documents.facts_file import FORMAT, card_facts
from foldproof.documents.standing import exact, exactly
from foldproof.documents.telling import hands
from foldproof.folding.card import Card
from foldproof.making.table import Making


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


def test_a_step_of_very_many_instructions_is_not_compared(card: Card, making: Making) -> None:
    told = json.loads(json.dumps(
        {**card_facts(card, making, tuple(hands(card, step) for step in making.steps)), "format": FORMAT}))
    assert comparable(told, told) == ()
    many = json.loads(json.dumps(told))
    many["steps"][0]["actions"] = [{"said": "Fold it."}] * 300
    assert comparable(told, many)
    many["steps"][0]["actions"] = [{"said": "Fold it."}] * 100_000
    assert comparable(told, many) is None
