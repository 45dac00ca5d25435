"""Whether paper would pass through paper at the folds of a flat pose.

At a hinge that is folded over, nothing that reaches across its line may lie between its two panels; at one that lies
flat, nothing may lie over one panel and under the other. The same holds for another hinge that lies on the same line
on the same side: its panels lie both inside or both outside. (The crossing conditions of flat folding, from memory.)
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from foldproof.folding.card import Hinge, Panel
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import Where, bounding_box, meeting, stretches
from foldproof.paper.vector import Ring, Segment


@dataclass(frozen=True, slots=True, kw_only=True)
class Passing:
    """A place where paper passes through paper."""

    hinge: Hinge
    through: str
    """The panel that is in the way."""
    square: Fraction
    """The square of how far that panel reaches across the line of the hinge."""


def passings(
    panels: Mapping[str, Panel], hinges: Sequence[Hinge], placements: Mapping[str, Isometry], order: Sequence[str],
) -> tuple[Passing, ...]:
    """All places where paper passes through paper, in the order of the hinges; `order` is from the bottom up."""
    height = {name: place for place, name in enumerate(order)}
    rings = {name: placements[name].ring(panels[name].ring) for name in order if name in placements}
    placed = [hinge for hinge in hinges if set(hinge.panels) <= set(rings)]
    found: list[Passing] = []
    for hinge in placed:
        a, b = hinge.panels
        line = placements[a].segment(hinge.segment)
        low, high = sorted((height[a], height[b]))
        folded = placements[a] != placements[b]
        for name in order[low + 1:high]:
            if name in rings and _crosses(line, rings[name]):
                found.append(Passing(hinge=hinge, through=name, square=_reach(line, rings[name])))
        if folded:
            found += [
                Passing(hinge=hinge, through=name, square=_reach(line, rings[a]))
                for other in placed if other is not hinge
                for name in _caught(hinge, line, other, placements, rings, height)
            ]
    return tuple(found)


def _crosses(line: Segment, ring: Ring) -> bool:
    """Whether a stretch of the line lies inside a panel."""
    if not bounding_box((line.start, line.end)).meets(bounding_box(ring)):
        return False
    return any(where is Where.IN for _, where in stretches(line, ring))


def _reach(line: Segment, ring: Ring) -> Fraction:
    """The square of how far a panel reaches over the line, on the side on which it reaches less."""
    sides = [line.along.cross(p - line.start) for p in ring]
    return min(max(sides), -min(sides)) ** 2 / line.along.square


def _caught(
    hinge: Hinge, line: Segment, other: Hinge, placements: Mapping[str, Isometry], rings: Mapping[str, Ring],
    height: Mapping[str, int],
) -> tuple[str, ...]:
    """The panel of another folded hinge on the same line and side that lies inside while its fellow lies outside."""
    c, d = other.panels
    if placements[c] == placements[d]:
        return ()
    shared = meeting(line, placements[c].segment(other.segment))
    if shared is None or shared.start == shared.end or _side(line, rings[c]) != _side(line, rings[hinge.panels[0]]):
        return ()
    low, high = sorted(height[name] for name in hinge.panels)
    inside = [name for name in (c, d) if low < height[name] < high]
    return tuple(inside) if len(inside) == 1 else ()


def _side(line: Segment, ring: Ring) -> bool:
    """Whether a panel beside the line lies on its left."""
    return max((line.along.cross(p - line.start) for p in ring), key=abs) > 0
