"""A flap slipped under other paper: its hidden edges dotted, and the words."""

from foldproof.drawing.labels import Wish, places_inside
from foldproof.drawing.plane import middle_of, split_by_rings
from foldproof.drawing.scene import Kind, Label, Line
from foldproof.drawing.sheet import Sheet
from foldproof.recipe import actions as do


def draw_tuck(sheet: Sheet, action: do.Tuck) -> None:
    """The edges of the flap that lie under the other panel, dotted; the label stands on the flap."""
    flap, under = (sheet.picture.top_pane(name) for name in (action.flap, action.under))
    if flap is None or under is None:
        return
    for p, q in zip(flap.ring, (*flap.ring[1:], flap.ring[0]), strict=True):
        sheet.items += [
            Line(points=(a, b), kind=Kind.HIDDEN) for a, b, covered in split_by_rings(p, q, (under.ring,)) if covered]
    words = f"tuck under the {action.under}"
    pt = sheet.style.text_pt
    sheet.wishes.append(Wish(
        label=Label(text=words, at=flap.ring[0], pt=pt), about=middle_of(flap.ring), area=flap.ring,
        places=tuple(places_inside(flap.ring, words, pt, covered=flap.over))))
    sheet.notes.append(f"tuck the {action.flap} under the {action.under}")
