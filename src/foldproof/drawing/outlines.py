"""Words as outlines of their letters, for drawings that become dots: shaped once, whatever their size and place."""

from functools import lru_cache
from typing import Any

from foldproof.drawing.lettering import MM_PER_PT, font_files, is_fraction, raised_figures, text_width
from foldproof.drawing.plane import XY

_SHARE = {"start": 0.0, "middle": 0.5, "end": 1.0}
"""How much of a line stands before the point that it is set at."""
_EM = 100.0
"""Points, at which letters are shaped without regard to dots."""
_STANDS_IN = "DejaVu Sans"
"""The family, shipped with matplotlib, whose letters are taken where the drawings' own has none."""


def outlined(
    text: str, at: XY, pt: float, colour: str, *, anchor: str, upright: bool = False, bold: bool = False,
    italic: bool = False,
) -> Any:
    """A line, or a fraction with raised and lowered figures, as a filled path in the scene's millimetres.

    `at` is on the line that letters stand on: its start, its middle or its end as `anchor` says. `upright` lets it run
    upward.
    """
    import numpy as np
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    corners, codes = _shape(raised_figures(text) if is_fraction(text) else text, 1 if bold else 2 if italic else 0)
    share = _SHARE[anchor]
    before = share * text_width(text, pt, bold=bold, italic=italic) if share else 0.0
    placed = corners * (pt * MM_PER_PT / _EM) - (before, 0.0)
    if upright:
        placed = np.stack((-placed[:, 1], placed[:, 0]), axis=1)
    return PathPatch(Path(placed + at, codes), facecolor=colour, linewidth=0)


@lru_cache(maxsize=4096)
def _shape(text: str, cut: int) -> tuple[Any, Any]:
    """Corners, at the size of an em, and the codes of the path through them."""
    import numpy as np
    from matplotlib.font_manager import findfont, get_font
    from matplotlib.textpath import text_to_path

    font = get_font((font_files()[cut], findfont(_STANDS_IN)))
    font.set_size(_EM, 72)
    placed, known, _ = text_to_path.get_glyphs_with_font(font, text)
    corners, codes = [np.empty((0, 2))], [np.empty(0, np.uint8)]
    for name, x, y, _ in placed:
        corners.append(np.reshape(known[name][0], (-1, 2)) + np.array((x, y)))
        codes.append(known[name][1])
    return np.concatenate(corners), np.concatenate(codes)
