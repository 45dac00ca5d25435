"""Who lies over whom in a flat pose: the card is folded from flat, fold after fold, as a hand would.

A fold takes everything beyond its line over on to the other side: a valley, as the viewer sees it, lands on top of
everything, a mountain beneath. Folds on one line that hang together go together.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import islice, permutations

from foldproof.folding.bodies import bodies
from foldproof.folding.card import Bond, Hinge, Panel
from foldproof.folding.place import links, walk
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import overlap, turn

MOST_ORDERS = 720
"""How many orders of folding are tried where the written one does not do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stacking:
    """A stacking of all panels of a flat pose, seen with the still panel's front toward the viewer."""

    order: tuple[str, ...]
    """From the bottom up."""
    over: frozenset[tuple[str, str]]
    """(upper, lower) for each pair that overlaps."""
    troubles: tuple["Trouble", ...]
    """Why the stacking may not be taken as it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Something that stands in the way of a stacking."""

    kind: str
    """`locked` (a fold that cannot be made), `bond` (glued faces apart), `choice` (an order that cannot be kept)."""
    names: tuple[str, ...]
    """Scores of the fold, the bond, or the two panels of the choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Folding:
    """What is to be stacked."""

    panels: Mapping[str, Panel]
    hinges: tuple[Hinge, ...]
    bonds: tuple[Bond, ...]
    folds: tuple[tuple[str, Fraction], ...]
    """Score and angle, plus or minus 180, in the order of folding."""
    still: str
    placements: Mapping[str, Isometry]
    """Where the panels lie when all is folded, the still panel's front toward the viewer."""
    choices: tuple[tuple[str, str], ...] = ()
    """Pairs (upper, lower) that the recipe asks for, seen the same way."""


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
    first: Stacking | None = None
    folds = [fold for fold in folding.folds if fold[1] != 0]
    for order in islice(permutations(folds), MOST_ORDERS):
        made = _stacking(folding, order, pairs)
        if not made.troubles:
            return made
        first = first or made
        if any(trouble.kind == "locked" for trouble in made.troubles) and len(folds) > 4:
            break
    assert first is not None
    return _choose(folding, first, pairs)


def overlapping(panels: Mapping[str, Panel], placements: Mapping[str, Isometry]) -> tuple[tuple[str, str], ...]:
    """Pairs of panels that share some area where they are placed."""
    names = [name for name in panels if name in placements]
    rings = {name: placements[name].ring(panels[name].ring) for name in names}
    return tuple((a, b) for i, a in enumerate(names) for b in names[i + 1:] if overlap(rings[a], rings[b]))


def _stacking(folding: Folding, folds: Sequence[tuple[str, Fraction]], pairs: Sequence[tuple[str, str]]) -> Stacking:
    """Fold in the given order and see what comes of it."""
    held = _tree(folding)
    state = _State(order=_flat_order(folding, held), angles={})
    left = list(folds)
    while left:
        _fold_next(folding, state, left, held)
    height = {name: place for place, name in enumerate(state.order)}
    over = frozenset((a, b) if height[a] > height[b] else (b, a) for a, b in pairs)
    troubles = [*state.troubles, *_apart(folding, over)]
    troubles += [Trouble(kind="choice", names=(a, b)) for a, b in folding.choices if (b, a) in over]
    return Stacking(order=tuple(state.order), over=over, troubles=tuple(troubles))


def _tree(folding: Folding) -> tuple[Bond, ...]:
    """The bonds without those that close a loop: pieces are held by the rest, and the loop is checked at the end."""
    leader = {name: name for name in folding.panels}

    def find(name: str) -> str:
        while leader[name] != name:
            name = leader[name]
        return name

    for hinge in folding.hinges:
        leader[find(hinge.panels[0])] = find(hinge.panels[1])
    held = []
    for bond in folding.bonds:
        a, b = find(bond.under.panel), find(bond.over.panel)
        if a != b:
            leader[a] = b
            held.append(bond)
    return tuple(held)


def _flat_order(folding: Folding, held: Sequence[Bond]) -> list[str]:
    """The stacking before any fold, bond by bond.

    A joined piece of several panels lies over (or under) all that is there. A single sheet lies right over its
    surface, and over all else that it reaches on the same ground: the panels of the piece at the bottom of it, and the
    layers that were fixed to those before it.
    """
    flat = _placed(folding, held, {})
    family = {name: [other.name for other in folding.panels.values() if other.piece == panel.piece]
              for name, panel in folding.panels.items()}
    reaches = {frozenset(pair) for pair in overlapping(folding.panels, flat)}
    order = list(family[folding.still])
    ground: dict[str, tuple[str, bool]] = {}
    hosts: dict[str, str] = {}
    waiting = list(held)
    while waiting:
        ready = next((bond for bond in waiting
                      if (bond.under.panel in order) != (bond.over.panel in order)), None)
        if ready is None:
            break
        waiting.remove(ready)
        host, guest = (ready.under, ready.over) if ready.under.panel in order else (ready.over, ready.under)
        above = flat[host.panel].shows is host.face
        group = family[guest.panel]
        if len(group) > 1:
            at = len(order) if above else 0
        else:
            base = ground.get(host.panel, (folding.panels[host.panel].piece, above))
            ground[guest.panel], hosts[guest.panel] = base, host.panel
            level = [
                place for place, name in enumerate(order)
                if name == host.panel or (hosts.get(name) == host.panel and ground[name] == base)
                or (frozenset((name, guest.panel)) in reaches and base[1] == above
                    and (folding.panels[name].piece == base[0] or ground.get(name) == base))
            ]
            at = max(level) + 1 if above else min(level)
        order[at:at] = group
    return order + [name for name in folding.panels if name not in order]


def _placed(folding: Folding, held: Sequence[Bond], angles: Mapping[str, Fraction]) -> Mapping[str, Isometry]:
    ways = links(folding.panels, folding.hinges, held, lambda hinge: angles.get(hinge.score, Fraction(0)) != 0)
    return walk(folding.panels, ways, folding.still).placements


def _fold_next(
    folding: Folding, state: _State, left: list[tuple[str, Fraction]], held: Sequence[Bond],
) -> None:
    """Carry out the first fold that is left, with those that must go with it."""
    placed = _placed(folding, held, state.angles)
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


def _apart(folding: Folding, over: frozenset[tuple[str, str]]) -> list[Trouble]:
    """Bonds whose surfaces do not lie on each other in the stacking."""
    troubles = []
    for bond in folding.bonds:
        host, guest = bond.under, bond.over
        if host.panel not in folding.placements or bond.area is None:
            continue
        above = folding.placements[host.panel].shows is host.face
        pair = (guest.panel, host.panel) if above else (host.panel, guest.panel)
        if pair not in over:
            troubles.append(Trouble(kind="bond", names=(bond.name,)))
    return troubles


def _choose(folding: Folding, made: Stacking, pairs: Sequence[tuple[str, str]]) -> Stacking:
    """Put the bodies of the recipe's choices the asked way round, and list the panels anew where that can be."""
    asked = [trouble.names for trouble in made.troubles if trouble.kind == "choice"]
    if not asked:
        return made
    body = bodies(folding.bonds, folding.panels)
    over = set(made.over)
    for upper, lower in asked:
        if body[upper] == body[lower]:
            continue
        for pair in made.over:
            if body[pair[0]] == body[lower] and body[pair[1]] == body[upper]:
                over.discard(pair)
                over.add((pair[1], pair[0]))
    order = _listed(made.order, over)
    if order is None:
        return made
    rest = [trouble for trouble in made.troubles if trouble.kind != "choice"]
    rest += [Trouble(kind="choice", names=pair) for pair in folding.choices if (pair[1], pair[0]) in over]
    return Stacking(order=order, over=frozenset(over), troubles=tuple(rest))


def _listed(order: Sequence[str], over: set[tuple[str, str]]) -> tuple[str, ...] | None:
    """A list from the bottom up that agrees with all pairs, close to the given one; None where they run in a ring."""
    left, done = list(order), []
    while left:
        free = next((name for name in left if not any((name, other) in over for other in left)), None)
        if free is None:
            return None
        left.remove(free)
        done.append(free)
    return tuple(done)


