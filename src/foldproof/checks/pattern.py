"""Patterned paper: upright where it is seen, its printed face in sight."""

from collections.abc import Iterable
from fractions import Fraction

from foldproof.checks.check import error, warning
from foldproof.checks.diagonals import landing, other_half
from foldproof.checks.phrases import paper_of, sliver
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card, CardPiece, FlatPose, Region
from foldproof.making.table import Making
from foldproof.making.triangles import diagonal, opposite
from foldproof.paper.face import Face
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Vector
from foldproof.recipe.records import LayerSpec

NOT_UPRIGHT = error(
    "pattern not upright",
    "A paper whose print must stand upright lies sideways, slanted or on its head where it is first seen.")
PRINT_HIDDEN = warning(
    "printed face glued down", "The printed face of a layer is the one that is glued, so its plain face shows.")

LETTERING = error(
    "words not upright",
    "What is stamped or written lies sideways, aslant or on its head for the reader where it is first seen.")

_UP = Vector(Fraction(0), Fraction(1))


def check_upright(card: Card, making: Making) -> Iterable[Finding]:
    """Each panel of an upright paper stands upright in the first pose, as the card opens, in which its print is seen.

    What is seen from behind, turned like the page of a book, counts for layers only: the back of a tent card stands
    on its head by its nature.
    """
    for piece in card.pieces:
        paper = paper_of(card, piece.name)
        if paper is None or paper.pattern != "upright" or piece.bought:
            continue
        for panel in piece.panels:
            seen = _first_seen(card, panel, _printed(paper.printed), piece.layer)
            if seen is None:
                continue
            pose, behind = seen
            up = pose.placements[panel].vector(_UP)
            if up.x == 0 and up.y > 0:
                continue
            yield NOT_UPRIGHT.finding(
                f"The paper {paper.name} on the {panel} {_lies(up, behind)} when it is first seen, in the pose "
                f"{pose.name}{' from behind' if behind else ''}: its print must stand upright.",
                mend=_mend_triangle(card, making, piece, panel, seen) or _mend(piece, up), place=piece.spec.place)
            break


def check_lettering(card: Card, making: Making) -> Iterable[Finding]:
    """What is stamped reads upright in the first pose, as the card opens, in which its face is seen.

    Words stand upright as the work lay before the maker when they were stamped.
    """
    for stamped in making.end.stamped:
        piece = card.piece(card.panels[stamped.panel].piece)
        seen = _first_seen(card, stamped.panel, (stamped.face,), piece is not None and piece.layer)
        if seen is None:
            continue
        pose, behind = seen
        up = pose.placements[stamped.panel].vector(stamped.up)
        if up.x == 0 and up.y > 0:
            continue
        words = f"“{stamped.words}”" if stamped.words else "What is stamped"
        yield LETTERING.finding(
            f"{words} on the {stamped.panel} {_lies(up, behind)} when it is first seen, in the pose {pose.name}"
            f"{' from behind' if behind else ''}.",
            mend=f"Turn the work {_way_round(up, behind)} before it is stamped, so that its top lies away from the "
            "maker, or turn the layer when it is fixed.", place=stamped.place)


def _way_round(up: Vector, behind: bool) -> str:
    """The turn of the work that brings the words upright: clockwise under them where their top points right."""
    if up.x == 0:
        return "half round"
    return "a quarter clockwise" if (up.x > 0) != behind else "a quarter anticlockwise"


def _printed(printed: str) -> tuple[Face, ...]:
    return (Face.FRONT,) if printed == "one face" else (Face.FRONT, Face.BACK)


def _first_seen(card: Card, panel: str, faces: tuple[Face, ...], layer: bool) -> tuple[FlatPose, bool] | None:
    poses = _in_order(card)
    for pose in poses:
        if any(_shows(card, region, panel, faces) for region in pose.seen):
            return pose, False
    if layer:
        for pose in poses:
            if any(_shows(card, region, panel, faces) for region in pose.hidden_side):
                return pose, True
    return None


def _in_order(card: Card) -> tuple[FlatPose, ...]:
    opening = [name.value for name in card.recipe.opening]
    names = [*opening, *(pose.name for pose in card.poses if pose.name not in opening)]
    return tuple(pose for name in names if isinstance(pose := card.pose(name), FlatPose))


def _shows(card: Card, region: Region, panel: str, faces: tuple[Face, ...]) -> bool:
    if region.panel != panel or region.face not in faces:
        return False
    box = bounding_box(region.ring)
    return min(box.width, box.height) > sliver(card)


def _lies(up: Vector, behind: bool) -> str:
    if up.x == 0:
        return "stands on its head"
    if up.y == 0:
        leftward = (up.x < 0) != behind
        return f"lies on its side, its top to the {'left' if leftward else 'right'},"
    return "lies aslant"


def _mend_triangle(
    card: Card, making: Making, piece: CardPiece, panel: str, seen: tuple[FlatPose, bool],
) -> str | None:
    """The diagonal that lets a right triangle stand upright where it lands, and the other half of its rectangle too."""
    corner = landing(card, panel, *seen)
    if corner is None:
        return None
    cut = f"{diagonal(corner)} as you look at the printed face"
    keep = f"the half with its right angle at the {' '.join(corner)}"
    half = other_half(making, piece.name)
    other = card.piece(half) if half is not None else None
    there = None
    if other is not None:
        its = _first_seen(card, other.panels[0], (Face.FRONT, Face.BACK), other.layer)
        there = landing(card, other.panels[0], *its) if its is not None else None
    if other is None or there is None:
        return f"Cut its rectangle {cut}, and keep {keep}, unturned."
    if there == opposite(corner):
        return (f"Cut the rectangle {cut}: then the {piece.name} is {keep}, the {other.name} is the other half, and "
                "both stand upright unturned.")
    return (f"The {piece.name} and the {other.name} cannot both stand upright from one rectangle. Cut a rectangle of "
            f"its own for the {piece.name}, {cut}, and keep {keep}, unturned.")


def _mend(piece: CardPiece, up: Vector) -> str:
    turn = "half" if up.x == 0 else "a quarter"
    if isinstance(piece.spec, LayerSpec):
        return (f"Turn the {piece.name} {turn} round before it is fixed (`at: turned`), or cut it the other way of "
                "the sheet.")
    return f"Turn the plan of the {piece.name} {turn} round, or take a paper whose pattern may lie any way."


def check_printed_face(card: Card, making: Making) -> Iterable[Finding]:
    """A layer of paper that is printed on one face is glued on its plain face."""
    for layer in card.recipe.layers:
        paper = paper_of(card, layer.name.value)
        if paper is not None and paper.printed == "one face" and layer.face is Face.FRONT:
            yield PRINT_HIDDEN.finding(
                f"The paper {paper.name} is printed on one face, the front, and the {layer.name} is glued by its "
                "front: its plain face shows.",
                mend="Glue its back (`glue on: back`).", place=layer.place)
