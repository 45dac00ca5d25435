"""Every word of direction in the demo recipes, labelled by hand: most are decided, none falsely, idioms never.

direction_labels.tsv gives for each its recipe, step, passage, the phrase, which of its kind it is there, whether it is
a direction, part of a name or no direction, and what it means.
"""

import csv
import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from foldproof.checks.directions.check import Read, read_directions
from foldproof.pipeline import prove

RECIPES = Path(__file__).resolve().parents[2] / "recipes"
LABELS = Path(__file__).with_name("direction_labels.tsv")
Key = tuple[str, int, str, str, int]


def _labels() -> dict[Key, tuple[str, str]]:
    lines = [line for line in LABELS.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    rows = csv.reader(lines, delimiter="\t", quoting=csv.QUOTE_NONE)
    return {(row[0], int(row[1]), row[2], row[3].casefold(), int(row[4])): (row[5], "".join(row[6:])) for row in rows}


LABELLED = _labels()
NAMES = sorted({key[0] for key in LABELLED})


@cache
def _read(name: str) -> dict[Key, Read]:
    proof = prove(RECIPES / f"{name}.yaml")
    assert proof.card is not None and proof.making is not None
    numbers = {made.spec.id: made.number for made in proof.making.steps}
    found = {}
    for read in read_directions(proof.card, proof.making):
        spec = proof.making.steps[numbers[read.step] - 1].spec
        text = {"title": spec.title, "text": spec.text, "say": spec.say, "tip": spec.tip, "caution": spec.caution}
        value = str(text[read.passage])
        words = " ".join(read.phrase.written.split())
        pattern = r"\b" + r"\s+".join(map(re.escape, words.split())) + r"\b"
        nth = len(re.findall(pattern, value[: read.phrase.start], re.IGNORECASE)) + 1
        found[(name, numbers[read.step], read.passage, words.casefold(), nth)] = read
    return found


@pytest.mark.parametrize("name", NAMES)
def test_no_sound_recipe_has_a_direction_called_wrong(name: str) -> None:
    wrong = [key for key, read in _read(name).items() if read.verdict is not None and not read.verdict.true]
    assert wrong == []


@pytest.mark.parametrize("name", NAMES)
def test_every_phrase_that_is_read_is_labelled_and_no_idiom_is_decided(name: str) -> None:
    for key, read in _read(name).items():
        assert key in LABELLED, f"label {key} in {LABELS.name}"
        if LABELLED[key][0] == "not a direction":
            assert read.verdict is None, key


def test_at_least_four_fifths_are_decided() -> None:
    count: Counter[bool] = Counter()
    for key, (label, meaning) in LABELLED.items():
        if label == "direction":
            assert meaning, key
            read = _read(key[0]).get(key)
            count[read is not None and read.verdict is not None] += 1
    assert sum(count.values()) > 400
    assert count[True] >= 0.8 * sum(count.values()), count
