"""Which paper of a body lies on which, for drawing it from the bottom up."""

from foldproof.folding.card import Card
from foldproof.folding.stack import Folding, stack_up
from foldproof.making.table import Table
from foldproof.making.work import Part, Work, made_bonds, root_still
from foldproof.paper.face import Face


def bottom_up(card: Card, table: Table, work: Work) -> tuple[Part, ...]:
    """The parts of the work from the lowest to the highest, as the maker looks at it."""
    folded = any(part.panel is not None for part in work.parts)
    order = _folded(card, table, work) if folded else _flat(card, table, work)
    return order if work.lie.up is Face.FRONT else order[::-1]


def _flat(card: Card, table: Table, work: Work) -> tuple[Part, ...]:
    """Unfolded paper, seen with the root's front up: what was put on later lies further out, on its side."""
    by_piece = {part.piece: part for part in work.parts}
    order = [by_piece[work.root]]
    bonds = {bond.name: bond for bond in card.bonds}
    for made in table.bonds:
        if made.guest not in by_piece or made.root not in by_piece:
            continue
        receiver = by_piece[made.root]
        above = (bonds[made.name].under.face is Face.FRONT) is not receiver.fit.flips
        order.insert(len(order) if above else 0, by_piece[made.guest])
    return tuple(order)


def _folded(card: Card, table: Table, work: Work) -> tuple[Part, ...]:
    """Folded paper, seen with the front of the still panel up, in the order in which the folds were made."""
    parts = {part.panel: part for part in work.parts if part.panel is not None}
    panels = {name: card.panels[name] for name in parts}
    still = root_still(card, work.root)
    assert still is not None
    stacking = stack_up(Folding(
        panels=panels,
        hinges=tuple(hinge for hinge in card.hinges if set(hinge.panels) <= set(panels)),
        bonds=tuple(bond for bond in made_bonds(card, table) if {bond.under.panel, bond.over.panel} <= set(panels)),
        folds=tuple((score, angle) for score, angle in table.folded if abs(angle) == 180),
        still=still,
        placements={name: part.fit for name, part in parts.items()},
    ))
    return tuple(parts[name] for name in stacking.order)
