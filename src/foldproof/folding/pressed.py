"""Which panels lie flat on each other in a card that stands: each flat part of it is a small flat card of its own."""

from collections.abc import Mapping
from fractions import Fraction

from foldproof.folding.card import Bond, Card, FlatPose, Hinge, Pose
from foldproof.folding.hanging import Hanging
from foldproof.folding.overlay import overlay
from foldproof.folding.place import place_panels
from foldproof.folding.space import Vec, dot
from foldproof.folding.stack import stack_up
from foldproof.folding.stacking import Folding
from foldproof.frozen import dataclass
from foldproof.paper.face import Face
from foldproof.recipe.records import PoseSpec

_NEARLY = 0.02
"""Degrees: a fold this near to flat counts as flat."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """Panels that lie in one plane, hinged flat or glued on each other."""

    base: str
    """The panel from whose front one looks."""
    over: frozenset[tuple[str, str]]
    """(upper, lower) for the pairs that overlap."""


def pressed(card: Card, spec: PoseSpec | None, angles: Mapping[str, float]) -> tuple[Pressed, ...]:
    """The flat parts of a card whose scores stand at these angles, in degrees."""
    flat = {name: near for name, angle in angles.items() if (near := _flat(angle)) is not None}
    joints: list[Hinge | Bond] = [hinge for hinge in card.hinges if hinge.score in flat]
    joints += [bond for bond in card.bonds if bond.stand is None]
    found = []
    for group in _groups(card, joints):
        if len(group) > 1:
            found.append(_press(card, spec, group, flat))
    return tuple(found)


def _flat(angle: float) -> Fraction | None:
    return next((Fraction(flat) for flat in (0, 180, -180) if abs(angle - flat) <= _NEARLY), None)


def _ends(joint: Hinge | Bond) -> tuple[str, str]:
    return joint.panels if isinstance(joint, Hinge) else (joint.under.panel, joint.over.panel)


def _groups(card: Card, joints: list[Hinge | Bond]) -> list[list[str]]:
    """The panels that hang together by the joints, in the card's order."""
    hanging = Hanging(card.panels, map(_ends, joints))
    groups: dict[str, list[str]] = {}
    for name in card.panels:
        groups.setdefault(hanging.group(name), []).append(name)
    return list(groups.values())


def _press(card: Card, spec: PoseSpec | None, group: list[str], flat: Mapping[str, Fraction]) -> Pressed:
    panels = {name: card.panels[name] for name in group}
    hinges = tuple(h for h in card.hinges if h.score in flat and all(name in panels for name in h.panels))
    bonds = tuple(b for b in card.bonds if b.stand is None and all(name in panels for name in _ends(b)))
    own = {hinge.score for hinge in hinges}
    order = [fold.score.value for fold in spec.folds] if spec is not None else []
    order += [name for name in flat if name not in order]
    folds = tuple((name, flat[name]) for name in order if name in own and flat[name] != 0)
    placing = place_panels(panels, hinges, bonds, dict(folds), group[0])
    laid = overlay(panels, placing.placements)
    stacking = stack_up(Folding(
        panels=panels, hinges=hinges, bonds=bonds, folds=folds, still=group[0], placements=placing.placements), laid)
    return Pressed(base=group[0], over=stacking.over)


def sides_in(card: Card, pose: Pose) -> Mapping[tuple[str, str], int]:
    """For (a, b) that lie flat on each other: +1 where a lies on the front's side of b, -1 on its back's."""
    sides: dict[tuple[str, str], int] = {}
    if isinstance(pose, FlatPose):
        for upper, lower in pose.over:
            sides[upper, lower] = 1 if pose.placements[lower].shows is Face.FRONT else -1
            sides[lower, upper] = -1 if pose.placements[upper].shows is Face.FRONT else 1
        return sides
    for part in pressed(card, pose.spec, pose.angles):
        outs = {name: _out(pose.frames[name].right, pose.frames[name].up) for pair in part.over for name in pair}
        base = _out(pose.frames[part.base].right, pose.frames[part.base].up)
        for upper, lower in part.over:
            sides[upper, lower] = 1 if dot(outs[lower], base) > 0 else -1
            sides[lower, upper] = -1 if dot(outs[upper], base) > 0 else 1
    return sides


def _out(right: Vec, up: Vec) -> Vec:
    (a, b, c), (d, e, f) = right, up
    return (b * f - c * e, c * d - a * f, a * e - b * d)

