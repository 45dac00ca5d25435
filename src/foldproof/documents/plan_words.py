"""The plan and the table in plain words: where scores run, how pieces lie."""

from fractions import Fraction
from operator import itemgetter

from foldproof.documents.words import listed
from foldproof.drawing.cutting import tell_slit, tell_window
from foldproof.folding.card import CardPiece, CardScore
from foldproof.making.table import OnTable, Table
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_size
from foldproof.paper.face import Face, Fold
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Point, Ring, Vector
from foldproof.recipe.records import Circle, Outline, Triangle

_FOLDS = {Fold.VALLEY: "valley fold", Fold.MOUNTAIN: "mountain fold", Fold.NONE: "for looks, never folded"}
_EDGES = {(0, 1): "top", (0, -1): "bottom", (1, 0): "right", (-1, 0): "left"}


def piece_words(piece: CardPiece, unit: Unit) -> str:
    """A piece's size and, where it is no rectangle, its shape."""
    outer = bounding_box(piece.outline)
    size = write_size((outer.width, outer.height), unit)
    match piece.spec.shape:
        case Circle():
            return f"circle, {with_unit(outer.width, unit)} across"
        case Triangle(right_angle=corner):
            return f"{size}, a triangle with its square corner at the {corner}"
        case Outline(corners=corners):
            return f"{size} over all, {len(corners)} corners as drawn"
    return f"{size} over all" if piece.bought else size


def score_words(score: CardScore, piece: CardPiece, unit: Unit) -> str:
    """A score of the plan, seen with the piece upright and its front up: where it runs and how it folds."""
    outer = bounding_box(piece.outline)
    start, end = score.segment.start, score.segment.end
    if start.x == end.x and {start.y, end.y} == {outer.bottom, outer.top}:
        where = f"at {with_unit(start.x - outer.left, unit)} from the left edge"
    elif start.y == end.y and {start.x, end.x} == {outer.left, outer.right}:
        where = f"at {with_unit(start.y - outer.bottom, unit)} up from the bottom edge"
    elif start.x == end.x:
        where = (f"at {with_unit(start.x - outer.left, unit)} from the left edge, "
                 f"{_run((start.y, end.y), (outer.bottom, outer.top), ('bottom', 'top'), unit)}")
    elif start.y == end.y:
        where = (f"at {with_unit(start.y - outer.bottom, unit)} up, "
                 f"{_run((start.x, end.x), (outer.left, outer.right), ('left', 'right'), unit)}")
    else:
        where = f"from {spot_words(start, piece.outline, unit)} to {spot_words(end, piece.outline, unit)}"
    return f"score {where} ({_FOLDS[score.fold]})"


def _run(
    ends: tuple[Fraction, Fraction], edges: tuple[Fraction, Fraction], names: tuple[str, str], unit: Unit,
) -> str:
    """From where to where a straight line runs that does not go right across, measured from the first edge."""
    low, high = sorted(ends)
    to = f"the {names[1]} edge" if high == edges[1] else with_unit(high - edges[0], unit)
    if low == edges[0]:
        return f"from the {names[0]} edge to {to}"
    whence = "up" if names[0] == "bottom" else f"from the {names[0]}"
    return f"from {with_unit(low - edges[0], unit)}{'' if high < edges[1] else f' {whence}'} to {to}" + (
        f" {whence}" if high < edges[1] else "")


def cut_words(piece: CardPiece, unit: Unit) -> tuple[str, ...]:
    """What is cut into a piece, seen with the piece upright and its front up: windows, slits, and its edges."""
    found = [tell_window(window, piece, unit) for window in piece.windows]
    found += [tell_slit(slit, piece, unit) for slit in piece.slits]
    cuts = piece.spec.cuts
    if cuts.rounded is not None:
        which = "all corners" if len(cuts.rounded.corners) == 4 else listed(cuts.rounded.corners)
        found.append(f"{which} rounded to {with_unit(cuts.rounded.radius.value, unit)}")
    found += [f"{one.edge} edge in scallops {with_unit(one.across.value, unit)} across" for one in cuts.scallops]
    found += [f"{hole.name}: notch as drawn" for hole in cuts.holes if hole.opens]
    return tuple(found)


def spot_words(point: Point, ring: Ring, unit: Unit) -> str:
    """A point of a piece, upright and front up: a corner, a distance along an edge from the nearer end, or two."""
    outer = bounding_box(ring)
    left, right = (point.x - outer.left, "left"), (outer.right - point.x, "right")
    bottom, top = (point.y - outer.bottom, "bottom"), (outer.top - point.y, "top")
    (across, near), (up, beside) = min(left, right, key=itemgetter(0)), min(bottom, top, key=itemgetter(0))
    side = "left" if point.x == outer.left else "right" if point.x == outer.right else None
    level = "bottom" if point.y == outer.bottom else "top" if point.y == outer.top else None
    if side and level:
        return f"the {level} {side} corner"
    if level:
        return f"the {level} edge ({with_unit(across, unit)} from its {near} end)"
    if side:
        return f"the {side} edge ({with_unit(up, unit)} from its {beside} end)"
    return f"the point {with_unit(across, unit)} from the {near} edge and {with_unit(up, unit)} from the {beside} edge"


def edge_toward(direction: Vector) -> str | None:
    """The edge of a piece that a direction in its own frame points to; None when it points askew."""
    sign = (direction.x > 0) - (direction.x < 0), (direction.y > 0) - (direction.y < 0)
    return _EDGES.get(sign)


def lying_words(piece: OnTable) -> str:
    """How a piece lies before the maker, and so in a picture taken from above with the maker's side at the bottom.

    The edge is named as on the piece's front, held upright.
    """
    face = "front up" if piece.lie.up is Face.FRONT else "back up"
    edge = edge_toward(-piece.lie.away)
    return f"{piece.name}, {face}, {f'its {edge} edge nearest' if edge else 'lying askew'}"


def table_words(table: Table) -> tuple[str, ...]:
    """What lies on the table, body by body, in the order in which the pieces came."""
    lines = []
    for name, piece in table.pieces.items():
        if table.root(name) == name:
            upon = [other for other in table.pieces if other != name and table.root(other) == name]
            lines.append(lying_words(piece) + (f", with the {listed(upon)} on it" if upon else ""))
    if folded := tuple(dict.fromkeys(score for score, angle in table.folded if angle)):
        lines.append(f"folded: {listed(folded)}")
    return tuple(lines)
