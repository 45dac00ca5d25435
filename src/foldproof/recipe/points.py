"""A point that the author writes by its coordinates."""

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class PointAt:
    """A point by its coordinates in the piece's own frame: front up, origin bottom left."""

    x: Quantity
    y: Quantity
    place: Place
