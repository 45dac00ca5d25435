"""What is seen: what the recipe says must show or must not, and layers that are caught under what they reach over."""

from collections.abc import Iterable
from fractions import Fraction

from foldproof.checks.check import error
from foldproof.checks.layers import layer_bonds
from foldproof.checks.phrases import listed
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card, FlatPose, Region
from foldproof.making.table import Making
from foldproof.paper.polygon import area, overlap
from foldproof.recipe.records import LayerSpec

HIDDEN = error(
    "hidden where it should show", "A pose says under `shows` what must be seen whole, and something covers it.")
SHOWN = error("seen where it should be hidden", "A pose says under `hides` what must not be seen yet, and it shows.")
CAUGHT = error(
    "layer caught by what it reaches over",
    "In the closed card a layer lies under a panel that it is said to overhang, and holds it up or is bent by it.")


def check_sight(card: Card, making: Making) -> Iterable[Finding]:
    """The promises of each flat pose about what is seen from the front."""
    for pose in card.poses:
        if not isinstance(pose, FlatPose):
            continue
        for name in pose.spec.shows:
            for panel in _panels(card, name.value):
                whole = _size(card, panel)
                seen = _seen(pose.seen, panel)
                if seen < whole:
                    share = "wholly" if seen == 0 else f"by about {round(100 * (1 - seen / whole)) or 1} per cent"
                    yield HIDDEN.finding(
                        f"In the pose {pose.name} the {panel} should be seen whole, but it is hidden {share}, under "
                        f"{_cover(card, pose, panel)}.",
                        mend="Move it, make what lies over it smaller, or take it out of `shows`.", place=name.place)
        for name in pose.spec.hides:
            for panel in _panels(card, name.value):
                seen, whole = _seen(pose.seen, panel), _size(card, panel)
                if seen > 0:
                    yield SHOWN.finding(
                        f"In the pose {pose.name} the {panel} should be hidden, but about "
                        f"{round(100 * seen / whole) or 1} per cent of it shows.",
                        mend="Make what covers it larger, move it, or take it out of `hides`.", place=name.place)


def check_caught(card: Card, making: Making) -> Iterable[Finding]:
    """A layer that overhangs a panel lies over it in the closed card, not between it and its own panel.

    One that reaches over a fold of its own panel is folded up with it; that is for the checks on layers.
    """
    closed = card.closed
    if closed is None:
        return
    for bond in layer_bonds(card):
        spec, host, guest = bond.spec, bond.under.panel, bond.over.panel
        assert isinstance(spec, LayerSpec)
        above = (guest, host) in closed.over
        for name in spec.overhangs:
            for panel in _panels(card, name.value):
                lies = (guest, panel) if above else (panel, guest)
                beside = any({host, panel} == set(hinge.panels) for hinge in card.hinges)
                if lies[::-1] in closed.over and not beside:
                    yield CAUGHT.finding(
                        f"Closed, the {panel} lies on the {guest}, which is fixed to the {host} and should reach over "
                        f"the {panel}.",
                        mend=f"Fold the {host} after the {panel}, so that the {guest} comes to lie over both, or fix "
                        f"it to the {panel}.", place=name.place)


def _panels(card: Card, name: str) -> list[str]:
    """The panels that a name means: its own, or all of a piece."""
    return [panel.name for panel in card.panels.values() if name in (panel.name, panel.piece)]


def _size(card: Card, panel: str) -> Fraction:
    shape = card.panels[panel]
    return area(shape.ring) - sum((abs(area(hole)) for hole in shape.holes), Fraction(0))


def _seen(regions: Iterable[Region], panel: str) -> Fraction:
    """How much of a panel the regions show."""
    return sum((area(region.ring) - sum((abs(area(hole)) for hole in region.holes), Fraction(0))
                for region in regions if region.panel == panel), Fraction(0))


def _cover(card: Card, pose: FlatPose, panel: str) -> str:
    """What lies over a panel, named as it is seen."""
    own = pose.placements[panel].ring(card.panels[panel].ring)
    over = [upper for upper, lower in pose.over if lower == panel]
    shown = dict.fromkeys(region.panel for region in pose.seen if region.panel in over and overlap(region.ring, own))
    return listed(f"the {name}" for name in shown)
