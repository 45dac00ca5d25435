"""As few lens distances as will do: each shot may be seen up to a third wider than it needs, never narrower.

For each position of the camera the shots' ranges of width are intervals on a line, and the least number of points that
meets all of them is found by taking, again and again, the end of the interval that ends first (the usual exchange
argument: any solution has a point in that interval, and moving it to the interval's end loses nothing).
"""

from collections.abc import Sequence
from fractions import Fraction

from foldproof.frozen import dataclass

ALLOWED = Fraction(4, 3)
"""How much wider than its need a shot may be seen (a guess of our own)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """The widths that will do for a shot."""

    position: str
    need: Fraction
    fixed: Fraction | None = None
    """The width that the recipe asks for: no other will do."""

    @property
    def least(self) -> Fraction:
        """The narrowest."""
        return self.need if self.fixed is None else self.fixed

    @property
    def most(self) -> Fraction:
        """The widest."""
        return self.need * ALLOWED if self.fixed is None else self.fixed


def fewest_widths(reaches: Sequence[Reach]) -> tuple[Fraction, ...]:
    """A width for each shot, with as few different ones for each position as may be; each no wider than it must be."""
    widths: dict[int, Fraction] = {}
    for position in dict.fromkeys(reach.position for reach in reaches):
        left = [i for i, reach in enumerate(reaches) if reach.position == position]
        while left:
            end = min(reaches[i].most for i in left)
            group = [i for i in left if reaches[i].least <= end]
            width = max(reaches[i].least for i in group)
            widths |= dict.fromkeys(group, width)
            left = [i for i in left if i not in widths]
    return tuple(widths[i] for i in range(len(reaches)))
