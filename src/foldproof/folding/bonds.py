"""How a layer or a joined piece lies on the surface that receives it."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from foldproof.findings.finding import Finding
from foldproof.folding.card import Bond, Panel, Surface
from foldproof.folding.words import error
from foldproof.paper.face import Face
from foldproof.paper.isometry import IDENTITY, Isometry, quarter_turns, translation
from foldproof.paper.polygon import Box, bounding_box
from foldproof.paper.subdivision import common
from foldproof.paper.vector import Point, Ring, Vector
from foldproof.recipe.records import JoinSpec, LayerSpec, PlaceOn, Turned

MIRROR = Isometry(xx=Fraction(-1))
"""A face looked at from behind, reached by turning the paper like the page of a book: x mirrored, y kept."""
TURNS = {Turned.NONE: 0, Turned.HALF: 2, Turned.CLOCKWISE: 3, Turned.ANTICLOCKWISE: 1}
"""Anticlockwise quarters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """A bond whose surfaces are known and whose place is not worked out yet."""

    spec: JoinSpec | LayerSpec
    under: Surface
    over: Surface

    @property
    def at(self) -> PlaceOn:
        """Where it is to lie."""
        return self.spec.at


def looked_at(face: Face) -> Isometry:
    """From a piece's own frame to what one sees who looks at a face of it."""
    return IDENTITY if face is Face.FRONT else MIRROR


def bond_of(
    pending: Pending, panels: Mapping[str, Panel], centre: Point | None = None,
) -> Bond | Finding:
    """The bond, exactly. `centre`, in the receiving piece's frame, is what it is centred on instead of its panel.

    The laid outline is seen from the side away from its glue: its other face is toward the one who looks.
    """
    spec, under, over = pending.spec, panels[pending.under.panel], panels[pending.over.panel]
    seen_under = looked_at(pending.under.face)
    seen_over = quarter_turns(TURNS[spec.at.turned]).after(looked_at(pending.over.face.other))
    host, guest = _seen(under.ring, seen_under), _seen(over.ring, seen_over)
    middle = host.centre if centre is None else seen_under.point(centre)
    left = _start("across", spec.at, host.left, host.right, guest.width, middle.x)
    bottom = _start("up", spec.at, host.bottom, host.top, guest.height, middle.y)
    shift = translation(Vector(left - guest.left, bottom - guest.bottom))
    fit = seen_under.inverse.after(shift).after(seen_over)
    area = common(under.ring, fit.ring(over.ring))
    if area is None:
        return error(
            "nothing to stick to",
            f"{spec.name} lies beside {pending.under.panel} and not on it, so there is nothing to hold it.", spec.place,
            "Check the distances: they run from the edges of the receiving panel inward.")
    return Bond(
        name=spec.name.value, under=pending.under, over=pending.over, fit=fit, area=area,
        adhesive=spec.adhesive.value if spec.adhesive else None, spec=spec, place=spec.place,
    )


def _seen(ring: Ring, by: Isometry) -> Box:
    return bounding_box(by.point(p) for p in ring)


def _start(
    way: str, at: PlaceOn, low: Fraction, high: Fraction, size: Fraction, middle: Fraction,
) -> Fraction:
    """Where the placed outline starts in one direction; the reader has seen to it that this is given, and once."""
    before, after = (at.left, at.right) if way == "across" else (at.bottom, at.top)
    if before is not None:
        return low + before.value
    if after is not None:
        return high - after.value - size
    return middle - size / 2
