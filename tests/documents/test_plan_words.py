"""The plan and the table in plain words."""

from fractions import Fraction as F

import pytest

from foldproof.documents.plan_words import lying_words, spot_words
from foldproof.making.table import Lie, OnTable
from foldproof.measures.quantity import Unit
from foldproof.paper.face import Face
from foldproof.paper.vector import Point, Vector

RING = (Point(F(0), F(0)), Point(F(8), F(0)), Point(F(8), F(5)), Point(F(0), F(5)))


@pytest.mark.parametrize(("x", "y", "words"), [
    ("0", "5", "the top left corner"),
    ("8", "0", "the bottom right corner"),
    ("3/2", "5", "the top edge (1 1/2 in from its left end)"),
    ("13/2", "5", "the top edge (1 1/2 in from its right end)"),
    ("8", "4", "the right edge (1 in from its top end)"),
    ("4", "1", "the point 4 in from the left edge and 1 in from the bottom edge"),
])
def test_spots_are_named_from_the_nearer_end(x: str, y: str, words: str) -> None:
    assert spot_words(Point(F(x), F(y)), RING, Unit.INCH) == words


@pytest.mark.parametrize(("right", "up", "nearest"), [
    pytest.param((1, 0), Face.FRONT, "bottom", id="upright"),
    pytest.param((-1, 0), Face.FRONT, "top", id="half turn"),
    pytest.param((0, 1), Face.FRONT, "right", id="quarter clockwise: left edge far, right edge near"),
    pytest.param((-1, 0), Face.BACK, "bottom", id="turned over like a page"),
    pytest.param((1, 0), Face.BACK, "top", id="turned over top to bottom"),
])
def test_the_nearest_edge(right: tuple[int, int], up: Face, nearest: str) -> None:
    piece = OnTable(name="base", outline=RING, round=False, lie=Lie(right=Vector(F(right[0]), F(right[1])), up=up))
    assert lying_words(piece) == f"base, {up} up, its {nearest} edge nearest"


def test_askew() -> None:
    piece = OnTable(name="base", outline=RING, round=False, lie=Lie(right=Vector(F(3), F(4)), up=Face.FRONT))
    assert lying_words(piece) == "base, front up, lying askew"
