"""One frame of a step: the work as it lies, what is done to it, and the words round it."""

from collections.abc import Sequence
from dataclasses import replace

from foldproof.drawing.close_up import SMALL, border_close_up
from foldproof.drawing.frame import Frame
from foldproof.drawing.frames import looked_at
from foldproof.drawing.labels import obstacles_of, set_labels
from foldproof.drawing.picture import paper_items, picture_of, seen
from foldproof.drawing.plane import Box
from foldproof.drawing.profile import ARM, edge_on, standing_folds
from foldproof.drawing.record import DrawingStyle
from foldproof.drawing.rows import Wanted, set_in_rows
from foldproof.drawing.scene import Area, Fill, Item, Kind, Line, items_box
from foldproof.drawing.sheet import Sheet, add_lengths, bond_name
from foldproof.drawing.shown_bonds import draw_attached, pattern_up
from foldproof.drawing.shown_cuts import draw_away, draw_cut, draw_slit, new_slits, outline_heavy
from foldproof.drawing.shown_folds import draw_folds, folding_creases
from foldproof.drawing.shown_names import draw_marks, name_panels
from foldproof.drawing.shown_scores import draw_new_creases, new_creases
from foldproof.drawing.shown_tucks import draw_tuck
from foldproof.drawing.tools import THICK, fence_and_stop, guide_edge, tool_names, track
from foldproof.drawing.words import list_of
from foldproof.folding.card import Card
from foldproof.making.table import Done
from foldproof.measures.writing import with_unit
from foldproof.recipe import actions as do


def draw_frame(card: Card, frame: Frame, scale: float, style: DrawingStyle) -> tuple[list[Item], tuple[str, ...]]:
    """The picture of a frame, and what its caption should add; the picture stands anywhere."""
    picture = picture_of(card, frame.table, frame.piece, scale, looked_at(card, frame))
    sheet = Sheet(picture=picture, style=style)
    new = new_creases(frame)
    attached = [done for done in frame.done if isinstance(done.action, do.Attach)]
    guests = [bond.guest for bond in frame.table.bonds if bond.name in {bond_name(done) for done in attached}]
    sheet.items += paper_items(picture, guests, new | folding_creases(picture, frame), new_slits(frame))
    fence = frame.fence and not attached
    if fence:
        sheet.items += guide_edge([pane.ring for pane in picture.panes], picture.box)
    draw_new_creases(sheet, new)
    for done in frame.done:
        _draw_done(sheet, frame, done)
    draw_folds(sheet, frame)
    draw_marks(sheet, frame)
    name_panels(sheet, set(guests))
    box = picture.box
    tools = fence_and_stop(box) if fence else []
    lengths = list(dict.fromkeys(_past_fence(w, box) if fence else w for w in sheet.lengths))
    beside = replace(box, top=box.top + THICK, left=box.left - THICK) if fence else box
    lens = _close_ups(sheet, lengths, box)
    rows = set_in_rows(lengths, beside, style.text_pt, obstacles_of([*sheet.items, *lens]).strokes)
    items = [*sheet.items, *tools, *rows, *lens]
    for hinge, angle in standing_folds(picture):
        room = items_box(tuple(items))
        items += edge_on(picture, hinge, angle, (room.right + ARM + 5.0, box.centre[1]), style.small_pt)
    wishes = [*(tool_names(box, style.small_pt) if fence else []), *sheet.wishes]
    obstacles = obstacles_of(items)
    if lens:
        obstacles = replace(obstacles, boxes=(*obstacles.boxes, items_box(tuple(lens[:1]))))
    return [*items, *set_labels(wishes, obstacles)], (*_borders(sheet), *sheet.notes)


def _close_ups(sheet: Sheet, lengths: Sequence[Wanted], box: Box) -> list[Item]:
    """A close-up of the first narrow border; others as wide are told by their caption."""
    narrow = [border for _, border in sheet.borders if border.wide < SMALL]
    if not narrow:
        return []
    taken = {want.sides[:1] for want in lengths}
    middle = box.left + box.width * 0.4
    leftmost = min(border.inner.centre[0] for border in narrow)
    side = "left" if ("right",) in taken or (leftmost < middle and ("left",) not in taken) else "right"
    chosen = (max if side == "right" else min)(narrow, key=lambda border: border.inner.centre[0])
    return border_close_up(chosen, sheet.items, box, sheet.style.text_pt, side)


def _borders(sheet: Sheet) -> list[str]:
    """`mat and strip: border of 1/8 in all round`."""
    widths = dict.fromkeys(border.text for _, border in sheet.borders)
    return [
        f"{list_of(name for name, border in sheet.borders if border.text == text)}: border of {text} all round"
        for text in widths]


def _past_fence(want: Wanted, box: Box) -> Wanted:
    """A length at the far edge, told from behind the fence."""
    if want.sides[:1] != ("above",):
        return want
    top = box.top + THICK
    return replace(want, start=(want.start[0], top), end=(want.end[0], top))


def _draw_done(sheet: Sheet, frame: Frame, done: Done) -> None:
    match done.action:
        case do.CutOut() | do.DieCut():
            if done is frame.done[0]:
                outline_heavy(sheet)
                round_ = sheet.picture.table.pieces[done.piece or ""].round
                add_lengths(sheet, done.piece or "", replace(done, dimensions=done.dimensions[:1]) if round_ else done)
                for pane in sheet.picture.panes:
                    pattern_up(sheet, pane)
        case do.CutAcross() | do.CutOff() | do.CutBetween():
            draw_cut(sheet, done)
        case do.ScoreAt() | do.MarkAt():
            add_lengths(sheet, done.piece or "", done)
        case do.SlitAt() | do.SlitBetween():
            draw_slit(sheet, done)
        case do.CutAway() | do.RoundCorners() | do.Scallop():
            draw_away(sheet, done)
        case do.ScoreBetween():
            for line in done.lines:
                p, q = (sheet.picture.at(done.piece or "", end) for end in (line.start, line.end))
                sheet.items += track(p, q, sheet.picture.box.top if frame.fence else None)
        case do.Attach():
            draw_attached(sheet, done)
        case do.Tuck():
            draw_tuck(sheet, done.action)
        case do.Measure():
            _measure(sheet, done.action)
        case do.Stamp():
            _stamp(sheet, done.action)
        case do.Tie():
            _tie(sheet, done.action)
        case _:
            pass


def _measure(sheet: Sheet, action: do.Measure) -> None:
    box = sheet.picture.box
    unit = sheet.card.recipe.unit
    sheet.lengths += [
        Wanted(start=(box.left, box.bottom), end=(box.right, box.bottom), sides=("below",),
               text=with_unit(action.size[0].value, unit)),
        Wanted(start=(box.left, box.bottom), end=(box.left, box.top), sides=("left", "right"),
               text=with_unit(action.size[1].value, unit)),
    ]


def _stamp(sheet: Sheet, action: do.Stamp) -> None:
    """The panel that is stamped, its edge heavier. Where on it the words go is for the prose to say."""
    pane = sheet.picture.top_pane(action.panel) if action.panel in sheet.card.panels else None
    if pane is None:
        return
    ring = tuple(sheet.picture.looking.at(pane.part.fit.point(p)) for p in sheet.card.panels[action.panel].ring)
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        sheet.items += [Line(points=s, kind=Kind.STRONG) for s in seen(p, q, pane.over)]
    sheet.notes.append(f"stamp “{action.words}”" if action.words else f"stamp the {action.panel}")


def _tie(sheet: Sheet, action: do.Tie) -> None:
    """A bow beside the work; where the ribbon runs is for the prose to say."""
    box = sheet.picture.box
    x, y = box.right + 10.0, box.centre[1]
    sheet.items += [
        Area(rings=(((x, y), (x - 6, y + 3.2), (x - 6.5, y - 1.4)),), fill=Fill.BLANK, edge=Kind.STRONG),
        Area(rings=(((x, y), (x + 6, y + 3.2), (x + 6.5, y - 1.4)),), fill=Fill.BLANK, edge=Kind.STRONG),
        Line(points=((x, y), (x - 3.5, y - 6.5)), kind=Kind.STRONG),
        Line(points=((x, y), (x + 3.5, y - 6.5)), kind=Kind.STRONG),
    ]
    long = f", {sheet.length(action.length.value)} long" if action.length else ""
    sheet.notes.append(f"tie {action.supply}{long}")
