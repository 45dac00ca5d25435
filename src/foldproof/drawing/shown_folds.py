"""Folds: the line, the arrow from what moves to where it comes to lie, and the words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import compress, pairwise

import numpy as np

from foldproof.drawing.frame import Frame
from foldproof.drawing.labels import Wish, cross
from foldproof.drawing.lettering import cap_height
from foldproof.drawing.motions import fold_arrow, fold_path
from foldproof.drawing.nearest import LEAD, offs
from foldproof.drawing.picture import Pane, Picture, fold_seen, kind_of_fold, score_of, seen
from foldproof.drawing.places import places_along
from foldproof.drawing.plane import XY, length, minus, plus, times
from foldproof.drawing.scene import Arrow, Kind, Label, Line
from foldproof.drawing.sheet import Sheet
from foldproof.drawing.words import list_of
from foldproof.folding.card import Card, Hinge
from foldproof.making.table import Done, Table
from foldproof.making.work import Work, work_with
from foldproof.paper.face import Fold
from foldproof.paper.polygon import area, bounding_box
from foldproof.paper.vector import Point, Ring, Segment
from foldproof.recipe import actions as do

APART = 4.0
"""How far the tips of arrows keep from each other, in millimetres."""


def folding_creases(picture: Picture, frame: Frame) -> frozenset[tuple[str, Segment]]:
    """The creases that the frame folds: they are drawn as folds."""
    scores = {done.action.score for done in frame.done if isinstance(done.action, do.FoldOn)}
    scores |= {score for done in frame.done if isinstance(done.action, do.BringTo) for score, _ in done.after.folded}
    return frozenset(
        (piece.name, crease.segment) for piece in picture.table.pieces.values() for crease in piece.creases
        if (score := score_of(picture.card, piece.name, crease.segment)) is not None and score.name in scores
    )


def draw_folds(sheet: Sheet, frame: Frame) -> None:
    """The folds of a frame, each with its arrow; where there are several, numbered in their order."""
    folds = [done for done in frame.done if isinstance(done.action, do.FoldOn | do.Unfold | do.BringTo)]
    told: dict[str, list[str]] = {}
    arrows: list[_Arrowed] = []
    for number, done in enumerate(folds, start=1):
        back = frame.goes_back(done)
        words = _fold_words(done, back=back)
        if len(folds) > 1:
            told.setdefault(words, []).append(str(number))
        label = Label(text=str(number) if len(folds) > 1 else words, at=(0.0, 0.0), pt=sheet.style.text_pt,
                      bold=len(folds) > 1)
        draw = _draw_together if isinstance(done.action, do.BringTo) else _draw_fold
        arrow = draw(sheet, done, label, back=back)
        if arrow is not None:
            arrows.append(arrow)
    sheet.wishes += [_beside_own(arrow, [other.path for other in arrows if other is not arrow]) for arrow in arrows]
    sheet.notes += [f"{list_of(numbers)}: {words}" for words, numbers in told.items()]
    further = [done.action.score for done in frame.rest if isinstance(done.action, do.Unfold)]
    if further:
        sheet.notes.append(f"the {list_of(further)} too" if frame.back else f"then unfold the {list_of(further)}")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Arrowed:
    """The way of an arrow, what is written beside it, and the places for that."""

    path: tuple[XY, ...]
    label: Label
    places: tuple[tuple[XY, str, bool], ...]


def _beside_own(arrow: _Arrowed, others: Sequence[tuple[XY, ...]]) -> Wish:
    """The wish for what is written beside an arrow: only where it is nearer to this one than to any other."""
    wish = Wish(label=replace(arrow.label, at=arrow.path[10]), places=arrow.places)
    if not others:
        return wish
    boxes = [replace(arrow.label, at=at, anchor=anchor, upright=upright).box for at, anchor, upright in arrow.places]
    own = np.min([offs(boxes, path) for path in others], axis=0) >= offs(boxes, arrow.path) + LEAD
    return replace(wish, places=tuple(compress(arrow.places, own)) or arrow.places)


def _fold_words(done: Done, *, back: bool) -> str:
    match done.action:
        case do.Unfold():
            return "open, close again" if back else "unfold"
        case do.FoldOn(fold=fold, angle=angle):
            far = f" to {float(angle.value):g}°" if angle is not None and angle.value != 180 else ""
            return f"{'mountain' if fold is Fold.MOUNTAIN else 'valley'} fold{far}{', unfold' if back else ''}"
        case _:
            folding = bool(set(dict(done.after.folded)) - set(dict(done.before.folded)))
            if back:
                return "all folds at once, open again" if folding else "open, close again"
            return "all folds at once" if folding else "open"


def _draw_fold(sheet: Sheet, done: Done, label: Label, *, back: bool) -> _Arrowed | None:
    """The score that folds and an arrow from the part that moves to where it comes to lie."""
    picture, card = sheet.picture, sheet.card
    action = done.action
    assert isinstance(action, do.FoldOn | do.Unfold)
    hinge = next((h for h in card.hinges if h.score == action.score), None)
    pane = picture.pane_at(done.piece or "", hinge.segment.middle) if hinge else None
    if hinge is None or pane is None:
        return None
    behind = isinstance(action, do.FoldOn) and action.fold is Fold.MOUNTAIN
    for one in (h for h in card.hinges if h.score == action.score):
        host = picture.pane_at(one.piece, one.segment.middle)
        if host is not None and isinstance(action, do.FoldOn):
            p, q = (picture.looking.at(host.part.fit.point(e)) for e in (one.segment.start, one.segment.end))
            sheet.items += [
                Line(points=s, kind=Kind.MOUNTAIN if behind else Kind.VALLEY) for s in seen(p, q, host.over)]
    moving = _moving(card, done, action.score) or _over_hinge(card, hinge, pane)
    along = minus(*(picture.looking.at(pane.part.fit.point(e)) for e in (hinge.segment.end, hinge.segment.start)))
    path = _beside_others(sheet, fold_path(*(picture.looking.at(p) for p in moving)), along)
    sheet.items += fold_arrow(path, behind=behind, back=back)
    pt = label.pt
    near = list(places_along(path, pt))
    places = (*near[:56], *_at_ends(picture, action.score, pt), *near[56:])
    return _Arrowed(path=path, label=label, places=places)


def _beside_others(sheet: Sheet, path: tuple[XY, ...], along: XY) -> tuple[XY, ...]:
    """The way of an arrow, moved along its score where it would cross an earlier one or end on the tip of one."""
    arrows = [item for item in sheet.items if isinstance(item, Arrow)]
    tips = [tip for item in arrows for tip in (item.points[-1], *(item.points[:1] if item.both else ()))]
    ways = [*(item.points for item in arrows),
            *(item.points for item in sheet.items if isinstance(item, Line) and item.kind is Kind.MOTION)]
    apart: list[tuple[XY, ...]] = []
    for share in (0.0, 0.22, -0.22, 0.36, -0.36):
        by = times(along, share)
        moved = tuple(plus(p, by) for p in path)
        if all(length(minus(end, tip)) > APART for tip in tips for end in (moved[0], moved[-1])):
            apart.append(moved)
            if not any(cross(one, other) for way in ways for one in pairwise(way) for other in pairwise(moved)):
                return moved
    return apart[0] if apart else path


def _draw_together(sheet: Sheet, done: Done, label: Label, *, back: bool) -> _Arrowed | None:
    """Scores that fold at once, each as it folds, and one arrow for the largest part that moves."""
    picture, card = sheet.picture, sheet.card
    before, after = dict(done.before.folded), dict(done.after.folded)
    for hinge in card.hinges:
        host = picture.pane_at(hinge.piece, hinge.segment.middle)
        if host is None or hinge.score not in after or before.get(hinge.score) == after[hinge.score]:
            continue
        p, q = (picture.looking.at(host.part.fit.point(e)) for e in (hinge.segment.start, hinge.segment.end))
        fold = fold_seen(card, hinge.piece, hinge.segment, host.face)
        sheet.items += [Line(points=s, kind=kind_of_fold(fold)) for s in seen(p, q, host.over)]
    piece = done.piece or ""
    moving = _between(card, work_with(card, done.before, piece), work_with(card, done.after, piece))
    if moving is None:
        return None
    path = fold_path(*(picture.looking.at(p) for p in moving))
    sheet.items += fold_arrow(path, behind=False, back=back)
    return _Arrowed(path=path, label=label, places=tuple(places_along(path, label.pt)))


def _at_ends(picture: Picture, score: str, pt: float) -> Iterator[tuple[XY, str, bool]]:
    """Candidates beyond the ends of a fold line, outside the work."""
    box, half = picture.box, cap_height(pt) / 2
    for hinge in picture.card.hinges:
        pane = picture.pane_at(hinge.piece, hinge.segment.middle) if hinge.score == score else None
        if pane is not None:
            for end in (hinge.segment.start, hinge.segment.end):
                x, y = picture.looking.at(pane.part.fit.point(end))
                if abs(y - box.top) < 0.1 or abs(y - box.bottom) < 0.1:
                    yield ((x, y + (2.0 + half) * (1 if abs(y - box.top) < 0.1 else -1)), "middle", False)
                if abs(x - box.right) < 0.1 or abs(x - box.left) < 0.1:
                    right = abs(x - box.right) < 0.1
                    yield ((x + (2.0 if right else -2.0), y), "start" if right else "end", False)


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
    found = _between(card, flat, folded)
    return found[::-1] if found and unfolding else found


def _over_hinge(card: Card, hinge: Hinge, pane: Pane) -> tuple[Point, Point]:
    """The middle of the smaller panel at a hinge and where it lies when folded over, for a fold in a ring.

    In a ring no panel is led by one fold alone; the arrow tells the way that this one goes.
    """
    panel = min((card.panels[name] for name in hinge.panels), key=lambda one: abs(area(one.ring)))
    middle = _centroid(panel.ring)
    foot, way = hinge.segment.start, hinge.segment.end - hinge.segment.start
    over = foot + (way * (2 * (middle - foot).dot(way) / way.square) - (middle - foot))
    return pane.part.fit.point(middle), pane.part.fit.point(over)


def _between(card: Card, flat: Work, folded: Work) -> tuple[Point, Point] | None:
    """The middle of the largest panel that lies otherwise in two states of a body, in the first and in the second.

    A piece that lies whole in one of them is looked up by its panels.
    """
    places = [(part.piece, part.panel, part.fit) for part in folded.parts if part.panel]
    places += [(part.piece, name, part.fit) for part in folded.parts if part.panel is None
               and (plan := card.piece(part.piece)) for name in plan.panels]
    moved: list[tuple[Fraction, Point, Point]] = []
    for piece, name, fit in places:
        before = next((p for p in flat.parts if p.panel == name or (p.panel is None and p.piece == piece)), None)
        if before is None or before.fit == fit:
            continue
        ring = card.panels[name].ring
        box = bounding_box(ring)
        middle = _centroid(ring)
        moved.append((box.width * box.height, before.fit.point(middle), fit.point(middle)))
    if not moved:
        return None
    _, start, end = max(moved, key=lambda one: one[0])
    return start, end


def _centroid(ring: Ring) -> Point:
    xs, ys = [p.x for p in ring], [p.y for p in ring]
    return Point(sum(xs, Fraction(0)) / len(xs), sum(ys, Fraction(0)) / len(ys))
