"""Which face of a piece is outside on the closed card."""

from foldproof.folding.card import Card, CardPiece
from foldproof.paper.face import Face


def outside_of(card: Card, piece: CardPiece) -> Face | None:
    """The face of a piece that folds which is outside on the closed card, where that is one face only."""
    if not piece.scores or card.closed is None:
        return None
    faces = {region.face for region in (*card.closed.seen, *card.closed.hidden_side) if region.panel in piece.panels}
    return faces.pop() if len(faces) == 1 else None
