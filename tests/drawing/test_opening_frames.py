"""The frames of a card that opens."""

from itertools import pairwise

import pytest
from drawn import RECIPES, demo

from foldproof.drawing.ink import colour_of
from foldproof.drawing.moving import Frame, frames_between, frames_through
from foldproof.drawing.opening import HIGH, MARGIN, WIDE, Opening, draw_opening
from foldproof.drawing.plane import area_of
from foldproof.drawing.poses import pose_scene
from foldproof.drawing.scene import Area, Fill
from foldproof.folding.card import Card, Pose

BY_NAME = {path.stem: path for path in RECIPES}


def card_of(name: str) -> Card:
    return demo(BY_NAME[name])[0]


def poses_of(card: Card) -> list[Pose]:
    return [pose for name in card.recipe.opening if (pose := card.pose(name.value)) is not None]


def opening_of(name: str) -> Opening:
    opening = draw_opening(card_of(name))
    assert opening is not None
    return opening


@pytest.mark.parametrize("name", ["boat-house", "coast-road"])
def test_two_ways_share_the_pose_between_them(name: str) -> None:
    card = card_of(name)
    frames = frames_through(card, poses_of(card), 4, 1.0)
    assert [frame.pose for frame in frames] == [poses_of(card)[0].name, "", "", poses_of(card)[1].name, "", "",
                                                poses_of(card)[2].name]


def spread(frame: Frame) -> tuple[float, float, float, float]:
    spots = [p for item in frame.items if isinstance(item, Area) for p in item.rings[0]]
    return (min(x for x, _ in spots), max(x for x, _ in spots), min(y for _, y in spots), max(y for _, y in spots))


@pytest.mark.parametrize("name", ["boat-house", "lantern-lane", "tide-gate"])
def test_nothing_leaps_from_frame_to_frame(name: str) -> None:
    card = card_of(name)
    poses = poses_of(card)
    frames = frames_through(card, poses, 25, 1.0)
    boxes = [spread(frame) for frame in frames]
    whole = max(box[1] for box in boxes) - min(box[0] for box in boxes)
    assert max(abs(a - b) for one, other in pairwise(boxes) for a, b in zip(one, other, strict=True)) < 0.2 * whole


def test_a_card_that_is_turned_over_to_open_shows_its_cover_first() -> None:
    """The open pose looks at the inside, the closed one at the cover: each is seen in its own frame."""
    card = card_of("lantern-lane")
    closed, opened = poses_of(card)
    frames = frames_between(card, closed, opened, 3, 1.0)
    for frame, pose in ((frames[0], closed), (frames[-1], opened)):
        flat = {(item.fill, item.tone) for item in pose_scene(card, pose).items if isinstance(item, Area)}
        assert {(item.fill, item.tone) for item in frame.items if isinstance(item, Area)} == flat
    assert any(item.fill is Fill.FRONT for item in frames[0].items if isinstance(item, Area))


def test_patches_stay_in_the_picture_and_stops_are_the_poses() -> None:
    opening = opening_of("boat-house")
    assert [(stop.pose, stop.frame) for stop in opening.stops] == [("closed", 0), ("standing", 16), ("open", 32)]
    assert len(opening.frames) == 33 and opening.still == 16
    spots = [p for frame in opening.frames for patch in frame for p in patch.ring]
    assert min(x for x, _ in spots) == MARGIN == min(y for _, y in spots)
    assert max(x for x, _ in spots) == opening.width - MARGIN and opening.width <= WIDE
    assert max(y for _, y in spots) == opening.height - MARGIN and opening.height <= HIGH


def test_edges_follow_the_outlines() -> None:
    opening = opening_of("tide-gate")
    for patch in (patch for frame in opening.frames for patch in frame):
        assert all(spot in patch.ring for line in patch.edges for spot in line)


def test_a_closed_card_shows_the_shares_of_its_papers() -> None:
    opening, card = opening_of("tide-gate"), card_of("tide-gate")
    sizes: dict[str, float] = {}
    for patch in opening.frames[0]:
        size = abs(area_of([(float(x), float(y)) for x, y in patch.ring]))
        sizes[patch.colour] = sizes.get(patch.colour, 0.0) + size
    # 4 1/4 x 5 1/2 with two mats of 1 7/8 x 5 1/4 and a band of 3 1/2 x 1 3/4 over both and the borders between them
    mats, band, whole = 2 * 1.875 * 5.25 - (3.5 - 0.25) * 1.75, 3.5 * 1.75, 4.25 * 5.5
    wanted = sorted([mats, band, whole - mats - band])
    assert sorted(size / sum(sizes.values()) for size in sizes.values()) == pytest.approx(
        [size / whole for size in wanted], abs=0.03)
    first = frames_through(card, poses_of(card), 2, 1.0)[0]
    assert {colour_of(item) for item in first.items if isinstance(item, Area)} == set(sizes)


def test_a_recipe_without_a_way_has_no_view() -> None:
    from dataclasses import replace

    card = card_of("tide-gate")
    assert draw_opening(replace(card, recipe=replace(card.recipe, opening=card.recipe.opening[:1]))) is None
