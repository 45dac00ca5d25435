"""Names on the work: its panels, and the pencil marks."""


from foldproof.drawing.frame import Frame
from foldproof.drawing.labels import Wish
from foldproof.drawing.picture import Pane
from foldproof.drawing.places import places_inside, places_round
from foldproof.drawing.plane import inside, on_edge, plus, times
from foldproof.drawing.scene import Label
from foldproof.drawing.sheet import Sheet
from foldproof.drawing.tools import cross_mark, inward_at, tick
from foldproof.paper.face import Face
from foldproof.paper.polygon import on_segment
from foldproof.paper.vector import Segment
from foldproof.recipe import actions as do


def draw_marks(sheet: Sheet, frame: Frame) -> None:
    """The pencil marks on the face that is up; those made now are named in full ink, those used now quietly."""
    made = {done.action.name for done in frame.done if isinstance(done.action, do.MarkAt)}
    used = {point.name for done in frame.done if isinstance(done.action, do.CutBetween | do.ScoreBetween)
            for point in (done.action.start, done.action.end)}
    for pane in sheet.picture.panes:
        for mark in sheet.picture.table.pieces[pane.part.piece].marks:
            if mark.face is not pane.face or sheet.picture.pane_at(pane.part.piece, mark.at) is not pane:
                continue
            at = sheet.picture.looking.at(pane.part.fit.point(mark.at))
            if any(inside(at, ring) for ring in pane.over):
                continue
            inward = inward_at(at, pane.ring)
            sheet.items += tick(at, inward) if on_edge(at, pane.ring, 0.05) else cross_mark(at)
            if mark.name not in made | used:
                continue
            tip = plus(at, times(inward, 3.2))
            pt = sheet.style.text_pt if mark.name in made else sheet.style.small_pt
            sheet.wishes.append(Wish(
                label=Label(text=mark.name, at=tip, pt=pt, quiet=mark.name not in made),
                places=tuple(places_round(tip, pt)), about=at))


def name_panels(sheet: Sheet, told: set[str]) -> None:
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
            as_before = pane.face is picture.work.lie.up or (plan.layer and pane.face is Face.FRONT)
            words = name if as_before else f"{name}, {pane.face}"
            places = tuple(places_inside(ring, words, pt, covered=pane.covered))
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
