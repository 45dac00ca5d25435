"""Whether a card can be brought from one pose to the next without paper passing through paper, as far as is sampled."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import combinations, islice, permutations
from math import sqrt

from foldproof.folding.card import Card, FlatPose, Pose, StandingPose
from foldproof.folding.crossing import Watch, crossing_depth, inner_spots, shape_of, within
from foldproof.folding.hanging import Hanging
from foldproof.folding.pressed import sides_in
from foldproof.folding.remembered import remembered
from foldproof.folding.space import Vec
from foldproof.folding.thickness import paper_thickness
from foldproof.folding.travel import Moment, Stages, Way, angles_of, moving_scores, staged, tied
from foldproof.folding.words import list_of
from foldproof.frozen import dataclass
from foldproof.paper.subdivision import common

Pair = tuple[str, str]
RESOLUTION_MM = 4.0
"""No point of the card goes farther than this from one sampled moment to the next."""
FIRST_SHARE = 0.004
"""Of a stage: the first moment after its start and the last before its end."""
MOST_ORDERS = 12
"""How many orders of the folds are tried where the recipe names none."""
_SHORTEST = 5e-4
"""Of a stage: a step that is too long for a share as short as this is a leap to another state."""
_SOLVING = 40
"""How many looks a moment counts for whose angles have to be solved."""
_MOST_TIED = 4
"""How many folds that one loop ties are parted in all ways into some that move first and the rest."""
MOST_LOOKS = 30_000
"""How many times two panels are held against each other before the search gives up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """Paper that passes through paper on the way."""

    panels: Pair
    depth: float
    """In the recipe's unit."""
    angles: Mapping[str, float]
    """Degrees of the scores that move, at the first moment at which it was seen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Journey:
    """What is known of the way from one pose to the next."""

    start: str
    end: str
    stages: Stages
    """The scores that move together, group after group."""
    said: bool
    """Whether the recipe says which folds move first."""
    moments: int
    """How many moments were looked at."""
    step: float
    """The farthest that a point went from one of them to the next, in the recipe's unit."""
    passage: Passage | None
    """None where none was found at this resolution."""
    open: float
    """How far a loop stays open on the way, in the recipe's unit; 0 where all stay closed."""
    open_angles: Mapping[str, float]
    not_checked: tuple[Pair, ...]
    """Panels that a hand tucks, or bends, past each other."""
    bent: tuple[str, ...]
    """Panels that a hand bends."""
    finished: bool
    """Whether all was looked at before the search gave up."""

    def text_of(self, angles: Mapping[str, float]) -> str:
        """Angles in words."""
        return list_of(f"{name} at {abs(angle):.0f}°" for name, angle in angles.items())

    @property
    def free(self) -> bool:
        """Whether nothing was found in the way."""
        return self.passage is None and self.open == 0 and self.finished


def journeys(card: Card) -> tuple[Journey, ...]:
    """The ways between the poses of `opening`, one after the other, where both could be worked out."""
    found = []
    for one, other in zip(card.recipe.opening, card.recipe.opening[1:], strict=False):
        start, end = card.pose(one.value), card.pose(other.value)
        if start is not None and end is not None:
            found.append(journey(card, start, end))
    return tuple(found)


@remembered(8)
def journey(card: Card, start: Pose, end: Pose) -> Journey:
    """The way from one pose to another: the order that the recipe names, or else the first of some that is free."""
    scores = moving_scores(card, start, end)
    groups = tied(card, scores)
    first = tuple(name.value for name in end.spec.first if name.value in scores)
    table = _Table(card, start, end)
    tried: Journey | None = None
    for stages in (_said(scores, groups, first) if first else _orders(card, start, end, groups)):
        found = table.follow(Way(card, start, end, stages), bool(first))
        if found.free:
            return found
        tried = tried or found
        if table.looks > MOST_LOOKS:
            break
    assert tried is not None
    return tried


def _said(scores: Sequence[str], groups: Sequence[Sequence[str]], first: Sequence[str]) -> Iterator[Stages]:
    """The folds that the recipe names in turn, or all at once, or each with its loop; then the rest."""
    yield staged([(name,) for name in scores], first)
    rest = tuple(name for name in scores if name not in first)
    yield (tuple(first), *((rest,) if rest else ()))
    yield staged(groups, first)


def crossings(card: Card, pose: StandingPose) -> Passage | None:
    """Paper that passes through paper in a standing pose itself."""
    table = _Table(card, pose, pose)
    return table.follow(Way(card, pose, pose, ()), False).passage


def way_between(card: Card, start: Pose, end: Pose) -> Way:
    """The way that is shown: the one that was found free, or else the first that was tried."""
    return Way(card, start, end, journey(card, start, end).stages)


def _orders(card: Card, start: Pose, end: Pose, groups: Sequence[Sequence[str]]) -> Iterator[Stages]:
    """All together; what was folded last first; as the end is folded; then every other order, one by one."""
    together: Stages = (tuple(name for group in groups for name in group),)
    back = [fold.score.value for fold in reversed(start.spec.folds)]
    on = [fold.score.value for fold in end.spec.folds]
    one, other = angles_of(card, start), angles_of(card, end)
    opening = sorted((name for group in groups for name in group), key=lambda name: abs(other[name]) > abs(one[name]))
    lists: list[Sequence[str]] = [
        sorted(opening, key=lambda name: (abs(other[name]) > abs(one[name]),
                                          back.index(name) if name in back else len(back),
                                          on.index(name) if name in on else len(on)))]
    lists += islice(permutations([group[0] for group in groups]), MOST_ORDERS)
    given = {together}
    yield together if together[0] else ()
    wanted = [staged(groups, names) for names in lists]
    for group in groups:  # folds that a loop ties may still move some first, then the others: a map opens like that
        if 1 < len(group) <= _MOST_TIED:
            others = [(name,) for name in opening if name not in group]
            for size in range(1, len(group)):
                for some in combinations(group, size):
                    rest = tuple(name for name in group if name not in some)
                    wanted.append((some, rest, *others))
    for stages in wanted:
        if stages not in given:
            given.add(stages)
            yield stages


class _Table:
    """What does not change from one order of the folds to the next."""

    def __init__(self, card: Card, start: Pose, end: Pose) -> None:
        self.card, self.start, self.end = card, start, end
        self.looks = 0
        self.most = RESOLUTION_MM / float(card.recipe.unit.millimetres)
        thick = max((paper_thickness(card, paper) or Fraction(0) for paper in card.recipe.papers), default=Fraction(0))
        foam = max((s.thickness.value for s in card.recipe.supplies if s.thickness is not None), default=Fraction(0))
        self.least = float(thick + foam) + 0.02 / float(card.recipe.unit.millimetres)
        hidden = {
            bond.over.panel for bond in card.bonds if bond.stand is None
            and within(card.panels[bond.over.panel], card.panels[bond.under.panel],
                       None if bond.area is None else bond.fit.inverse.ring(bond.area))
        }
        self.shapes = {name: shape_of(panel) for name, panel in card.panels.items() if name not in hidden}
        self.bent = tuple(name.value for name in end.spec.bends)
        tucked = [(a.value, b.value) for spec in (start.spec, end.spec) for a, b in spec.tucks]
        self.tucked = tuple(dict.fromkeys(tucked))
        self.sides = (sides_in(card, start), sides_in(card, end))

    def follow(self, way: Way, said: bool) -> Journey:
        """Look at the card from moment to moment."""
        pairs = self._pairs(way)
        watches = [self._watches(pair) for pair in pairs]
        passage: Passage | None = None
        worst_open, open_angles = 0.0, {}
        moments, step, finished = 0, 0.0, True
        before: Moment | None = None
        for moment in self._moments(way):
            moments += 1
            went = 0.0 if before is None else self._farthest(before, moment)
            step = max(step, went)
            if went > self.most * 1.001:  # the nearest closed state is all at once another one
                worst_open, open_angles = went, {name: moment.angles[name] for name in way.moving}
            if moment.misfit > way.tolerance and moment.misfit > worst_open:
                worst_open, open_angles = moment.misfit, {name: moment.angles[name] for name in way.moving}
            self.looks += len(pairs)
            passage = self._look(pairs, watches, way, moment, first=before is None)
            before = moment
            if passage is not None or worst_open > 0:
                break
            if self.looks > MOST_LOOKS:
                finished = False
                break
        return Journey(
            start=self.start.name, end=self.end.name, stages=way.stages, said=said, moments=moments, step=step,
            passage=passage, open=worst_open, open_angles=open_angles, not_checked=self.tucked, bent=self.bent,
            finished=finished)

    def _pairs(self, way: Way) -> list[Pair]:
        """Panels that move against each other and are not two sides of one hinge."""
        moving = set(way.moving)
        still = self.start is self.end  # one pose, looked at by itself: everything is held against everything
        links: list[Pair] = [h.panels for h in self.card.hinges if h.score not in moving and not still]
        links += [(bond.under.panel, bond.over.panel) for bond in self.card.bonds]
        find = Hanging(self.card.panels, links).group
        left_out = {frozenset((find(a), find(b))) for a, b in self.tucked}
        bent = {find(name) for name in self.bent}
        beside = {frozenset(hinge.panels) for hinge in self.card.hinges}
        names = list(self.shapes)
        return [
            (a, b) for i, a in enumerate(names) for b in names[i + 1:]
            if find(a) != find(b) and frozenset((a, b)) not in beside
            and frozenset((find(a), find(b))) not in left_out and not bent & {find(a), find(b)}
        ]

    def _watches(self, pair: Pair) -> tuple[Watch, Watch]:
        """Each of the two watched from the other's face, with the sides on which they lie at the start."""
        found = []
        for face, other in (pair, pair[::-1]):
            shape = self.shapes[other]
            watch = Watch(self.shapes[face], other, (*shape.spots, *self._shared(face, other)))
            watch.begin(self.sides[0].get((other, face), 0))
            found.append(watch)
        return found[0], found[1]

    def _shared(self, face: str, other: str) -> tuple[Vec, ...]:
        """Points of the other panel in the middle of where the two overlap in a flat pose at either end."""
        spots: list[Vec] = []
        for pose in (self.start, self.end):
            if isinstance(pose, FlatPose) and {(face, other), (other, face)} & pose.over:
                one, two = (pose.placements[n].ring(self.card.panels[n].ring) for n in (face, other))
                shared = common(one, two)
                if shared is not None:
                    spots += inner_spots(pose.placements[other].inverse.ring(shared))
        return tuple(spots)

    def _look(
        self, pairs: Sequence[Pair], watches: Sequence[tuple[Watch, Watch]], way: Way, moment: Moment, first: bool,
    ) -> Passage | None:
        """The worst passage at one moment."""
        worst, found = 0.0, None
        for pair, watch in zip(pairs, watches, strict=True):
            a, b = (moment.placed.get(name) for name in pair)
            if a is None or b is None:
                continue
            if self.shapes[pair[0]].far_from(self.shapes[pair[1]], a, b):
                watch[0].lose()
                watch[1].lose()
                continue
            depth = crossing_depth(self.shapes[pair[0]], self.shapes[pair[1]], a, b, self.least)
            if not first:
                depth = max(depth, watch[0].look(a, b, self.least), watch[1].look(b, a, self.least))
            if moment.share >= 1.0 and depth == 0 and not self._ends_as_ordered(pair, watch):
                depth = self.least
            if depth > worst:
                worst, found = depth, pair
        if found is None:
            return None
        return Passage(panels=found, depth=worst, angles={name: moment.angles[name] for name in way.moving})

    def _ends_as_ordered(self, pair: Pair, watch: tuple[Watch, Watch]) -> bool:
        ends = self.sides[1]
        one, other = ends.get((pair[1], pair[0]), 0), ends.get((pair[0], pair[1]), 0)
        return (one == 0 or watch[0].ends(one)) and (other == 0 or watch[1].ends(other))

    def _moments(self, way: Way) -> Iterator[Moment]:
        """Moments so near to each other that no corner goes farther than the resolution, the ends of stages closer."""
        most = self.most
        count = max(1, len(way.stages))
        now = way.at(0.0)
        yield now
        for number in range(count):
            begin, end = number / count, (number + 1) / count
            share = begin
            pace = FIRST_SHARE / count
            while share < end - 1e-12:
                close = end - FIRST_SHARE / count
                ahead = min(share + pace, close if share < close - 1e-9 else end)
                there = way.at(ahead)
                self.looks += _SOLVING if way.linkage.loops else 0
                went = self._farthest(now, there)
                if went > most and ahead - share > _SHORTEST / count:
                    pace = (ahead - share) * max(0.2, 0.9 * most / went)
                    continue
                yield there
                share, now = ahead, there
                pace = min(pace * 2, pace * max(0.5, 0.9 * most / max(went, 1e-9)), 0.25 / count)

    def _farthest(self, one: Moment, other: Moment) -> float:
        """The farthest that a corner goes."""
        most = 0.0
        for name, shape in self.shapes.items():
            if name in one.placed:
                here, there = one.placed[name].point, other.placed[name].point
                for part in shape.parts:
                    for p in part:
                        (ax, ay, az), (bx, by, bz) = here(p), there(p)
                        square = (ax - bx) * (ax - bx) + (ay - by) * (ay - by) + (az - bz) * (az - bz)
                        if square > most:
                            most = square
        return sqrt(most)
