"""What a build is asked for beside its recipe."""

from pathlib import Path

from foldproof.edition.measures import Measures
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """What a build is asked for beside its recipe."""

    theme: str = ""
    """A theme by name, or a folder by its path; none for the recipe's own, or else plain."""
    dated: str = ""
    """A date to print, as given; none is printed without it."""
    mirrored: bool = False
    """Whether the card is built left for right, into a folder of its own."""
    left_handed: bool = False
    """Whether it is told for the other hand, into a folder of its own."""
    measures: Measures | None = None
    """The units of its edition, in a folder of its own; None, or the recipe's own, for the recipe as it is."""
    handouts: tuple[str, ...] = ()
    """The editions of the handout that are made beside the usual one: `large-print`, `one-ink`, `compact`."""
    stock: Path | None = None
    """The teacher's stock file, for the class plan."""
    desk: Path | None = None
    """The teacher's desk file, for the class plan."""
