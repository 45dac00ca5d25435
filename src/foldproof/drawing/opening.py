"""The card as it opens: every frame as plain patches, in whole numbers, for the page and for a picture that moves."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from foldproof.drawing.ink import colour_of
from foldproof.drawing.moving import Frame, frames_through
from foldproof.drawing.plane import XY, area_of
from foldproof.drawing.poses import tell_pose
from foldproof.drawing.scene import Area, Line
from foldproof.folding.card import Card, Pose, StandingPose

Spot = tuple[int, int]
WIDE, HIGH = 1200, 900
"""The room for the picture, in its own units: a little more than two for a dot on most screens."""
MARGIN = 12
FRAMES = {1: 25, 2: 17, 3: 13}
"""Frames for a way, by the number of ways."""
FEWEST = 9
"""Frames for a way where there are more of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch:
    """A part of a panel that is seen: its outline, and which stretches of it are edges of paper."""

    colour: str
    """#rrggbb."""
    ring: tuple[Spot, ...]
    edges: tuple[tuple[Spot, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """A named pose among the frames."""

    pose: str
    frame: int
    """Which frame it is, from 0."""
    told: str
    """What is seen in it, in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """The frames of a card that opens, all of one size: x to the right, y down."""

    width: int
    height: int
    frames: tuple[tuple[Patch, ...], ...]
    """Each with its far patches first."""
    stops: tuple[Stop, ...]
    """In the order in which the card opens; the first frame and the last are stops."""
    still: int
    """The frame that tells most alone."""


def draw_opening(card: Card) -> Opening | None:
    """The card through the poses of its `opening`, or None where there is no way to show."""
    poses = [pose for name in card.recipe.opening if (pose := card.pose(name.value)) is not None]
    if len(poses) < 2:
        return None
    frames = frames_through(card, poses, FRAMES.get(len(poses) - 1, FEWEST), 1.0)
    size = _Size(frames)
    places = [number for number, frame in enumerate(frames) if frame.pose]
    return Opening(
        width=size.width, height=size.height, frames=tuple(tuple(_patches(frame, size)) for frame in frames),
        stops=tuple(Stop(pose=pose.name, frame=number, told=tell_pose(card, pose))
                    for pose, number in zip(poses, places, strict=True)),
        still=_still(poses, places))


def _still(poses: Sequence[Pose], places: Sequence[int]) -> int:
    """A pose that stands, or else the first way when it is three fifths done."""
    standing = [place for pose, place in zip(poses, places, strict=True) if isinstance(pose, StandingPose)]
    return standing[0] if standing else round(places[0] + 0.6 * (places[1] - places[0]))


class _Size:
    """From the frames' own lengths to the picture's units."""

    def __init__(self, frames: Sequence[Frame]) -> None:
        spots = [p for frame in frames for item in frame.items if isinstance(item, Area) for p in item.rings[0]]
        self._left, self._top = min(p[0] for p in spots), max(p[1] for p in spots)
        wide, high = max(p[0] for p in spots) - self._left, self._top - min(p[1] for p in spots)
        self._scale = min((WIDE - 2 * MARGIN) / wide, (HIGH - 2 * MARGIN) / high)
        self.width = round(wide * self._scale) + 2 * MARGIN
        self.height = round(high * self._scale) + 2 * MARGIN

    def at(self, p: XY) -> Spot:
        return (
            round((p[0] - self._left) * self._scale) + MARGIN, round((self._top - p[1]) * self._scale) + MARGIN)


def _patches(frame: Frame, size: _Size) -> Iterator[Patch]:
    """The areas of a frame, each with the edges that follow it."""
    area: Area | None = None
    lines: list[Line] = []
    for item in (*frame.items, None):
        if isinstance(item, Line):
            lines.append(item)
            continue
        if area is not None:
            ring = _without_repeats([size.at(p) for p in area.rings[0]])
            edges = _joined([[size.at(p) for p in line.points] for line in lines])
            if edges or abs(area_of([(float(x), float(y)) for x, y in ring])) >= 1:
                yield Patch(colour=colour_of(area), ring=ring, edges=edges)
        area, lines = item if isinstance(item, Area) else None, []


def _without_repeats(ring: Sequence[Spot]) -> tuple[Spot, ...]:
    return tuple(p for i, p in enumerate(ring) if p != ring[i - 1]) or tuple(ring[:1])


def _joined(lines: Sequence[list[Spot]]) -> tuple[tuple[Spot, ...], ...]:
    """Lines that go on from each other as one; what has shrunk to a point is left out."""
    found: list[list[Spot]] = []
    for line in lines:
        if line[0] == line[-1]:
            continue
        if found and found[-1][-1] == line[0]:
            found[-1] += line[1:]
        else:
            found.append(list(line))
    if len(found) > 1 and found[-1][-1] == found[0][0]:
        found[0] = found.pop() + found[0][1:]
    return tuple(tuple(line) for line in found)
