"""The card folded from flat, fold after fold, as a hand would: which order that gives, and what it settles.

A fold takes everything beyond its line over on to the other side: a valley, as the viewer sees it, lands on top of
everything, a mountain beneath. Folds on one line that hang together go together.
"""

from collections.abc import Mapping, Sequence
from dataclasses import field
from fractions import Fraction

from foldproof.folding.card import Bond
from foldproof.folding.flat_order import flat_order, held_bonds, placed_by
from foldproof.folding.ordering import Pair
from foldproof.folding.place import links
from foldproof.folding.stacking import Folding
from foldproof.frozen import dataclass
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import bend


@dataclass(frozen=True, slots=True, kw_only=True)
class Folded:
    """What folding in the written order comes to."""

    order: tuple[str, ...]
    """From the bottom up, the still panel's front toward the viewer."""
    locked: tuple[tuple[str, ...], ...]
    """Scores of each fold that is held fast by the paper beside it, so that it cannot be made on its own."""
    unsettled: frozenset[frozenset[str]]
    """Pairs whose order such a fold leaves open."""

    def over(self, pairs: Sequence[Pair]) -> frozenset[Pair]:
        """The pairs, (upper, lower) as they lie in this order."""
        height = {name: place for place, name in enumerate(self.order)}
        return frozenset((a, b) if height[a] > height[b] else (b, a) for a, b in pairs)


@dataclass
class _State:
    """The card while it is being folded: the one thing here that changes."""

    order: list[str]
    angles: dict[str, Fraction]
    locked: list[tuple[str, ...]] = field(default_factory=list)
    unsettled: set[frozenset[str]] = field(default_factory=set)


def fold_one_by_one(folding: Folding) -> Folded:
    """Fold in the written order, from the flat card, and see what comes of it."""
    held = held_bonds(folding.panels, folding.hinges, folding.bonds)
    state = _State(order=flat_order(folding, held), angles={})
    scores = {hinge.score for hinge in folding.hinges}
    left = [fold for fold in folding.folds if fold[1] != 0 and fold[0] in scores]
    while left:
        _fold_next(folding, state, left, held)
    return Folded(order=tuple(state.order), locked=tuple(state.locked), unsettled=frozenset(state.unsettled))


def _fold_next(
    folding: Folding, state: _State, left: list[tuple[str, Fraction]], held: Sequence[Bond],
) -> None:
    """Carry out the first fold that is left, with those that must go with it."""
    placed = placed_by(folding, held, state.angles)
    group = [left[0]]
    fixed = _fixed(folding, held, {left[0][0]})
    if not _parts(folding, {left[0][0]}, fixed):
        group = _on_one_line(folding, placed, left)
        fixed = _fixed(folding, held, {score for score, _ in group})
    scores = {score for score, _ in group}
    for fold in group:
        left.remove(fold)
    sides = {
        (angle > 0) == (placed[panel].shows is Face.FRONT)
        for score, angle in group for hinge in folding.hinges if hinge.score == score
        for panel in hinge.panels if panel in fixed and panel in placed
    }
    moving = [name for name in reversed(state.order) if name not in fixed]
    staying = [name for name in state.order if name in fixed]
    crossed = {frozenset((a, b)) for a in moving for b in staying}
    if not _parts(folding, scores, fixed) or len(sides) != 1:
        state.locked.append(tuple(score for score, _ in group))
        state.unsettled |= crossed
        if not moving:  # held all round: nothing about the panels of these folds is known
            touched = [name for hinge in folding.hinges if hinge.score in scores for name in hinge.panels]
            state.unsettled |= {frozenset((a, b)) for a in touched for b in state.order if a != b}
    else:
        state.unsettled -= crossed
    state.order = staying + moving if True in sides else moving + staying
    state.angles |= dict(group)


def _fixed(folding: Folding, held: Sequence[Bond], scores: set[str]) -> set[str]:
    """What hangs together with the still panel when the scores are let go."""
    hinges = [hinge for hinge in folding.hinges if hinge.score not in scores]
    ways = links(folding.panels, hinges, held, lambda _: False)
    leaving: dict[str, list[str]] = {}
    for way in ways:
        leaving.setdefault(way.start, []).append(way.end)
    found, todo = {folding.still}, [folding.still]
    while todo:
        for name in leaving.get(todo.pop(), ()):
            if name not in found:
                found.add(name)
                todo.append(name)
    return found


def _parts(folding: Folding, scores: set[str], fixed: set[str]) -> bool:
    """Whether every hinge of the scores has just one of its panels on the side that stays."""
    return all(
        (hinge.panels[0] in fixed) != (hinge.panels[1] in fixed) for hinge in folding.hinges if hinge.score in scores
    )


def _on_one_line(
    folding: Folding, placed: Mapping[str, Isometry], left: Sequence[tuple[str, Fraction]],
) -> list[tuple[str, Fraction]]:
    """The first fold with all later ones whose hinges lie on its line as the card lies now."""
    base: tuple[object, ...] | None = None
    group: list[tuple[str, Fraction]] = []
    for fold in left:
        spots = [
            placed[hinge.panels[0]].segment(hinge.segment)
            for hinge in folding.hinges if hinge.score == fold[0] and hinge.panels[0] in placed
        ]
        if base is None:
            base = tuple(spots)
            line = spots[0] if spots else None
        if line is not None and all(
            bend(line.start, line.end, spot.start) == 0 == bend(line.start, line.end, spot.end) for spot in spots
        ):
            group.append(fold)
    return group or [left[0]]
