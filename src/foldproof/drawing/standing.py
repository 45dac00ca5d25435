"""A card that stands off the table, drawn as one sees it from the front, a little from the right and from above."""

from collections.abc import Iterator
from fractions import Fraction

from foldproof.drawing.picture import tone_of
from foldproof.drawing.plane import XY, box_round
from foldproof.drawing.record import DrawingStyle
from foldproof.drawing.rows import Wanted, set_in_rows
from foldproof.drawing.scene import Area, Fill, Item, Kind, Line
from foldproof.drawing.solid import XYZ, Camera, Sheet, add, cross, dot, far_to_near, sheet
from foldproof.folding.card import Card, Frame3, Panel, StandingPose
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.paper.keyhole import keyhole
from foldproof.paper.polygon import is_convex, on_segment, turn
from foldproof.paper.vector import Point, Ring

CAMERA = Camera(azimuth=28.0, height=27.0)
LIGHT: XYZ = (-0.35, -0.55, 0.76)
"""Toward the light: from the left, from the front, from above."""
LIFT = 0.002
"""How far a layer is lifted off its ground for sorting, as a share of the card's size."""


def standing_items(card: Card, pose: StandingPose, scale: float, style: DrawingStyle) -> list[Item]:
    """The card in space, far parts first, and its height."""
    items: list[Item] = []
    for part in far_to_near(list(_sheets(card, pose)), CAMERA.toward):
        front = dot(part.normal, CAMERA.toward) > 0
        facing = part.normal if front else add((0.0, 0.0, 0.0), part.normal, -1.0)
        ring = tuple(CAMERA.at(p, scale) for p in part.points)
        if len(ring) < 3:
            continue
        items.append(Area(
            rings=(ring,), fill=Fill.FRONT if front else Fill.BACK, tone=tone_of(card, card.panels[part.name].piece),
            shade=0.16 * (1 - max(dot(facing, LIGHT), 0.0))))
        for i, rim in enumerate(part.rims):
            if rim:
                items.append(Line(points=(ring[i], ring[(i + 1) % len(ring)]), kind=Kind.EDGE))
    return [*items, *_height(card, pose, scale, style)]


def height_words(card: Card, pose: StandingPose) -> str:
    """How high it stands: the promised height where it comes to that, else to the nearest 1/32 in or millimetre."""
    unit = card.recipe.unit
    promised = card.recipe.finished.stands
    grain = {Unit.INCH: 32, Unit.MM: 1, Unit.CM: 10}[unit]
    if promised is not None and promised.pose.value == pose.name \
            and abs(float(promised.height.value) - pose.height) < 0.5 / grain:
        return with_unit(promised.height.value, unit)
    return f"about {with_unit(Fraction(round(pose.height * grain), grain), unit)}"


def _height(card: Card, pose: StandingPose, scale: float, style: DrawingStyle) -> Iterator[Item]:
    """The height as a dimension at the right, from the table straight up to the highest corner."""
    corners = [at(frame, p) for name, frame in pose.frames.items() for p in card.panels[name].ring]
    top = max(corners, key=lambda p: (round(p[2], 6), CAMERA.at(p, 1.0)[0]))
    foot = (top[0], top[1], 0.0)
    a, b = CAMERA.at(foot, scale), CAMERA.at(top, scale)
    box = box_round(CAMERA.at(p, scale) for p in corners)
    yield from set_in_rows(
        [Wanted(start=a, end=b, text=height_words(card, pose), sides=("right",))], box, style.text_pt)


def at(frame: Frame3, p: Point) -> XYZ:
    """Where a point of a piece's own frame stands."""
    return add(add(frame.origin, frame.right, float(p.x)), frame.up, float(p.y))


def _sheets(card: Card, pose: StandingPose) -> Iterator[Sheet]:
    lifts = _lifts(card, pose)
    for name, panel in card.panels.items():
        if name not in pose.frames:
            continue
        frame = pose.frames[name]
        whole, paper = keyhole(panel.ring, panel.holes)
        shown = tuple(a and b for a, b in zip(_rims(card, pose, panel, whole), paper, strict=True))
        for ring, rims in _convex(whole, shown):
            yield sheet(name, tuple(add(at(frame, p), lifts[name]) for p in ring), rims)


def _rims(card: Card, pose: StandingPose, panel: Panel, ring: Ring) -> tuple[bool, ...]:
    """For each side of a panel, whether it is drawn: not where it runs on flat over a hinge."""
    flat = [
        hinge.segment for hinge in card.hinges
        if panel.name in hinge.panels and abs(pose.angles.get(hinge.score, 0.0)) < 0.5
    ]
    return tuple(
        not any(on_segment(p, s) and on_segment(q, s) for s in flat)
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)
    )


def _lifts(card: Card, pose: StandingPose) -> dict[str, XYZ]:
    """What is glued on, or folded right over, is lifted a hair off what it lies on, so that sorting is sure."""
    size = max(abs(v) for name, frame in pose.frames.items() for p in card.panels[name].ring for v in at(frame, p))
    lifts: dict[str, XYZ] = dict.fromkeys(pose.frames, (0.0, 0.0, 0.0))
    for bond in card.bonds:
        host, guest = bond.under.panel, bond.over.panel
        if host in lifts and guest in lifts:
            frame = pose.frames[host]
            side = 1.0 if bond.under.face == "front" else -1.0
            out = cross(frame.right, frame.up)
            lifts[guest] = add(lifts[host], out, side * size * LIFT)
    return lifts


def _convex(ring: Ring, rims: tuple[bool, ...]) -> Iterator[tuple[Ring, tuple[bool, ...]]]:
    """A simple anticlockwise ring as convex parts: ears cut off one after another where it is not convex itself."""
    if is_convex(ring):
        yield ring, rims
        return
    corners, edges = list(ring), list(rims)
    while len(corners) > 3:
        count = len(corners)
        for i in range(count):
            a, b, c = corners[i - 1], corners[i], corners[(i + 1) % count]
            if turn(a, b, c) > 0 and not any(
                turn(a, b, p) >= 0 and turn(b, c, p) >= 0 and turn(c, a, p) >= 0 for p in corners if p not in (a, b, c)
            ):
                yield (a, b, c), (edges[i - 1], edges[i], False)
                del corners[i], edges[i]
                edges[i - 1] = False
                break
        else:
            return
    yield tuple(corners), tuple(edges)


def extent(card: Card, pose: StandingPose) -> tuple[float, float]:
    """Width and height of the picture at a scale of one."""
    spots: list[XY] = [
        CAMERA.at(at(frame, p), 1.0) for name, frame in pose.frames.items() for p in card.panels[name].ring
    ]
    box = box_round(spots)
    return box.width, box.height
