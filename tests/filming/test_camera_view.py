"""The picture of the frame: true to scale, cut off at its edges, turned half round for a camera on the far side."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from film_recipe import small_film

from foldproof.drawing.camera import _held_up, _view, draw_shot
from foldproof.drawing.plane import box_round
from foldproof.drawing.record import LEAST_TEXT_PT, PLAIN, Drawing
from foldproof.drawing.scene import Area
from foldproof.filming.continuity import continuity
from foldproof.filming.plan import plan_film
from foldproof.pipeline import prove


def drawn(key: str, *, bottom: str = "maker", **changes: str) -> Drawing:
    card, making = small_film(**changes)
    plan = replace(plan_film(card, making), bottom=bottom)
    shot = plan.shot(key)
    return draw_shot(card, plan, shot, continuity(card, plan.filming_order)[key])


def words_at(drawing: Drawing, word: str) -> list[tuple[float, float]]:
    """Where words stand on the drawing: points from the top left."""
    return [
        (float(x), float(y)) for x, y, text in re.findall(r'<text[^>]* x="([\d.]+)" y="([\d.]+)">([^<]*)', drawing.svg)
        if word in text]


@pytest.mark.parametrize(("bottom", "below"), [("maker", False), ("opposite", True)])
def test_the_fence_is_at_the_far_edge_of_the_table(bottom: str, below: bool) -> None:
    """The stop's board lies with its fence away from the maker: at the top, or at the bottom as seen from opposite."""
    drawing = drawn("2.score-the-base", bottom=bottom)
    (_, fence), *_ = words_at(drawing, "fence")
    (_, base), *_ = words_at(drawing, "base")
    assert (fence > base) is below


@pytest.mark.parametrize(("bottom", "below"), [("maker", True), ("opposite", False)])
def test_hands_come_from_the_maker(bottom: str, below: bool) -> None:
    drawing = drawn("2.score-the-base", bottom=bottom)
    (_, hands), *_ = words_at(drawing, "hands")
    (_, base), *_ = words_at(drawing, "base")
    assert (hands > base) is below


def test_the_words_tell_the_frame() -> None:
    told = drawn("2.score-the-base").alt
    assert told.startswith("The frame of shot 2.score-the-base, 13 in wide. The bottom of the picture is your edge")
    assert "far edge" in drawn("2.score-the-base", bottom="opposite").alt
    assert "a sheet of plain" in drawn("1.cut-the-base").alt


def test_the_real_width_stands_below() -> None:
    assert len(words_at(drawn("1.cut-the-base"), "19 in wide")) == 2, "once below each picture"


def test_letters_are_large_enough_on_paper() -> None:
    drawing = drawn("3.cut-the-mat")
    sizes = [float(size) for size in re.findall(r'font-size="([\d.]+)px"', drawing.svg)]
    assert len(sizes) > 5 and min(sizes) >= LEAST_TEXT_PT


@pytest.mark.parametrize("pose", ["standing", "closed"])
def test_a_card_before_the_camera_is_whole_in_the_picture(pose: str) -> None:
    """Nothing of the paper is cut off by the frame: its areas stay a hair inside the line round it."""
    proof = prove(Path(__file__).parents[2] / "recipes" / "beacon.yaml")
    assert proof.card is not None and proof.making is not None and proof.card.recipe.filming is not None
    beauty = proof.card.recipe.filming.beauty[0]
    for framing in ("front on", "turntable"):
        shown = replace(beauty, pose=replace(beauty.pose, value=pose), framing=framing)
        recipe = replace(proof.card.recipe, filming=replace(proof.card.recipe.filming, beauty=(shown,)))
        card = replace(proof.card, recipe=recipe)
        plan = plan_film(card, proof.making)
        shot = plan.shots[0]
        view = _view(card, plan, shot, PLAIN)
        items = _held_up(view, shot.before, (), ends=False).items
        box = box_round(p for item in items if isinstance(item, Area) for p in item.rings[0])
        assert view.box.left < box.left and box.right < view.box.right
        assert view.box.bottom < box.bottom and box.top < view.box.top
