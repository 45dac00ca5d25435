"""The card on its way from pose to pose, frame by frame, as one camera sees it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from foldproof.drawing.scene import Item
from foldproof.drawing.solid import XYZ, Contacts, add
from foldproof.drawing.standing import at, camera_for, contacts_of, faces_left, solid_items
from foldproof.folding.card import Card, Frame3, Pose
from foldproof.folding.motion import way_between
from foldproof.folding.pressed import Pressed, pressed, sides_in
from foldproof.folding.travel import Moment


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """One picture of a card that moves."""

    share: float
    """0 at the first pose, 1 at the second."""
    angles: Mapping[str, float]
    """Degrees by score."""
    items: tuple[Item, ...]
    """Areas and edges, far parts first, none hiding one that comes later; millimetres, the same place in all frames."""


def frames_between(card: Card, pose_a: Pose, pose_b: Pose, count: int, scale: float) -> tuple[Frame, ...]:
    """`count` frames (two or more), evenly from one pose to the other, in the order in which the folds were found free.

    `scale` is millimetres in one unit, at the middle of the card; the viewer and the still panel are the second pose's.
    """
    way = way_between(card, pose_a, pose_b)
    moments = [way.at(i / (count - 1)) for i in range(count)]
    placed = [{name: motion.frame for name, motion in moment.placed.items()} for moment in moments]
    camera = camera_for(at(frame, p) for frames in placed for name, frame in frames.items()
                        for p in card.panels[name].ring)
    if faces_left(card, placed[len(placed) // 2], pose_b.spec.seen):
        camera = replace(camera, azimuth=-camera.azimuth)
    ends = {0: pose_a, count - 1: pose_b}
    known: dict[tuple[tuple[str, int], ...], tuple[Pressed, ...]] = {}
    found = []
    for number, (moment, frames) in enumerate(zip(moments, placed, strict=True)):
        contacts = _contacts(card, pose_b, moment, frames, known)
        if number in ends:
            contacts = {**contacts, **_contacts_at_end(card, ends[number], moment)}
        found.append(Frame(
            share=moment.share, angles=moment.angles,
            items=tuple(solid_items(card, frames, moment.angles, camera, contacts, scale))))
    return tuple(found)


def _contacts(
    card: Card, pose: Pose, moment: Moment, frames: Mapping[str, Frame3],
    known: dict[tuple[tuple[str, int], ...], tuple[Pressed, ...]],
) -> Contacts:
    """Who lies on whom in the parts that are flat at a moment; each set of flat folds is worked out once."""
    key = tuple((name, round(angle)) for name, angle in sorted(moment.angles.items())
                if min(abs(abs(angle) - flat) for flat in (0, 180)) < 0.02)
    if key not in known:
        known[key] = pressed(card, pose.spec, moment.angles)
    return contacts_of(card, known[key], frames)


def _contacts_at_end(card: Card, pose: Pose, moment: Moment) -> Contacts:
    """Who lies on whom in the pose itself, with what the recipe chooses."""
    zero: XYZ = (0.0, 0.0, 0.0)
    return {
        (upper, lower): add(zero, moment.placed[lower].out, float(side))
        for (upper, lower), side in sides_in(card, pose).items() if lower in moment.placed
    }


