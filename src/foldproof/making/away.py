"""Windows, notches, round corners and scallops cut on the table, through all the paper beneath."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from foldproof.frozen import dataclass
from foldproof.making.outcome import Outcome, Setting, refused, with_pieces
from foldproof.making.points import at_coordinates, find_point
from foldproof.making.table import Dimension, OnTable
from foldproof.making.work import Work
from foldproof.measures.quantity import Quantity
from foldproof.paper.cutaway import corner_waste, remaining, scallop_waste, shared
from foldproof.paper.polygon import Box, anticlockwise, bounding_box, clip, is_simple, overlap
from foldproof.paper.shapes import disc, rectangle
from foldproof.paper.vector import Point, Ring
from foldproof.recipe.actions import CutAway, RoundCorners, Scallop


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lying:
    """The work as it lies: its bounding rectangle with x to the maker's right and y away."""

    work: Work
    box: Box

    def ring(self, ring: Ring) -> Ring:
        """From the maker's frame to the frame of the body's root."""
        return anticlockwise(tuple(at_coordinates(self.work, p.x, p.y) for p in ring))

    def length(self, start: tuple[Fraction, Fraction], end: tuple[Fraction, Fraction], measure: Quantity) -> Dimension:
        """A length that the action sets."""
        return Dimension(piece=self.work.root, start=at_coordinates(self.work, *start),
                         end=at_coordinates(self.work, *end), measure=measure)


def _lying(work: Work) -> _Lying:
    left, right = work.span(work.lie.right)
    bottom, top = work.span(work.lie.away)
    return _Lying(work=work, box=Box(left=left, right=right, bottom=bottom, top=top))


def cut_away(setting: Setting, work: Work, action: CutAway) -> Outcome:
    """A shape cut or punched out of the work."""
    lying = _lying(work)
    dimensions: tuple[Dimension, ...] = ()
    if action.corners:
        found = [find_point(setting.card, setting.table, work, point) for point in action.corners]
        reasons = [each for each in found if isinstance(each, str)]
        if reasons:
            return refused(setting, "no such point", f"The cut cannot be placed: {'; '.join(reasons)}.",
                           "Name a corner as the piece lies, or a mark made before.")
        ring: Ring = tuple(p for p in found if isinstance(p, Point))
        if not is_simple(ring):
            return refused(setting, "outline crosses itself", "The cut from mark to mark crosses itself, or has no "
                           "area.", "Name the marks in the order in which the blade goes round.")
        gone = anticlockwise(ring)
    else:
        shape, dimensions = _shape(lying, action)
        gone = lying.ring(shape)
    return _take(setting, work, (gone,), dimensions, "notch" if action.opens else "window")


def _shape(lying: _Lying, action: CutAway) -> tuple[Ring, tuple[Dimension, ...]]:
    """A rectangle or a disc in the maker's frame, with the lengths that place it."""
    at, room = action.at, lying.box
    ring = disc(action.circle.value) if action.circle else rectangle(*(side.value for side in action.size or ()))
    size = bounding_box(ring)
    left = room.left + at.left.value if at.left else room.right - at.right.value - size.width if at.right \
        else room.centre.x - size.width / 2
    bottom = room.bottom + at.bottom.value if at.bottom else room.top - at.top.value - size.height if at.top \
        else room.centre.y - size.height / 2
    placed = tuple(Point(p.x + left, p.y + bottom) for p in ring)
    right, top = left + size.width, bottom + size.height
    level, upright = bottom + size.height / 2, left + size.width / 2
    lengths = [
        lying.length((a, level), (b, level), measure) for measure, a, b in (
            (at.left, room.left, left), (at.right, right, room.right),
            (action.size[0] if action.size else action.circle, left, right),
        ) if measure and a != b
    ] + [
        lying.length((upright, a), (upright, b), measure) for measure, a, b in (
            (at.top, top, room.top), (at.bottom, room.bottom, bottom),
            (action.size[1] if action.size else None, bottom, top),
        ) if measure and a != b
    ]
    return placed, tuple(lengths)


def round_corners(setting: Setting, work: Work, action: RoundCorners) -> Outcome:
    """Corners of the work cut round."""
    lying = _lying(work)
    radius = action.radius.value
    if 2 * radius > min(lying.box.width, lying.box.height):
        return refused(setting, "corner too round", f"A radius of {setting.length(radius)} is more than half of the "
                       "work as it lies.", "Take a smaller radius.")
    gone = tuple(lying.ring(corner_waste(lying.box, corner, radius)) for corner in action.corners)
    return _take(setting, work, gone, (), "rounding")


def scallop(setting: Setting, work: Work, action: Scallop) -> Outcome:
    """An edge of the work cut as a row of half discs."""
    lying = _lying(work)
    long = lying.box.width if action.edge in ("top", "bottom") else lying.box.height
    if (long / action.across.value).denominator != 1:
        return refused(setting, "scallops do not come out", f"The {action.edge} edge is {setting.length(long)} long as "
                       f"it lies, no whole number of scallops {setting.length(action.across.value)} across.",
                       "Check the edge and the width of a scallop.")
    waste = scallop_waste(lying.box, action.edge, action.across.value)
    return _take(setting, work, tuple(lying.ring(ring) for ring in waste), (), "scallops")


def _take(
    setting: Setting, work: Work, gone: Sequence[Ring], dimensions: tuple[Dimension, ...], sort: str,
) -> Outcome:
    """Take shapes, given in the root's frame, out of every sheet of paper beneath."""
    taken: dict[str, list[Ring]] = {}
    for part in work.parts:
        inverse = part.fit.inverse
        for ring in gone:
            own = inverse.ring(ring)
            if not overlap(own, part.ring):
                continue
            if len(work.parts) == 1:
                taken.setdefault(part.piece, []).append(own)
            else:
                taken.setdefault(part.piece, []).extend(
                    area.ring for area in shared(part.ring, part.holes, own))
    if not taken:
        return refused(setting, "off the work", f"The {sort} takes nothing off the {work.root}.",
                       "Check the distances, and how the work lies.")
    pieces: list[OnTable] = []
    for name, rings in taken.items():
        piece = setting.table.pieces[name]
        left = remaining(piece.outline, piece.holes, rings)
        if len(left) != 1:
            return refused(setting, "piece falls apart", f"This {sort} leaves {len(left)} parts of the {name}.",
                           "Check the distances, and what lies beneath.")
        more = len(left[0].holes) - len(piece.holes)
        if (sort == "window") is (more <= 0) and len(work.parts) == 1:
            reaches = "opens on an edge" if sort == "window" else "reaches no edge"
            return refused(setting, f"{sort} of another kind", f"This {sort} {reaches} of the {name} as it lies.",
                           f"Check the distances, or call it a {'notch' if sort == 'window' else 'window'}.")
        ring, holes = left[0].ring, left[0].holes
        creases = tuple(
            replace(crease, segment=s) for crease in piece.creases for s in clip(crease.segment, ring, holes)
            if s.start != s.end)
        slits = tuple(s for slit in piece.slits for s in clip(slit, ring, holes) if s.start != s.end)
        pieces.append(replace(piece, outline=ring, holes=holes, creases=creases, slits=slits))
    target = setting.target if setting.target in taken else pieces[0].name
    return Outcome(table=with_pieces(setting.table, *pieces), piece=target, dimensions=dimensions, gone=tuple(gone))
