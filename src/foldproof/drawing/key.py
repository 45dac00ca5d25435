"""The key: what each kind of line and ground on the drawings means."""

from collections.abc import Iterable

from foldproof.drawing.ink import to_svg
from foldproof.drawing.lettering import text_width
from foldproof.drawing.picture import shortened
from foldproof.drawing.plane import XY
from foldproof.drawing.record import PLAIN, Drawing, DrawingStyle
from foldproof.drawing.scene import Area, Arrow, Fill, Hatch, HeadKind, Item, Kind, Label, Line, Scene, framed, moved

SAMPLE = 9.5
"""Width of a sample in millimetres."""
ROW = 4.6
ADHESIVE = Hatch(rings=()).spacing
"""Wider than the hatching of tools, which tells the two apart."""
ARROWS = ("↑", "↓", "←", "→")
"""How the way of a pattern is told."""
MEANINGS: tuple[tuple[str, str], ...] = (
    (Kind.CUT, "cut here, or put on now"),
    (Kind.EDGE, "edge of the paper"),
    (Kind.VALLEY, "valley: folds toward you"),
    (Kind.MOUNTAIN, "mountain: folds away from you"),
    (Kind.CREASE, "scored before"),
    (Kind.PRESSED, "scored for looks, never folded"),
    (Kind.HIDDEN, "hidden edge, or cut away"),
    (Kind.GUIDE, "edge against the fence"),
    (Kind.TRACK, "line to cut or score along"),
    ("fence", "fence, and stop at its left end"),
    ("front", "front of the paper"),
    ("back", "back of the paper"),
    ("pattern", "this way up for the pattern"),
    ("adhesive", "adhesive underneath"),
    ("valley arrow", "fold toward you"),
    ("mountain arrow", "fold behind"),
    ("both ways", "there, and back again"),
)
"""What is explained, in this order."""


def draw_key(wanted: Iterable[str] | None = None, style: DrawingStyle = PLAIN, columns: int = 3) -> Drawing:
    """The key for the kinds that are used, or for all; kinds are the names of strokes and of the other entries."""
    names = None if wanted is None else {str(name) for name in wanted}
    rows = [(kind, words) for kind, words in MEANINGS if names is None or kind in names]
    if columns > 3:
        rows.sort(key=lambda row: -text_width(row[1], style.small_pt))
    deep = -(-len(rows) // columns)
    items: list[Item] = []
    across = 0.0
    for start in range(0, len(rows), deep or 1):
        column = rows[start:start + deep]
        for i, (kind, words) in enumerate(column):
            by = (across, -i * ROW)
            items += [moved(item, by) for item in _sample(kind)]
            items.append(Label(text=words, at=(across + SAMPLE + 2.0, -i * ROW), pt=style.small_pt, anchor="start"))
        across += SAMPLE + 2.0 + max(text_width(words, style.small_pt) for _, words in column) + 3.5
    scene = framed(tuple(items))
    return Drawing(
        svg=to_svg(scene, style), alt=f"Key to the drawings: {'; '.join(words for _, words in rows)}.",
        width_mm=round(scene.width, 2), height_mm=round(scene.height, 2), name="key",
        scene=scene)


def kinds_in(scene: Scene) -> frozenset[str]:
    """The entries of the key that a scene needs."""
    found: set[str] = set()
    for item in scene.items:
        match item:
            case Line(kind=kind):
                found.add(kind)
            case Area(fill=fill, edge=edge):
                found |= {{Fill.TOOL: "fence", Fill.BACK: "back", Fill.FRONT: "front"}.get(fill, ""), edge or ""}
            case Arrow(both=True):
                found.add("both ways")
            case Arrow(head=HeadKind.HOLLOW_HALF):
                found.add("mountain arrow")
            case Arrow():
                found.add("valley arrow")
            case Label(text=text) if text in ARROWS or text.removeprefix("pattern ") in ARROWS:
                found.add("pattern")
            case Hatch(spacing=spacing) if spacing == ADHESIVE:
                found.add("adhesive")
            case _:
                pass
    return frozenset(found & {kind for kind, _ in MEANINGS})


def _sample(kind: str) -> list[Item]:
    """A sample about the level line through the origin, from there to the right."""
    swatch: tuple[XY, ...] = ((1.0, -1.8), (SAMPLE - 1.0, -1.8), (SAMPLE - 1.0, 1.8), (1.0, 1.8))
    arc = tuple((2.0 + (SAMPLE - 4.0) * t, -1.2 + 8.0 * t * (1 - t)) for t in (i / 16 for i in range(17)))
    match kind:
        case "fence":
            return [Area(rings=(swatch,), fill=Fill.TOOL, edge=Kind.MEASURE), Hatch(rings=(swatch,), spacing=1.1)]
        case "front":
            return [Area(rings=(swatch,), fill=Fill.BLANK, edge=Kind.EDGE)]
        case "back":
            return [Area(rings=(swatch,), fill=Fill.BACK, edge=Kind.EDGE)]
        case "adhesive":
            return [Area(rings=(swatch,), fill=Fill.BLANK, edge=Kind.STRONG), Hatch(rings=(swatch,))]
        case "pattern":
            sign = Label(text="↑", at=(SAMPLE / 2, 0.0), pt=8.0)
            return [Area(rings=(swatch,), fill=Fill.BLANK, edge=Kind.EDGE), sign]
        case "valley arrow":
            return [Arrow(points=arc)]
        case "both ways":
            return [Arrow(points=arc, both=True)]
        case "mountain arrow":
            return [
                Line(points=arc[:9], kind=Kind.MOTION),
                Arrow(points=arc[8:], head=HeadKind.HOLLOW_HALF, kind=Kind.HIDDEN, size=3.0),
            ]
        case Kind.CREASE:
            # between two edges: that it stops short of them tells it from them, as much as that it is thin
            edges = [Line(points=((x, -1.8), (x, 1.8)), kind=Kind.EDGE) for x in (0.5, SAMPLE - 0.5)]
            return [*edges, Line(points=shortened((0.5, 0.0), (SAMPLE - 0.5, 0.0)), kind=Kind.CREASE)]
        case _:
            return [Line(points=((0.0, 0.0), (SAMPLE, 0.0)), kind=Kind(kind))]
