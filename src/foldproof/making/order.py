"""Which paper of a body lies on which, as the maker looks at it."""

from collections.abc import Mapping

from foldproof.folding.card import Card
from foldproof.folding.overlay import listed, ordered, overlay
from foldproof.frozen import dataclass
from foldproof.making.stacked import over_now
from foldproof.making.table import Table
from foldproof.making.work import Part, Work
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
        if by_piece[made.guest] in order:
            continue  # fixed at a second place: it lies there already, and twice it would hide its own lines
        receiver = by_piece[made.root]
        above = (bonds[made.name].under.face is Face.FRONT) is not receiver.fit.flips
        order.insert(len(order) if above else 0, by_piece[made.guest])
    return tuple(order)


def _folded(card: Card, table: Table, work: Work) -> Lying:
    """Folded paper: in the order in which the folds were made, but for what was tucked."""
    parts = {part.panel: part for part in work.parts if part.panel is not None}
    over = over_now(card, table, work)
    if work.lie.up is Face.BACK:
        over = frozenset((b, a) for a, b in over)
    order = listed(tuple(parts), over)
    place = {name: index for index, name in enumerate(order or parts)}
    return Lying(
        parts=tuple(parts[name] for name in place), over=frozenset((place[a], place[b]) for a, b in over),
        shown=() if order else _shown(card, parts, over, place))


def _shown(
    card: Card, parts: Mapping[str, Part], over: frozenset[tuple[str, str]], place: Mapping[str, int],
) -> tuple[tuple[int, Ring, tuple[Ring, ...]], ...]:
    laid = overlay({name: card.panels[name] for name in parts}, {name: part.fit for name, part in parts.items()})
    seen = ordered(laid, over)
    return tuple((place[name], area.ring, area.holes) for name, area in merge(seen.whole, seen.top))
