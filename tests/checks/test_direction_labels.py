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
    assert sum(count.values()) > 600
    assert count[True] >= 0.8 * sum(count.values()), count


SWAPS = (
    ("boat-house", "press the left tab down", "press the right tab down", "right"),
    ("boat-house", "fold of the right tab lies", "fold of the left tab lies", "left"),
    ("boat-house", "60 mm to the\n      right of the spine", "60 mm to the\n      left of the spine", "left"),
    ("boat-house", "narrow tab at the left end", "narrow tab at the right end", "right"),
    ("boat-house", "the cover is away from you", "the cover is toward you", "toward you"),
    ("boat-house", "On the back, score at 12", "On the front, score at 12", "front"),
    ("boat-house", "Front up, fold", "Back up, fold", "Back"),
    ("quay-stairs", "Set the left edge at 3 1/8", "Set the right edge at 3 1/8", "right"),
    ("quay-stairs", "The back is up", "The front is up", "front"),
    ("quay-stairs", "so that its front is up", "so that its front is down", "down"),
    ("quay-stairs", "to the near edge", "to the far edge", "far"),
    ("quay-stairs", "Tape the sky across the top", "Tape the sky across the bottom", "bottom"),
    ("signal-hut", "with its front up", "with its back up", "back"),
    ("signal-hut", "Its left edge is 46", "Its right edge is 46", "right"),
    ("signal-hut", "the window is at the right", "the window is at the left", "left"),
    ("signal-hut", "The back of the hut is still up", "The front of the hut is still up", "front"),
    ("signal-hut", "Tape the lamp on the back", "Tape the lamp on the front", "front"),
    ("signal-hut", "Score on the front", "Score on the back", "back"),
)


@pytest.mark.parametrize(("name", "old", "new", "word"), SWAPS, ids=[f"{swap[0]}: {swap[2]}" for swap in SWAPS])
def test_a_swapped_word_is_told(name: str, old: str, new: str, word: str, tmp_path: Path) -> None:
    text = (RECIPES / f"{name}.yaml").read_text(encoding="utf-8")
    assert old in text
    recipe = tmp_path / f"{name}.yaml"
    recipe.write_text(text.replace(old, new, 1), encoding="utf-8")
    proof = prove(recipe)
    assert proof.card is not None and proof.making is not None
    reads = read_directions(proof.card, proof.making)
    wrong = [read.phrase.written for read in reads if read.verdict is not None and not read.verdict.true]
    assert word in wrong
