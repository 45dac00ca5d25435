"""What changed between two revisions of a card, and what that makes stale."""

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from foldproof.documents.changes import Change, Stale, changes, line, since
from foldproof.documents.erratum import erratum
from foldproof.documents.facts_file import FORMAT, card_facts
from foldproof.documents.telling import hands
from foldproof.measures.quantity import Unit
from foldproof.pipeline import prove

GATE = (Path(__file__).parents[2] / "recipes" / "tide-gate.yaml").read_text(encoding="utf-8")
Compare = Callable[[str, str], tuple[Change, ...]]


def facts_of(folder: Path, text: str) -> Mapping[str, Any]:
    recipe = folder / "tide-gate.yaml"
    recipe.write_text(text, encoding="utf-8")
    proof = prove(recipe)
    assert proof.card is not None and proof.making is not None, proof.findings
    card = proof.card
    return card_facts(card, proof.making, tuple(hands(card, step) for step in proof.making.steps))


@pytest.fixture
def changed(tmp_path: Path) -> Compare:
    """Every change between the gate and the gate with other words in it."""
    def compare(old: str, new: str) -> tuple[Change, ...]:
        assert old in GATE
        return changes(facts_of(tmp_path, GATE), facts_of(tmp_path, GATE.replace(old, new)))

    return compare


def test_the_same_card_has_not_changed(changed: Compare) -> None:
    assert changed("title: Tide gate\n", "title:  Tide gate   # a comment\n") == ()


READ = {Stale.HANDOUT, Stale.PAGE}
DONE = READ | {Stale.SHOTS, Stale.FILM}


@pytest.mark.parametrize(
    ("old", "new", "what", "before", "after", "stale", "misleads"),
    [
        pytest.param("band width: 3 1/2", "band width: 3 1/4", "size of the band", "3 1/2 × 1 3/4 in",
                     "3 1/4 × 1 3/4 in", READ | {Stale.TEMPLATE, Stale.CLASS}, True, id="size of a layer"),
        pytest.param("      - score: 2 1/8\n      - turn", "      - score: 2 1/4\n      - turn", "",
                     "Score 2 1/8 in from the stop", "Score 2 1/4 in from the stop", DONE, True, id="action"),
        pytest.param("size: [4 1/4, 5 1/2]\n  envelope", "size: [4 1/4, 5 5/8]\n  envelope", "closed size",
                     "4 1/4 × 5 1/2 in", "4 1/4 × 5 5/8 in", READ, True, id="promised size"),
        pytest.param("envelope: A2", "envelope: A6", "envelope", "A2", "A6", READ | {Stale.CLASS}, True, id="envelope"),
        pytest.param("weight: 70 lb text", "weight: 80 lb text", "weight of the paper waves", "70 lb text",
                     "80 lb text", READ | {Stale.CLASS}, True, id="weight"),
        pytest.param("    say: >\n      I stamp now,", "    say: >\n      We stamp now,", "say",
                     "I stamp now, while everything …", "We stamp now, while everything …",
                     {Stale.SHOTS, Stale.FILM}, False, id="spoken line"),
        pytest.param("run as one picture", "run as one scene", "tip", "… should run as one picture.",
                     "… should run as one scene.", READ, False, id="tip"),
        pytest.param("title: Stamp the greetings\n", "id: stamp-the-greetings\n    title: Stamp both greetings\n",
                     "title", "Stamp the greetings", "Stamp both greetings", READ | {Stale.SHOTS}, False, id="title"),
        pytest.param("minutes: 6", "minutes: 7", "time", "6 min", "7 min", READ | {Stale.CLASS}, False, id="time"),
        pytest.param("amount: a few dots", "amount: many dots", "wet glue", "wet glue, a few dots",
                     "wet glue, many dots", READ | {Stale.CLASS}, True, id="supply"),
    ],
)
def test_a_change_is_told_with_what_it_makes_stale(
    changed: Compare, old: str, new: str, what: str, before: str, after: str, stale: set[Stale], misleads: bool,
) -> None:
    found = [change for change in changed(old, new) if change.what == what]
    assert [(change.before, change.after) for change in found] == [(before, after)]
    assert found[0].stale == stale and found[0].misleads is misleads


def test_a_step_that_is_new_and_one_that_is_gone(changed: Compare, tmp_path: Path) -> None:
    start, end = GATE.index("  - title: Stamp the greetings"), GATE.index("  - title: Glue the inside mat")
    step = GATE[start:end]
    (gone,) = (change for change in changed(step, "") if change.what == "step")
    assert (gone.before, gone.after, gone.step) == ("Stamp the greetings", None, "stamp-the-greetings")
    (new,) = (
        change for change in changes(facts_of(tmp_path, GATE.replace(step, "")), facts_of(tmp_path, GATE))
        if change.what == "step")
    assert (new.before, new.after, Stale.FILM in new.stale) == (None, "Stamp the greetings", True)


def test_who_is_not_misled_needs_no_erratum(changed: Compare) -> None:
    told = changed("run as one picture", "run as one scene")
    assert erratum(told, title="Gate", language="en", unit=Unit.INCH, of="these", dated="") is None


def test_an_erratum_tells_each_place_once(changed: Compare) -> None:
    sheet = erratum(
        changed("score: 2 1/8", "score: 2 1/4"), title="Gate", language="en", unit=Unit.INCH, of="these", dated="")
    assert sheet is not None
    assert [(where, len(found)) for where, found in sheet.places] == [("step 2, Score the doors", 1)]


def test_since_the_last_set(tmp_path: Path) -> None:
    old, new = (
        {"format": FORMAT, **facts_of(tmp_path, text)}
        for text in (GATE, GATE.replace("band width: 3 1/2", "band width: 3 1/4")))
    now = json.dumps(new).encode()
    assert since(tmp_path, now) == (), "nothing was built there"
    (tmp_path / "card.json").write_text("{", encoding="utf-8")
    assert since(tmp_path, now) == (), "no set of ours"
    (tmp_path / "card.json").write_text(json.dumps({**old, "pieces": 5}), encoding="utf-8")
    assert since(tmp_path, now) == (), "a set of another version"
    (tmp_path / "card.json").write_text(json.dumps(old), encoding="utf-8")
    assert [line(change) for change in since(tmp_path, now)][:2] == [
        "measure band width: 3 1/4 in; it was: 3 1/2 in",
        "size of the band: 3 1/4 × 1 3/4 in; it was: 3 1/2 × 1 3/4 in"]


def test_another_unit_changes_everything(tmp_path: Path) -> None:
    old = facts_of(tmp_path, GATE)
    (change,) = changes(old, {**old, "unit": "mm"})
    assert change.what == "unit" and change.stale == frozenset(Stale)
