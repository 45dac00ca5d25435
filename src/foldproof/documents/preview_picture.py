"""The picture that stands for a card where somebody passes on its address, and in the gallery."""

import io
from collections.abc import Mapping
from typing import Any

from foldproof.documents.view import Photo, View
from foldproof.drawing.dots import picture_of, png_bytes
from foldproof.drawing.scene import Scene

WIDE, HIGH = 1200, 630
"""Dots, about 1.91 to 1 (common practice for link previews, no source)."""
GROUND = "#f6eddf"
_EDGE, _GAP = 60, 60
_MOST = 2
"""Drawn poses that are shown side by side."""


def preview_files(view: View) -> Mapping[str, bytes]:
    """`pictures/preview.jpg` of the author's photograph, or `pictures/preview.png` of the first poses; or nothing."""
    if view.photo is not None:
        return {"pictures/preview.jpg": _of_photo(view.photo)}
    scenes = [shown.drawing.scene for shown in view.finished if shown.drawing and shown.drawing.scene]
    return {"pictures/preview.png": _of_scenes(scenes[:_MOST])} if scenes else {}


def preview_name(view: View) -> str:
    """The path of the picture that preview_files makes; empty where it makes none."""
    if view.photo is not None:
        return "pictures/preview.jpg"
    return "pictures/preview.png" if any(shown.drawing and shown.drawing.scene for shown in view.finished) else ""


def preview_words(view: View) -> str:
    """What the picture shows."""
    if view.photo is not None:
        return view.photo.alt
    shown = [one for one in view.finished if one.drawing and one.drawing.scene][:_MOST]
    return f"{view.title}, drawn. " + ". ".join(one.caption for one in shown)


def _of_photo(photo: Photo) -> bytes:
    """The whole photograph, as large as there is room."""
    from PIL import Image

    with Image.open(io.BytesIO(photo.data), formats=("JPEG", "PNG")) as opened:
        picture = opened.convert("RGBA")
    picture.thumbnail((WIDE, HIGH), Image.Resampling.LANCZOS)
    whole = Image.new("RGB", (WIDE, HIGH), GROUND)
    whole.paste(picture, ((WIDE - picture.width) // 2, (HIGH - picture.height) // 2), picture)
    written = io.BytesIO()
    whole.save(written, format="JPEG", quality=84, optimize=True, progressive=True)
    return written.getvalue()


def _of_scenes(scenes: list[Scene]) -> bytes:
    """The poses side by side in one scale, each on a white sheet."""
    from PIL import Image

    room = WIDE - 2 * _EDGE - _GAP * (len(scenes) - 1), HIGH - 2 * _EDGE
    inner = 2 * _PAD
    scale = min(
        (room[0] - inner * len(scenes)) / sum(scene.width for scene in scenes),
        (room[1] - inner) / max(scene.height for scene in scenes))
    sheets = [_sheet(scene, scale) for scene in scenes]
    whole = Image.new("RGBA", (WIDE, HIGH), GROUND)
    across = (WIDE - sum(sheet.width for sheet in sheets) - _GAP * (len(sheets) - 1)) // 2
    for sheet in sheets:
        whole.paste(sheet, (across, (HIGH - sheet.height) // 2))
        across += sheet.width + _GAP
    return png_bytes(whole)


_PAD = 24


def _sheet(scene: Scene, scale: float) -> Any:
    from PIL import Image

    drawn = picture_of(scene, scale)
    sheet = Image.new("RGBA", (drawn.width + 2 * _PAD, drawn.height + 2 * _PAD), "#ffffff")
    sheet.paste(drawn, (_PAD, _PAD))
    return sheet
