"""card.json holds the facts of the small card, reckoned by hand."""

import json
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

import pytest

from foldproof.documents.facts_file import FORMAT, facts_file
from foldproof.documents.view import View
from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.folding.card import Card
from foldproof.making.table import Making


@pytest.fixture(scope="module")
def told(files: Mapping[str, bytes]) -> dict[str, Any]:
    return dict(json.loads(files["card.json"]))


def numbers(value: Any) -> Iterator[dict[str, Any]]:
    """Every number in the file, at any depth."""
    if isinstance(value, dict):
        if set(value) == {"exact", "decimal"}:
            yield value
        for inner in value.values():
            yield from numbers(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from numbers(inner)


def test_it_says_what_it_is(told: dict[str, Any], files: Mapping[str, bytes]) -> None:
    assert (told["format"], told["version"], told["unit"], told["recipe"]) == (FORMAT, 1, "inch", "quiet.yaml")
    assert told["dated"] == "2026-03-01"
    assert set(told["files"]) == set(files) - {"card.json"}
    assert told["revision"] in files["page.html"].decode()


def test_exact_and_decimal_agree_everywhere(told: dict[str, Any]) -> None:
    found = list(numbers(told))
    assert len(found) > 30
    for number in found:
        exact, decimal = number["exact"], number["decimal"]
        pairs = zip(exact, decimal, strict=True) if isinstance(exact, list) else [(exact, decimal)]
        for fraction, shown in pairs:
            assert shown == pytest.approx(float(Fraction(fraction)), abs=5e-7)


def test_the_plan(told: dict[str, Any]) -> None:
    assert told["measures"] == {"border": {"exact": "1/8", "decimal": 0.125}}
    base = told["pieces"]["base"]
    assert [point["exact"] for point in base["outline"]] == [["0", "0"], ["17/2", "0"], ["17/2", "11/2"], ["0", "11/2"]]
    assert base["scores"]["spine"]["from"]["exact"] == ["17/4", "0"]
    assert base["scores"]["spine"]["fold"] == "mountain"
    assert set(base["panels"]) == {"rear", "cover"}
    assert told["pieces"]["mat"]["layer"] is True
    assert told["joins"]["mat"]["under"] == {"panel": "cover", "face": "front"}


def test_poses(told: dict[str, Any], card: Card) -> None:
    closed = told["poses"]["closed"]
    assert closed["flat"] is True
    assert (closed["size"]["width"]["exact"], closed["size"]["height"]["exact"]) == ("17/4", "11/2")
    assert ["cover", "rear"] in closed["over"]
    assert card.closed is not None
    assert len(closed["over"]) == len(card.closed.over)
    assert closed["thickness"] == {"exact": "27/1000", "decimal": 0.027}, "0.011 + 0.011 + 0.005 in"
    assert told["poses"]["open"]["size"]["width"]["exact"] == "17/2"


def test_steps_agree_with_the_documents(told: dict[str, Any], view: View) -> None:
    assert [(step["number"], step["id"]) for step in told["steps"]] == [(1, "base"), (2, "mat")]
    for step, shown in zip(told["steps"], view.steps, strict=True):
        assert tuple(action["said"] for action in step["actions"]) == shown.short
    score = told["steps"][0]["actions"][2]
    assert (score["does"], score["at"], score["piece"]) == ("score at", {"exact": "17/4", "decimal": 4.25}, "base")
    assert told["steps"][1]["actions"][1]["at"] == {"border": {"exact": "1/8", "decimal": 0.125}, "turned": "none"}
    assert told["steps"][0]["minutes"]["exact"] == "3"


def test_no_path_of_the_machine_goes_out(card: Card, making: Making, view: View) -> None:
    place = Place(file="/home/somebody/recipes/quiet.yaml", line=1, column=2)
    finding = Finding(
        name="a fault", severity=Severity.WARNING, message="m", place=place, asides=(Aside(text="see", place=place),))
    text = facts_file(card, making, (finding,), view, ["page.html"])
    assert "somebody" not in text
    assert json.loads(text)["findings"], "the finding is there"
    assert text.count('"quiet.yaml"') >= 2
