"""The placed panels of a flat pose laid over each other and cut into cells."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from foldproof.folding.card import Panel
from foldproof.frozen import dataclass
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import Where, bounding_box, edges, locate
from foldproof.paper.subdivision import Subdivision, merge, subdivide
from foldproof.paper.vector import Ring


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlay:
    """The placed panels of a flat pose, cut into cells that each lie under the same panels all over."""

    placements: Mapping[str, Isometry]
    whole: Subdivision
    owners: tuple[tuple[str, int], ...]
    """For each segment given to the subdivision, the panel and the number of its side; holes follow the ring."""
    covers: tuple[frozenset[str], ...]
    """For each cell the panels that cover it."""
    layers: tuple[tuple[str, ...], ...] = ()
    """For each cell the panels that cover it, from the bottom up; empty until the order is known."""

    def under(self, cell: int | None) -> frozenset[str]:
        """The panels that cover a cell; none outside."""
        return self.covers[cell] if cell is not None else frozenset()

    def top(self, cell: int | None) -> str | None:
        """The panel that is seen there from the front."""
        return self.layers[cell][-1] if cell is not None and self.layers[cell] else None

    def bottom(self, cell: int | None) -> str | None:
        """The panel that is seen there from behind."""
        return self.layers[cell][0] if cell is not None and self.layers[cell] else None


def overlay(panels: Mapping[str, Panel], placements: Mapping[str, Isometry]) -> Overlay:
    """The cells of a flat pose; who lies over whom is not known yet."""
    rings: dict[str, tuple[Ring, ...]] = {
        name: tuple(placements[name].ring(ring) for ring in (panel.ring, *panel.holes))
        for name, panel in panels.items() if name in placements
    }
    sides = [(name, number, side) for name, own in rings.items()
             for number, side in enumerate(side for ring in own for side in edges(ring))]
    whole = subdivide([side for _, _, side in sides])
    boxes = {name: bounding_box(own[0]) for name, own in rings.items()}
    covers = tuple(
        frozenset(name for name, own in rings.items()
                  if boxes[name].holds(face.inside) and locate(face.inside, own[0], own[1:]) is Where.IN)
        for face in whole.faces
    )
    return Overlay(
        placements={name: placements[name] for name in rings}, whole=whole,
        owners=tuple((name, number) for name, number, _ in sides), covers=covers)


def ordered(laid: Overlay, over: frozenset[tuple[str, str]]) -> Overlay:
    """The cells with their panels from the bottom up: in a cell, a panel lies as high as it lies over others there."""
    return replace(laid, layers=tuple(
        tuple(sorted(cell, key=lambda name: (sum((name, other) in over for other in cell), name)))
        for cell in laid.covers))


def listed(names: Sequence[str], over: frozenset[tuple[str, str]]) -> tuple[str, ...] | None:
    """The panels in one list from the bottom up that agrees with all pairs, the first named lowest where that is free.

    None where the pairs run in a ring (four flaps, each tucked under the next): no one list tells such an order.
    """
    left, done = list(names), []
    while left:
        free = next((name for name in left if not any((name, other) in over for other in left)), None)
        if free is None:
            return None
        left.remove(free)
        done.append(free)
    return tuple(done)


def outline_of(laid: Overlay) -> tuple[Ring, ...]:
    """The union of all panels: outer rings anticlockwise, then the rings of openings clockwise."""
    parts = [part for _, part in merge(laid.whole, lambda cell: True if laid.covers[cell] else None)]
    return (*(part.ring for part in parts), *(hole for part in parts for hole in part.holes))
