"""The placed panels of a flat pose laid over each other and cut into cells."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from foldproof.folding.card import Card
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import Where, bounding_box, edges, locate
from foldproof.paper.subdivision import Subdivision, merge, subdivide
from foldproof.paper.vector import Ring


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlay:
    """The placed panels of a flat pose, cut into cells that each lie under the same panels all over."""

    whole: Subdivision
    owners: tuple[tuple[str, int], ...]
    """For each segment given to the subdivision, the panel and the number of its side; holes follow the ring."""
    layers: tuple[tuple[str, ...], ...]
    """For each cell the panels that cover it, from the bottom up."""

    def top(self, cell: int | None) -> str | None:
        """The panel that is seen there from the front."""
        return self.layers[cell][-1] if cell is not None and self.layers[cell] else None

    def bottom(self, cell: int | None) -> str | None:
        """The panel that is seen there from behind."""
        return self.layers[cell][0] if cell is not None and self.layers[cell] else None


def overlay(card: Card, placements: Mapping[str, Isometry], order: Sequence[str]) -> Overlay:
    """The cells of a flat pose."""
    rings: dict[str, tuple[Ring, ...]] = {
        name: tuple(placements[name].ring(ring) for ring in (card.panels[name].ring, *card.panels[name].holes))
        for name in order if name in placements
    }
    sides = [(name, number, side) for name, own in rings.items()
             for number, side in enumerate(side for ring in own for side in edges(ring))]
    whole = subdivide([side for _, _, side in sides])
    boxes = {name: bounding_box(own[0]) for name, own in rings.items()}
    layers = tuple(
        tuple(name for name, own in rings.items()
              if boxes[name].holds(face.inside) and locate(face.inside, own[0], own[1:]) is Where.IN)
        for face in whole.faces
    )
    return Overlay(whole=whole, owners=tuple((name, number) for name, number, _ in sides), layers=layers)


def outline_of(laid: Overlay) -> tuple[Ring, ...]:
    """The union of all panels: outer rings anticlockwise, then the rings of openings clockwise."""
    parts = [part for _, part in merge(laid.whole, lambda cell: True if laid.layers[cell] else None)]
    return (*(part.ring for part in parts), *(hole for part in parts for hole in part.holes))
