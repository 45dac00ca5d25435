"""How a layer or a joined piece lies on the surface that receives it."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from foldproof.findings.finding import Finding
from foldproof.folding.card import Bond, Panel, Surface
from foldproof.folding.words import error
from foldproof.measures.quantity import Quantity, Unit
from foldproof.measures.writing import with_unit
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
    pending: Pending, panels: Mapping[str, Panel], unit: Unit, centre: Point | None = None,
) -> tuple[Bond | None, tuple[Finding, ...]]:
    """The bond, exactly. `centre`, in the receiving piece's frame, is what it is centred on instead of its panel.

    The laid outline is seen from the side away from its glue: its other face is toward the one who looks.
    """
    spec, under, over = pending.spec, panels[pending.under.panel], panels[pending.over.panel]
    seen_under = looked_at(pending.under.face)
    seen_over = quarter_turns(TURNS[spec.at.turned]).after(looked_at(pending.over.face.other))
    host, guest = _seen(under.ring, seen_under), _seen(over.ring, seen_over)
    middle = host.centre if centre is None else seen_under.point(centre)
    left, faults = _place("across", spec, host.left, host.right, guest.width, middle.x, unit)
    bottom, more = _place("up", spec, host.bottom, host.top, guest.height, middle.y, unit)
    if left is None or bottom is None:
        return None, faults + more
    shift = translation(Vector(left - guest.left, bottom - guest.bottom))
    fit = seen_under.inverse.after(shift).after(seen_over)
    area = common(under.ring, fit.ring(over.ring))
    if area is None:
        return None, (error(
            "nothing to stick to",
            f"{spec.name} lies beside {pending.under.panel} and not on it, so there is nothing to hold it.", spec.place,
            "Check the distances: they run from the edges of the receiving panel inward."),)
    return Bond(
        name=spec.name.value, under=pending.under, over=pending.over, fit=fit, area=area,
        adhesive=spec.adhesive.value if spec.adhesive else None, spec=spec, place=spec.place,
    ), ()


def _seen(ring: Ring, by: Isometry) -> Box:
    return bounding_box(by.point(p) for p in ring)


def _place(
    way: str, spec: JoinSpec | LayerSpec, low: Fraction, high: Fraction, size: Fraction, middle: Fraction, unit: Unit,
) -> tuple[Fraction | None, tuple[Finding, ...]]:
    """Where the placed outline starts in one direction, or why that is not known."""
    at = spec.at
    before, after = (at.left, at.right) if way == "across" else (at.bottom, at.top)
    words = ("left", "right") if way == "across" else ("bottom", "top")
    given = before is not None or after is not None
    centred = at.centred in ("both", way) or (at.centred is None and at.centred_on is not None and not given)
    if centred and given:
        extra = before if before is not None else after
        assert extra is not None
        return None, (error("placed twice", f"{spec.name} is centred {way}, and also given a distance from an edge.",
                            extra.place, "Keep one of the two."),)
    if centred:
        return middle - size / 2, ()
    if before is not None and after is not None:
        return _between(way, spec, before, after, low, high, size, unit)
    if before is not None:
        return low + before.value, ()
    if after is not None:
        return high - after.value - size, ()
    return None, (error(
        "place not given", f"{spec.name} has no place {'from left to right' if way == 'across' else 'up and down'}.",
        spec.place, f"Give `{words[0]}` or `{words[1]}`, or `centred: {way}`."),)


def _between(
    way: str, spec: JoinSpec | LayerSpec, before: Quantity, after: Quantity, low: Fraction, high: Fraction,
    size: Fraction, unit: Unit,
) -> tuple[Fraction | None, tuple[Finding, ...]]:
    room = high - low - before.value - after.value
    if room == size:
        return low + before.value, ()
    much = f"{with_unit(abs(room - size), unit)} too {'small' if room > size else 'large'}"
    return None, (error(
        "borders do not fit",
        f"The two distances leave {with_unit(room, unit)} {way}, and {spec.name} measures {with_unit(size, unit)}: it "
        f"is {much}.", after.place, "Change the size or one of the distances, or give only one of them."),)
