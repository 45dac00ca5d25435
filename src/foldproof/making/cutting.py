"""Cutting: pieces out of sheets, and parts off pieces."""

from dataclasses import replace
from fractions import Fraction

from foldproof.folding.card import CardPiece
from foldproof.making.outcome import Outcome, Setting, refused, with_pieces
from foldproof.making.points import at_coordinates, find_point
from foldproof.making.table import UPRIGHT, Dimension, Lie, OnTable
from foldproof.making.work import Work, work_with
from foldproof.paper.face import Face
from foldproof.paper.polygon import Where, bounding_box, clip, edges, locate
from foldproof.paper.shapes import rectangle
from foldproof.paper.subdivision import subdivide
from foldproof.paper.vector import Point, Ring, Segment, Vector
from foldproof.recipe.actions import CutAcross, CutBetween, CutOff, CutOut, DieCut

_0, _1 = Fraction(0), Fraction(1)


def _plan(setting: Setting, name: str | None) -> CardPiece | None:
    return setting.card.piece(name) if name is not None else None


def cut_out(setting: Setting, action: CutOut) -> Outcome:
    """A rectangle from the sheet: upright and front up, unless it is the plan's rectangle said the other way round."""
    name = setting.target
    plan = _plan(setting, name)
    if plan is None or name is None:
        return refused(setting, "nothing to act on", "The step does not say which piece it cuts.",
                       "Give the step a `piece:`, or write `piece:` beside the cut.")
    if name in setting.table.pieces:
        return refused(setting, "cut twice", f"The {name} has been cut already.",
                       "Take this cut out, or give it to the piece that it is meant for.")
    width, height = action.size[0].value, action.size[1].value
    box = bounding_box(plan.outline)
    lie = UPRIGHT
    swapped = (width, height) == (box.height, box.width) and width != height
    one_way = any(paper.name.value == plan.paper and paper.pattern == "upright" for paper in setting.card.recipe.papers)
    if swapped and not one_way:
        width, height = height, width
        lie = Lie(right=Vector(_0, -_1), up=Face.FRONT)
    made = OnTable(name=name, outline=rectangle(width, height), round=False, lie=lie)
    sides = (Segment(Point(_0, _0), Point(width, _0)), Segment(Point(_0, _0), Point(_0, height)))
    first, second = (sides[1], sides[0]) if lie is not UPRIGHT else sides
    return Outcome(
        table=with_pieces(setting.table, made), piece=name,
        dimensions=(
            Dimension(piece=name, start=first.start, end=first.end, measure=action.size[0]),
            Dimension(piece=name, start=second.start, end=second.end, measure=action.size[1]),
        ),
    )


def die_cut(setting: Setting, action: DieCut) -> Outcome:
    """A die cut, a punched or a bought shape of the stated outer size."""
    name = setting.target
    plan = _plan(setting, name)
    if plan is None or name is None:
        return refused(setting, "nothing to act on", "The step does not say which layer it cuts.",
                       "Give the step a `piece:`, or write `piece:` beside the die cut.")
    if name in setting.table.pieces:
        return refused(setting, "cut twice", f"The {name} has been cut already.", "Take this cut out.")
    width, height = action.size[0].value, action.size[1].value
    box = bounding_box(plan.outline)
    stretch = (width / box.width, height / box.height)
    outline = tuple(Point((p.x - box.left) * stretch[0], (p.y - box.bottom) * stretch[1]) for p in plan.outline)
    made = OnTable(name=name, outline=outline, round=plan.round)
    return Outcome(
        table=with_pieces(setting.table, made), piece=name,
        dimensions=(
            Dimension(piece=name, start=Point(_0, height / 2), end=Point(width, height / 2), measure=action.size[0]),
            Dimension(piece=name, start=Point(width / 2, _0), end=Point(width / 2, height), measure=action.size[1]),
        ),
    )


def cut_across(setting: Setting, action: CutAcross) -> Outcome:
    """Straight across at a distance from the stop; the side that is kept is the piece from now on."""
    work = _loose_work(setting)
    if isinstance(work, Outcome):
        return work
    low, high = work.span(work.lie.right)
    bottom, top = work.span(work.lie.away)
    at, begin = (low + action.at.value, low) if action.start == "left" else (high - action.at.value, high)
    if not low < at < high:
        whence = "the stop" if action.start == "left" else "the right end"
        return refused(setting, "off the work", f"A cut at {setting.length(action.at.value)} from {whence} misses the "
                       f"{work.root}, which is {setting.length(high - low)} long as it lies.",
                       "Check the distance, and which edge lies against the fence.")
    line = Segment(at_coordinates(work, at, bottom), at_coordinates(work, at, top))
    start = at_coordinates(work, begin, top)
    dimension = Dimension(piece=work.root, start=start, end=at_coordinates(work, at, top), measure=action.at)
    toward = -work.lie.right if action.keep == "left" else work.lie.right
    return _keep(setting, work, line, toward, action.other, (dimension,))


def cut_off(setting: Setting, action: CutOff) -> Outcome:
    """A strip off along an edge; the rest is the piece from now on."""
    work = _loose_work(setting)
    if isinstance(work, Outcome):
        return work
    level = action.edge in ("top", "bottom")
    along, across = (work.lie.right, work.lie.away) if level else (work.lie.away, work.lie.right)
    (low, high), (near, far) = work.span(along), work.span(across)
    from_far = action.edge in ("top", "right")
    edge, at = (far, far - action.width.value) if from_far else (near, near + action.width.value)
    if not near < at < far:
        return refused(setting, "off the work", f"A strip of {setting.length(action.width.value)} leaves nothing of "
                       f"the {work.root}, which is {setting.length(far - near)} across there as it lies.",
                       "Check how wide the strip is, and the edge.")

    def spot(length: Fraction, depth: Fraction) -> Point:
        return at_coordinates(work, length, depth) if level else at_coordinates(work, depth, length)

    dimension = Dimension(piece=work.root, start=spot(high, edge), end=spot(high, at), measure=action.width)
    toward = -across if from_far else across
    return _keep(setting, work, Segment(spot(low, at), spot(high, at)), toward, action.other, (dimension,))


def cut_between(setting: Setting, action: CutBetween) -> Outcome:
    """Along the line between two points; the part with the named corner is the piece from now on."""
    work = _loose_work(setting)
    if isinstance(work, Outcome):
        return work
    ends = [find_point(setting.card, setting.table, work, point) for point in (action.start, action.end)]
    keep = find_point(setting.card, setting.table, work, replace(action.start, name=action.keep))
    for found in (*ends, keep):
        if isinstance(found, str):
            return refused(setting, "no such point", f"The cut cannot be placed: {found}.",
                           "Name a corner as the piece lies, such as `top left`, or a mark made before.")
    start, end, kept = (p for p in (*ends, keep) if isinstance(p, Point))
    if start == end:
        return refused(setting, "no length", "The cut starts and ends at the same point.", "Name two different points.")
    line = Segment(start, end)
    side = line.along.cross(kept - start)
    if side == 0:
        return refused(setting, "which part to keep", f"The cut runs through the {action.keep} corner, so it cannot "
                       "say which part is kept.", "Name a corner that lies on one side of the cut.")
    toward = line.along.left if side > 0 else -line.along.left
    return _keep(setting, work, line, toward, action.other, ())


def _loose_work(setting: Setting) -> Work | Outcome:
    name = setting.target
    if name is None or name not in setting.table.pieces:
        return refused(setting, "not cut yet", f"The {name or 'piece'} is not on the table yet, so it cannot be cut "
                       "to shape.", "Cut it from its sheet first.")
    work = work_with(setting.card, setting.table, name)
    if len(work.parts) > 1:
        return refused(setting, "cut through folded layers", f"The {name} is folded or already joined, and this cut "
                       "would go through all the paper beneath.", "Cut before folding and gluing, or unfold first.")
    return work


def _keep(
    setting: Setting, work: Work, line: Segment, toward: Vector, other: str | None, dimensions: tuple[Dimension, ...],
) -> Outcome:
    """Part the loose piece along a line; keep what lies toward a direction. The frame's corner goes with the part."""
    piece = setting.table.pieces[work.root]
    parts = [face.ring for face in subdivide((*edges(piece.outline), *clip(line, piece.outline))).faces]
    if len(parts) != 2:
        return refused(setting, "off the work", f"The cut does not part the {piece.name} in two.",
                       "Check the distance and the points of the cut.")

    def reach(ring: Ring) -> Fraction:
        return max((p - line.start).dot(toward) for p in ring)

    kept, left_over = sorted(parts, key=reach, reverse=True)
    pieces = [_reframed(piece, kept)]
    if other is not None:
        if other in setting.table.pieces:
            return refused(setting, "cut twice", f"The {other} has been cut already.", "Name another piece.")
        pieces.append(replace(_reframed(replace(piece, creases=(), marks=()), left_over), name=other))
    low = _corner(kept)
    cut_lines = clip(line, piece.outline)
    moved = tuple(replace(d, start=_less(d.start, low), end=_less(d.end, low)) for d in dimensions)
    return Outcome(
        table=with_pieces(setting.table, *pieces), piece=piece.name, dimensions=moved,
        lines=tuple(Segment(_less(s.start, low), _less(s.end, low)) for s in cut_lines),
    )


def _corner(ring: Ring) -> Point:
    box = bounding_box(ring)
    return Point(box.left, box.bottom)


def _less(p: Point, corner: Point) -> Point:
    return Point(p.x - corner.x, p.y - corner.y)


def _reframed(piece: OnTable, ring: Ring) -> OnTable:
    """The piece with a new outline, its frame's origin moved to the bottom left of its bounding rectangle."""
    low = _corner(ring)
    creases = []
    for crease in piece.creases:
        for stretch in clip(crease.segment, ring):
            creases.append(replace(
                crease, segment=Segment(_less(stretch.start, low), _less(stretch.end, low))))
    return replace(
        piece, outline=tuple(_less(p, low) for p in ring),
        holes=tuple(tuple(_less(p, low) for p in hole) for hole in piece.holes
                    if locate(hole[0], ring) is Where.IN),
        slits=tuple(Segment(_less(s.start, low), _less(s.end, low)) for slit in piece.slits for s in clip(slit, ring)
                    if s.start != s.end),
        creases=tuple(creases),
        marks=tuple(replace(mark, at=_less(mark.at, low)) for mark in piece.marks),
    )
