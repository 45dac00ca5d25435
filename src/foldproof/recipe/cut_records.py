"""What is cut into a piece or a layer beside its outline, as written: slits, windows, notches, and so on."""

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity
from foldproof.recipe.shape_records import Circle, Outline, PointAt, PointSpec, Rectangle
from foldproof.recipe.text import Text


@dataclass(frozen=True, slots=True, kw_only=True)
class SlitSpec:
    """A cut line inside a piece: it parts the paper and takes none away."""

    name: Text
    start: PointSpec
    end: PointSpec
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleSpec:
    """A shape that is cut away: a window has paper all round, a notch opens on an edge."""

    name: Text
    shape: Rectangle | Circle | Outline
    at: PointAt | None
    """The bottom left corner of the shape's bounding rectangle; None for an outline, whose corners stand in the frame
    of the piece."""
    opens: bool
    """Whether it is a notch."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundedSpec:
    """Corners cut round."""

    radius: Quantity
    corners: tuple[str, ...]
    """`top left`, `bottom right`, ...; all four unless said."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class ScallopSpec:
    """An edge cut as a row of half discs that just reach the straight edge that was there."""

    edge: str
    """`left`, `right`, `top` or `bottom`."""
    across: Quantity
    """Of one scallop; the edge holds a whole number of them."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Cuts:
    """Everything that is cut into one piece or layer."""

    slits: tuple[SlitSpec, ...] = ()
    holes: tuple[HoleSpec, ...] = ()
    """Windows, then notches."""
    rounded: RoundedSpec | None = None
    scallops: tuple[ScallopSpec, ...] = ()

    @property
    def takes_off(self) -> bool:
        """Whether anything is cut off the outline."""
        return any(hole.opens for hole in self.holes) or self.rounded is not None or bool(self.scallops)


UNCUT = Cuts()
"""Nothing."""
