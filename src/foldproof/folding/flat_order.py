"""The stacking of a card before any fold: layers on their surfaces, joined pieces on each other."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from foldproof.folding.card import Bond, Hinge
from foldproof.folding.hanging import Hanging
from foldproof.folding.place import links, walk
from foldproof.folding.stacking import Folding, overlapping
from foldproof.paper.isometry import Isometry


def held_bonds(
    panels: Iterable[str], hinges: Sequence[Hinge], bonds: Sequence[Bond],
) -> tuple[Bond, ...]:
    """The bonds without those that close a loop: pieces are held by the rest, and the loop is checked at the end."""
    hanging = Hanging(panels, (hinge.panels for hinge in hinges))
    return tuple(bond for bond in bonds if hanging.join(bond.under.panel, bond.over.panel))


def flat_order(folding: Folding, held: Sequence[Bond]) -> list[str]:
    """The stacking before any fold, bond by bond.

    A joined piece of several panels lies over (or under) all that is there. A single sheet lies right over its
    surface, and over all else that it reaches on the same ground: the panels of the piece at the bottom of it, and the
    layers that were fixed to those before it.
    """
    flat = placed_by(folding, held, {})
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


def placed_by(folding: Folding, held: Sequence[Bond], angles: Mapping[str, Fraction]) -> Mapping[str, Isometry]:
    """Where the panels lie while the given scores, by name, are folded over; only the given bonds hold."""
    ways = links(folding.panels, folding.hinges, held, lambda hinge: angles.get(hinge.score, Fraction(0)) != 0)
    return walk(folding.panels, ways, folding.still).placements
