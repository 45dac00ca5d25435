"""What is to be stacked, and what came of it."""

from collections.abc import Mapping
from fractions import Fraction

from foldproof.folding.card import Bond, Hinge, Panel
from foldproof.folding.ordering import Condition, Pair
from foldproof.frozen import dataclass
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import overlap


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
    choices: tuple[Pair, ...] = ()
    """Pairs (upper, lower) that the recipe asks for, seen the same way."""
    tucks: tuple[Pair, ...] = ()
    """Pairs (upper, lower) where the lower one is tucked under by hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stacking:
    """Who lies over whom in a flat pose, seen with the still panel's front toward the viewer."""

    over: frozenset[Pair]
    """(upper, lower) for each pair that overlaps; with a `clash` or `undecided`, as the written folds would have it."""
    clash: tuple[Condition, ...] = ()
    """Conditions that cannot be kept together, none of which can be left out; empty where there is an order."""
    broken: tuple[Condition, ...] = ()
    """Conditions that the folds break though they can be made as they are written."""
    undecided: bool = False
    """Whether the search gave up."""
    open: tuple[Pair, ...] = ()
    """Pairs (upper, lower) that show, could as well lie the other way round, and that nobody has settled."""


def overlapping(panels: Mapping[str, Panel], placements: Mapping[str, Isometry]) -> tuple[Pair, ...]:
    """Pairs of panels that share some area where they are placed."""
    names = [name for name in panels if name in placements]
    rings = {name: placements[name].ring(panels[name].ring) for name in names}
    return tuple((a, b) for i, a in enumerate(names) for b in names[i + 1:] if overlap(rings[a], rings[b]))
