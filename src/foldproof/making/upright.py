"""Whether something that is put on stands upright before the maker, however the work lies."""

from fractions import Fraction

from foldproof.folding.card import Card
from foldproof.making.table import Table
from foldproof.making.work import work_with
from foldproof.paper.face import Face
from foldproof.paper.vector import Vector


def stands_upright(card: Card, table: Table, panel: str) -> bool:
    """Whether a panel's own up points away from the maker, its front in sight, on a table where it lies."""
    piece = card.panels[panel].piece
    if piece not in table.pieces:
        return False
    work = work_with(card, table, piece)
    part = next((one for one in work.parts if one.piece == piece and one.panel in (None, panel)), None)
    if part is None or work.face_up(part) is not Face.FRONT:
        return False
    up, away = part.fit.vector(Vector(Fraction(0), Fraction(1))), work.lie.away
    return up.cross(away) == 0 and up.dot(away) > 0
