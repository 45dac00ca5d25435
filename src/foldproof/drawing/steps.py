"""A step drawn: its frames side by side, with what happens between them, and the same in words."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import ceil

from foldproof.drawing.frame import Frame
from foldproof.drawing.frames import frames_of
from foldproof.drawing.framing import draw_frame
from foldproof.drawing.ink import to_svg
from foldproof.drawing.lettering import line_step, text_width, wrap
from foldproof.drawing.motions import motion_items
from foldproof.drawing.plane import Box, joined
from foldproof.drawing.record import PLAIN, Drawing, DrawingStyle
from foldproof.drawing.scene import Item, Label, Scene, framed, items_box, moved
from foldproof.drawing.words import LETTERS, caption, list_of, tell_again, tell_step
from foldproof.folding.card import Card, FlatPose
from foldproof.making.table import StepMade
from foldproof.making.work import work_with
from foldproof.paper.polygon import bounding_box
from foldproof.recipe import actions as do

GUTTER = 3.5
"""Between what stands side by side, in millimetres."""
ROW_GAP = 4.0
NARROWEST = 10.0
"""Panels of which several fold in one picture are drawn about so wide at least, in millimetres."""
BESIDE = 32.0
"""Room for what stands beside the work, in millimetres."""
SMALLEST = 13.0
"""A picture whose paper is smaller than this is drawn larger, in millimetres."""


def scale_of(card: Card, style: DrawingStyle = PLAIN) -> float:
    """Millimetres on the drawing in one unit, for all steps: the largest piece fits, nothing beyond life size."""
    sides = [max(box.width, box.height) for box in (bounding_box(piece.outline) for piece in card.pieces)]
    widths = [pose.width for pose in card.poses if isinstance(pose, FlatPose)]
    life = float(card.recipe.unit.millimetres)
    room = (style.width_mm - BESIDE) / float(max((*sides, *widths)))
    return life / _round_up(life / min(style.largest_mm / float(max(sides)), room, life))


def scale_words(card: Card, style: DrawingStyle = PLAIN) -> str:
    """The scale of the drawings of the steps, as it is printed: `1:5`."""
    return f"1:{round(float(card.recipe.unit.millimetres) / scale_of(card, style), 1):g}"


def _round_up(times: float) -> float:
    """How many times smaller than life: a number that can be said."""
    return next(step for step in (1.0, 1.5, 2.0, 2.5, *map(float, range(3, 1000))) if step >= times - 1e-9)


def step_scene(card: Card, made: StepMade, style: DrawingStyle = PLAIN) -> Scene | None:
    """The scene of a step; None when it changes nothing that can be seen."""
    return next(iter(step_scenes(card, made, style, (style.width_mm,))), None)


def step_scenes(card: Card, made: StepMade, style: DrawingStyle, widths_mm: Sequence[float]) -> tuple[Scene, ...]:
    """The scene of a step in each of several widths, those left out in which the pictures had to be smaller.

    The pictures are set once: a width says only where a row of them ends. Empty when the step changes nothing that can
    be seen.
    """
    frames = frames_of(card, made)
    if not frames:
        return ()
    again = list_of(f"the {one.piece}{' as in a mirror' if one.mirrored else ''}" for one in made.spec.repeats)
    last = f"the same with {again}" if again else ""
    cells = [
        _cell(card, frames, i, style, last if frame is frames[-1] else "") for i, frame in enumerate(frames)]
    styles = (replace(style, width_mm=width) for width in widths_mm)
    return tuple(
        framed(tuple(_laid_out(cells, one))) for one in styles if scale_of(card, one) == scale_of(card, style))


def side_by_side(card: Card, frames: Sequence[Frame], words: Sequence[str], style: DrawingStyle = PLAIN) -> Scene:
    """Frames that do not follow from each other, each with a few words of its own in its caption."""
    cells = [_cell(card, [frame], 0, style, said) for frame, said in zip(frames, words, strict=True)]
    return framed(tuple(_laid_out(cells, style)))


def draw_step(card: Card, made: StepMade, style: DrawingStyle = PLAIN) -> Drawing | None:
    """The drawing of a step; None when it changes nothing that can be seen."""
    scene = step_scene(card, made, style)
    return None if scene is None else ink_step(card, made, scene, style)


def ink_step(card: Card, made: StepMade, scene: Scene, style: DrawingStyle) -> Drawing:
    """The drawing of a step whose scene is set already."""
    told = filter(None, (tell_step(card, frames_of(card, made)), tell_again(made.spec)))
    return Drawing(
        svg=to_svg(scene, style), alt=" ".join(told), width_mm=round(scene.width, 2),
        height_mm=round(scene.height, 2), name=f"step-{made.number:02d}",
        scene=scene)


@dataclass(frozen=True)
class _Cell:
    """A frame with its caption, and the sign that leads to it, each about its own origin."""

    sign: tuple[Item, ...]
    picture: tuple[Item, ...]
    caption: tuple[Item, ...]

    @cached_property
    def sign_box(self) -> Box | None:
        return items_box(self.sign) if self.sign else None

    @cached_property
    def box(self) -> Box:
        return items_box(self.picture)

    @cached_property
    def whole(self) -> Box:
        """The room of the picture with its caption."""
        return joined((self.box, items_box(self.caption))) if self.caption else self.box


def _cell(card: Card, frames: Sequence[Frame], i: int, style: DrawingStyle, last: str = "") -> _Cell:
    frame, before = frames[i], frames[i - 1] if i else None
    scale = scale_of(card, style) * magnified(card, frame, style)
    items, notes = draw_frame(card, frame, scale, style)
    if magnified(card, frame, style) > 1:
        notes = (*notes, f"drawn {magnified(card, frame, style)} times as large")
    box = items_box(tuple(items))
    words = caption(card, frame, (*notes, last) if last else notes, before)
    return _Cell(
        sign=tuple(motion_items(frame.motions, style.small_pt)), picture=tuple(items),
        caption=tuple(_caption(words, i if len(frames) > 1 else None, box, style)))


def magnified(card: Card, frame: Frame, style: DrawingStyle) -> int:
    """How many times larger than the other pictures a small piece is drawn, or one that folds in narrow panels.

    Nothing is drawn beyond life size, and no fold larger than twice the largest piece or than what the width leaves.
    """
    outline = frame.table.pieces[frame.table.root(frame.piece)].outline
    box = bounding_box(outline)
    scale, life = scale_of(card, style), float(card.recipe.unit.millimetres)
    size = float(max(box.width, box.height)) * scale
    whole = round(SMALLEST / size + 0.4) if size < SMALLEST else 1
    narrow = _narrowest_fold(card, frame) * scale
    if narrow:
        room = min(2 * style.largest_mm, style.width_mm - BESIDE)
        whole = max(whole, min(ceil(NARROWEST / narrow - 0.05), int(room / (_body_side(card, frame) * scale) + 1e-9)))
    return max(1, min(whole, int(life / scale + 1e-9)))


def _narrowest_fold(card: Card, frame: Frame) -> float:
    """The narrower side of the narrowest panel at what folds, in units; 0 where fewer than two folds share the frame.

    A single arrow is told from its panel however narrow that is; several run into each other.
    """
    scores = [done.action.score for done in frame.done if isinstance(done.action, do.FoldOn | do.Unfold)]
    boxes = [bounding_box(card.panels[name].ring) for hinge in card.hinges if hinge.score in scores
             for name in hinge.panels]
    return float(min(min(box.width, box.height) for box in boxes)) if boxes and len(scores) > 1 else 0.0


def _body_side(card: Card, frame: Frame) -> float:
    """The longer side of the body that a frame shows, in units."""
    body = work_with(card, frame.table, frame.piece)
    box = bounding_box([part.fit.point(p) for part in body.parts for p in part.ring])
    return float(max(box.width, box.height))


def _caption(words: str, index: int | None, box: Box, style: DrawingStyle) -> list[Item]:
    """The letter of the frame and its words, below the picture, from its left edge."""
    pt = style.text_pt
    letter = "" if index is None else LETTERS[index]
    indent = text_width(letter, pt, bold=True) + 2.0 if letter else 0.0
    lines = wrap(words, pt, max(box.width - indent, 34.0)) if words else ()
    top = box.bottom - 3.4
    items: list[Item] = []
    if letter:
        items.append(Label(text=letter, at=(box.left, top), pt=pt, anchor="start", bold=True))
    for i, line in enumerate(lines):
        items.append(Label(text=line, at=(box.left + indent, top - i * line_step(pt)), pt=pt, anchor="start"))
    return items


def _laid_out(cells: list[_Cell], style: DrawingStyle) -> list[Item]:
    """Cells from left to right in rows, as wide as the drawing may be; pictures of a row share their top."""
    items: list[Item] = []
    top = 0.0
    for row in _rows(cells, style):
        across = 0.0
        height = max(cell.box.height for cell in row)
        low = top
        for cell in row:
            sign_box = cell.sign_box
            if sign_box is not None and _stacked(cell, style):
                items += [moved(item, (across - sign_box.left, top - sign_box.top)) for item in cell.sign]
                top -= sign_box.height + GUTTER
            elif sign_box is not None:
                shift = (across - sign_box.left, top - max(height, sign_box.height) / 2 - sign_box.centre[1])
                items += [moved(item, shift) for item in cell.sign]
                low = min(low, top - sign_box.height)
                across += sign_box.width + GUTTER
            box = cell.box
            shift = (across - box.left, top - box.top)
            items += [moved(item, shift) for item in (*cell.picture, *cell.caption)]
            low = min(low, cell.whole.bottom + shift[1])
            across += cell.whole.width + GUTTER
        top = low - ROW_GAP
    return items


def _rows(cells: list[_Cell], style: DrawingStyle) -> list[list[_Cell]]:
    """Cells broken into rows that fit the width."""
    rows: list[list[_Cell]] = []
    used = 0.0
    for cell in cells:
        width = _width(cell, style)
        if rows and used + GUTTER + width <= style.width_mm - 3.0:
            rows[-1].append(cell)
            used += GUTTER + width
        else:
            rows.append([cell])
            used = width
    return rows


def _width(cell: _Cell, style: DrawingStyle) -> float:
    sign = cell.sign_box
    beside = sign.width + GUTTER if sign and not _stacked(cell, style) else 0.0
    return cell.whole.width + beside


def _stacked(cell: _Cell, style: DrawingStyle) -> bool:
    """Whether the sign that leads to a frame stands above it, for want of room beside it."""
    sign = cell.sign_box
    return sign is not None and cell.whole.width + GUTTER + sign.width > style.width_mm - 3.0
