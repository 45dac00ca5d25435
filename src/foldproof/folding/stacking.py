"""What is to be stacked, what came of it, and what stands in the way."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from foldproof.folding.card import Bond, Hinge, Panel
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import overlap


@dataclass(frozen=True, slots=True, kw_only=True)
class Stacking:
    """A stacking of all panels of a flat pose, seen with the still panel's front toward the viewer."""

    order: tuple[str, ...]
    """From the bottom up."""
    over: frozenset[tuple[str, str]]
    """(upper, lower) for each pair that overlaps."""
    troubles: tuple["Trouble", ...]
    """Why the stacking may not be taken as it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Something that stands in the way of a stacking."""

    kind: str
    """`locked` (a fold that cannot be made), `bond` (glued faces apart), `choice` (an order that cannot be kept)."""
    names: tuple[str, ...]
    """Scores of the fold, the bond, or the two panels of the choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Folding:
    """What is to be stacked."""

    panels: Mapping[str, Panel]
    hinges: tuple[Hinge, ...]
    bonds: tuple[Bond, ...]
    folds: tuple[tuple[str, Fraction], ...]
    """Score and angle, plus or minus 180, in the order of folding."""
    still: str
    placements: Mapping[str, Isometry]
    """Where the panels lie when all is folded, the still panel's front toward the viewer."""
    choices: tuple[tuple[str, str], ...] = ()
    """Pairs (upper, lower) that the recipe asks for, seen the same way."""


def overlapping(panels: Mapping[str, Panel], placements: Mapping[str, Isometry]) -> tuple[tuple[str, str], ...]:
    """Pairs of panels that share some area where they are placed."""
    names = [name for name in panels if name in placements]
    rings = {name: placements[name].ring(panels[name].ring) for name in names}
    return tuple((a, b) for i, a in enumerate(names) for b in names[i + 1:] if overlap(rings[a], rings[b]))
