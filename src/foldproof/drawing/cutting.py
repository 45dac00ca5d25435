"""The cutting list in pictures: every piece and layer to one scale, with its size, count, paper and scores."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from foldproof.drawing.ink import to_svg
from foldproof.drawing.lettering import line_step, wrap
from foldproof.drawing.picture import kind_of_fold, tone_of
from foldproof.drawing.plane import XY, Box, box_round, round_out
from foldproof.drawing.record import PLAIN, Drawing, DrawingStyle
from foldproof.drawing.rows import Wanted, set_in_rows
from foldproof.drawing.scene import Area, Fill, Item, Kind, Label, Line, Scene, framed, items_box, moved
from foldproof.drawing.words import list_of
from foldproof.folding.card import Card, CardPiece, CardSlit, CardWindow
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_size
from foldproof.paper.face import Fold
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Point

LARGEST_MM = 46.0
"""The longest side of the largest piece."""
GUTTER = 6.0
ROW_GAP = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Pieces that are cut alike."""

    pieces: tuple[CardPiece, ...]

    @property
    def first(self) -> CardPiece:
        """The one that is drawn."""
        return self.pieces[0]


def cuts_of(card: Card) -> tuple[Cut, ...]:
    """The pieces and layers that are cut, alike ones without scores together; not what is bought."""
    found: dict[object, list[CardPiece]] = {}
    for piece in card.pieces:
        if not piece.bought:
            alike = (piece.paper, piece.outline) if not (piece.scores or piece.slits or piece.windows) else piece.name
            found.setdefault(alike, []).append(piece)
    return tuple(Cut(pieces=tuple(pieces)) for pieces in found.values())


def cutting_scene(card: Card, style: DrawingStyle = PLAIN, largest_mm: float = LARGEST_MM) -> Scene:
    """The scene of the cutting list."""
    boxes = [bounding_box(piece.outline) for piece in card.pieces]
    scale = min(largest_mm / float(max(max(b.width, b.height) for b in boxes)), float(card.recipe.unit.millimetres))
    items: list[Item] = []
    row: list[tuple[list[Item], Box]] = []
    used = top = 0.0

    def end_row() -> None:
        nonlocal used, top
        across = low = 0.0
        for drawn, box in row:
            items.extend(moved(item, (across - box.left, top - box.top)) for item in drawn)
            across += box.width + GUTTER
            low = max(low, box.height)
        top -= low + ROW_GAP
        used = 0.0
        row.clear()

    for cut in cuts_of(card):
        drawn = _piece_items(card, cut, scale, style)
        box = items_box(tuple(drawn))
        if row and used + box.width > style.width_mm - 3.0:
            end_row()
        row.append((drawn, box))
        used += box.width + GUTTER
    if row:
        end_row()
    return framed(tuple(items))


def draw_cutting_list(
    card: Card, style: DrawingStyle = PLAIN, sizes_mm: Sequence[float] = (LARGEST_MM,),
) -> Drawing:
    """The drawing of the cutting list; its largest piece has the size, of a few, at which the rows are lowest."""
    scene = min((cutting_scene(card, style, size) for size in sizes_mm), key=lambda scene: round(scene.height, 2))
    return Drawing(
        svg=to_svg(scene, style), alt=" ".join(["Cutting list.", *(tell_cut(card, cut) for cut in cuts_of(card))]),
        width_mm=round(scene.width, 2), height_mm=round(scene.height, 2), name="cutting-list",
        scene=scene)


def tell_cut(card: Card, cut: Cut) -> str:
    """One entry in words: what, how many, of what, how large, scored where."""
    unit, piece = card.recipe.unit, cut.first
    box = bounding_box(piece.outline)
    names = list_of(f"the {one.name}" for one in cut.pieces)
    paper = f" of {piece.paper}" if piece.paper else ""
    size = f"{with_unit(box.width, unit)} across" if piece.round else write_size((box.width, box.height), unit)
    words = f"{len(cut.pieces)}{paper}, {size}: {names}"
    scores = [_tell_score(card, piece, score.name) for score in piece.scores]
    scores += [tell_window(window, piece, unit) for window in piece.windows]
    scores += [tell_slit(slit, piece, unit) for slit in piece.slits]
    return f"{words}{'; ' if scores else ''}{'; '.join(scores)}."


def _tell_score(card: Card, piece: CardPiece, name: str) -> str:
    score = next(s for s in piece.scores if s.name == name)
    unit = card.recipe.unit
    kind = {Fold.NONE: "score for looks"}.get(score.fold, f"{score.fold} score")
    a, b = score.segment.start, score.segment.end
    box = bounding_box(piece.outline)
    if a.x == b.x and {a.y, b.y} == {box.bottom, box.top}:
        return f"{name}, a {kind} {with_unit(a.x, unit)} from the left"
    if a.y == b.y and {a.x, b.x} == {box.left, box.right}:
        return f"{name}, a {kind} {with_unit(a.y, unit)} up from the bottom"
    ends = " to ".join(f"{with_unit(p.x, unit)} from the left and {with_unit(p.y, unit)} up" for p in (a, b))
    return f"{name}, a {kind} from {ends}"


def _piece_items(card: Card, cut: Cut, scale: float, style: DrawingStyle) -> list[Item]:
    piece, unit = cut.first, card.recipe.unit
    ring = tuple(_at(p, scale) for p in piece.outline)
    box = box_round(ring)
    if piece.round:
        ring = round_out(ring, [(box.centre, box.width / 2)])
    size = bounding_box(piece.outline)
    holes = []
    for window in piece.windows:
        hole = tuple(_at(p, scale) for p in window.ring)
        holes.append(round_out(hole, [(box_round(hole).centre, box_round(hole).width / 2)]) if window.round else hole)
    items: list[Item] = [
        Area(rings=(ring, *holes), fill=Fill.FRONT, tone=tone_of(card, piece.name), edge=Kind.CUT)]
    wanted = [Wanted(start=(box.left, box.bottom), end=(box.right, box.bottom), text=with_unit(size.width, unit),
                     sides=("below",))]
    if not piece.round:
        wanted.append(Wanted(start=(box.left, box.bottom), end=(box.left, box.top), text=with_unit(size.height, unit),
                             sides=("left",)))
    for score in piece.scores:
        a, b = _at(score.segment.start, scale), _at(score.segment.end, scale)
        items.append(Line(points=(a, b), kind=kind_of_fold(score.fold)))
        wanted += _from_edges(card, piece, (score.segment.start, score.segment.end), scale)
    for slit in piece.slits:
        a, b = _at(slit.segment.start, scale), _at(slit.segment.end, scale)
        items.append(Line(points=(a, b), kind=Kind.CUT))
    wanted += _inner_lengths(card, piece, scale)
    unique = {(w.start, w.end): w for w in wanted}
    items += set_in_rows(unique.values(), box, style.small_pt)
    pt = style.text_pt
    count = f"{len(cut.pieces)} ×"
    drawn = items_box(tuple(items))
    words = f"{count} {list_of(one.name for one in cut.pieces)}{f', {piece.paper}' if piece.paper else ''}"
    top = drawn.bottom - 4.0
    for i, line in enumerate(wrap(words, pt, max(drawn.width, 30.0))):
        items.append(Label(text=line, at=(drawn.left, top - i * line_step(pt)), pt=pt, anchor="start"))
    return items


def _inner_lengths(card: Card, piece: CardPiece, scale: float) -> list[Wanted]:
    """How far slits, windows and the scores that end on them are from the left edge and from the bottom edge."""
    unit, box = card.recipe.unit, bounding_box(piece.outline)
    across: set[Fraction] = set()
    up: set[Fraction] = set()
    for segment in [slit.segment for slit in piece.slits]:
        across |= {segment.start.x, segment.end.x}
        up |= {segment.start.y, segment.end.y}
    for window in piece.windows:
        hole = bounding_box(window.ring)
        across |= {hole.left, hole.right}
        up |= {hole.bottom, hole.top}
    for score in piece.scores if piece.slits or piece.windows else ():
        a, b = score.segment.start, score.segment.end
        across |= {a.x} if a.x == b.x else set()
        up |= {a.y} if a.y == b.y else set()
    return [
        Wanted(start=(0.0, 0.0), end=(float(x) * scale, 0.0), text=with_unit(x, unit), sides=("below",))
        for x in sorted(across) if box.left < x < box.right
    ] + [
        Wanted(start=(0.0, 0.0), end=(0.0, float(y) * scale), text=with_unit(y, unit), sides=("left",))
        for y in sorted(up) if box.bottom < y < box.top
    ]


def tell_window(window: CardWindow, piece: CardPiece, unit: Unit) -> str:
    """A window in words: how large, and where on its piece, upright and front up."""
    box, room = bounding_box(window.ring), bounding_box(piece.outline)
    size = f"{with_unit(box.width, unit)} across" if window.round else write_size((box.width, box.height), unit)
    return (f"{window.name}: window {size}, {with_unit(box.left - room.left, unit)} from the left edge and "
            f"{with_unit(box.bottom - room.bottom, unit)} up from the bottom edge")


def tell_slit(slit: CardSlit, piece: CardPiece, unit: Unit) -> str:
    """A slit in words: where on its piece it runs, upright and front up."""
    room = bounding_box(piece.outline)
    start, end = sorted((slit.segment.start, slit.segment.end))
    (x, y), (right, top) = ((p.x - room.left, p.y - room.bottom) for p in (start, end))
    if x == right:
        low, high = (with_unit(v, unit) for v in sorted((y, top)))
        return f"{slit.name}: slit {with_unit(x, unit)} from the left edge, from {low} to {high} up"
    if y == top:
        return (f"{slit.name}: slit {with_unit(y, unit)} up from the bottom edge, from {with_unit(x, unit)} to "
                f"{with_unit(right, unit)} from the left")
    ends = " to ".join(
        f"{with_unit(h, unit)} from the left and {with_unit(v, unit)} up" for h, v in ((x, y), (right, top)))
    return f"{slit.name}: slit from {ends}"


def _from_edges(card: Card, piece: CardPiece, ends: Iterable[Point], scale: float) -> list[Wanted]:
    """How far a score's ends are from the left edge and from the bottom edge; a corner needs no telling."""
    unit = card.recipe.unit
    box = bounding_box(piece.outline)
    found: list[Wanted] = []
    for p in ends:
        x, y = _at(p, scale)
        right, top = _at(Point(box.right, box.top), scale)
        if box.left < p.x < box.right and p.y in (box.bottom, box.top):
            level, side = (0.0, "below") if p.y == box.bottom else (top, "above")
            found.append(Wanted(start=(0.0, level), end=(x, level), text=with_unit(p.x, unit), sides=(side,)))
        if box.bottom < p.y < box.top and p.x in (box.left, box.right):
            column, side = (0.0, "left") if p.x == box.left else (right, "right")
            found.append(Wanted(start=(column, 0.0), end=(column, y), text=with_unit(p.y, unit), sides=(side,)))
    straight = {(w.text, "level" if w.start[1] == w.end[1] else "upright"): w for w in reversed(found)}
    return list(straight.values())


def _at(p: Point, scale: float) -> XY:
    return (float(p.x) * scale, float(p.y) * scale)
