"""The card on its way from pose to pose, frame by frame, as one camera sees it."""


from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from foldproof.drawing.scene import Item
from foldproof.drawing.solid import XYZ, Camera, Contacts, add
from foldproof.drawing.standing import at, camera_for, contacts_of, faces_left, solid_items
from foldproof.drawing.turning import change_of_hold, part_of
from foldproof.folding.card import Card, FlatPose, Frame3, Pose
from foldproof.folding.motion import way_between
from foldproof.folding.pressed import Pressed, pressed, sides_in
from foldproof.folding.space import Motion
from foldproof.folding.travel import Way

LYING = Camera(azimuth=14.0, height=52.0)
"""How a card is looked at that lies flat in all its poses: more from above, so that its faces are seen."""

Known = dict[tuple[str, tuple[tuple[str, int], ...]], tuple[Pressed, ...]]
"""What lies pressed flat, by the pose that the card goes to and its flat folds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """One picture of a card that moves."""

    share: float
    """0 at the pose that it comes from, 1 at the one that it goes to."""
    pose: str = ""
    """The pose that it shows; empty on the way."""
    angles: Mapping[str, float]
    """Degrees by score."""
    items: tuple[Item, ...]
    """Areas and edges, far parts first, none hiding one that comes later; millimetres, the same place in all frames."""


@dataclass(frozen=True, slots=True)
class _Still:
    """The card at one moment, where the viewer has it."""

    share: float
    pose: Pose | None
    toward: Pose
    angles: Mapping[str, float]
    placed: Mapping[str, Motion]

    @property
    def frames(self) -> dict[str, Frame3]:
        return {name: motion.frame for name, motion in self.placed.items()}


def frames_between(card: Card, pose_a: Pose, pose_b: Pose, count: int, scale: float) -> tuple[Frame, ...]:
    """`count` frames (two or more), evenly from one pose to the other."""
    return frames_through(card, (pose_a, pose_b), count, scale)


def frames_through(card: Card, poses: Sequence[Pose], count: int, scale: float) -> tuple[Frame, ...]:
    """The card from each pose (two or more) to the next, in the order in which the folds were found free.

    `count` frames (two or more) for each way, evenly, both its poses among them; two ways share the pose between
    them. In a pose the card lies before the viewer as the pose says; where that differs from one pose to the next, it
    is turned on the way. `scale` is millimetres in one unit, at the middle of what the card takes up on all its ways.
    """
    stills = [
        still for number, (one, other) in enumerate(pairwise(poses))
        for still in _stills(card, one, other, count)[min(number, 1):]
    ]
    camera = _camera(card, stills, poses)
    known: Known = {}
    found = []
    for still in stills:
        contacts = _contacts(card, still, known)
        if still.pose is not None:
            contacts = {**contacts, **_contacts_at_end(card, still.pose, still)}
        found.append(Frame(
            share=still.share, pose=still.pose.name if still.pose else "", angles=still.angles,
            items=tuple(solid_items(card, still.frames, still.angles, camera, contacts, scale))))
    return tuple(found)


def _stills(card: Card, one: Pose, other: Pose, count: int) -> list[_Still]:
    """The moments of one way."""
    way = way_between(card, one, other)
    moments = [way.at(i / (count - 1)) for i in range(count)]
    own = Way(card, one, one, ()).at(0.0).placed
    change = change_of_hold(moments[0].placed, own)
    middle = _middle(at(motion.frame, p) for name, motion in moments[0].placed.items() for p in card.panels[name].ring)
    ends = {0: one, count - 1: other}
    found = []
    for number, moment in enumerate(moments):
        held = part_of(change, 1.0 - moment.share, middle)
        found.append(_Still(
            moment.share, ends.get(number), other, moment.angles,
            {name: held.after(motion) for name, motion in moment.placed.items()}))
    return found


def _camera(card: Card, stills: Sequence[_Still], poses: Sequence[Pose]) -> Camera:
    """One camera for all of them: from the left where more of the last way's faces look there."""
    camera = camera_for(at(frame, p) for still in stills for name, frame in still.frames.items()
                        for p in card.panels[name].ring)
    if all(isinstance(pose, FlatPose) for pose in poses):
        camera = replace(camera, azimuth=LYING.azimuth, height=LYING.height)
    last = [still for still in stills if still.toward is poses[-1]]
    left = faces_left(card, last[len(last) // 2].frames, poses[-1].spec.seen)
    return replace(camera, azimuth=-camera.azimuth) if left else camera


def _middle(points: Iterable[XYZ]) -> XYZ:
    """The middle of the box round points."""
    x, y, z = ((min(along) + max(along)) / 2 for along in zip(*points, strict=True))
    return x, y, z


def _contacts(card: Card, still: _Still, known: Known) -> Contacts:
    """Who lies on whom in the parts that are flat at a moment; each set of flat folds is worked out once."""
    flat = tuple((name, round(angle)) for name, angle in sorted(still.angles.items())
                if min(abs(abs(angle) - even) for even in (0, 180)) < 0.02)
    key = (still.toward.name, flat)
    if key not in known:
        known[key] = pressed(card, still.toward.spec, still.angles)
    return contacts_of(card, known[key], still.frames)


def _contacts_at_end(card: Card, pose: Pose, still: _Still) -> Contacts:
    """Who lies on whom in the pose itself, with what the recipe chooses."""
    zero: XYZ = (0.0, 0.0, 0.0)
    return {
        (upper, lower): add(zero, still.placed[lower].out, float(side))
        for (upper, lower), side in sides_in(card, pose).items() if lower in still.placed
    }
