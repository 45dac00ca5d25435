"""How a layer or a joined piece lies on the surface that receives it."""

from collections.abc import Mapping
from fractions import Fraction

from foldproof.findings.finding import Finding
from foldproof.folding.card import Bond, Panel, Stand, Surface
from foldproof.folding.words import distance, error
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.paper.face import Face
from foldproof.paper.isometry import IDENTITY, Isometry, quarter_turns, translation
from foldproof.paper.polygon import Box, bend, bounding_box
from foldproof.paper.subdivision import common
from foldproof.paper.vector import Point, Ring, Segment, Vector
from foldproof.recipe.records import GlueSpec, JoinSpec, LayerSpec, PlaceOn, PointAt, Turned

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
) -> Bond | Finding:
    """The bond, exactly. `centre`, in the receiving piece's frame, is what it is centred on instead of its panel.

    The laid outline is seen from the side away from its glue: its other face is toward the one who looks.
    """
    spec, under, over = pending.spec, panels[pending.under.panel], panels[pending.over.panel]
    if spec.at.points is not None and spec.at.lie_on is not None:
        fit = by_points((pending.under.face, pending.over.face), spec.at.points, spec.at.lie_on)
        if fit is None:
            return _unlike(pending, spec.at.points, spec.at.lie_on, unit)
        return _bonded(pending, panels, fit)
    seen_under = looked_at(pending.under.face)
    seen_over = quarter_turns(TURNS[spec.at.turned]).after(looked_at(pending.over.face.other))
    host, guest = _seen(under.ring, seen_under), _seen(over.ring, seen_over)
    middle = host.centre if centre is None else seen_under.point(centre)
    left = _start("across", spec.at, host.left, host.right, guest.width, middle.x)
    bottom = _start("up", spec.at, host.bottom, host.top, guest.height, middle.y)
    shift = translation(Vector(left - guest.left, bottom - guest.bottom))
    return _bonded(pending, panels, seen_under.inverse.after(shift).after(seen_over))


def by_points(
    faces: tuple[Face, Face], points: tuple[PointAt, PointAt], lie_on: tuple[PointAt, PointAt],
) -> Isometry | None:
    """The place of what is laid by two of its points and where they come to lie, for the receiving face and the laid.

    Exact, as the two distances are the same; None where they are not.
    """
    (a, b), (c, d) = _ends(points), _ends(lie_on)
    way, wanted = b - a, d - c
    if way.square == 0 or way.square != wanted.square:
        return None
    mirror = IDENTITY if faces[0] is not faces[1] else MIRROR
    way = mirror.vector(way)
    cos, sin = way.dot(wanted) / way.square, way.cross(wanted) / way.square
    turned = Isometry(xx=cos, xy=-sin, yx=sin, yy=cos).after(mirror)
    return translation(c - turned.point(a)).after(turned)


def _ends(pair: tuple[PointAt, PointAt]) -> tuple[Point, Point]:
    return Point(pair[0].x.value, pair[0].y.value), Point(pair[1].x.value, pair[1].y.value)


def _unlike(
    pending: Pending, points: tuple[PointAt, PointAt], lie_on: tuple[PointAt, PointAt], unit: Unit,
) -> Finding:
    (a, b), (c, d) = _ends(points), _ends(lie_on)
    return error(
        "points that cannot lie on each other",
        f"The two points of {pending.spec.name} are {distance((b - a).square, unit)} apart, those that they lie on "
        f"{distance((d - c).square, unit)}.", points[1].place,
        "Measure both along the same line: the two distances must be the same, and more than nothing.")


def _bonded(pending: Pending, panels: Mapping[str, Panel], fit: Isometry) -> Bond | Finding:
    """The bond for a place; a finding where the two do not touch."""
    spec, under, over = pending.spec, panels[pending.under.panel], panels[pending.over.panel]
    area = common(under.ring, fit.ring(over.ring))
    if area is None:
        return error(
            "nothing to stick to",
            f"{spec.name} lies beside {pending.under.panel} and not on it, so there is nothing to hold it.", spec.place,
            "Check the distances: they run from the edges of the receiving panel inward.")
    return Bond(
        name=spec.name.value, under=pending.under, over=pending.over, fit=fit, area=area,
        adhesive=spec.adhesive.value if spec.adhesive else None, spec=spec, place=spec.place,
        stand=_stand(spec, over, fit),
        glue=_glue(spec.glue_area, fit.ring(over.ring), looked_at(pending.under.face)) if spec.glue_area else (),
    )


def _stand(spec: JoinSpec | LayerSpec, over: Panel, fit: Isometry) -> Stand | None:
    """The glued edge of a panel that stands off its surface, the panel on its left."""
    if not isinstance(spec, JoinSpec) or spec.stands is None:
        return None
    box = bounding_box(over.ring)
    low, high = Point(box.left, box.bottom), Point(box.right, box.top)
    ends = {
        "left": (low, Point(box.left, box.top)), "right": (Point(box.right, box.bottom), high),
        "bottom": (low, Point(box.right, box.bottom)), "top": (Point(box.left, box.top), high),
    }[spec.stands.edge]
    line = fit.segment(Segment(*ends))
    if bend(line.start, line.end, fit.point(box.centre)) < 0:
        line = Segment(line.end, line.start)
    return Stand(line=line, angle=spec.stands.angle.value)



def _glue(spec: GlueSpec, laid: Ring, seen: Isometry) -> tuple[Ring, ...]:
    """Where the adhesive goes, in the receiving piece's frame: strips of the laid outline along its box, as seen."""
    ring = seen.ring(laid)
    if spec.whole:
        return (seen.inverse.ring(ring),)
    box = bounding_box(ring)
    corners = {
        "left": (box.left, box.bottom, box.left + spec.left.value, box.top) if spec.left else None,
        "right": (box.right - spec.right.value, box.bottom, box.right, box.top) if spec.right else None,
        "top": (box.left, box.top - spec.top.value, box.right, box.top) if spec.top else None,
        "bottom": (box.left, box.bottom, box.right, box.bottom + spec.bottom.value) if spec.bottom else None,
    }
    strips = [
        tuple(Point(*p) for p in ((a, b), (c, b), (c, d), (a, d))) for a, b, c, d in filter(None, corners.values())]
    kept = (common(ring, strip) for strip in strips)
    return tuple(seen.inverse.ring(part) for part in kept if part is not None)


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
