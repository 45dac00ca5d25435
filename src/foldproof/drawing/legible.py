"""Whether a drawing can be read: what a careful draughtsman would look for, told as sentences. Pure; no ink needed."""

from foldproof.drawing.ink import weight
from foldproof.drawing.nearest import dimension_line, may_be_taken_for
from foldproof.drawing.plane import Box, length_inside
from foldproof.drawing.record import LEAST_LINE_PT, LEAST_TEXT_PT, PLAIN, DrawingStyle
from foldproof.drawing.scene import Area, Dimension, Fill, Hatch, Item, Label, Line, Scene, parts

TOUCH = 0.15
"""Strokes that enter a label's box by no more than this, in millimetres, only graze it."""


def faults(scene: Scene, style: DrawingStyle = PLAIN) -> list[str]:
    """Everything in a scene that cannot be read well; empty when all is well."""
    return [*_text(scene), *_lines(scene, style), *_crowding(scene), *_crossings(scene), *_swapped(scene)]


def _labels(scene: Scene) -> list[Label]:
    return [part for item in scene.items for part in parts(item) if isinstance(part, Label)]


def _text(scene: Scene) -> list[str]:
    canvas = Box(0.0, 0.0, scene.width, scene.height)
    found: list[str] = []
    for label in _labels(scene):
        if label.pt < LEAST_TEXT_PT:
            found.append(f"“{label.text}” is set in {label.pt:g} pt, smaller than {LEAST_TEXT_PT:g} pt")
        if not canvas.holds(label.box):
            found.append(f"“{label.text}” reaches outside the drawing")
        if not label.text.strip():
            found.append("a label without words")
    return found


def _lines(scene: Scene, style: DrawingStyle) -> list[str]:
    kinds = {part.kind for item in scene.items for part in parts(item) if isinstance(part, Line)}
    kinds |= {part.edge for item in scene.items for part in parts(item) if isinstance(part, Area) and part.edge}
    return [
        f"the line for {kind} is {weight(kind, style):g} pt, thinner than {LEAST_LINE_PT:g} pt"
        for kind in sorted(kinds) if weight(kind, style) < LEAST_LINE_PT
    ]


def _crowding(scene: Scene) -> list[str]:
    labels = _labels(scene)
    return [
        f"“{one.text}” and “{other.text}” run into each other"
        for i, one in enumerate(labels) for other in labels[i + 1:] if one.box.meets(other.box)
    ]


def _crossings(scene: Scene) -> list[str]:
    """Strokes and arrow heads that run through words, as far as nothing blank lies between them."""
    found: list[str] = []
    for label in _labels(scene):
        box = label.box
        for item in scene.items:
            if isinstance(item, Hatch) and label.patch:
                continue
            if _runs_through(item, box):
                found.append(f"a line runs through “{label.text}”")
                break
    return found


def _swapped(scene: Scene) -> list[str]:
    """Numbers that stand nearer to the line of another dimension than to their own."""
    lengths = [item for item in scene.items if isinstance(item, Dimension)]
    return [
        f"“{one.label.text}” may be read as the length beside it, “{other.label.text}”"
        for one in lengths for other in lengths if one is not other and may_be_taken_for(
            one.label.box, dimension_line(one), dimension_line(other))
    ]


def _runs_through(item: Item, box: Box) -> bool:
    for part in parts(item):
        match part:
            case Line(points=points, closed=closed):
                steps = list(zip(points, (*points[1:], *points[:1]) if closed else points[1:], strict=False))
                if any(length_inside(p, q, box) > TOUCH for p, q in steps):
                    return True
            case Area(fill=fill, rings=rings, edge=edge) if edge is not None or fill is Fill.INK:
                for ring in rings:
                    if any(length_inside(p, q, box) > TOUCH for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)):
                        return True
            case _:
                pass
    return False
