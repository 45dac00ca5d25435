"""The same card in another size: its own text with other plain numbers, sound, and its small slips are caught."""

import re
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from foldproof.begin_command import proved, wrong_findings
from foldproof.findings.finding import Severity
from foldproof.pipeline import Proof, prove
from foldproof.resizing.edits import Edit, edited
from foldproof.resizing.measures import growing_changes, main_changes
from foldproof.resizing.resize import resized, told_anew
from foldproof.starting.sizes import Size, read_size
from foldproof.starting.trouble import CannotBeError

RECIPES = Path(__file__).parents[2] / "recipes"


@cache
def proof_of(name: str) -> Proof:
    return prove(RECIPES / f"{name}.yaml")


@cache
def text_of(name: str, size: str) -> str:
    proof = proof_of(name)
    assert proof.card is not None and proof.making is not None
    return resized(proof.card, proof.making, size_for(proof, size), lambda text: wrong_findings(proved(text, "x.yaml")))


def size_for(proof: Proof, written: str) -> Size:
    assert proof.card is not None
    return read_size(written, proof.card.recipe.unit)


@pytest.mark.parametrize(("name", "size"), [
    pytest.param("tide-gate", "A7", id="gate, larger"),
    pytest.param("lee-shore", "A6", id="side fold with triangles"),
    pytest.param("beacon", "6 1/4 x 4 1/2", id="easel, which stands lower"),
    pytest.param("quay-stairs", "C6", id="center step with slits and stopped scores"),
    pytest.param("four-winds", "5 x 5", id="a square from one measure"),
    pytest.param("coast-road", "98 x 204 mm", id="metric roll"),
])
def test_a_card_in_another_size_is_sound_and_quiet(name: str, size: str) -> None:
    proof = proved(text_of(name, size), f"{name}.yaml")
    assert proof.card is not None and proof.card.closed is not None
    assert [one.message for one in proof.findings if one.severity is not Severity.ADVICE] == []
    wanted = size_for(proof, size)
    assert (proof.card.closed.width, proof.card.closed.height) == (wanted.width, wanted.height)


def test_only_numbers_words_and_the_envelope_change() -> None:
    """Comments, order, papers, tools and all that has no number stay as the author wrote them."""
    before = (RECIPES / "tide-gate.yaml").read_text(encoding="utf-8").splitlines()
    after = text_of("tide-gate", "A7").splitlines()
    assert "  border: 1/8" in after and "  door: width / 2" in after and "  width: 5" in after
    assert "  envelope: A7" in after and "A2" not in "\n".join(after)
    keys = [line for line in before if re.match(r"\s*(- )?[a-z ]+:( >)?$", line)]
    assert [line for line in after if re.match(r"\s*(- )?[a-z ]+:( >)?$", line)] == keys
    assert max(map(len, after)) <= 120


def test_numbers_are_plain_and_said_as_the_author_said_them() -> None:
    text = text_of("tide-gate", "A7")
    assert "- score: 2 1/2\n" in text and "Score at 2 1/2 in, right across." in " ".join(text.split())
    assert "score at two and a half" in " ".join(text.split())


def test_comments_stay() -> None:
    source = (RECIPES / "tide-gate.yaml").read_text(encoding="utf-8").replace(
        "  width: 4 1/4\n", "  width: 4 1/4   # as read\n# mine\n", 1)
    proof = proved(source, "tide-gate.yaml")
    assert proof.card is not None and proof.making is not None
    size = read_size("A6", proof.card.recipe.unit)
    assert "  width: 4 1/2   # as read\n# mine\n" in told_anew(
        proof.card, proof.making, size, main_changes(proof.card, size))


@pytest.mark.parametrize(("was", "slip"), [
    pytest.param("- score: 2 1/2\n", "- score: 2 9/16\n", id="a score"),
    pytest.param("{cut: [4 3/4, 6 3/4], piece: inside mat}", "{cut: [4 3/4, 6 11/16], piece: inside mat}", id="a mat"),
    pytest.param("width: 5\n", "width: 4 15/16\n", id="a measure"),
    pytest.param("size: [5, 7]", "size: [5, 7 1/16]", id="the finished size"),
    pytest.param("ten by seven inches", "ten by eight inches", id="a spoken number"),
])
def test_a_small_slip_in_the_new_recipe_is_caught(was: str, slip: str) -> None:
    text = text_of("tide-gate", "A7")
    assert was in text
    assert wrong_findings(proved(text.replace(was, slip, 1), "x.yaml"))


def test_small_and_punched_parts_stay_and_others_grow() -> None:
    proof = proof_of("lee-shore")
    assert proof.card is not None
    size = read_size("8 1/2 x 11", proof.card.recipe.unit)
    grown = {change.number.written: change.value for change in growing_changes(
        proof.card, size, main_changes(proof.card, size))}
    assert grown == {"1 1/4": 2 + 1 / 2}, "the corner is twice as large; border, sun and distances are as they were"


def test_windows_keep_their_size_and_their_place_in_the_card() -> None:
    """The middle of the lamp window is at 56 of 148 and 51 of 102; on 155 x 108 it is at 58 1/2 and 54, half way up."""
    proof = proof_of("signal-hut")
    assert proof.card is not None
    size = read_size("155 x 108 mm", proof.card.recipe.unit)
    grown = {change.number.written: change.value for change in growing_changes(
        proof.card, size, main_changes(proof.card, size))}
    assert (grown["46"], grown["41"]) == (Fraction(97, 2), Fraction(44))
    assert grown["74"] == Fraction(155, 2), "what is half of the card stays half of it"
    assert "20" not in grown and "26" not in grown


def test_what_no_ruler_shows_is_said() -> None:
    proof = proof_of("signal-hut")
    assert proof.card is not None and proof.making is not None
    size = read_size("155 x 109 mm", proof.card.recipe.unit)
    with pytest.raises(CannotBeError, match="which no ruler shows"):
        told_anew(proof.card, proof.making, size, main_changes(proof.card, size))


def test_a_sheet_that_is_too_small_is_taken_larger() -> None:
    proof = proof_of("lee-shore")
    assert proof.card is not None and proof.making is not None
    size = read_size("5 1/2 x 8 1/2", proof.card.recipe.unit)
    text = told_anew(proof.card, proof.making, size, main_changes(proof.card, size))
    assert re.search(r"driftwood: .*sheet: \[8 1/2, 11\]", text), "11 x 8 1/2 still fits"
    size = read_size("5 3/4 x 8 1/2", proof.card.recipe.unit)
    text = told_anew(proof.card, proof.making, size, main_changes(proof.card, size))
    assert re.search(r"driftwood: .*sheet: \[12, 12\]", text)


@pytest.mark.parametrize(("name", "size", "why"), [
    pytest.param("four-winds", "4 x 5", "it can only be square", id="one measure for both sides"),
    pytest.param("tide-gate", "14 x 15", "can't be cut from a sheet", id="larger than any sheet"),
])
def test_what_cannot_be_is_said(name: str, size: str, why: str) -> None:
    proof = proof_of(name)
    assert proof.card is not None and proof.making is not None
    with pytest.raises(CannotBeError, match=re.escape(why)):
        resized(proof.card, proof.making, size_for(proof, size), lambda text: wrong_findings(proved(text, "x.yaml")))


def test_edits_are_made_from_the_end_so_that_none_moves_another() -> None:
    assert edited("abcdef", [Edit(start=1, end=2, said="BBB"), Edit(start=4, end=5, said="")]) == "aBBBcdf"
