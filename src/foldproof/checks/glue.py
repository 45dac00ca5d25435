"""Adhesive: wholly on the two surfaces that it is to hold together, and on nothing else."""

from collections.abc import Iterable

from foldproof.checks.check import error
from foldproof.checks.cover import uncovered
from foldproof.checks.layers import turning_hinges
from foldproof.checks.phrases import length, listed
from foldproof.findings.finding import Finding, Place
from foldproof.folding.card import Bond, Card, FlatPose, Hinge
from foldproof.folding.glue import margin, safe_area
from foldproof.making.table import Making
from foldproof.paper.face import Face
from foldproof.paper.polygon import Box, bounding_box, overlap
from foldproof.paper.subdivision import common
from foldproof.paper.vector import Ring
from foldproof.recipe.records import JoinSpec

PAST = error(
    "adhesive past the edge",
    "Adhesive reaches over the edge, or over an opening, of the surface that it is to stick to.")
ACROSS = error("glued across a fold", "A join or its adhesive lies across a score that still has to fold.")


def check_glue(card: Card, making: Making) -> Iterable[Finding]:
    """Every bond: its adhesive lies on the panel that receives it, clear of its edges, folds and openings."""
    for bond in card.bonds:
        if bond.stand is not None:  # glued along one edge; its panel never lies on the other
            continue
        host = card.panels[bond.under.panel]
        areas = bond.glue or _whole_join(card, bond) or bond.glued
        past = tuple(rest for area in areas for rest in uncovered(area, [host.ring]))
        open_ = tuple(
            part for area in bond.glue for hole in host.holes if (part := common(area, hole[::-1])) is not None)
        folds = _folds_under(card, making, bond, (*past, *open_))
        if folds and (bond.glue or isinstance(bond.spec, JoinSpec)):
            yield _across(card, bond, folds)
        elif past and bond.glue:
            yield _past(card, bond, past)
        elif open_:
            yield PAST.finding(
                f"The adhesive of the {bond.name} lies over an opening in the {host.name}: it would show, and stick to "
                "what lies behind.",
                mend="Give its `glue area` as strips along the edges that lie on paper.", place=_place(bond))


def _whole_join(card: Card, bond: Bond) -> tuple[Ring, ...]:
    """A join is glued all over unless its glue area is given; a layer only where it lies on its panel."""
    return (bond.fit.ring(card.panels[bond.over.panel].ring),) if isinstance(bond.spec, JoinSpec) else ()


def _folds_under(card: Card, making: Making, bond: Bond, past: tuple[Ring, ...]) -> list[Hinge]:
    """The scores of the receiving panel that still turn and beyond which the adhesive goes on."""
    found = []
    for hinge in turning_hinges(card, making, bond):
        if bond.under.panel in hinge.panels:
            other = next(name for name in hinge.panels if name != bond.under.panel)
            if any(overlap(part, card.panels[other].ring) for part in past):
                found.append(hinge)
    return found


def _across(card: Card, bond: Bond, folds: list[Hinge]) -> Finding:
    scores = listed(dict.fromkeys(f"the {hinge.score}" for hinge in folds))
    others = listed(dict.fromkeys(
        name for hinge in folds for name in hinge.panels if name != bond.under.panel))
    return ACROSS.finding(
        f"The {bond.name} is glued across {scores}, on the {bond.under.panel} and on the {others}, but the card still "
        "folds there.", mend=_instead(card, bond), place=_place(bond))


def _past(card: Card, bond: Bond, past: tuple[Ring, ...]) -> Finding:
    host = bounding_box(card.panels[bond.under.panel].ring)
    sticks = _sticks_to(card, bond, past)
    return PAST.finding(
        f"The adhesive of the {bond.name} reaches {_beyond(card, bond, past, host)} past the edge of the "
        f"{bond.under.panel}{sticks}.", mend=_instead(card, bond), place=_place(bond))


def _beyond(card: Card, bond: Bond, past: tuple[Ring, ...], host: Box) -> str:
    box = bounding_box(p for ring in past for p in ring)
    ways = (host.left - box.left, box.right - host.right, host.bottom - box.bottom, box.top - host.top)
    worst = max(ways)
    if worst > 0:
        return length(card, worst)
    return length(card, min(box.width, box.height))  # past a slanted edge


def _sticks_to(card: Card, bond: Bond, past: tuple[Ring, ...]) -> str:
    """What the adhesive would meet, in the first flat pose in which it meets something."""
    for pose in card.poses:
        if isinstance(pose, FlatPose):
            met = _next_beneath(card, pose, bond, past)
            if met is not None:
                return f"; in the pose {pose.name} it would stick to the {met}"
    return ""


def _next_beneath(card: Card, pose: FlatPose, bond: Bond, past: tuple[Ring, ...]) -> str | None:
    """The panel that lies right against the adhesive beyond the edge: on the receiving side of what is laid."""
    host, guest = bond.under.panel, bond.over.panel
    above = (guest, host) in pose.over
    rings = [pose.placements[host].ring(part) for part in past]
    there = [
        name for name, move in pose.placements.items()
        if name != guest and ((guest, name) if above else (name, guest)) in pose.over
        and any(overlap(ring, move.ring(card.panels[name].ring)) for ring in rings)
    ]
    return next((
        name for name in there
        if not any(((other, name) if above else (name, other)) in pose.over for other in there if other != name)), None)


def _instead(card: Card, bond: Bond) -> str:
    """Where the adhesive may go: the safe region as strips or as what is left."""
    safe = safe_area(card, bond)
    if safe is None:
        return f"There is no room for adhesive on the {bond.under.panel}: move the {bond.name} farther on to it."
    box, laid = bounding_box(safe), bounding_box(bond.fit.ring(card.panels[bond.over.panel].ring))
    sides = {"left": box.right - laid.left if box.left == laid.left else None,
             "right": laid.right - box.left if box.right == laid.right else None,
             "bottom": box.top - laid.bottom if box.bottom == laid.bottom else None,
             "top": laid.top - box.bottom if box.top == laid.top else None}
    if bond.under.face is Face.BACK:
        sides["left"], sides["right"] = sides["right"], sides["left"]
    full = {"left": laid.width, "right": laid.width, "top": laid.height, "bottom": laid.height}
    strips = [(side, wide) for side, wide in sides.items() if wide is not None and wide < full[side]]
    keep = (f"Keep the adhesive on the {bond.under.panel}, {length(card, margin(card))} short of the edge that the "
            f"{bond.name} reaches over")
    if len(strips) == 1:
        side, wide = strips[0]
        return f"{keep}: `glue area: {{{side}: {length(card, wide)}}}`."
    return f"{keep}."


def _place(bond: Bond) -> Place:
    return bond.spec.glue_area.place if bond.spec.glue_area else bond.place
