"""Slipping a flap under other paper by hand."""

from dataclasses import replace

from foldproof.folding.card import Card
from foldproof.making.outcome import Outcome, Setting, refused
from foldproof.making.table import Table
from foldproof.making.work import work_with
from foldproof.paper.face import Face
from foldproof.paper.polygon import overlap
from foldproof.paper.vector import Ring
from foldproof.recipe.actions import Tuck


def tuck(setting: Setting, action: Tuck) -> Outcome:
    """The flap lies under the other panel from now on, as the maker looks at the work; the two must overlap."""
    card, table = setting.card, setting.table
    pieces = [card.panels[name].piece for name in (action.flap, action.under)]
    for piece in pieces:
        if piece not in table.pieces:
            return refused(setting, "not cut yet", f"The {piece} is not on the table yet: nothing of it can be tucked.",
                           f"Cut the {piece} first, or move this step behind the one that does.")
    if table.root(pieces[0]) != table.root(pieces[1]):
        return refused(
            setting, "tucked into another work", f"The {action.flap} and the {action.under} belong to works that are "
            "not joined yet.", "Join the pieces first.")
    work = work_with(card, table, pieces[0])
    rings = _rings(card, table, (action.flap, action.under))
    if len(rings) != 2 or not overlap(rings[0], rings[1]):
        return refused(
            setting, "tucked under paper that is not there", f"As the work is folded now, the {action.flap} and the "
            f"{action.under} do not overlap, so one cannot be tucked under the other.",
            "Fold both first, or name the panels that overlap.")
    pair = (action.under, action.flap) if work.lie.up is Face.FRONT else (action.flap, action.under)
    kept = tuple(old for old in table.tucked if set(old) != set(pair))
    return Outcome(table=replace(table, tucked=(*kept, pair)), piece=setting.target)


def still_tucked(card: Card, table: Table) -> Table:
    """The table without the tucks that a fold laid open has pulled out."""
    kept = tuple(
        pair for pair in table.tucked if len(rings := _rings(card, table, pair)) == 2 and overlap(rings[0], rings[1]))
    return replace(table, tucked=kept) if kept != table.tucked else table


def _rings(card: Card, table: Table, names: tuple[str, str]) -> list[Ring]:
    """Where two panels of one folded work lie, in the frame of its root."""
    work = work_with(card, table, card.panels[names[0]].piece)
    return [part.fit.ring(part.ring) for name in names for part in work.parts if part.panel == name]
