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
_SHADES = 128
_PACKED = 8
"""How hard a picture is packed, of 9: the last step takes two and a half times as long and saves one hundredth."""


def to_png(scene: Scene, style: DrawingStyle = PLAIN) -> bytes:
    """The scene on white with a margin."""
    from PIL import Image

    drawn = picture_of(scene, DOTS_PER_MM, style)
    margin = round(MARGIN_MM * DOTS_PER_MM)
    whole = Image.new("RGB", (drawn.width + 2 * margin, drawn.height + 2 * margin), GROUND)
    whole.paste(drawn, (margin, margin))
    return png_bytes(whole)


def picture_of(scene: Scene, dots_per_mm: float, style: DrawingStyle = PLAIN) -> Any:
    """The scene as a Pillow picture, on white, without a margin."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from PIL import Image

    with inked(scene, style) as figure:
        figure.set_dpi(dots_per_mm * 25.4)
        canvas: Any = FigureCanvasAgg(figure)
        canvas.draw()
        width, height = canvas.get_width_height()
        dots = Image.frombytes("RGBA", (width, height), bytes(canvas.buffer_rgba()))
    ground = Image.new("RGBA", dots.size, GROUND)
    return Image.alpha_composite(ground, dots).convert("RGB")


def png_bytes(picture: Any) -> bytes:
    """A drawing's few colours, packed small."""
    written = io.BytesIO()
    picture.quantize(_SHADES, method=0, dither=0).save(written, format="PNG", compress_level=_PACKED)
    return written.getvalue()
