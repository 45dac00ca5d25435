"""Where hands put one outline on another: the steps' own account of a layer's or a piece's place."""

from fractions import Fraction

from foldproof.folding.bonds import by_points
from foldproof.folding.card import Bond, Card
from foldproof.making.table import Dimension
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_length
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry, quarter_turns, translation
from foldproof.paper.polygon import bounding_box, centre_of
from foldproof.paper.vector import Point, Vector
from foldproof.recipe.actions import PlacedAt

_PAGE = Isometry(xx=Fraction(-1))
"""Looking at the back, reached by turning like the page of a book: x mirrored, y kept."""

_TURNS = {"none": 0, "half": 2, "quarter clockwise": 3, "quarter anticlockwise": 1}


def put(card: Card, bond: Bond, at: PlacedAt) -> Isometry | str:
    """From the guest's frame to the receiver's, as the step says; or the reason why it does not say enough."""
    if at.points is not None and at.lie_on is not None:
        slanted = by_points((bond.under.face, bond.over.face), at.points, at.lie_on)
        return slanted or "the two points are not as far apart as those that they are to lie on"
    receiver = card.panels[bond.under.panel]
    guest = card.piece(card.panels[bond.over.panel].piece)
    assert guest is not None
    look = _PAGE if bond.under.face is Face.BACK else Isometry()
    # the guest's face that stays in sight looks at the maker
    show = _PAGE if bond.over.face is Face.FRONT else Isometry()
    as_seen = quarter_turns(_TURNS[at.turned]).after(show)
    room = bounding_box(look.ring(receiver.ring))
    laid = bounding_box(as_seen.ring(card.panels[bond.over.panel].ring))
    middle = _middle(card, bond, at, look)
    unit = card.recipe.unit
    across = _one_way(at, "across", (room.left, room.right), laid.width, middle.x if middle else None, unit)
    up = _one_way(at, "up", (room.bottom, room.top), laid.height, middle.y if middle else None, unit)
    if isinstance(across, str):
        return across
    if isinstance(up, str):
        return up
    shift = translation(Vector(across - laid.left, up - laid.bottom))
    return look.inverse.after(shift).after(as_seen)


def _middle(card: Card, bond: Bond, at: PlacedAt, look: Isometry) -> Point | None:
    """The point to centre on, as the receiving face is looked at; None for the receiving panel's own centre."""
    closed = card.closed
    if at.centred_on is None or closed is None:
        return None
    if at.centred_on == "card":
        target = Point(closed.width / 2, closed.height / 2)
    else:
        panel = card.panels[at.centred_on]
        target = centre_of(closed.placements[panel.name].ring(panel.ring))
    return look.point(closed.placements[bond.under.panel].inverse.point(target))


def _one_way(
    at: PlacedAt, way: str, room: tuple[Fraction, Fraction], length: Fraction, middle: Fraction | None, unit: Unit,
) -> Fraction | str:
    """The lower coordinate of the laid outline in one direction, from what the step says of it."""
    low, high = ("left", "right") if way == "across" else ("bottom", "top")
    first, last = ((at.left, at.right) if way == "across" else (at.bottom, at.top))
    first, last = first or at.border, last or at.border
    start, end = room
    if at.centred in ("both", way):
        return ((start + end) / 2 if middle is None else middle) - length / 2
    if first is not None and last is not None and first.value + length + last.value != end - start:
        return (
            f"{first.written} at the {low}, its own {write_length(length, unit)} and {last.written} at the {high} make "
            f"{write_length(first.value + length + last.value, unit)}, but the panel that receives it is "
            f"{with_unit(end - start, unit)} {'wide' if way == 'across' else 'high'}"
        )
    if first is not None:
        return start + first.value
    if last is not None:
        return end - last.value - length
    return f"the step does not say how far it lies from the {low} or {high} edge"


def said_distances(card: Card, bond: Bond, fit: Isometry, at: PlacedAt) -> tuple[Dimension, ...]:
    """The distances that a step names, from the edges of the receiving panel to those of what is laid on it.

    A border all round is shown once level and once upright.
    """
    receiver = card.panels[bond.under.panel]
    look = _PAGE if bond.under.face is Face.BACK else Isometry()
    room = bounding_box(look.ring(receiver.ring))
    laid = bounding_box(look.ring(fit.ring(card.panels[bond.over.panel].ring)))
    level, upright = (laid.left + laid.right) / 2, (laid.bottom + laid.top) / 2
    ways = (
        (at.left or at.border, Point(room.left, upright), Point(laid.left, upright)),
        (at.right, Point(room.right, upright), Point(laid.right, upright)),
        (at.top or at.border, Point(level, room.top), Point(level, laid.top)),
        (at.bottom, Point(level, room.bottom), Point(level, laid.bottom)),
    )
    back = look.inverse
    return tuple(
        Dimension(piece=receiver.piece, start=back.point(start), end=back.point(end), measure=measure)
        for measure, start, end in ways if measure is not None and start != end
    )
