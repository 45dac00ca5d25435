"""The mirrored card: its geometry is the mirror image, its steps make it, its words go with it."""

from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from foldproof.findings.finding import Severity
from foldproof.folding.card import Card, FlatPose
from foldproof.making.table import Making
from foldproof.mirror.mirrored import mirrored
from foldproof.paper.polygon import anticlockwise
from foldproof.paper.vector import Point, Ring
from foldproof.pipeline import Proof, mirror, prove
from foldproof.recipe.actions import CutAcross, MarkAt, ScoreAt, Stamp
from foldproof.recipe.records import Triangle
from foldproof.recipe.sides import other_side

RECIPES = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))
demos = pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)


@cache
def proofs(path: Path) -> tuple[Proof, Proof]:
    proof = prove(path)
    return proof, mirror(proof)


def card_and_making(proof: Proof) -> tuple[Card, Making]:
    assert proof.card is not None and proof.making is not None
    return proof.card, proof.making


def flipped(ring: Ring, about: Fraction) -> frozenset[Point]:
    return frozenset(Point(about - corner.x, corner.y) for corner in ring)


@demos
def test_a_sound_card_is_as_quiet_in_the_mirror(path: Path) -> None:
    before, after = proofs(path)
    assert [(f.name, f.severity) for f in after.findings if f.severity is not Severity.ADVICE] == []
    assert after.sound
    assert len(after.findings) <= len(before.findings)


@demos
def test_every_closed_outline_and_every_visible_region_is_the_mirror_image(path: Path) -> None:
    before, _ = card_and_making(proofs(path)[0])
    after, _ = card_and_making(proofs(path)[1])
    for one, other in zip(before.poses, after.poses, strict=True):
        if isinstance(one, FlatPose):
            assert isinstance(other, FlatPose)
            assert (one.width, one.height, one.thickness) == (other.width, other.height, other.thickness)
            assert {flipped(ring, one.width) for ring in one.outline} == {frozenset(ring) for ring in other.outline}
            seen = {(other_side(r.panel), r.face, flipped(r.ring, one.width)) for r in one.seen}
            shown = {(panel, face) for panel, face, _ in seen}
            assert shown == {(r.panel, r.face) for r in other.seen}
            assert {(other_side(upper), other_side(lower)) for upper, lower in one.over} == set(other.over)


@demos
def test_every_score_that_is_pressed_is_pressed_on_the_same_face_at_the_mirrored_line(path: Path) -> None:
    (before, made), (_, mirror_made) = card_and_making(proofs(path)[0]), card_and_making(proofs(path)[1])
    for name, piece in made.end.pieces.items():
        plan = before.piece(name)
        assert plan is not None
        edges = [corner.x for corner in plan.outline]
        about = min(edges) + max(edges)
        other = mirror_made.end.pieces[other_side(name)]
        assert flipped(anticlockwise(piece.outline), about) == frozenset(other.outline)
        assert {(flipped((c.segment.start, c.segment.end), about), c.pressed) for c in piece.creases} == {
            (frozenset((c.segment.start, c.segment.end)), c.pressed) for c in other.creases}
        assert other.lie.up is piece.lie.up


@demos
def test_lettering_tools_and_supplies_are_not_turned(path: Path) -> None:
    before, after = (card_and_making(proof)[0].recipe for proof in proofs(path))
    assert [tool.name for tool in before.tools] == [tool.name for tool in after.tools]
    assert [supply.name for supply in before.supplies] == [supply.name for supply in after.supplies]
    assert before.papers == after.papers
    written = [[action.words for step in recipe.steps for action in step.actions if isinstance(action, Stamp)]
               for recipe in (before, after)]
    assert written[0] == written[1]


@demos
def test_mirrored_twice_the_numbers_are_the_first_ones(path: Path) -> None:
    before, made = card_and_making(proofs(path)[0])
    twice = mirrored(*card_and_making(proofs(path)[1]))
    for step, again in zip(before.recipe.steps, twice.steps, strict=True):
        for action, back in zip(step.actions, again.actions, strict=True):
            if isinstance(action, ScoreAt | CutAcross | MarkAt):
                assert isinstance(back, ScoreAt | CutAcross | MarkAt)
                assert back.at.value == action.at.value
        assert again.text.value == step.text.value
    assert made.steps


def test_a_distance_from_the_stop_is_said_anew_in_figures_and_in_words() -> None:
    path = next(path for path in RECIPES if path.stem == "tide-gate")
    step = card_and_making(proofs(path)[1])[0].recipe.steps[1]
    assert [action.at.value for action in step.actions if isinstance(action, ScoreAt)] == [Fraction(51, 8)] * 2
    assert step.text.value.count("6 3/8 in") == 2
    assert "2 1/8" not in step.text.value
    assert step.say is not None and step.say.value.count("six and three eighths") == 2
    assert "with the left end at the stop" in step.text.value


def test_the_right_angle_of_a_triangle_goes_to_the_other_corner() -> None:
    found = [
        (layer.shape.right_angle, other.shape.right_angle)
        for path in RECIPES
        for layer, other in zip(*(card_and_making(proof)[0].recipe.layers for proof in proofs(path)), strict=True)
        if isinstance(layer.shape, Triangle) and isinstance(other.shape, Triangle)]
    assert all(other == other_side(corner) and other != corner for corner, other in found)


def test_a_card_that_is_not_sound_is_not_mirrored() -> None:
    proof = proofs(RECIPES[0])[0]
    assert mirror(replace(proof, card=None)) == replace(proof, card=None)
