"""A frame while it is being drawn."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from foldproof.drawing.close_up import Border
from foldproof.drawing.labels import Wish
from foldproof.drawing.lettering import cap_height
from foldproof.drawing.picture import Picture
from foldproof.drawing.plane import XY, Box, between
from foldproof.drawing.record import DrawingStyle
from foldproof.drawing.rows import Wanted
from foldproof.drawing.scene import Item
from foldproof.folding.card import Bond, Card
from foldproof.making.table import Done
from foldproof.measures.writing import with_unit
from foldproof.paper.vector import Vector
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
    borders: list[tuple[str, Border]] = field(default_factory=list)
    """Borders that are as wide on all sides, by what they run round."""

    @property
    def card(self) -> Card:
        """The card that is made."""
        return self.picture.card

    def length(self, value: Fraction) -> str:
        """A length as it is written on the drawing."""
        return with_unit(value, self.card.recipe.unit)


def add_lengths(sheet: Sheet, piece: str, done: Done, shift: Vector | None = None) -> None:
    """The lengths that an action sets; those from the stop go below, where the fence is not in the way."""
    box = sheet.picture.box
    for dimension in done.dimensions:
        a, b = (
            sheet.picture.at(piece, p + shift if shift else p) for p in (dimension.start, dimension.end))
        text = sheet.length(dimension.measure.value)
        level = abs(a[1] - b[1]) < 1e-6
        if isinstance(done.action, do.ScoreAt | do.SlitAt | do.CutAcross) and level:
            a, b = (a[0], box.bottom), (b[0], box.bottom)
            sheet.lengths.append(Wanted(start=a, end=b, text=text, sides=("below",)))
        elif isinstance(done.action, do.ScoreAt | do.SlitAt):
            # from the fence, away from the stop; lines that begin and end alike share their lengths
            sheet.lengths.append(Wanted(start=(box.right, a[1]), end=(box.right, b[1]), text=text, sides=("right",)))
        elif isinstance(done.action, do.CutOut | do.DieCut):
            a, b = ((a[0], box.bottom), (b[0], box.bottom)) if level else ((box.left, a[1]), (box.left, b[1]))
            sheet.lengths.append(Wanted(start=a, end=b, text=text, sides=("below",) if level else ("left",)))
        else:
            sheet.lengths.append(Wanted(start=a, end=b, text=text, sides=_near_side(a, b, box)))


def _near_side(a: XY, b: XY, box: Box) -> tuple[str, ...]:
    """The sides of the box at which a length may stand, the nearer first."""
    if abs(a[1] - b[1]) < 1e-6:
        return ("below", "above") if a[1] - box.bottom <= box.top - a[1] else ("above", "below")
    return ("left", "right") if a[0] - box.left <= box.right - a[0] else ("right", "left")


def along_line(a: XY, b: XY, pt: float) -> Iterator[tuple[XY, str, bool]]:
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


def bond_name(done: Done) -> str:
    """The layer or join that an action attaches; empty for others."""
    return done.action.bond if isinstance(done.action, do.Attach) else ""


def bond_called(card: Card, name: str) -> Bond | None:
    """The bond of the plan with that name."""
    return next((bond for bond in card.bonds if bond.name == name), None)
