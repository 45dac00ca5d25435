"""The angles of a card on its way from one pose to another, and where its panels are."""

from collections.abc import Iterable, Mapping, Sequence
from math import pi, radians

from foldproof.folding.card import Card, FlatPose, Pose
from foldproof.folding.fixing import still_panel
from foldproof.folding.solving import least_squares
from foldproof.folding.space import Linkage, Motion
from foldproof.folding.standing import TOLERANCE_MM, as_held
from foldproof.frozen import dataclass
from foldproof.paper.face import Fold

Stages = tuple[tuple[str, ...], ...]
"""Scores that move together, in the order in which the groups move."""


def angles_of(card: Card, pose: Pose) -> dict[str, float]:
    """Degrees of every score in a pose."""
    if not isinstance(pose, FlatPose):
        return dict(pose.angles)
    flat = {score.name: 0.0 for piece in card.pieces for score in piece.scores}
    return flat | {fold.score.value: float(fold.angle.value) for fold in pose.spec.folds if fold.angle is not None}


@dataclass(frozen=True, slots=True)
class Moment:
    """The card at one moment of its way."""

    share: float
    """0 at the start, 1 at the end; every stage takes the same share."""
    angles: Mapping[str, float]
    """Degrees by score."""
    placed: Mapping[str, Motion]
    misfit: float
    """How far its loops stay open."""


class Way:
    """From one pose to the next, each group of scores in its turn; the still panel and the viewer are the end's.

    Given angles go from the one to the other evenly. Where the card has loops, the nearest angles that close are taken.
    """

    def __init__(self, card: Card, start: Pose, end: Pose, stages: Stages) -> None:
        """The way; `stages` holds every score that moves once."""
        self.card, self.stages = card, stages
        self._from, self._to = angles_of(card, start), angles_of(card, end)
        still = still_panel(card.recipe, end.spec, card.panels)
        self.linkage = Linkage(card.panels, card.hinges, card.bonds, still)
        self._held = as_held(card, end.spec, still)
        self._bare = self.linkage.reaching(())
        folds = {score.name: score.fold for piece in card.pieces for score in piece.scores}
        self._low = {name: -pi if fold is Fold.MOUNTAIN else 0.0 for name, fold in folds.items()}
        self.tolerance = TOLERANCE_MM / float(card.recipe.unit.millimetres)

    @property
    def moving(self) -> tuple[str, ...]:
        """The scores that move on the way."""
        return tuple(name for stage in self.stages for name in stage)

    def at(self, share: float) -> Moment:
        """The card when a share of the way is done."""
        along = share * max(1, len(self.stages))
        angles = dict(self._from)
        for number, stage in enumerate(self.stages):
            part = min(max(along - number, 0.0), 1.0)
            for name in stage:
                angles[name] += (self._to[name] - angles[name]) * part
        misfit = 0.0
        if self._bare.loops and 0.0 < share < 1.0:
            angles, misfit = self._closed(angles)
        turned = {name: radians(angle) for name, angle in angles.items()}
        placed = {name: self._held.after(motion) for name, motion in self.linkage.frames(turned).items()}
        return Moment(share, angles, placed, misfit)

    def _closed(self, angles: dict[str, float]) -> tuple[dict[str, float], float]:
        """The nearest angles at which all loops close, and how far they stay open."""
        free = tuple(name for name in self.moving)
        low = tuple(self._low[name] for name in free)
        start = tuple(radians(angles[name]) for name in free)
        rest = {name: radians(angle) for name, angle in angles.items()}

        def misses(at: tuple[float, ...]) -> tuple[float, ...]:
            turned = {**rest, **dict(zip(free, at, strict=True))}
            return tuple(v for miss in self._bare.misfits(turned, self._bare.frames(turned)) for v in miss)

        found = least_squares(misses, start, low, tuple(a + pi for a in low))
        return angles | {name: value * 180 / pi for name, value in zip(free, found.at, strict=True)}, found.worst


def moving_scores(card: Card, start: Pose, end: Pose) -> tuple[str, ...]:
    """The scores whose angles differ, those of the end's folds in their order first."""
    one, other = angles_of(card, start), angles_of(card, end)
    order = [fold.score.value for fold in (*end.spec.folds, *start.spec.folds)]
    return tuple(name for name in dict.fromkeys((*order, *one)) if abs(one[name] - other[name]) > 1e-9)


def tied(card: Card, scores: Iterable[str]) -> tuple[tuple[str, ...], ...]:
    """Scores in groups that loops tie together: one cannot move without the others of its group."""
    linkage = Linkage(card.panels, card.hinges, card.bonds, next(iter(card.panels)))
    rings = [set(linkage.scores_round(i)) for i in range(len(linkage.loops))]
    groups: list[list[str]] = []
    for score in scores:
        joined = [group for group in groups if any({score, other} <= ring for ring in rings for other in group)]
        groups = [group for group in groups if group not in joined]
        groups.append([*(name for group in joined for name in group), score])
    return tuple(tuple(group) for group in groups)


def staged(groups: Sequence[Sequence[str]], order: Sequence[str]) -> Stages:
    """The groups in the order in which a list names one of them; those that it does not name move last, together."""
    left = [tuple(group) for group in groups]
    stages: list[tuple[str, ...]] = []
    for name in order:
        named = next((group for group in left if name in group), None)
        if named is not None:
            stages.append(named)
            left.remove(named)
    rest = tuple(name for group in left for name in group)
    return (*stages, *((rest,) if rest else ()))
