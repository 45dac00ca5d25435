import pytest
from hypothesis import given
from hypothesis import strategies as st

from foldproof.findings.nearest import nearest

KEYS = ("across", "fold", "centred", "centred on", "overhangs", "size", "upon", "left mat", "right mat", "up")


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("acros", "across"),
        ("accross", "across"),
        ("Fold", "fold"),
        ("folds", "fold"),
        ("sise", "size"),
        ("overhang", "overhangs"),
        ("centred-on", "centred on"),
        ("centred_on", "centred on"),
        ("mat left", "left mat"),
        ("centered", "centred"),
        ("rihgt mat", "right mat"),
        ("left  mat", "left mat"),
    ],
)
def test_the_likely_word(word: str, meant: str) -> None:
    assert nearest(word, KEYS) == meant


@pytest.mark.parametrize("word", ["", "  ", "zebra", "weight", "q"])
def test_no_word_is_better_than_a_wild_guess(word: str) -> None:
    assert nearest(word, KEYS) is None


def test_everyday_words_come_first() -> None:
    synonyms = {"center": "centred", "stick to": "upon", "grain": "nowhere known"}
    assert nearest("Stick-to", KEYS, synonyms) == "upon"
    assert nearest("stick to", KEYS) is None
    assert nearest("grain", KEYS, synonyms) is None


def test_nothing_known() -> None:
    assert nearest("width", ()) is None


@given(known=st.lists(st.text(min_size=1), min_size=1))
def test_a_known_word_is_its_own_nearest_but_for_case_and_hyphens(known: list[str]) -> None:
    found = nearest(known[0], known)
    plain = known[0].casefold().replace("-", " ").replace("_", " ").split()
    assert found is not None if plain else found is None
    if found is not None:
        assert found.casefold().replace("-", " ").replace("_", " ").split() == plain
