"""All joins and layers of a card, fixed in an order in which each finds its surface in place."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from foldproof.findings.finding import Finding
from foldproof.folding.bonds import Pending, bond_of
from foldproof.folding.card import Bond, Hinge, Panel, Surface
from foldproof.folding.place import Placing, place_panels
from foldproof.folding.words import error, list_of
from foldproof.frozen import dataclass
from foldproof.paper.polygon import area, bounding_box
from foldproof.paper.vector import Point
from foldproof.recipe.records import JoinSpec, LayerSpec, PoseSpec, Recipe

CARD = "card"
"""The word that centres a layer on the closed card."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """The folds of the closed pose, for what is centred on it."""

    still: str
    folds: Mapping[str, Fraction]


def fix_all(
    recipe: Recipe, panels: Mapping[str, Panel], hinges: Sequence[Hinge],
) -> tuple[tuple[Bond, ...], tuple[Finding, ...]]:
    """The bonds in the order in which they build on each other, each with its place."""
    findings: list[Finding] = []
    waiting: list[Pending] = []
    specs: tuple[JoinSpec | LayerSpec, ...] = (*recipe.joins, *recipe.layers)
    for spec in specs:
        under = Surface(panel=spec.upon.panel.value, face=spec.upon.face)
        over = (Surface(panel=spec.name.value, face=spec.face) if isinstance(spec, LayerSpec)
                else Surface(panel=spec.put.panel.value, face=spec.put.face))
        if under.panel == over.panel:
            findings.append(error("fixed to itself", f"{spec.name} is fixed to itself.", spec.place,
                                  "Name another panel or layer."))
        else:
            waiting.append(Pending(spec=spec, under=under, over=over))
    if findings:
        return (), tuple(findings)
    bonds = _fix(recipe, panels, hinges, waiting, findings)
    if not findings:
        findings.extend(_loose(recipe, panels, hinges, bonds))
    return tuple(bonds), tuple(findings)


def closed_folds(recipe: Recipe, panels: Mapping[str, Panel]) -> Closed | None:
    """The folds of the pose that the finished size speaks of; None where it is missing or not flat."""
    wanted = recipe.finished.pose.value if recipe.finished.pose else "closed"
    pose = next((pose for pose in recipe.poses if pose.name.value == wanted), None)
    if pose is None:
        return None
    folds: dict[str, Fraction] = {}
    for fold in pose.folds:
        if fold.angle is None or fold.angle.value not in (0, 180, -180):
            return None
        folds[fold.score.value] = fold.angle.value
    still = still_panel(recipe, pose, panels)
    return Closed(still=still, folds=folds) if still in panels else None


def still_panel(recipe: Recipe, pose: PoseSpec, panels: Mapping[str, Panel]) -> str:
    """The panel that a pose leaves as it lies: the first piece's largest panel unless said."""
    if pose.still is not None:
        return pose.still.value
    first = recipe.pieces[0].name.value
    own = [panel for panel in panels.values() if panel.piece == first]
    return max(own, key=lambda panel: area(panel.ring)).name


def _fix(
    recipe: Recipe, panels: Mapping[str, Panel], hinges: Sequence[Hinge], waiting: list[Pending],
    findings: list[Finding],
) -> list[Bond]:
    """Rounds: first what needs only its surface, then what is centred on the closed card as far as it stands."""
    roots = _rooted(recipe, panels)
    bonds: list[Bond] = []
    closed = closed_folds(recipe, panels)
    while waiting:
        ready = [p for p in waiting if p.under.panel in roots and p.at.centred_on is None]
        if not ready:
            ready = [p for p in waiting if p.under.panel in roots and _known(p, roots)]
        if not ready:
            findings.append(_ring(waiting, roots))
            break
        placing = _place(panels, hinges, bonds, closed) if any(p.at.centred_on for p in ready) else None
        for pending in ready:
            waiting.remove(pending)
            centre: Point | None = None
            if pending.at.centred_on is not None:
                found = _centre(recipe, pending, panels, placing)
                if isinstance(found, Finding):
                    findings.append(found)
                    continue
                centre = found
            bond = bond_of(pending, panels, recipe.unit, centre)
            if isinstance(bond, Bond):
                bonds.append(bond)
            else:
                findings.append(bond)
        for pending in ready:  # a faulty place is reported once, not again by all that lies on it
            roots |= {name for name, panel in panels.items() if panel.piece == panels[pending.over.panel].piece}
    return bonds


def _rooted(recipe: Recipe, panels: Mapping[str, Panel]) -> set[str]:
    """The panels that need no bond before they can receive one: all of every piece that is no layer."""
    pieces = {piece.name.value for piece in recipe.pieces}
    return {name for name, panel in panels.items() if panel.piece in pieces}


def _known(pending: Pending, roots: set[str]) -> bool:
    on = pending.at.centred_on
    return on is None or on.value == CARD or on.value in roots


def _place(
    panels: Mapping[str, Panel], hinges: Sequence[Hinge], bonds: Sequence[Bond], closed: Closed | None,
) -> Placing | None:
    return None if closed is None else place_panels(panels, hinges, bonds, closed.folds, closed.still)


def _centre(
    recipe: Recipe, pending: Pending, panels: Mapping[str, Panel], placing: Placing | None,
) -> Point | Finding:
    """What the layer is centred on, in the receiving piece's frame."""
    on = pending.at.centred_on
    assert on is not None
    host = pending.under.panel
    if placing is None:
        pose = recipe.finished.pose.value if recipe.finished.pose else "closed"
        return error("nothing to centre on",
                     f"{pending.spec.name} is centred on {on} in the pose `{pose}`, but the recipe has no such pose "
                     "that lies flat.", on.place, "Add the pose, or centre the layer on its own panel.")
    placed = placing.placements
    if host not in placed or (on.value != CARD and on.value not in placed):
        return error("nothing to centre on", f"{host} and {on} do not hang together, so neither has a middle seen from "
                     "the other.", on.place, "Join their pieces, or centre the layer on its own panel.")
    names = placed if on.value == CARD else (on.value,)
    box = bounding_box(placed[name].point(p) for name in names for p in panels[name].ring)
    return placed[host].inverse.point(box.centre)


def _ring(waiting: Sequence[Pending], roots: set[str]) -> Finding:
    """A finding for layers that wait for each other."""
    first = waiting[0]
    names = list_of(pending.spec.name.value for pending in waiting)
    return error("layers in a ring", f"{names}: each lies on, or is centred on, another of them, so none can be first.",
                 first.spec.place, "Fix one of them to a panel of a piece.")


def _loose(
    recipe: Recipe, panels: Mapping[str, Panel], hinges: Sequence[Hinge], bonds: Sequence[Bond],
) -> list[Finding]:
    """Findings for pieces that nothing attaches to the first."""
    group = {panel.piece: panel.piece for panel in panels.values()}

    def find(piece: str) -> str:
        while group[piece] != piece:
            piece = group[piece]
        return piece

    for bond in bonds:
        group[find(panels[bond.under.panel].piece)] = find(panels[bond.over.panel].piece)
    first = recipe.pieces[0].name.value
    held = {name.value for slide in recipe.slides for name in (slide.what, slide.into)}
    return [
        error("piece never attached", f"Nothing joins {piece.name} to {first}.", piece.name.place,
              "Add a join between the two, or leave the piece out.")
        for piece in recipe.pieces if piece.name.value not in held and find(piece.name.value) != find(first)
    ]
