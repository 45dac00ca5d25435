"""A card that stands off the table, drawn as one sees it from the front, a little from the right and from above."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from foldproof.drawing.picture import tone_of
from foldproof.drawing.plane import XY, box_round
from foldproof.drawing.record import DrawingStyle
from foldproof.drawing.rows import Wanted, set_in_rows
from foldproof.drawing.scene import Area, Fill, Item, Kind, Line
from foldproof.drawing.solid import XYZ, Camera, Contacts, Sheet, add, far_to_near, sheet
from foldproof.folding.card import Card, Frame3, Panel, StandingPose
from foldproof.folding.pressed import Pressed, pressed
from foldproof.folding.space import cross, dot
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.paper.face import Face
from foldproof.paper.keyhole import keyhole
from foldproof.paper.polygon import area, is_convex, on_segment, turn
from foldproof.paper.vector import Point, Ring

CAMERA = Camera(azimuth=28.0, height=27.0)
LIGHT: XYZ = (-0.35, -0.55, 0.76)
"""Toward the light: from the left, from the front, from above."""
SEATED = 3.0
"""From the eye to the middle of the work, in sizes of the work (corner to corner of its box)."""


def camera_for(corners: Iterable[XYZ]) -> Camera:
    """A camera that looks at the middle of these points, from as far as one sits from the work."""
    spots = list(corners)
    low = [min(p[i] for p in spots) for i in range(3)]
    high = [max(p[i] for p in spots) for i in range(3)]
    middle: XYZ = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)
    size = sum((a - b) ** 2 for a, b in zip(low, high, strict=True)) ** 0.5
    return replace(CAMERA, target=middle, away=SEATED * size)


def camera_of(card: Card, pose: StandingPose) -> Camera:
    """The camera for a pose: from the right, or from the left where more of the faces to be seen look that way."""
    camera = camera_for(_corners(card, pose.frames))
    left = faces_left(card, pose.frames, pose.spec.seen)
    return replace(camera, azimuth=-camera.azimuth) if left else camera


def faces_left(card: Card, frames: Mapping[str, Frame3], seen: Face) -> bool:
    """Whether more of the faces that are to be seen look to the left than to the right."""
    facing = sum(
        float(area(card.panels[name].ring)) * cross(frame.right, frame.up)[0] for name, frame in frames.items())
    return (facing if seen is Face.FRONT else -facing) < -1e-6


def side_words(camera: Camera) -> str:
    """From which side one looks."""
    return "right" if camera.azimuth > 0 else "left"


def standing_items(card: Card, pose: StandingPose, scale: float, style: DrawingStyle) -> list[Item]:
    """The card in space, far parts first, and its height."""
    camera = camera_of(card, pose)
    contacts = contacts_of(card, pressed(card, pose.spec, pose.angles), pose.frames)
    items = list(solid_items(card, pose.frames, pose.angles, camera, contacts, scale))
    return [*items, *_height(card, pose, camera, scale, style)]


def solid_items(
    card: Card, frames: Mapping[str, Frame3], angles: Mapping[str, float], camera: Camera, contacts: Contacts,
    scale: float,
) -> Iterator[Item]:
    """The panels in space as areas and edges, far parts first."""
    for part in seen_parts(card, frames, angles, camera, contacts):
        front = camera.sees(part.normal, dot(part.normal, part.points[0]))
        facing = part.normal if front else add((0.0, 0.0, 0.0), part.normal, -1.0)
        ring = tuple(camera.at(p, scale) for p in part.points)
        yield Area(
            rings=(ring,), fill=Fill.FRONT if front else Fill.BACK, tone=tone_of(card, card.panels[part.name].piece),
            shade=0.16 * (1 - max(dot(facing, LIGHT), 0.0)), part=True)
        for i, rim in enumerate(part.rims):
            if rim:
                yield Line(points=(ring[i], ring[(i + 1) % len(ring)]), kind=Kind.EDGE)


def seen_parts(
    card: Card, frames: Mapping[str, Frame3], angles: Mapping[str, float], camera: Camera, contacts: Contacts,
) -> list[Sheet]:
    """The panels cut up and ordered so that none hides one that comes later; for frames of a moving card too."""
    return [part for part in far_to_near(list(_sheets(card, frames, angles)), camera, contacts) if len(part.points) > 2]


def contacts_of(card: Card, parts: Iterable[Pressed], frames: Mapping[str, Frame3]) -> Contacts:
    """Who lies on whom in space, and toward which side."""
    found: dict[tuple[str, str], XYZ] = {}
    for part in parts:
        if part.base in frames:
            out = cross(frames[part.base].right, frames[part.base].up)
            found |= dict.fromkeys(part.over, out)
    return found


def height_words(card: Card, pose: StandingPose) -> str:
    """How high it stands: the promised height where it comes to that, else to the nearest 1/32 in or millimetre."""
    unit = card.recipe.unit
    promised = card.recipe.finished.stands
    grain = {Unit.INCH: 32, Unit.MM: 1, Unit.CM: 10}[unit]
    if promised is not None and promised.pose.value == pose.name \
            and abs(float(promised.height.value) - pose.height) < 0.5 / grain:
        return with_unit(promised.height.value, unit)
    near = Fraction(round(pose.height * grain), grain)
    return f"{'' if abs(float(near) - pose.height) < 1e-6 else 'about '}{with_unit(near, unit)}"


def _height(card: Card, pose: StandingPose, camera: Camera, scale: float, style: DrawingStyle) -> Iterator[Item]:
    """The height as a dimension at the right, from the table straight up to the highest corner."""
    corners = _corners(card, pose.frames)
    top = max(corners, key=lambda p: (round(p[2], 6), camera.at(p, 1.0)[0]))
    foot = (top[0], top[1], 0.0)
    low, high = camera.at(foot, scale), camera.at(top, scale)
    right = max(low[0], high[0])  # upright lines lean a little toward each other; the dimension stands straight
    a, b = (right, low[1]), (right, high[1])
    box = box_round(camera.at(p, scale) for p in corners)
    yield from set_in_rows(
        [Wanted(start=a, end=b, text=height_words(card, pose), sides=("right",))], box, style.text_pt)


def _corners(card: Card, frames: Mapping[str, Frame3]) -> list[XYZ]:
    return [at(frame, p) for name, frame in frames.items() for p in card.panels[name].ring]


def at(frame: Frame3, p: Point) -> XYZ:
    """Where a point of a piece's own frame stands."""
    return add(add(frame.origin, frame.right, float(p.x)), frame.up, float(p.y))


def _sheets(card: Card, frames: Mapping[str, Frame3], angles: Mapping[str, float]) -> Iterator[Sheet]:
    """The panels in convex parts; windows are taken out."""
    for name, panel in card.panels.items():
        if name not in frames:
            continue
        frame = frames[name]
        whole, paper = keyhole(panel.ring, panel.holes)
        shown = tuple(a and b for a, b in zip(_rims(card, angles, panel, whole), paper, strict=True))
        for ring, rims in _convex(whole, shown):
            yield sheet(name, tuple(at(frame, p) for p in ring), rims)


def _rims(card: Card, angles: Mapping[str, float], panel: Panel, ring: Ring) -> tuple[bool, ...]:
    """For each side of a ring of a panel, whether it is drawn: not where it runs on flat over a hinge."""
    flat = [
        hinge.segment for hinge in card.hinges
        if panel.name in hinge.panels and abs(angles.get(hinge.score, 0.0)) < 0.5
    ]
    return tuple(
        not any(on_segment(p, s) and on_segment(q, s) for s in flat)
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)
    )


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
    camera = camera_of(card, pose)
    spots: list[XY] = [camera.at(p, 1.0) for p in _corners(card, pose.frames)]
    box = box_round(spots)
    return box.width, box.height
