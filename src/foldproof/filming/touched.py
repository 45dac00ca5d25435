"""Which pieces an action works on, and which of them are never again what they were."""

from foldproof.folding.card import Card
from foldproof.making.table import Done, Table
from foldproof.recipe import actions as do

_LEAVES_AS_IT_WAS = (do.Lay, do.Turn, do.TurnOver, do.Unfold, do.Tuck, do.Measure, do.SetBlade)


def body(table: Table, piece: str) -> frozenset[str]:
    """A piece on the table with everything that it is bonded to; nothing where it is not there."""
    if piece not in table.pieces:
        return frozenset()
    return frozenset(table.body(piece))


def piece_of(card: Card, done: Done) -> str | None:
    """The piece that an action acts on."""
    action = done.action
    if isinstance(action, do.SetBlade):
        return None
    if isinstance(action, do.Tuck) and action.flap in card.panels:
        return card.panels[action.flap].piece
    if isinstance(action, do.Stamp) and action.panel in card.panels:
        return card.panels[action.panel].piece
    if isinstance(action, do.Tie) and done.piece is None:
        return next((piece.name for piece in card.pieces if piece.name in done.before.pieces), None)
    return done.piece


def touched(card: Card, done: Done) -> frozenset[str]:
    """Every piece of the bodies that an action works on, before it and after it."""
    piece = piece_of(card, done)
    if piece is None:
        return frozenset()
    found = body(done.before, piece) | body(done.after, piece)
    new = frozenset(done.after.pieces) - frozenset(done.before.pieces)
    same = {id(bond) for bond in done.before.bonds}  # most are the very same: a look that costs nothing
    made = [bond for bond in done.after.bonds if id(bond) not in same and bond not in done.before.bonds]
    for bond in made:
        found |= body(done.before, bond.root) | body(done.before, bond.guest)
    return found | new


def changed(card: Card, done: Done, creased: frozenset[str]) -> frozenset[str]:
    """The pieces that cannot be brought back to what they were; `creased` are the scores folded before.

    Turning paper, laying it and folding it again on a sharp fold leave no trace. A note says something that no table
    knows (a pencil cross, an envelope), so it is taken to leave one.
    """
    action = done.action
    if isinstance(action, _LEAVES_AS_IT_WAS):
        return frozenset()
    if isinstance(action, do.FoldOn) and action.score in creased:
        return frozenset()
    return touched(card, done)
