"""A scene to SVG, through matplotlib. The bytes are the same every time for the same scene and style."""

import io
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache, partial
from itertools import pairwise
from typing import Any

from foldproof.drawing.lettering import (
    FRACTION_SIZE,
    MM_PER_PT,
    cap_height,
    font_files,
    line_step,
    runs,
    text_width,
)
from foldproof.drawing.outlines import outlined
from foldproof.drawing.plane import XY, left_of, length, minus, plus, times, unit
from foldproof.drawing.record import PLAIN, DrawingStyle
from foldproof.drawing.scene import Area, Fill, Hatch, Kind, Label, Line, Scene, parts

DASHES: dict[Kind, tuple[float, ...]] = {
    Kind.VALLEY: (2.4, 1.3),
    Kind.MOUNTAIN: (3.6, 1.0, 0.5, 1.0, 0.5, 1.0),
    Kind.PRESSED: (6.0, 1.0),
    Kind.HIDDEN: (0.45, 0.9),
    Kind.TRACK: (5.0, 1.2),
}
"""Marks and gaps in millimetres; a kind that is not here is solid."""


FRACTION_PARTS = {
    "numr": "Source Sans Pro Raised", "frac": "Source Sans Pro Stroke", "dnom": "Source Sans Pro Lowered"}
"""The families of a fraction's figures above, its stroke and its figures below, by the feature of the font that sets
them so. A printer that is told `frac` for the whole of it raises both figures in a drawing."""
_FRACTION = re.compile(r"(<text [^>]*>)(\d+)/(\d+)</text>")
_WAY = re.compile(r'\bd="([^"]*)"')
_ALIKE = re.compile(r'<path d="[^"]*"(?P<look> fill="none"[^>]*)/>\s*(?:<path d="[^"]*"(?P=look)/>\s*)+')
_SEAM = 0.4
"""Points: how far a part of an area is inked beyond its edge, so that it runs into the part beside it."""


def weight(kind: Kind, style: DrawingStyle) -> float:
    """The width of a stroke in points."""
    return {
        Kind.CUT: style.heavy_pt, Kind.GUIDE: style.heavy_pt * 1.7, Kind.EDGE: style.edge_pt,
        Kind.STRONG: style.heavy_pt * 0.7, Kind.QUIET: style.thin_pt,
        Kind.VALLEY: style.score_pt, Kind.MOUNTAIN: style.score_pt,
        Kind.PRESSED: style.score_pt * 0.8, Kind.CREASE: style.thin_pt, Kind.HIDDEN: style.edge_pt * 0.9,
        Kind.MEASURE: style.thin_pt, Kind.TRACK: style.thin_pt * 1.25, Kind.HATCH: style.thin_pt,
        Kind.MOTION: style.score_pt,
    }[kind]


def ink_of(kind: Kind, style: DrawingStyle) -> str:
    """The colour of a stroke."""
    return style.quiet if kind in (Kind.QUIET, Kind.HATCH) else style.ink


@lru_cache(maxsize=512)
def to_svg(scene: Scene, style: DrawingStyle = PLAIN) -> str:
    """One `<svg>` element, its size in millimetres, its words as text.

    A scene that was inked before is not inked again: after an edit most drawings of a card are as they were.
    """
    from matplotlib.backends.backend_svg import FigureCanvasSVG

    with inked(scene, style, dotted=False) as figure:
        FigureCanvasSVG(figure)
        written = io.StringIO()
        figure.savefig(written, format="svg", metadata={"Date": None, "Creator": None, "Type": None, "Format": None})
    return _tidied(written.getvalue(), scene, style)


@contextmanager
def inked(scene: Scene, style: DrawingStyle = PLAIN, *, dotted: bool = True) -> Iterator[Any]:
    """A figure of the scene's size with everything in it, to be saved while the block runs.

    `dotted` says that it becomes dots: words are outlines, fractions with small raised and lowered figures.
    """
    import matplotlib
    from matplotlib.figure import Figure
    from matplotlib.transforms import Affine2D

    _register_fonts()
    settings: Any = {
        "svg.fonttype": "none", "svg.hashsalt": "foldproof", "lines.scale_dashes": False,
        "font.family": style.family, "path.simplify": False,
    }
    with matplotlib.rc_context(settings):
        figure = Figure(figsize=(scene.width / 25.4, scene.height / 25.4), dpi=72, frameon=False)
        on_paper = Affine2D().scale(1 / 25.4) + figure.dpi_scale_trans
        for order, item in enumerate(scene.items):
            drawn = [_hatch(item, style)] if isinstance(item, Hatch) else [
                artist for part in parts(item) for artist in _artists(part, style, dotted)]
            for artist in drawn:
                artist.set_transform(on_paper)
                artist.set_zorder(order)
                figure.add_artist(artist)
        yield figure


def _artists(part: Line | Area | Label, style: DrawingStyle, dotted: bool) -> list[Any]:
    match part:
        case Line():
            return [_line(part, style)]
        case Area():
            return [_area(part, style)]
        case Label():
            return _label(part, style, dotted)


def _line(line: Line, style: DrawingStyle) -> Any:
    from matplotlib.lines import Line2D

    points = (*line.points, line.points[0]) if line.closed else line.points
    if line.within:
        aside = times(left_of(unit(minus(points[-1], points[0]))), weight(line.kind, style) * MM_PER_PT / 2)
        points = tuple(plus(p, aside) for p in points)
    drawn = Line2D(
        [p[0] for p in points], [p[1] for p in points], linewidth=weight(line.kind, style),
        color=ink_of(line.kind, style), solid_joinstyle="miter", dash_joinstyle="miter",
        solid_capstyle="projecting" if line.kind is Kind.EDGE and not line.within else "butt", dash_capstyle="butt",
    )
    marks = DASHES.get(line.kind)
    if marks:
        drawn.set_linestyle((0, tuple(mark / MM_PER_PT for mark in shortened(marks, points))))
    return drawn


def shortened(marks: Sequence[float], points: Sequence[XY]) -> tuple[float, ...]:
    """The marks and gaps of a line that is too short for them, drawn closer: what kind of line it is must be seen.

    A line shows at least one and a half rounds of its marks; nothing is drawn closer than to a third.
    """
    whole = sum(length(minus(b, a)) for a, b in pairwise(points))
    share = max(1 / 3, min(1.0, whole / (1.5 * sum(marks))))
    return tuple(mark * share for mark in marks)


def _area(area: Area, style: DrawingStyle) -> Any:
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    corners: list[tuple[float, float]] = []
    codes: list[int] = []
    for ring in area.rings:
        corners += [*ring, ring[0]]
        codes += [int(Path.MOVETO), *[int(Path.LINETO)] * (len(ring) - 1), int(Path.CLOSEPOLY)]
    edge, face = area.edge, colour_of(area, style)
    around = face if area.part else "none"
    return PathPatch(
        Path(corners, codes), facecolor=face, linewidth=weight(edge, style) if edge else _SEAM if area.part else 0.0,
        edgecolor=ink_of(edge, style) if edge else around, joinstyle="miter",
    )


def _hatch(hatch: Hatch, style: DrawingStyle) -> Any:
    """All strokes of a hatching as one path."""
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    strokes = [part.points for part in parts(hatch) if isinstance(part, Line)]
    codes = [int(Path.MOVETO), int(Path.LINETO)] * len(strokes)
    corners = [p for stroke in strokes for p in stroke]
    return PathPatch(
        Path(corners or [(0.0, 0.0)], codes or [int(Path.MOVETO)]), fill=False, linewidth=weight(Kind.HATCH, style),
        edgecolor=ink_of(Kind.HATCH, style), capstyle="butt")


def _label(label: Label, style: DrawingStyle, dotted: bool) -> list[Any]:
    from matplotlib.patches import Rectangle
    from matplotlib.text import Text

    drawn: list[Any] = []
    if label.patch:
        box = label.box.grown(0.4)
        drawn.append(Rectangle((box.left, box.bottom), box.width, box.height, facecolor="white", linewidth=0))
    half = cap_height(label.pt) / 2
    top = (len(label.lines) - 1) * line_step(label.pt) / 2
    for i, line in enumerate(label.lines):
        x, y = label.at
        below = half - top + i * line_step(label.pt)
        x, y = (x + below, y) if label.upright else (x, y - below)
        for part, along, larger in _runs_along(label, line):
            at = (x, y + along) if label.upright else (x + along, y)
            anchor, colour = "start" if "/" in line else label.anchor, style.quiet if label.quiet else style.ink
            drawn.append(outlined(
                part, at, label.pt * larger, colour, anchor=anchor, upright=label.upright, bold=label.bold,
                italic=label.italic,
            ) if dotted else Text(
                *at, part, fontsize=label.pt * larger, color=colour, va="baseline",
                ha={"start": "left", "middle": "center", "end": "right"}[anchor], rotation_mode="anchor",
                rotation=90 if label.upright else 0, weight="bold" if label.bold else "normal",
                style="italic" if label.italic else "normal", parse_math=False,
            ))
    return drawn


def _runs_along(label: Label, line: str) -> Iterator[tuple[str, float, float]]:
    """The parts of a line, fractions apart: how far each starts from the label's point, how much larger it is set.

    A blank at the start of a part is left out, for readers of SVG leave it out, too.
    """
    if "/" not in line:
        yield line, 0.0, 1.0
        return
    whole = text_width(line, label.pt, bold=label.bold, italic=label.italic)
    along = {"start": 0.0, "middle": -whole / 2, "end": -whole}[label.anchor]
    for part, fraction in runs(line):
        blank = part[:len(part) - len(part.lstrip())]
        shift = text_width(blank, label.pt, bold=label.bold, italic=label.italic) if blank else 0.0
        yield part.lstrip(), along + shift, FRACTION_SIZE if fraction else 1.0
        along += text_width(part, label.pt, bold=label.bold, italic=label.italic)


def colour_of(area: Area, style: DrawingStyle = PLAIN) -> str:
    """The colour of an area as it is inked, #rrggbb."""
    return shaded(_fill(area, style), area.shade)


def _fill(area: Area, style: DrawingStyle) -> str:
    match area.fill:
        case Fill.FRONT:
            return lightened(area.tone, style.front_share)
        case Fill.BACK:
            return style.back_grey
        case Fill.INK:
            return style.ink
        case Fill.TOOL:
            return "#f1f1f1"
        case Fill.BLANK | Fill.GONE:
            return "#ffffff"


def lightened(tone: str | None, share: float) -> str:
    """A paper's tone mixed with white, light enough that ink on it keeps more than 7:1; white when it is not known."""
    from matplotlib.colors import is_color_like, to_hex, to_rgb

    if tone is None or not is_color_like(tone):
        return "#ffffff"
    red, green, blue = to_rgb(tone)
    while True:
        mixed = to_hex((1 - share * (1 - red), 1 - share * (1 - green), 1 - share * (1 - blue)))
        if contrast(mixed, PLAIN.ink) >= 9:
            return str(mixed)
        share *= 0.8


def shaded(colour: str, shade: float) -> str:
    """A colour mixed with black."""
    from matplotlib.colors import to_hex, to_rgb

    red, green, blue = (part * (1 - shade) for part in to_rgb(colour))
    return str(to_hex((red, green, blue))) if shade else colour


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours, 1 to 21 (WCAG 2.2, relative luminance)."""
    from matplotlib.colors import to_rgb

    def luminance(colour: str) -> float:
        linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in to_rgb(colour)]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@lru_cache(maxsize=1)
def _register_fonts() -> None:
    from matplotlib import font_manager

    for file in font_files():
        font_manager.fontManager.addfont(file)


def _fraction(text: re.Match[str], style: DrawingStyle) -> str:
    """A fraction in its three parts, of which each is set by its own family or, in a browser, by its feature."""
    opened, over, under = text.groups()
    parts = zip(FRACTION_PARTS.items(), (over, "/", under), strict=True)
    told = "".join(
        f"<tspan font-family=\"'{family}', '{style.family}', sans-serif\""
        f" style=\"font-feature-settings: '{feature}'\">{part}</tspan>" for (feature, family), part in parts)
    return f"{opened}{told}</text>"


def _attributes(found: re.Match[str]) -> str:
    """A style sheet of one element as attributes: the printer takes much longer to read a sheet."""
    told = (each.partition(":") for each in found[1].split(";") if each.strip())
    return "".join(f' {name.strip()}="{value.strip()}"' for name, _, value in told)


def _strokes(found: re.Match[str]) -> str:
    """Paths that follow each other and are stroked alike, and not filled, as one: opaque ink shows no difference."""
    return f'<path d="{" ".join(_WAY.findall(found[0]))}"{found["look"]}/>\n'


def _tidied(svg: str, scene: Scene, style: DrawingStyle) -> str:
    """Only the element, sized in millimetres, without the names that would clash when several stand in one page."""
    body = svg[svg.index("<svg"):]
    body = re.sub(r"<metadata>.*?</metadata>\s*", "", body, flags=re.DOTALL)
    body = re.sub(r"<defs>\s*<style.*?</style>\s*</defs>\s*", "", body, count=1, flags=re.DOTALL)
    body = re.sub(r' id="[^"]*"', "", body)
    size = f'width="{scene.width:.2f}mm" height="{scene.height:.2f}mm"'
    body = re.sub(r'width="[\d.]+pt" height="[\d.]+pt"', size, body, count=1)
    body = re.sub(r"</?g>\s*", "", body)
    body = re.sub(r' transform="rotate\(-0 [^)]*\)"', "", body)
    body = body.replace(f"font-family: '{style.family}'", f"font-family: '{style.family}', sans-serif")
    body = re.sub(r' style="([^"]*)"', _attributes, body)
    body = _FRACTION.sub(partial(_fraction, style=style), body)
    body = _WAY.sub(lambda path: f'd="{" ".join(path[1].split())}"', body)
    body = _ALIKE.sub(_strokes, body)
    body = body.replace("<svg ", '<svg role="img" ', 1)
    return body.strip() + "\n"
