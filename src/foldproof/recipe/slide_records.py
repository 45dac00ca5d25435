"""What moves or holds without a hinge and without glue, as written."""

from enum import StrEnum

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity
from foldproof.recipe.text import Text


class Hold(StrEnum):
    """In what something slides, or what holds it."""

    POCKET = "pocket"
    """A layer or a join that takes glue in strips along some of its edges."""
    SLIT = "slit"
    """A tongue or a pull tab goes through it."""
    BAND = "band"
    """A strip closed to a ring round the closed card: a belly band or a sleeve."""
    BRAD = "brad"
    """A paper fastener about which a piece turns."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SlideSpec:
    """One thing that slides in another, or turns on it."""

    name: Text
    what: Text
    """The piece, layer or panel that moves; `card` for what a band goes round."""
    hold: Hold
    into: Text
    """The pocket's layer or join, the slit, the band's piece, or what the brad goes through."""
    laps: Quantity | None
    """Of a band: how much its ends overlap."""
    at: tuple[Quantity, Quantity] | None
    """Of a brad: where it goes through `into`, in its piece's own frame."""
    pin: tuple[Quantity, Quantity] | None
    """Of a brad: where it goes through `what`, in its piece's own frame."""
    play: Quantity | None
    """The room that is asked for; the usual one unless said."""
    place: Place
