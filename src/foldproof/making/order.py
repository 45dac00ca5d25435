"""Which paper of a body lies on which, as the maker looks at it."""

from dataclasses import dataclass

from foldproof.folding.card import Card
from foldproof.folding.overlay import Overlay, listed, ordered, overlay
from foldproof.folding.stack import as_folded, stack_up
from foldproof.folding.stacking import Folding, overlapping
from foldproof.making.table import Table
from foldproof.making.work import Part, Work, made_bonds, root_still
from foldproof.paper.face import Face
from foldproof.paper.subdivision import merge
from foldproof.paper.vector import Ring


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """The parts of a body and how they lie on each other, as the maker looks at it."""

    parts: tuple[Part, ...]
    """From the lowest to the highest, as far as one list can tell it."""
    over: frozenset[tuple[int, int]]
    """(upper, lower), by their places in `parts`."""
    shown: tuple[tuple[int, Ring, tuple[Ring, ...]], ...] = ()
    """Where the parts run in a ring, what shows of each: its place, and an area with its holes in the root's frame."""


def lying(card: Card, table: Table, work: Work) -> Lying:
    """The parts of the work and who lies over whom, as the maker looks at it."""
    if any(part.panel is not None for part in work.parts):
        return _folded(card, table, work)
    parts = _flat(card, table, work)
    if work.lie.up is Face.BACK:
        parts = parts[::-1]
    return Lying(parts=parts, over=frozenset((j, i) for j in range(len(parts)) for i in range(j)))


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


def _folded(card: Card, table: Table, work: Work) -> Lying:
    """Folded paper: in the order in which the folds were made, but for what was tucked."""
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
    laid: Overlay | None = None
    over = as_folded(folding, overlapping(panels, placements))
    if over is None:
        laid = overlay(panels, placements)
        over = stack_up(folding, laid).over
    if work.lie.up is Face.BACK:
        over = frozenset((b, a) for a, b in over)
    order = listed(tuple(panels), over)
    place = {name: index for index, name in enumerate(order or panels)}
    return Lying(
        parts=tuple(parts[name] for name in place), over=frozenset((place[a], place[b]) for a, b in over),
        shown=() if order else _shown(laid or overlay(panels, placements), over, place))


def _shown(
    laid: Overlay, over: frozenset[tuple[str, str]], place: dict[str, int],
) -> tuple[tuple[int, Ring, tuple[Ring, ...]], ...]:
    seen = ordered(laid, over)
    return tuple((place[name], area.ring, area.holes) for name, area in merge(seen.whole, seen.top))

