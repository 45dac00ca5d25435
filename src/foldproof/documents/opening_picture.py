"""The card that opens and closes as one animated picture, for a post."""

import io
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from foldproof.documents.opening_view import opening_view
from foldproof.documents.view import View
from foldproof.drawing.opening import Opening, Patch
from foldproof.drawing.record import PLAIN

NAME = "opening.webp"
WIDE = 560
"""Dots across, at most."""
FINER = 2
"""Drawn so many times larger, then made smaller, so that slanted edges are smooth."""
ON_THE_WAY, IN_A_POSE = 70, 1300
"""Milliseconds that a frame stands."""
LARGEST = 1_000_000
"""Bytes, at most (our own measure for a post)."""
GROUND = "#ffffff"


def with_opening(view: View, opening: Opening | None) -> View:
    """The view with the card that opens."""
    captions = {shown.pose: shown.caption for shown in view.finished}
    return view if opening is None else replace(view, opening=opening_view(opening, captions))


def opening_files(opening: Opening | None) -> Mapping[str, bytes]:
    """The animated picture, where there is a way to show."""
    return {} if opening is None else {NAME: opening_picture(opening)}


def opening_picture(opening: Opening) -> bytes:
    """WebP: from the first pose to the last and back again, over and over."""
    count = len(opening.frames)
    order = [*range(count), *range(count - 2, 0, -1)]
    held = {stop.frame for stop in opening.stops}
    times = [IN_A_POSE if number in held else ON_THE_WAY for number in order]
    for wide in (WIDE, WIDE // 2, WIDE // 4):
        drawn = [_drawn(patches, opening, wide) for patches in opening.frames]
        written = io.BytesIO()
        drawn[0].save(
            written, format="WEBP", save_all=True, append_images=[drawn[number] for number in order[1:]],
            duration=times, loop=0, lossless=True, quality=20, method=1, kmax=0)  # no second try of a frame as a whole
        if written.tell() <= LARGEST:
            break
    return written.getvalue()


def _drawn(patches: Sequence[Patch], opening: Opening, wide: int) -> Any:
    """One frame as a picture of dots."""
    from PIL import Image, ImageDraw

    high = round(wide * opening.height / opening.width)
    scale = wide * FINER / opening.width
    picture = Image.new("RGB", (wide * FINER, high * FINER), GROUND)
    pen = ImageDraw.Draw(picture)
    for patch in patches:
        ring = [(x * scale, y * scale) for x, y in patch.ring]
        if len(ring) > 2:
            pen.polygon(ring, fill=patch.colour, outline=patch.colour)
        for line in patch.edges:
            pen.line([(x * scale, y * scale) for x, y in line], fill=PLAIN.ink, width=round(1.5 * FINER), joint="curve")
    return picture.reduce(FINER)
