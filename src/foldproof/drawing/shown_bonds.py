"""What is put on: where it lies, where its adhesive is, what it hides."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from foldproof.drawing.close_up import SMALL, Border, is_upright
from foldproof.drawing.labels import CLEAR, Wish
from foldproof.drawing.lettering import text_width, wrap
from foldproof.drawing.picture import Pane
from foldproof.drawing.places import places_beside, places_inside, places_round
from foldproof.drawing.plane import XY, Box, box_round, inside, middle_of, split_by_rings
from foldproof.drawing.rows import Wanted
from foldproof.drawing.scene import Hatch, Kind, Label, Line
from foldproof.drawing.sheet import Sheet, bond_called, bond_name
from foldproof.drawing.words import list_of
from foldproof.folding.glue import glue_to_draw
from foldproof.making.table import Done
from foldproof.measures.quantity import Unit
from foldproof.paper.face import Face
from foldproof.paper.vector import Point
from foldproof.recipe import actions as do


def draw_attached(sheet: Sheet, done: Done) -> None:
    """What is put on, hatched where the adhesive is, with its distances; what it hides is dotted."""
    bond = bond_called(sheet.card, bond_name(done))
    made = next((one for one in done.after.bonds if one.name == bond_name(done)), None)
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

    areas = glue_to_draw(sheet.card, bond)
    windows = [hole for pane in (host, guest) for hole in pane.holes]
    sheet.items += [Hatch(rings=(tuple(at(p) for p in area), *_within(windows, tuple(at(p) for p in area))))
                    for area in areas]
    if bond.glue or areas != (bond.area,):
        sheet.notes.append(f"{made.guest}: adhesive only where it is hatched")
    under = tuple(at(p) for p in receiver.ring)
    for p, q in zip(under, (*under[1:], under[0]), strict=True):
        for a, b, covered in split_by_rings(p, q, (guest.ring,)):
            if covered:
                sheet.items.append(Line(points=(a, b), kind=Kind.HIDDEN))
    room = box_round(under)
    laid = box_round(guest.ring)
    assert isinstance(done.action, do.Attach)
    border = done.action.at.border
    narrow = False
    if border is not None:
        wide = float(border.value) * picture.looking.scale
        narrow = wide < SMALL and is_upright(guest.ring, laid)
        sheet.borders.append((made.guest, Border(inner=laid, wide=wide, text=sheet.length(border.value))))
    for dimension in () if narrow else done.dimensions:
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
    others = [pane for pane in picture.panes[picture.panes.index(host) + 1:] if pane is not guest]
    named = _named(made.guest, guest, sheet.style.text_pt, picture.box, others)
    if named not in sheet.wishes:
        sheet.wishes.append(named)
    flush = [s for s in ("left", "right", "top", "bottom") if (q := getattr(done.action.at, s)) and q.value == 0]
    if flush:
        where = "on all four sides" if len(flush) == 4 else f"at {list_of(flush)}"
        sheet.notes.append(f"{made.guest}: flush {where}")
    pattern_up(sheet, guest)
    centred = done.action.at.centred
    if centred is not None:
        middle = "centered" if sheet.card.recipe.unit is Unit.INCH else "centred"
        way = middle + {"both": "", "across": " across", "up": " up and down"}[centred]
        upon = f" on the {done.action.at.centred_on}" if done.action.at.centred_on else f" on the {bond.under.panel}"
        sheet.notes.append(f"{made.guest} {way}{upon}")


NAME_WIDE = 26.0
"""A name that finds no room in what it names is broken into lines no wider than this, in millimetres."""


def _named(name: str, guest: Pane, pt: float, box: Box, others: Sequence[Pane]) -> Wish:
    """The name of what is put on: in it, or beside it with a line that leads there, on no other piece put on before."""
    room, middle = box_round(guest.ring), middle_of(guest.ring)
    fits = text_width(name, pt, bold=True) < max(room.width, room.height)
    text = name if fits else "\n".join(wrap(name, pt, NAME_WIDE))
    lines = text.count("\n") + 1
    inside_it = places_inside(guest.ring, name, pt, bold=True) if fits else ()
    label = Label(text=text, at=middle, pt=pt, bold=True)
    beside = (*places_round(middle, pt, lines=lines), *places_beside(box, middle, pt, lines))
    rooms = [box_round(pane.ring) for pane in others]

    def on_another(place: tuple[XY, str, bool]) -> bool:
        taken = replace(label, at=place[0], anchor=place[1], upright=place[2]).box
        return any(room.meets(taken) for room in rooms)

    free = tuple(place for place in beside if not on_another(place))
    return Wish(label=label, about=middle, area=guest.ring, places=(*inside_it, *(free or beside)))


def _within(windows: Sequence[tuple[XY, ...]], area: tuple[XY, ...]) -> Iterator[tuple[XY, ...]]:
    """The windows that lie in an area: no adhesive is there."""
    return (window for window in windows if all(inside(p, area) for p in window))


def pattern_up(sheet: Sheet, pane: Pane) -> None:
    """An arrow that says which way a patterned paper stands, where that matters and its front shows."""
    plan = sheet.card.piece(pane.part.piece)
    upright = {paper.name.value for paper in sheet.card.recipe.papers if paper.pattern == "upright"}
    if plan is None or plan.paper not in upright or pane.face is not Face.FRONT:
        return
    foot, head = (sheet.picture.looking.at(pane.part.fit.point(Point(Fraction(0), Fraction(y)))) for y in (0, 1))
    sign = "↑" if head[1] > foot[1] + 1e-6 else "↓" if head[1] < foot[1] - 1e-6 else "→" if head[0] > foot[0] else "←"
    pt = sheet.style.small_pt
    words = f"pattern {sign}"
    if text_width(words, pt, italic=True) + 2 * CLEAR > box_round(pane.ring).width:
        words = sign
    sheet.wishes.append(Wish(
        label=Label(text=words, at=pane.ring[0], pt=pt, italic=True), must=False, room=pane.ring,
        places=tuple(p for p in places_inside(pane.ring, words, pt, covered=pane.covered) if not p[2])))
