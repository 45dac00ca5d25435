"""Frames of a card that opens."""

from pathlib import Path

import pytest
from drawn import RECIPES, demo

from foldproof.drawing.moving import frames_between
from foldproof.drawing.plane import area_of
from foldproof.drawing.poses import pose_scene
from foldproof.drawing.scene import Area, Fill

WITH_WAYS = [path for path in RECIPES if path.stem in ("boat-house", "tide-gate", "coast-road", "four-winds")]


@pytest.mark.parametrize("path", WITH_WAYS, ids=lambda path: path.stem)
def test_the_first_and_the_last_frame_are_the_poses(path: Path) -> None:
    card, _ = demo(path)
    start, end = (card.pose(name.value) for name in card.recipe.opening[:2])
    assert start is not None and end is not None
    frames = frames_between(card, start, end, 3, 1.0)
    assert [frame.share for frame in frames] == [0.0, 0.5, 1.0]
    assert all(any(isinstance(item, Area) for item in frame.items) for frame in frames)


def test_a_closed_card_shows_what_its_flat_picture_shows() -> None:
    card, _ = demo(next(path for path in RECIPES if path.stem == "tide-gate"))
    start, end = card.pose("closed"), card.pose("open")
    assert start is not None and end is not None
    first = frames_between(card, start, end, 2, 1.0)[0]
    flat = {_tone(item) for item in pose_scene(card, start).items if isinstance(item, Area)}
    assert {_tone(item) for item in first.items if isinstance(item, Area)} == flat
    shares = _shares([item for item in first.items if isinstance(item, Area)])
    # 4 1/4 x 5 1/2 with two mats of 1 7/8 x 5 1/4 and a band of 3 1/2 x 1 3/4 over both and the borders between them
    mats, band, whole = 2 * 1.875 * 5.25, 3.5 * 1.75, 4.25 * 5.5
    covered = band - 0.25 * 1.75  # the strip of band over the two borders in the middle
    assert shares["white"] == pytest.approx(band / whole, abs=0.02)
    assert shares["#7fb3c8"] == pytest.approx((mats - covered) / whole, abs=0.02)


def _tone(item: Area) -> tuple[Fill, str | None]:
    return item.fill, item.tone


def _shares(areas: list[Area]) -> dict[str | None, float]:
    """The share of the picture that each tone has; the eye is far enough for areas to stay in proportion."""
    sizes: dict[str | None, float] = {}
    for item in areas:
        sizes[item.tone] = sizes.get(item.tone, 0.0) + abs(area_of(item.rings[0]))
    whole = sum(sizes.values())
    return {tone: size / whole for tone, size in sizes.items()}
