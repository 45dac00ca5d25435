"""Laws: no text of any kind raises, every finding can be shown, and the same text is read the same way."""

import random
from string import printable

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from small_recipe import SOUND

from foldproof.findings.finding import Severity
from foldproof.recipe import composing
from foldproof.recipe.keys import ALL_KEYS, forms
from foldproof.recipe.kinds import Mapped, OneOf
from foldproof.recipe.reader import Reading, read_text

LAW = settings(deadline=None, max_examples=60)
"""The machine may be busy; a slow reading is not a wrong one."""
WORDS = sorted(
    ALL_KEYS | {word for form in forms() for key in form.keys if isinstance(key.kind, OneOf) for word in key.kind.words}
)
SCALARS = st.one_of(
    st.sampled_from(
        [*WORDS, "base", "left hinge", "base front", "left of left hinge", "4 1/4", "width / 2", "", "found"]
    ),
    st.text(max_size=12),
    st.integers(-5, 5),
    st.none(),
    st.booleans(),
)
KEYS = st.one_of(st.sampled_from(WORDS), st.sampled_from(["base", "left hinge", "closed"]), st.text(max_size=6))
STRUCTURES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(KEYS, inner, max_size=6)),
    max_leaves=25,
)
EXAMPLES = {key.name: key.example for form in forms() for key in form.keys}
WHOLE_VALUES = [key for form in forms() for key in form.keys if isinstance(key.kind, Mapped)]


def check(text: str) -> Reading:
    reading = read_text(text, "any.yaml")
    lines = reading.source.split("\n")
    for finding in reading.findings:
        assert (finding.message and finding.message[-1] in ".?:)!") or "\n" in finding.message
        if finding.place is not None:
            assert 1 <= finding.place.line <= len(lines)
            assert 1 <= finding.place.column <= len(lines[finding.place.line - 1]) + 1
            assert finding.place.length >= 1
    stops = any(finding.severity is Severity.ERROR for finding in reading.findings)
    assert reading.recipe is not None or stops, "a recipe that cannot be used needs a reason"
    assert reading.whole or stops, "what is left out needs a reason"
    return reading


@LAW
@given(st.text(max_size=300))
def test_any_text(text: str) -> None:
    check(text)


@LAW
@given(st.text(alphabet="ab:-#'\"{}[]&*!|>%@`?, \n\t\\", max_size=80))
def test_any_signs(text: str) -> None:
    check(text)


@LAW
@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    check(data.decode("utf-8", "replace"))


@LAW
@given(STRUCTURES)
def test_any_structure(value: object) -> None:
    check(yaml.safe_dump(value, allow_unicode=True))


@LAW
@given(st.dictionaries(st.sampled_from(sorted(EXAMPLES)), STRUCTURES, max_size=8))
def test_any_values_of_real_keys(value: dict[str, object]) -> None:
    check(yaml.safe_dump(value))


@LAW
@given(st.data())
def test_a_sound_recipe_with_one_value_put_otherwise(data: st.DataObject) -> None:
    recipe = yaml.safe_load(SOUND)
    spot, key = recipe, None
    while isinstance(spot, dict | list) and spot:
        parent = spot
        key = data.draw(st.sampled_from(sorted(spot) if isinstance(spot, dict) else range(len(spot))))
        spot = parent[key]
        if not isinstance(spot, dict | list) or data.draw(st.booleans()):
            parent[key] = data.draw(STRUCTURES)
            break
    check(yaml.safe_dump(recipe))


@LAW
@given(st.integers(0, len(SOUND) - 1), st.integers(0, 12), st.text(alphabet=printable, max_size=4))
def test_a_sound_recipe_with_some_letters_put_otherwise(start: int, length: int, new: str) -> None:
    check(SOUND[:start] + new + SOUND[start + length :])


@pytest.mark.parametrize("seed", range(10))
def test_a_sound_recipe_with_its_lines_shuffled(seed: int) -> None:
    lines = SOUND.split("\n")
    random.Random(seed).shuffle(lines)
    check("\n".join(lines))


@pytest.mark.parametrize("line", range(SOUND.count("\n")))
def test_a_sound_recipe_without_one_line(line: int) -> None:
    lines = SOUND.split("\n")
    check("\n".join(lines[:line] + lines[line + 1 :]))


@LAW
@given(st.integers(0, len(SOUND)))
def test_a_recipe_that_breaks_off(end: int) -> None:
    check(SOUND[:end])


@LAW
@given(st.integers(0, len(SOUND) - 1), st.sampled_from(list(":#'\"{}[]&*!|>%@`?,-\t")))
def test_the_slower_parser_raises_nothing_either(at: int, sign: str) -> None:
    fast = composing.LOADER
    composing.LOADER = yaml.SafeLoader
    try:
        check(SOUND[:at] + sign + SOUND[at:])
    finally:
        composing.LOADER = fast
