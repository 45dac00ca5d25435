"""Who lies over whom in a flat pose: the card is folded from flat, fold after fold, as a hand would.

A fold takes everything beyond its line over on to the other side: a valley, as the viewer sees it, lands on top of
everything, a mountain beneath. Folds on one line that hang together go together.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import islice, permutations

from foldproof.folding.card import Bond
from foldproof.folding.choosing import bonds_apart, choose
from foldproof.folding.flat_order import flat_order, held_bonds, placed_by
from foldproof.folding.place import links
from foldproof.folding.stacking import Folding, Stacking, Trouble, overlapping
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import turn

MOST_ORDERS = 120
"""How many orders of folding are tried where the written one does not do."""


@dataclass
class _State:
    """The card while it is being folded: the one thing here that changes."""

    order: list[str]
    angles: dict[str, Fraction]
    troubles: list[Trouble] = field(default_factory=list)


def stack_up(folding: Folding) -> Stacking:
    """The stacking that folding in the written order gives, or else the first other order that does all that is asked.

    What a full solver of all legal orders would replace.
    """
    pairs = overlapping(folding.panels, folding.placements)
    held = held_bonds(folding)
    start = flat_order(folding, held)
    first: Stacking | None = None
    scores = {hinge.score for hinge in folding.hinges}
    folds = [fold for fold in folding.folds if fold[1] != 0 and fold[0] in scores]
    for order in islice(permutations(folds), MOST_ORDERS):
        made = _stacking(folding, held, start, order, pairs)
        if not made.troubles:
            return made
        first = first or made
        if any(trouble.kind == "locked" for trouble in made.troubles) and len(folds) > 4:
            break
    assert first is not None
    return choose(folding, first)


def _stacking(
    folding: Folding, held: Sequence[Bond], start: Sequence[str], folds: Sequence[tuple[str, Fraction]],
    pairs: Sequence[tuple[str, str]],
) -> Stacking:
    """Fold in the given order, from the flat card, and see what comes of it."""
    state = _State(order=list(start), angles={})
    left = list(folds)
    while left:
        _fold_next(folding, state, left, held)
    height = {name: place for place, name in enumerate(state.order)}
    over = frozenset((a, b) if height[a] > height[b] else (b, a) for a, b in pairs)
    troubles = [*state.troubles, *bonds_apart(folding, state.order, over)]
    troubles += [Trouble(kind="choice", names=(a, b)) for a, b in folding.choices if (b, a) in over]
    return Stacking(order=tuple(state.order), over=over, troubles=tuple(troubles))


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
    if not _parts(folding, scores, fixed) or len(sides) != 1:
        state.troubles.append(Trouble(kind="locked", names=tuple(score for score, _ in group)))
    moving = [name for name in reversed(state.order) if name not in fixed]
    staying = [name for name in state.order if name in fixed]
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
            turn(line.start, line.end, spot.start) == 0 == turn(line.start, line.end, spot.end) for spot in spots
        ):
            group.append(fold)
    return group or [left[0]]


__all__ = ["Folding", "Stacking", "Trouble", "stack_up"]
