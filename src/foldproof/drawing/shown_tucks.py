"""A flap slipped under other paper: its hidden edges dotted, and the words."""

from foldproof.drawing.labels import Wish
from foldproof.drawing.places import places_round
from foldproof.drawing.plane import middle_of, split_by_rings
from foldproof.drawing.scene import Kind, Label, Line
from foldproof.drawing.sheet import Sheet
from foldproof.paper.polygon import centre_of
from foldproof.paper.subdivision import common
from foldproof.recipe import actions as do


def draw_tuck(sheet: Sheet, action: do.Tuck) -> None:
    """The edges of the flap that lie under the other panel, dotted, and a word at what is hidden of it."""
    flap, under = (sheet.picture.top_pane(name) for name in (action.flap, action.under))
    if flap is None or under is None:
        return
    for p, q in zip(flap.ring, (*flap.ring[1:], flap.ring[0]), strict=True):
        sheet.items += [
            Line(points=(a, b), kind=Kind.HIDDEN) for a, b, covered in split_by_rings(p, q, (under.ring,)) if covered]
    pt = sheet.style.text_pt
    rings = [pane.part.fit.ring(pane.part.ring) for pane in (flap, under)]
    hidden = common(rings[0], rings[1])
    middle = sheet.picture.looking.at(centre_of(hidden)) if hidden is not None else middle_of(flap.ring)
    sheet.wishes.append(Wish(
        label=Label(text="tuck", at=middle, pt=pt), about=middle,
        places=tuple(places_round(middle, pt, (8.0, 11.0, 16.0, 22.0)))))
    sheet.notes.append(f"tuck the {action.flap} under the {action.under}")
