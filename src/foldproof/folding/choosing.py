"""The recipe's choices of who lies on top, and what glue and folds leave open."""

from collections.abc import Sequence
from fractions import Fraction

from foldproof.folding.bodies import bodies
from foldproof.folding.flat_order import held_bonds
from foldproof.folding.stacking import Folding, Stacking, Trouble
from foldproof.paper.face import Face
from foldproof.paper.polygon import overlap


def bonds_apart(folding: Folding, made: Sequence[str], over: frozenset[tuple[str, str]]) -> list[Trouble]:
    """Bonds whose surfaces do not lie on each other: the wrong way round, or with another body between them.

    What lies between is asked only of bonds that close a loop; the others were together from the start.
    """
    held, body = held_bonds(folding), bodies(folding.bonds, folding.panels)
    height = {name: place for place, name in enumerate(made)}
    troubles = []
    for bond in folding.bonds:
        host, guest = bond.under.panel, bond.over.panel
        if host not in folding.placements or bond.area is None:
            continue
        move = folding.placements[host]
        pair = (guest, host) if move.shows is bond.under.face else (host, guest)
        low, high = sorted((height[host], height[guest]))
        between = bond not in held and any(
            body[name] != body[host] for name in made[low + 1:high]
            if name in folding.placements
            and overlap(move.ring(bond.area), folding.placements[name].ring(folding.panels[name].ring))
        )
        if pair not in over or between:
            troubles.append(Trouble(kind="bond", names=(bond.name,)))
    return troubles


def choose(folding: Folding, made: Stacking) -> Stacking:
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
    if order is None or any((lower, upper) in over for upper, lower in _ways_of_folding(folding)):
        return made
    rest = [trouble for trouble in made.troubles if trouble.kind != "choice"]
    rest += [Trouble(kind="choice", names=pair) for pair in folding.choices if (pair[1], pair[0]) in over]
    return Stacking(order=order, over=frozenset(over), troubles=tuple(rest))


def _ways_of_folding(folding: Folding) -> list[tuple[str, str]]:
    """(upper, lower) for the two panels of every folded hinge: a valley lays one on the face that the other shows."""
    angles = dict(folding.folds)
    pairs = []
    for hinge in folding.hinges:
        a, b = hinge.panels
        angle = angles.get(hinge.score, Fraction(0))
        if angle and a in folding.placements and b in folding.placements:
            pairs.append((b, a) if (angle > 0) == (folding.placements[a].shows is Face.FRONT) else (a, b))
    return pairs


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


