"""Finished views, the cutting list and the key."""

from pathlib import Path

import pytest
from drawn import RECIPES, demo, dimensions, made_of, scenes

from foldproof.drawing.cutting import cuts_of, cutting_scene, draw_cutting_list
from foldproof.drawing.key import MEANINGS, draw_key, kinds_in
from foldproof.drawing.legible import faults
from foldproof.drawing.plane import area_of, length, minus
from foldproof.drawing.poses import draw_finished, draw_pose, pose_scale, pose_scene
from foldproof.drawing.scene import Area, Fill, Kind, Label, Line
from foldproof.drawing.standing import height_words
from foldproof.folding.card import FlatPose, StandingPose
from foldproof.measures.writing import with_unit
from foldproof.paper.polygon import area


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_every_pose_and_cutting_list_can_be_read(path: Path) -> None:
    card, _ = demo(path)
    assert {pose.name: faults(pose_scene(card, pose)) for pose in card.poses} == {pose.name: [] for pose in card.poses}
    assert faults(cutting_scene(card)) == []


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_a_flat_pose_shows_all_that_is_seen_of_it_and_its_size(path: Path) -> None:
    card, _ = demo(path)
    scale = pose_scale(card)
    for pose in card.poses:
        if not isinstance(pose, FlatPose):
            continue
        scene = pose_scene(card, pose)
        inked = sum(
            abs(area_of(item.rings[0])) - sum(abs(area_of(hole)) for hole in item.rings[1:])
            for item in scene.items if isinstance(item, Area) and item.fill in (Fill.FRONT, Fill.BACK))
        whole = sum(float(area(ring)) for ring in pose.outline)
        assert inked / scale ** 2 == pytest.approx(whole, rel=2e-3)
        told = {d.label.text: length(minus(*d.row)) / scale for d in dimensions(scene)}
        for size in (pose.width, pose.height):
            words = with_unit(size, card.recipe.unit)
            assert told[words] == pytest.approx(float(size))
            assert words in draw_pose(card, pose).alt


def test_a_card_that_stands_is_drawn_with_its_height_from_the_model() -> None:
    card, _ = demo(next(path for path in RECIPES if path.stem == "beacon"))
    pose = card.pose("standing")
    assert isinstance(pose, StandingPose)
    drawing = draw_pose(card, pose)
    assert height_words(card, pose) == "4 in"
    assert pose.height == pytest.approx(4, abs=1 / 64)
    assert "4 in above the table" in drawing.alt and ">4 in<" in drawing.svg


def test_the_front_of_an_easel_hides_what_stands_behind_it() -> None:
    card, _ = demo(next(path for path in RECIPES if path.stem == "beacon"))
    pose = card.pose("standing")
    assert pose is not None
    areas = [item for item in pose_scene(card, pose).items if isinstance(item, Area)]
    largest = max(range(len(areas)), key=lambda i: abs(area_of(areas[i].rings[0])))
    # the front is the largest area in sight; only its own layers, smaller, are drawn after it, and none is a back
    assert all(item.fill is Fill.FRONT for item in areas[largest:])
    assert largest > 0


def test_all_poses_of_a_card_fit_one_finished_view() -> None:
    for path in RECIPES:
        card, _ = demo(path)
        drawing = draw_finished(card)
        assert drawing.width_mm <= 170.0
        assert all(f">{pose.name}<" in drawing.svg for pose in card.poses)


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_the_cutting_list_has_every_piece_that_is_cut_once(path: Path) -> None:
    card, _ = demo(path)
    listed = [piece.name for cut in cuts_of(card) for piece in cut.pieces]
    assert sorted(listed) == sorted(piece.name for piece in card.pieces if not piece.bought)
    drawing = draw_cutting_list(card)
    assert all(name in drawing.alt for name in listed)
    assert drawing.width_mm <= 170.0


def test_the_cutting_list_tells_scores_from_the_left_and_from_the_bottom() -> None:
    card, _ = made_of("""
pieces:
  base:
    paper: plain
    size: [8, 5]
    scores:
      spine: {across: 3, fold: valley}
      top: {up: 4, fold: mountain}
    panels:
      a: [1, 1]
      b: [7, 1]
      c: [1, 4 1/2]
      d: [7, 4 1/2]
poses:
  closed: {}
steps:
  - title: Cut
    piece: base
    do:
      - cut: [8, 5]
    text: Cut.
""")
    scene = cutting_scene(card)
    told = {d.label.text: length(minus(*d.row)) for d in dimensions(scene)}
    assert set(told) == {"8 in", "5 in", "3 in", "4 in"}
    assert told["3 in"] / told["8 in"] == pytest.approx(3 / 8)
    kinds = {item.kind for item in scene.items if isinstance(item, Line)}
    assert {Kind.VALLEY, Kind.MOUNTAIN} <= kinds
    alt = draw_cutting_list(card).alt
    assert "a valley score 3 in from the left" in alt and "a mountain score 4 in up from the bottom" in alt


def test_the_key_explains_every_kind_that_the_demo_drawings_use() -> None:
    explained = {kind for kind, _ in MEANINGS}
    for path in RECIPES:
        for _, scene in scenes(path):
            drawn = {item.kind for item in scene.items if isinstance(item, Line)}
            unnamed = {Kind.MEASURE, Kind.MOTION, Kind.STRONG, Kind.QUIET}
            assert drawn - unnamed <= explained
            assert kinds_in(scene) <= explained


def test_a_key_may_hold_only_what_is_used() -> None:
    drawing = draw_key({Kind.VALLEY, "adhesive"})
    assert "valley" in drawing.alt and "adhesive" in drawing.alt and "mountain" not in drawing.alt
    assert draw_key().width_mm <= 170.0


def test_names_can_be_left_out_and_hidden_edges_put_in() -> None:
    card, _ = demo(next(path for path in RECIPES if path.stem == "tide-gate"))
    pose = card.poses[0]
    plain = pose_scene(card, pose, names=False, hidden=True)
    labels = [item.text for item in plain.items if isinstance(item, Label)]
    assert "band" not in labels
    assert any(isinstance(item, Line) and item.kind is Kind.HIDDEN for item in plain.items)
    assert "band" in [item.text for item in pose_scene(card, pose).items if isinstance(item, Label)]
