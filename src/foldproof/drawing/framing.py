"""One frame of a step: the work as it lies, what is done to it, and the words round it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from foldproof.drawing.frames import Frame
from foldproof.drawing.labels import Wish, obstacles_of, places_along, places_inside, places_round, set_labels
from foldproof.drawing.lettering import cap_height
from foldproof.drawing.motions import fold_arrow, fold_path
from foldproof.drawing.picture import (
    Pane,
    Picture,
    crease_on,
    fold_seen,
    kind_of_fold,
    paper_items,
    picture_of,
    score_of,
    seen,
)
from foldproof.drawing.plane import (
    XY,
    Box,
    area_of,
    between,
    box_round,
    inside,
    middle_of,
    on_edge,
    plus,
    split_by_rings,
    times,
)
from foldproof.drawing.record import DrawingStyle
from foldproof.drawing.rows import Wanted, set_in_rows
from foldproof.drawing.scene import Area, Fill, Hatch, Item, Kind, Label, Line
from foldproof.drawing.tools import THICK, fence_and_stop, guide_edge, inward_at, tick, tool_names, track
from foldproof.folding.card import Bond, Card
from foldproof.making.lying import turned_over
from foldproof.making.table import Done, Lie, Table
from foldproof.making.work import work_with
from foldproof.measures.writing import with_unit
from foldproof.paper.face import Face, Fold
from foldproof.paper.polygon import Where, bounding_box, locate, on_segment
from foldproof.paper.vector import Point, Ring, Segment, Vector
from foldproof.recipe import actions as do


@dataclass(slots=True)
class Sheet:
    """A frame while it is being drawn: what is on it so far, and what still wants a place."""

    picture: Picture
    style: DrawingStyle
    items: list[Item] = field(default_factory=list)
    lengths: list[Wanted] = field(default_factory=list)
    wishes: list[Wish] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    """Further words for the caption."""

    @property
    def card(self) -> Card:
        """The card that is made."""
        return self.picture.card

    def length(self, value: Fraction) -> str:
        """A length as it is written on the drawing."""
        return with_unit(value, self.card.recipe.unit)


def draw_frame(card: Card, frame: Frame, scale: float, style: DrawingStyle) -> tuple[list[Item], tuple[str, ...]]:
    """The picture of a frame, and what its caption should add; the picture stands anywhere."""
    picture = picture_of(card, frame.table, frame.piece, scale, looked_at(card, frame))
    sheet = Sheet(picture=picture, style=style)
    new = new_creases(frame)
    attached = [done for done in frame.done if isinstance(done.action, do.Attach)]
    guests = [bond.guest for bond in frame.table.bonds if bond.name in {_bond_name(done) for done in attached}]
    sheet.items += paper_items(picture, guests, new | _folding(picture, frame))
    fence = frame.fence and not attached
    if fence:
        sheet.items += guide_edge([pane.ring for pane in picture.panes], picture.box)
    _draw_new_creases(sheet, new)
    for done in frame.done:
        _draw_done(sheet, frame, done)
    _draw_marks(sheet, frame)
    _name_panels(sheet, set(guests))
    box = picture.box
    tools = fence_and_stop(box) if fence else []
    lengths = [_past_fence(w, box) for w in sheet.lengths] if fence else sheet.lengths
    beside = replace(box, top=box.top + THICK, left=box.left - THICK) if fence else box
    items = [*sheet.items, *tools, *set_in_rows(lengths, beside, style.text_pt)]
    wishes = [*(tool_names(box, style.small_pt) if fence else []), *sheet.wishes]
    return [*items, *set_labels(wishes, obstacles_of(items))], tuple(sheet.notes)


def _past_fence(want: Wanted, box: Box) -> Wanted:
    """A length at the far edge, told from behind the fence."""
    if want.sides[:1] != ("above",):
        return want
    top = box.top + THICK
    return replace(want, start=(want.start[0], top), end=(want.end[0], top))


def looked_at(card: Card, frame: Frame) -> Lie | None:
    """How a frame is looked at: as the work lies, unless something is put on the face that is down; None as it lies."""
    for done in frame.done:
        bond = _bond(card, _bond_name(done))
        if bond is None:
            continue
        work = work_with(card, frame.table, frame.piece)
        for part in work.parts:
            if part.piece == card.panels[bond.under.panel].piece and part.panel in (None, bond.under.panel):
                return None if work.face_up(part) is bond.under.face else turned_over(work.lie, "book page")
    return None


def new_creases(frame: Frame) -> frozenset[tuple[str, Segment]]:
    """The creases that the frame makes, (piece, segment)."""
    old = {
        (piece.name, crease.segment) for piece in frame.start.pieces.values() for crease in piece.creases
    }
    return frozenset(
        (piece.name, crease.segment) for piece in frame.table.pieces.values() for crease in piece.creases
        if (piece.name, crease.segment) not in old
    ) if any(isinstance(d.action, do.ScoreAt | do.ScoreBetween) for d in frame.done) else frozenset()


def _folding(picture: Picture, frame: Frame) -> frozenset[tuple[str, Segment]]:
    """The creases that the frame folds: they are drawn as folds."""
    scores = {done.action.score for done in frame.done if isinstance(done.action, do.FoldOn)}
    return frozenset(
        (piece.name, crease.segment) for piece in picture.table.pieces.values() for crease in piece.creases
        if (score := score_of(picture.card, piece.name, crease.segment)) is not None and score.name in scores
    )


def _draw_new_creases(sheet: Sheet, new: frozenset[tuple[str, Segment]]) -> None:
    drawn: set[tuple[float, ...]] = set()
    for pane in sheet.picture.panes:
        for crease in sheet.picture.table.pieces[pane.part.piece].creases:
            if (pane.part.piece, crease.segment) not in new:
                continue
            fold = fold_seen(sheet.card, pane.part.piece, crease.segment, pane.face)
            for p, q in crease_on(sheet.picture, pane, crease):
                for a, b in seen(p, q, pane.over):
                    key = tuple(round(v, 4) for point in sorted((a, b)) for v in point)
                    if key not in drawn:
                        drawn.add(key)
                        sheet.items.append(Line(points=(a, b), kind=kind_of_fold(fold)))
                        words = {Fold.VALLEY: "valley score", Fold.MOUNTAIN: "mountain score"}.get(
                            fold or Fold.NONE, "score, for looks")
                        sheet.wishes.append(Wish(
                            label=Label(text=words, at=a, pt=sheet.style.small_pt, italic=True),
                            places=tuple(_along(a, b, sheet.style.small_pt)), must=False))


def _along(a: XY, b: XY, pt: float) -> Iterator[tuple[XY, str, bool]]:
    """Candidates beside a line, reading along it where it is upright."""
    half = cap_height(pt) / 2
    if min(abs(b[1] - a[1]), abs(b[0] - a[0])) > 1e-6:
        for share in (0.5, 0.35, 0.65, 0.22, 0.78):
            x, y = between(a, b, share)
            yield from (((x + 1.6 + half, y), "start", False), ((x - 1.6 - half, y), "end", False))
        return
    upright = abs(b[1] - a[1]) > abs(b[0] - a[0])
    for share in (0.5, 0.35, 0.65, 0.22, 0.78):
        x, y = between(a, b, share)
        for away in (2.1, -2.1, 3.2, -3.2):
            yield ((x + away, y), "middle", True) if upright else ((x, y + away), "middle", False)


def _draw_done(sheet: Sheet, frame: Frame, done: Done) -> None:
    match done.action:
        case do.CutOut() | do.DieCut():
            if done is frame.done[0]:
                _outline_heavy(sheet)
                _add_lengths(sheet, done.piece or "", done)
                for pane in sheet.picture.panes:
                    _pattern_up(sheet, pane)
        case do.CutAcross() | do.CutBetween():
            _draw_cut(sheet, done)
        case do.ScoreAt() | do.MarkAt():
            _add_lengths(sheet, done.piece or "", done)
        case do.ScoreBetween():
            for line in done.lines:
                p, q = (sheet.picture.at(done.piece or "", end) for end in (line.start, line.end))
                sheet.items += track(p, q, sheet.picture.box.top if frame.fence else None)
        case do.Attach():
            _draw_attached(sheet, done)
        case do.FoldOn() | do.Unfold():
            _draw_fold(sheet, done)
        case do.Measure():
            _measure(sheet, done.action)
        case do.Stamp():
            _stamp(sheet, done.action)
        case do.Tie():
            _tie(sheet, done.action)
        case _:
            pass


def _outline_heavy(sheet: Sheet) -> None:
    for pane in sheet.picture.panes:
        sheet.items.append(Line(points=pane.ring, kind=Kind.CUT, closed=True))


def _add_lengths(sheet: Sheet, piece: str, done: Done, shift: Vector | None = None) -> None:
    """The lengths that an action sets; those from the stop go below, where the fence is not in the way."""
    box = sheet.picture.box
    for dimension in done.dimensions:
        a, b = (
            sheet.picture.at(piece, p + shift if shift else p) for p in (dimension.start, dimension.end))
        text = sheet.length(dimension.measure.value)
        if isinstance(done.action, do.ScoreAt | do.CutAcross):
            a, b = (a[0], box.bottom), (b[0], box.bottom)
            sheet.lengths.append(Wanted(start=a, end=b, text=text, sides=("below",)))
        elif isinstance(done.action, do.CutOut | do.DieCut):
            level = abs(a[1] - b[1]) < 1e-6
            a, b = ((a[0], box.bottom), (b[0], box.bottom)) if level else ((box.left, a[1]), (box.left, b[1]))
            sheet.lengths.append(Wanted(start=a, end=b, text=text, sides=("below",) if level else ("left",)))
        else:
            sheet.lengths.append(Wanted(start=a, end=b, text=text, sides=_near_side(a, b, box)))


def _near_side(a: XY, b: XY, box: Box) -> tuple[str, ...]:
    """The sides of the box at which a length may stand, the nearer first."""
    if abs(a[1] - b[1]) < 1e-6:
        return ("below", "above") if a[1] - box.bottom <= box.top - a[1] else ("above", "below")
    return ("left", "right") if a[0] - box.left <= box.right - a[0] else ("right", "left")


def cut_shift(before: Ring, after: Ring, lines: Sequence[Segment]) -> Vector:
    """From the frame that a piece has after a cut to the one before: a cut moves the frame's corner with the part kept.

    The shift puts the kept part inside the old outline and the cut strictly inside it.
    """
    zero = Vector(Fraction(0), Fraction(0))
    candidates = [zero, *(p - q for p in before for q in after)]
    for shift in candidates:
        held = all(locate(q + shift, before) is not Where.OUT for q in after)
        crossing = all(locate(line.middle + shift, before) is Where.IN for line in lines)
        if held and crossing:
            return shift
    return zero


def _draw_cut(sheet: Sheet, done: Done) -> None:
    piece = done.piece or ""
    before, after = done.before.pieces[piece], done.after.pieces[piece]
    shift = cut_shift(before.outline, after.outline, done.lines)
    kept = tuple(sheet.picture.at(piece, p + shift) for p in after.outline)
    whole = sheet.picture.panes[-1].ring
    face, tone = sheet.picture.panes[-1].face, sheet.picture.panes[-1].tone
    other = done.action.other if isinstance(done.action, do.CutBetween) else None
    if other is None:
        sheet.items += [
            Area(rings=(whole,), fill=Fill.GONE),
            Area(rings=(kept,), fill=Fill.FRONT if face is Face.FRONT else Fill.BACK, tone=tone),
        ]
        for p, q in zip(whole, (*whole[1:], whole[0]), strict=True):
            for a, b, _ in split_by_rings(p, q, (kept,)):
                on_kept = _touches(between(a, b, 0.5), kept)
                sheet.items.append(Line(points=(a, b), kind=Kind.EDGE if on_kept else Kind.HIDDEN))
    for line in done.lines:
        p, q = sheet.picture.at(piece, line.start + shift), sheet.picture.at(piece, line.end + shift)
        sheet.items.append(Line(points=(p, q), kind=Kind.CUT))
        if isinstance(done.action, do.CutBetween):
            sheet.items += track(p, q)
        sheet.wishes.append(Wish(
            label=Label(text="cut", at=p, pt=sheet.style.small_pt, italic=True),
            places=tuple(_along(p, q, sheet.style.small_pt)), must=False))
    _add_lengths(sheet, piece, done, shift)
    rest = _rest(whole, kept)
    pt = sheet.style.text_pt
    sheet.wishes.append(Wish(
        label=Label(text="keep", at=kept[0], pt=pt, bold=True),
        places=tuple(places_inside(kept, "keep", pt, bold=True)), room=kept))
    words = other or "offcut"
    sheet.wishes.append(Wish(
        label=Label(text=words, at=rest, pt=pt, italic=other is None),
        places=(*((p, a, u) for p, a, u in places_inside(whole, words, pt) if not inside(p, kept)),
                *places_round(rest, pt)), about=rest))


def _touches(p: XY, ring: Sequence[XY]) -> bool:
    return on_edge(p, ring, 1e-4)


def _rest(whole: Sequence[XY], kept: Sequence[XY]) -> XY:
    """A point in the part that is not kept: the middle of what is left, weighed by area."""
    a, b = abs(area_of(whole)), abs(area_of(kept))
    w, k = middle_of(whole), middle_of(kept)
    left = a - b
    return ((w[0] * a - k[0] * b) / left, (w[1] * a - k[1] * b) / left) if left > 1e-9 else w


def _bond_name(done: Done) -> str:
    return done.action.bond if isinstance(done.action, do.Attach) else ""


def _bond(card: Card, name: str) -> Bond | None:
    return next((bond for bond in card.bonds if bond.name == name), None)


def _draw_attached(sheet: Sheet, done: Done) -> None:
    """What is put on, hatched where the adhesive is, with its distances; what it hides is dotted."""
    bond = _bond(sheet.card, _bond_name(done))
    made = next((one for one in done.after.bonds if one.name == _bond_name(done)), None)
    if bond is None or made is None:
        return
    picture = sheet.picture
    receiver = sheet.card.panels[bond.under.panel]
    host = picture.top_pane(bond.under.panel)
    guest = picture.top_pane(bond.over.panel)
    if host is None or guest is None:
        return

    def at(p: Point) -> XY:
        return picture.looking.at(host.part.fit.point(p))

    if bond.area is not None:
        sheet.items.append(Hatch(rings=(tuple(at(p) for p in bond.area),)))
    under = tuple(at(p) for p in receiver.ring)
    for p, q in zip(under, (*under[1:], under[0]), strict=True):
        for a, b, covered in split_by_rings(p, q, (guest.ring,)):
            if covered:
                sheet.items.append(Line(points=(a, b), kind=Kind.HIDDEN))
    room = box_round(under)
    laid = box_round(guest.ring)
    for dimension in done.dimensions:
        a, b = at(dimension.start), at(dimension.end)
        text = sheet.length(dimension.measure.value)
        if abs(a[1] - b[1]) < abs(a[0] - b[0]):
            y = max(min(room.bottom, laid.bottom), picture.box.bottom)
            sheet.lengths.append(Wanted(start=(a[0], y), end=(b[0], y), text=text, sides=("below", "above")))
        else:
            leftward = a[0] < picture.box.centre[0] - 1e-6
            x = min(room.left, laid.left) if leftward else max(room.right, laid.right)
            sheet.lengths.append(Wanted(
                start=(x, a[1]), end=(x, b[1]), text=text, sides=("left", "right") if leftward else ("right", "left")))
    pt = sheet.style.text_pt
    sheet.wishes.append(Wish(
        label=Label(text=bond.name if bond.name == made.guest else made.guest, at=guest.ring[0], pt=pt, bold=True),
        places=(*places_inside(guest.ring, made.guest, pt, bold=True), *places_round(middle_of(guest.ring), pt)),
        about=middle_of(guest.ring)))
    assert isinstance(done.action, do.Attach)
    border = done.action.at.border
    if border is not None:
        sheet.notes.append(f"{made.guest}: border of {sheet.length(border.value)} all round")
    _pattern_up(sheet, guest)
    centred = done.action.at.centred
    if centred is not None:
        way = {"both": "centred", "across": "centred across", "up": "centred up and down"}[centred]
        upon = f" on the {done.action.at.centred_on}" if done.action.at.centred_on else f" on the {bond.under.panel}"
        sheet.notes.append(f"{made.guest} {way}{upon}")


def _pattern_up(sheet: Sheet, pane: Pane) -> None:
    """An arrow that says which way a patterned paper stands, where that matters and its front shows."""
    plan = sheet.card.piece(pane.part.piece)
    upright = {paper.name.value for paper in sheet.card.recipe.papers if paper.pattern == "upright"}
    if plan is None or plan.paper not in upright or pane.face is not Face.FRONT:
        return
    foot, head = (sheet.picture.looking.at(pane.part.fit.point(Point(Fraction(0), Fraction(y)))) for y in (0, 1))
    sign = "↑" if head[1] > foot[1] + 1e-6 else "↓" if head[1] < foot[1] - 1e-6 else "→" if head[0] > foot[0] else "←"
    words = f"pattern {sign}"
    pt = sheet.style.small_pt
    sheet.wishes.append(Wish(
        label=Label(text=words, at=pane.ring[0], pt=pt, italic=True), must=False, room=pane.ring,
        places=tuple(p for p in places_inside(pane.ring, words, pt, covered=pane.over) if not p[2])))


def _draw_fold(sheet: Sheet, done: Done) -> None:
    """The score that folds and an arrow from the part that moves to where it comes to lie."""
    picture, card = sheet.picture, sheet.card
    action = done.action
    assert isinstance(action, do.FoldOn | do.Unfold)
    moving = _moving(card, done, action.score)
    hinge = next((h for h in card.hinges if h.score == action.score), None)
    pane = picture.pane_at(done.piece or "", hinge.segment.middle) if hinge else None
    if hinge is None or pane is None:
        return
    behind = isinstance(action, do.FoldOn) and action.fold is Fold.MOUNTAIN
    for one in (h for h in card.hinges if h.score == action.score):
        host = picture.pane_at(one.piece, one.segment.middle)
        if host is not None and isinstance(action, do.FoldOn):
            p, q = (picture.looking.at(host.part.fit.point(e)) for e in (one.segment.start, one.segment.end))
            sheet.items += [
                Line(points=s, kind=Kind.MOUNTAIN if behind else Kind.VALLEY) for s in seen(p, q, host.over)]
    if moving is None:
        return
    path = fold_path(*(picture.looking.at(p) for p in moving))
    sheet.items += fold_arrow(path, behind=behind)
    if isinstance(action, do.Unfold):
        words = "unfold"
    else:
        words = "mountain fold" if behind else "valley fold"
        if action.angle is not None and action.angle.value != 180:
            words += f" to {float(action.angle.value):g}°"
    pt = sheet.style.text_pt
    sheet.wishes.append(Wish(label=Label(text=words, at=path[10], pt=pt), places=tuple(places_along(path, pt))))


def _moving(card: Card, done: Done, score: str) -> tuple[Point, Point] | None:
    """The middle of the largest panel that a fold moves, before and after, in the frame of the body's root.

    A fold that is not right over is shown as if it were: the arrow tells the way.
    """
    def angles(table: Table, angle: Fraction) -> Table:
        rest = tuple(entry for entry in table.folded if entry[0] != score)
        return replace(table, folded=(*rest, (score, angle)) if angle else rest)

    unfolding = isinstance(done.action, do.Unfold)
    piece = done.piece or ""
    table = done.before if unfolding else done.after
    folded = work_with(card, angles(table, Fraction(180)), piece)
    flat = work_with(card, angles(table, Fraction(0)), piece)
    places = {part.panel: part for part in folded.parts if part.panel}
    moved: list[tuple[Fraction, Point, Point]] = []
    for name, part in places.items():
        before = next((p for p in flat.parts if p.panel == name or (p.panel is None and p.piece == part.piece)), None)
        if before is None or before.fit == part.fit:
            continue
        box = bounding_box(part.ring)
        middle = _centroid(part.ring)
        moved.append((box.width * box.height, before.fit.point(middle), part.fit.point(middle)))
    if not moved:
        return None
    _, start, end = max(moved, key=lambda one: one[0])
    return (end, start) if unfolding else (start, end)


def _centroid(ring: Ring) -> Point:
    xs, ys = [p.x for p in ring], [p.y for p in ring]
    return Point(sum(xs, Fraction(0)) / len(xs), sum(ys, Fraction(0)) / len(ys))


def _measure(sheet: Sheet, action: do.Measure) -> None:
    box = sheet.picture.box
    unit = sheet.card.recipe.unit
    sheet.lengths += [
        Wanted(start=(box.left, box.bottom), end=(box.right, box.bottom), sides=("below",),
               text=with_unit(action.size[0].value, unit)),
        Wanted(start=(box.left, box.bottom), end=(box.left, box.top), sides=("left",),
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


def _draw_marks(sheet: Sheet, frame: Frame) -> None:
    made = {done.action.name for done in frame.done if isinstance(done.action, do.MarkAt)}
    for pane in sheet.picture.panes:
        for mark in sheet.picture.table.pieces[pane.part.piece].marks:
            if mark.face is not pane.face or sheet.picture.pane_at(pane.part.piece, mark.at) is not pane:
                continue
            at = sheet.picture.looking.at(pane.part.fit.point(mark.at))
            if any(inside(at, ring) for ring in pane.over):
                continue
            inward = inward_at(at, pane.ring)
            sheet.items += tick(at, inward)
            tip = plus(at, times(inward, 3.2))
            pt = sheet.style.text_pt if mark.name in made else sheet.style.small_pt
            sheet.wishes.append(Wish(
                label=Label(text=mark.name, at=tip, pt=pt, quiet=mark.name not in made),
                places=tuple(places_round(tip, pt)), about=at))


def _name_panels(sheet: Sheet, told: set[str]) -> None:
    """The names of the panels that show, small and quiet."""
    picture, pt = sheet.picture, sheet.style.small_pt
    several = len({pane.part.piece for pane in picture.panes}) > 1
    for pane in picture.panes:
        plan = sheet.card.piece(pane.part.piece)
        if plan is None or (plan.name in told and len(plan.panels) == 1):
            continue
        for name in _panels_ready(sheet, pane):
            if name == plan.name and not several:
                continue
            panel = sheet.card.panels[name]
            ring = tuple(picture.looking.at(pane.part.fit.point(p)) for p in panel.ring)
            words = name if pane.face is picture.work.lie.up else f"{name}, {pane.face}"
            places = tuple(places_inside(ring, words, pt, covered=pane.over))
            if places:
                label = Label(text=words, at=places[0][0], pt=pt, quiet=True)
                sheet.wishes.append(Wish(label=label, places=places, room=ring, must=False))


def _panels_ready(sheet: Sheet, pane: Pane) -> list[str]:
    """The panels of a pane that have been scored out by now."""
    if pane.part.panel is not None:
        return [pane.part.panel]
    plan = sheet.card.piece(pane.part.piece)
    if plan is None:
        return []
    on_table = sheet.picture.table.pieces[plan.name]
    if len(plan.panels) == 1:
        return list(plan.panels)
    pressed = [crease.segment for crease in on_table.creases]
    ready: list[str] = []
    for name in plan.panels:
        hinges = [hinge for hinge in sheet.card.hinges if name in hinge.panels]
        if all(any(_covers(line, hinge.segment) for line in pressed) for hinge in hinges):
            ready.append(name)
    return ready


def _covers(line: Segment, stretch: Segment) -> bool:
    return on_segment(stretch.start, line) and on_segment(stretch.end, line)
