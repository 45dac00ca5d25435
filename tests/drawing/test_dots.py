"""Pictures of dots: a few colours, those of most dots exactly, and a file that reads as what was drawn."""

import io

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from foldproof.drawing.dots import DOTS_PER_MM, MARGIN_MM, picture_of, png_bytes, to_png
from foldproof.drawing.scene import Area, Fill, Kind, Label, Line, Scene

SHEET = ((5.0, 5.0), (55.0, 5.0), (55.0, 35.0), (5.0, 35.0))
SCENE = Scene(width=60.0, height=40.0, items=(
    Area(rings=(SHEET,), fill=Fill.FRONT, tone="#8a9ba8", edge=Kind.EDGE),
    Area(rings=(((10.0, 10.0), (20.0, 10.0), (20.0, 20.0)),), fill=Fill.TOOL),
    Line(points=((20.0, 5.0), (38.0, 35.0)), kind=Kind.VALLEY),
    Label(text="score at 2 1/8 in", at=(30.0, 20.0), pt=8.5),
))
Colours = NDArray[np.int64]


def _colours(picture: Image.Image) -> Colours:
    """A row for each dot."""
    return np.asarray(picture.convert("RGB")).reshape(-1, 3).astype(np.int64)


def test_every_dot_is_what_was_drawn_or_nearly_and_whole_areas_exactly() -> None:
    margin = round(MARGIN_MM * DOTS_PER_MM)
    drawn = picture_of(SCENE, DOTS_PER_MM)
    packed = Image.open(io.BytesIO(to_png(SCENE))).convert("RGB")
    assert packed.size == (drawn.width + 2 * margin, drawn.height + 2 * margin)
    assert packed.getpixel((0, 0)) == (255, 255, 255)
    before = _colours(drawn)
    after = _colours(packed.crop((margin, margin, margin + drawn.width, margin + drawn.height)))
    assert np.abs(after - before).max() < 20
    told, which, counts = np.unique(before, axis=0, return_inverse=True, return_counts=True)
    often = counts > 100
    assert often.sum() > 4
    assert (after[often[which.ravel()]] == before[often[which.ravel()]]).all()
    assert len(told) > len(np.unique(after, axis=0)) == 80


@pytest.mark.parametrize("columns", (1, 80, 81, 300))
def test_more_colours_than_are_kept_go_to_the_nearest(columns: int) -> None:
    drawn = np.array([[(x % 256, 0, 200 if x > 255 else 0) for x in range(columns)]] * 3, dtype=np.uint8)
    packed = Image.open(io.BytesIO(png_bytes(Image.fromarray(drawn))))
    assert packed.mode == "P"
    before, after = drawn.reshape(-1, 3).astype(np.int64), _colours(packed)
    kept = np.unique(after, axis=0)
    assert len(kept) == min(columns, 80)
    nearest = ((before[:, None] - kept[None]) ** 2).sum(axis=2).min(axis=1)
    assert (((before - after) ** 2).sum(axis=1) == nearest).all()
