"""Who lies over whom in a folded work, by the folds and the tucks that were made."""

from foldproof.folding.card import Card
from foldproof.folding.overlay import overlay
from foldproof.folding.stack import as_folded, stack_up
from foldproof.folding.stacking import Folding, overlapping
from foldproof.making.table import Table
from foldproof.making.work import Work, made_bonds, root_still


def over_now(card: Card, table: Table, work: Work) -> frozenset[tuple[str, str]]:
    """(upper, lower) for the panels of a folded work that overlap, seen with the front of the root's still panel up."""
    parts = {part.panel: part for part in work.parts if part.panel is not None}
    panels = {name: card.panels[name] for name in parts}
    still = root_still(card, work.root)
    assert still is not None
    placements = {name: part.fit for name, part in parts.items()}
    folding = Folding(
        panels=panels,
        hinges=tuple(hinge for hinge in card.hinges if set(hinge.panels) <= set(panels)),
        bonds=tuple(bond for bond in made_bonds(card, table) if {bond.under.panel, bond.over.panel} <= set(panels)),
        folds=tuple((score, angle) for score, angle in table.folded if abs(angle) == 180),
        still=still, placements=placements,
        tucks=tuple(pair for pair in table.tucked if set(pair) <= set(panels)),
    )
    over = as_folded(folding, overlapping(panels, placements))
    return over if over is not None else stack_up(folding, overlay(panels, placements)).over
