"""Sheets, the parts to be cut from them, and plans of straight edge-to-edge cuts.

All lengths are exact and in one unit. A sheet lies with its width to the right and its height up, origin bottom left.
"""

from collections import Counter
from enum import StrEnum
from fractions import Fraction

from foldproof.frozen import dataclass


class MayTurn(StrEnum):
    """How a part may lie on the sheet."""

    NONE = "none"
    """Upright only: a pattern with one right way up."""
    HALF = "half"
    """Upright or upside down: grain, stripes."""
    ANY = "any"
    """Also on its side."""


class Line(StrEnum):
    """The direction of a cut on the sheet as it lies."""

    UPRIGHT = "upright"
    """From the bottom edge to the top edge."""
    LEVEL = "level"
    """From the left edge to the right edge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A rectangle to be cut, so many times."""

    name: str
    width: Fraction
    height: Fraction
    count: int
    may_turn: MayTurn = MayTurn.NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet as it is bought, and what the trimmer can do with it."""

    name: str
    width: Fraction
    height: Fraction
    kerf: Fraction = Fraction(0)
    """Lost at each cut; nothing for a blade that shears."""
    trim: Fraction = Fraction(0)
    """Cut off and thrown away at each of the four edges."""
    longest_cut: Fraction | None = None
    """The longest cut that the trimmer makes in one go."""
    least_hold: Fraction = Fraction(0)
    """What must lie on at least one side of a cut, across it, for the trimmer to hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A part, cut to size."""

    width: Fraction
    height: Fraction
    part: str
    turned: bool = False
    """Lies on its side: its own width runs up the sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """Paper that is left over."""

    width: Fraction
    height: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A rectangle that one straight cut divides from edge to edge."""

    width: Fraction
    height: Fraction
    line: Line
    at: Fraction
    """From the left edge for an upright cut, from the bottom edge for a level one, to the near side of the blade."""
    near: "Node"
    """Left of an upright cut, below a level one."""
    far: "Node"


Node = Taken | Offcut | Cut


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """One way to cut a whole sheet, and how many sheets are cut so."""

    root: Node
    """As large as the whole sheet; the cuts that trim its edges are cuts like others."""
    times: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """How to cut all parts."""

    sheet: Sheet
    parts: tuple[Part, ...]
    layouts: tuple[Layout, ...]
    least: int
    """No plan of edge-to-edge cuts needs fewer sheets: proved in whole numbers."""
    reason: str
    """Why `least` holds, in a few words."""
    seconds: float
    """Spent on the search."""

    @property
    def count(self) -> int:
        """Sheets used."""
        return sum(layout.times for layout in self.layouts)

    @property
    def proven(self) -> bool:
        """Whether fewer sheets are proved impossible."""
        return self.count == self.least


def taken(node: Node) -> Counter[str]:
    """How many of each part a layout gives."""
    found: Counter[str] = Counter()
    waiting = [node]
    while waiting:
        here = waiting.pop()
        if isinstance(here, Cut):
            waiting += [here.near, here.far]
        elif isinstance(here, Taken):
            found[here.part] += 1
    return found
