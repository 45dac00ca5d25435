"""A scene as a picture of dots (PNG), for where drawings of lines are not taken. The bytes are the same every time."""

import io
from typing import Any

from foldproof.drawing.ink import inked
from foldproof.drawing.record import PLAIN, DrawingStyle
from foldproof.drawing.scene import Scene

DOTS_PER_MM = 8.0
"""About 200 to the inch: sharp on a screen of twice the usual density, where one CSS pixel is 1/96 in."""
MARGIN_MM = 3.0
"""White round the drawing, so that its edge keeps off a dark page."""
GROUND = "#ffffff"
_SHADES = 80
_PACKED = 6
"""How hard a picture is packed, of 9: two steps more take three times as long and save a twelfth."""


def to_png(scene: Scene, style: DrawingStyle = PLAIN) -> bytes:
    """The scene on white with a margin."""
    from PIL import Image

    drawn = picture_of(scene, DOTS_PER_MM, style)
    margin = round(MARGIN_MM * DOTS_PER_MM)
    whole = Image.new("RGBA", (drawn.width + 2 * margin, drawn.height + 2 * margin), GROUND)
    whole.paste(drawn, (margin, margin))
    return png_bytes(whole)


def picture_of(scene: Scene, dots_per_mm: float, style: DrawingStyle = PLAIN) -> Any:
    """The scene as a Pillow picture (RGBA), on white, without a margin."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from PIL import Image

    with inked(scene, style) as figure:
        figure.set_dpi(dots_per_mm * 25.4)
        figure.set_frameon(True)
        figure.patch.set(facecolor=GROUND, linewidth=0)
        canvas: Any = FigureCanvasAgg(figure)
        canvas.draw()
        return Image.frombytes("RGBA", canvas.get_width_height(), canvas.buffer_rgba())


def png_bytes(picture: Any) -> bytes:
    """A drawing's few colours, packed small."""
    written = io.BytesIO()
    _few_colours(picture.convert("RGBA")).save(written, format="PNG", compress_level=_PACKED)
    return written.getvalue()


def _few_colours(picture: Any) -> Any:
    """The picture in the colours that most of its dots have, exactly; the rest, along edges, in the nearest of them.

    Counted by runs of one colour, of which a drawing has a tenth of its dots or fewer.
    """
    import numpy as np
    from PIL import Image

    dots = np.frombuffer(picture.tobytes(), dtype="<u4")
    starts = np.flatnonzero(np.append(True, dots[1:] != dots[:-1]))
    runs = np.diff(starts, append=dots.size)
    colours, which = np.unique(dots[starts], return_inverse=True)
    often = np.argsort(-np.bincount(which, weights=runs), kind="stable")[:_SHADES]
    told = np.stack((colours & 255, colours >> 8 & 255, colours >> 16 & 255), axis=1).astype(np.int32)
    off = ((told[:, None, :] - told[often][None]) ** 2).sum(axis=2)
    drawn = np.repeat(off.argmin(axis=1).astype(np.uint8)[which], runs)
    few = Image.frombytes("P", picture.size, drawn)
    few.putpalette(told[often].astype(np.uint8).tobytes())
    return few
