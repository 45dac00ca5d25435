"""Recipes begun: each construction in sizes and units is sound and quiet at once, and its slips are caught."""

import re
import sys
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from foldproof.measures.quantity import Unit
from foldproof.pipeline import build
from foldproof.starting.begin import begun, lying
from foldproof.starting.constructions import CONSTRUCTIONS, Construction, find_construction
from foldproof.starting.sizes import read_size
from foldproof.starting.trouble import CannotBeError

sys.path.insert(0, str(Path(__file__).parent))

from whole_table import SIZES, UNITS, table, wrong_with


@cache
def text_of(construction: str, size: str, unit: Unit) -> str:
    found = find_construction(construction)
    return begun(found, lying(read_size(size, unit), found))


SPREAD = [
    pytest.param(one, size, unit, id=f"{one.name} {size} {unit.value}")
    for number, (one, size, unit) in enumerate(table()) if number % 7 == 0]
"""Each construction at least once, each size, both units."""


def test_the_spread_has_every_construction_size_and_unit() -> None:
    rows = [param.values for param in SPREAD]
    assert {row[0] for row in rows} == set(CONSTRUCTIONS)
    assert {row[1] for row in rows} == set(SIZES) and {row[2] for row in rows} == set(UNITS)


@pytest.mark.parametrize(("construction", "size", "unit"), SPREAD)
def test_what_is_begun_is_sound_and_quiet(construction: Construction, size: str, unit: Unit, tmp_path: Path) -> None:
    assert wrong_with(text_of(construction.name, size, unit), tmp_path) == []


@pytest.mark.parametrize("size", ["4 5/8 x 6 1/8", "97 x 163 mm", "10.5 x 14.8 cm", "7 x 4"])
@pytest.mark.parametrize("name", ["gate", "tent"])
def test_sizes_by_numbers_are_sound_and_quiet(name: str, size: str, tmp_path: Path) -> None:
    construction = find_construction(name)
    assert wrong_with(begun(construction, lying(read_size(size), construction)), tmp_path) == []


@pytest.mark.parametrize(("name", "size", "was", "slip"), [
    pytest.param("gate", "A2", "- score: 2 1/8", "- score: 2 3/16", id="a score of the steps"),
    pytest.param("side", "A6", "width: 4 1/2", "width: 4 7/16", id="a measure of the plan"),
    pytest.param("roll", "A2", "- score: 4 1/8\n", "- score: 4 1/16\n", id="a score from the other end"),
    pytest.param("z", "A7", "flap mat is two and a quarter", "flap mat is two and three eighths", id="a spoken width"),
    pytest.param("easel", "A7", "stands: {pose: standing, height: 4}", "stands: {pose: standing, height: 4 1/16}",
                 id="the promised standing height"),
    pytest.param("shutter", "A2", "begins: 2 3/4", "begins: 2 13/16", id="where a slit begins"),
    pytest.param("accordion", "A2", "score the tab at half an inch", "score the tab at three eighths of an inch",
                 id="a spoken number"),
    pytest.param("diagonal", "A7", "mark: {at: 1 1/2", "mark: {at: 1 9/16", id="a mark"),
    pytest.param("pop-up", "A7", "left: 2 3/4", "left: 2 13/16", id="where the box is glued"),
    pytest.param("center-step", "A2", "cut: [4, 3 1/8]", "cut: [4, 3 3/16]", id="a layer"),
    pytest.param("tent", "A2", "turn over: top to bottom", "turn over: book page", id="a turn"),
])
def test_a_small_slip_in_what_was_begun_is_caught(name: str, size: str, was: str, slip: str, tmp_path: Path) -> None:
    text = text_of(name, size, Unit.INCH)
    if was not in text:
        pytest.fail(f"{was!r} is not in the recipe")
    assert wrong_with(text.replace(was, slip, 1), tmp_path)


@pytest.mark.parametrize(("name", "size", "why", "near"), [
    pytest.param("roll", "6 x 8", "can't be cut from a sheet", "5 5/8 x 8 in", id="a sheet too small"),
    pytest.param("gate", "2 1/4 x 5", "the door would be 1 1/8 in", "2 1/2 x 5 in", id="a door too narrow"),
    pytest.param("gate", "75.5 x 150 mm", "which no ruler shows", "76 x 150 mm", id="half of it is on no mark"),
    pytest.param("easel", "120 x 60 mm", "the strut would be 30 mm", "120 x 70 mm", id="a strut too short"),
])
def test_what_cannot_be_is_said_with_the_nearest_that_can(
    name: str, size: str, why: str, near: str, tmp_path: Path,
) -> None:
    construction = find_construction(name)
    with pytest.raises(CannotBeError, match=re.escape(why)) as caught:
        begun(construction, read_size(size))
    assert f'"{near}"' in str(caught.value)
    assert wrong_with(begun(construction, read_size(near)), tmp_path) == []


def test_an_easel_stands_as_high_as_its_triangle() -> None:
    """Pythagoras: strut and lower half 2 1/2, foot 3 from the top fold: 3-4-5, so twice 2 in (computed)."""
    assert find_construction("easel").own(read_size("7 x 5"))["stands"] == Fraction(4)


def test_a_title_that_yaml_would_misread_is_kept(tmp_path: Path) -> None:
    side = find_construction("side")
    for title in ("12 days", "Yes: a card", "#1", "Ångström, für dich"):
        assert wrong_with(begun(side, read_size("A2"), title), tmp_path) == []


def test_one_is_built_with_all_its_documents(tmp_path: Path) -> None:
    path = tmp_path / "harbor-step.yaml"
    path.write_text(text_of("tent", "A2", Unit.INCH), encoding="utf-8")
    built = build(path, tmp_path / "build")
    assert built.folder is not None
    assert {"handout.pdf", "page.html", "shots.pdf", "template.pdf"} <= {file.name for file in built.folder.iterdir()}
