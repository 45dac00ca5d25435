"""Where layers lie: inside their panel, clear of hinges that turn, with even borders."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from foldproof.checks.check import advice, error, warning
from foldproof.checks.cover import uncovered
from foldproof.checks.phrases import accident, length, listed, sliver
from foldproof.findings.finding import Aside, Finding, Place
from foldproof.folding.card import Bond, Card, FlatPose, Hinge
from foldproof.making.table import Making
from foldproof.paper.face import Face
from foldproof.paper.polygon import Box, Where, area, bounding_box, clip, locate
from foldproof.paper.vector import Ring
from foldproof.recipe.actions import Attach, FoldOn
from foldproof.recipe.records import LayerSpec, Rectangle

OUTSIDE = error(
    "layer sticks out of its panel",
    "A layer reaches past the panel that it is fixed to and does not say what it overhangs.")
TOO_FAR = error(
    "layer reaches too far", "A layer reaches past what it says it overhangs, or past the closed card.")
NO_OVERHANG = warning(
    "overhang that is not there", "A layer is said to overhang a panel that it does not reach in the closed card.")
BRIDGES = error(
    "layer bridges a fold", "A layer lies across a score that still turns after the layer is fixed.")
UNEVEN = warning(
    "uneven borders", "Opposite borders of a layer differ by so little that it looks like a slip.")
SIDE_BORDERS = advice(
    "borders nearly alike",
    "The side borders of a layer differ from those above and below by so little that it looks like a slip.")


def check_lie(card: Card, making: Making) -> Iterable[Finding]:
    """Each layer lies in its panel, or reaches only over what it says it overhangs."""
    for bond in layer_bonds(card):
        spec = bond.spec
        assert isinstance(spec, LayerSpec)
        placed, panel = placed_ring(card, bond), card.panels[bond.under.panel]
        parts = uncovered(placed, [panel.ring])
        if not parts:
            yield from _missing_overhangs(card, bond)
            continue
        bridged = [hinge for hinge in turning_hinges(card, making, bond) if _crosses(placed, hinge)]
        neighbours = {name for hinge in bridged for name in hinge.panels} - {bond.under.panel}
        if bridged and not neighbours & {name.value for name in spec.overhangs}:
            yield BRIDGES.finding(
                f"The {bond.name} lies across the {listed(dict.fromkeys(h.score for h in bridged))}, but the card "
                "still folds there after the layer is fixed: it would hold the fold open, or crease.",
                mend=f"Keep the {bond.name} on the {bond.under.panel}, or glue it on one side only and name "
                f"{listed(sorted(neighbours))} under `overhangs`.",
                place=spec.place, asides=_score_asides(card, bridged))
        elif not spec.overhangs:
            yield OUTSIDE.finding(
                f"The {bond.name} sticks out of the {bond.under.panel}: {_amounts(card, bond, parts)}.",
                mend="Make it smaller or move it; if it is meant to reach over something, name that under `overhangs`.",
                place=_place_of(spec))
        else:
            yield from _overhang(card, bond, parts)
            yield from _missing_overhangs(card, bond)


def check_borders(card: Card, making: Making) -> Iterable[Finding]:
    """Opposite borders that differ by a slip; zero along a fold and a plain offset are left alone."""
    for bond in layer_bonds(card):
        spec = bond.spec
        assert isinstance(spec, LayerSpec)
        borders = borders_of(card, bond)
        if borders is None or not isinstance(spec.shape, Rectangle) or min(borders.values()) <= 0:
            continue
        limit = accident(card)
        pairs = (("left", "right"), ("top", "bottom"))
        uneven = [(a, b) for a, b in pairs if 0 < abs(borders[a] - borders[b]) <= limit]
        for a, b in uneven:
            yield UNEVEN.finding(
                f"On the {bond.under.panel} the {bond.name} leaves {length(card, borders[a])} at the {a} and "
                f"{length(card, borders[b])} at the {b}: {length(card, borders[a] - borders[b])} apart.",
                mend=f"Centre it, or make the borders differ by more than {length(card, limit)} if that is the design.",
                place=_place_of(spec, a, b))
        across, up = borders["left"], borders["top"]
        if not uneven and across == borders["right"] and up == borders["bottom"] and 0 < abs(across - up) <= limit:
            yield SIDE_BORDERS.finding(
                f"On the {bond.under.panel} the {bond.name} leaves {length(card, across)} at the sides and "
                f"{length(card, up)} above and below.",
                mend="Make them alike, or let them differ by more if that is the design.", place=spec.place)


def layer_bonds(card: Card) -> tuple[Bond, ...]:
    """The bonds that fix layers, in the recipe's order."""
    return tuple(bond for bond in card.bonds if isinstance(bond.spec, LayerSpec))


def placed_ring(card: Card, bond: Bond) -> Ring:
    """The outline of what is laid on, in the frame of the receiving piece."""
    return bond.fit.ring(card.panels[bond.over.panel].ring)


def borders_of(card: Card, bond: Bond) -> dict[str, Fraction] | None:
    """The strip left at each edge of the receiving panel, as its face is read; None unless both are upright rectangles.

    Negative where the layer sticks out.
    """
    placed, panel = placed_ring(card, bond), card.panels[bond.under.panel].ring
    inner, outer = bounding_box(placed), bounding_box(panel)
    if area(placed) != inner.width * inner.height or area(panel) != outer.width * outer.height:
        return None
    return _strips(inner, outer, bond.under.face)


def _strips(inner: Box, outer: Box, face: Face) -> dict[str, Fraction]:
    left, right = inner.left - outer.left, outer.right - inner.right
    if face is Face.BACK:
        left, right = right, left
    return {"left": left, "right": right, "top": outer.top - inner.top, "bottom": inner.bottom - outer.bottom}


def turning_hinges(card: Card, making: Making, bond: Bond) -> Iterator[Hinge]:
    """The hinges of the receiving piece that turn after the bond is made.

    A score turns when its angle differs between poses, or when a step folds it after the step that fixes the layer.
    """
    piece = card.panels[bond.under.panel].piece
    for hinge in card.hinges:
        if hinge.piece != piece:
            continue
        angles = {_angle(pose, hinge.score) for pose in card.recipe.poses}
        if len(angles) > 1 or (angles != {Fraction(0)} and _folded_after(making, hinge.score, bond.name)):
            yield hinge


def _angle(pose: object, score: str) -> Fraction | None:
    for fold in getattr(pose, "folds", ()):
        if fold.score.value == score:
            return fold.angle.value if fold.angle is not None else None
    return Fraction(0)


def _folded_after(making: Making, score: str, bond: str) -> bool:
    fixed = False
    for done in (done for step in making.steps for done in step.every):
        if isinstance(done.action, Attach) and done.action.bond == bond:
            fixed = True
        again = isinstance(done.action, FoldOn) and done.action.score == score
        if fixed and score in dict(done.after.folded) and (again or score not in dict(done.before.folded)):
            return True
    return False


def _crosses(ring: Ring, hinge: Hinge) -> bool:
    """Whether the outline has area on both sides of a stretch of hinge."""
    return any(locate(stretch.middle, ring) is Where.IN for stretch in clip(hinge.segment, ring))


def _score_asides(card: Card, hinges: list[Hinge]) -> tuple[Aside, ...]:
    names = {hinge.score for hinge in hinges}
    return tuple(Aside(text=f"the {score.name} is scored here", place=score.place)
                 for piece in card.pieces for score in piece.scores if score.name in names)


def _chain(card: Card, bond: Bond) -> Iterator[str]:
    """The panel that receives a layer, and what that one is fixed to, down to the piece."""
    panel: str | None = bond.under.panel
    seen: set[str] = set()
    while panel is not None and panel not in seen:
        seen.add(panel)
        yield panel
        piece = card.panels[panel].piece
        panel = next((b.under.panel for b in layer_bonds(card) if card.panels[b.over.panel].piece == piece), None)


def _overhang(card: Card, bond: Bond, parts: tuple[Ring, ...]) -> Iterator[Finding]:
    closed, spec = card.closed, bond.spec
    assert isinstance(spec, LayerSpec)
    named = [name.value for name in spec.overhangs]
    if closed is None or "edge" in named:
        return
    allowed = _rings(card, closed, {*named, *_chain(card, bond)})
    to_pose = closed.placements[bond.under.panel]
    left = [rest for part in parts for rest in uncovered(to_pose.ring(part), allowed)]
    bare = uncovered_by_pieces(card, closed, left)
    # a bridge over the gap between two doors lies over neither for a moment
    if not bare and all(_narrow(ring) <= sliver(card) for ring in left):
        return
    box, whole = bounding_box(p for ring in left for p in ring), bounding_box(p for ring in allowed for p in ring)
    beyond = [
        f"{length(card, by)} past their {side} edge"
        for side, by in (("left", whole.left - box.left), ("right", box.right - whole.right),
                         ("top", box.top - whole.top), ("bottom", whole.bottom - box.bottom)) if by > 0
    ]
    yield TOO_FAR.finding(
        f"Closed, the {bond.name} reaches past {listed(dict.fromkeys([bond.under.panel, *named]))}"
        f"{': ' + listed(beyond) if beyond else ''}"
        f"{', out of the card' if bare else ''}.",
        mend="Make it smaller or move it; to let it stick out of the card on purpose, add `edge` to `overhangs`."
        if bare else "Make it smaller, move it, or name what else it may lie over under `overhangs`.",
        place=_place_of(spec))


def _narrow(ring: Ring) -> Fraction:
    box = bounding_box(ring)
    return min(box.width, box.height)


def uncovered_by_pieces(card: Card, pose: FlatPose, rings: Iterable[Ring]) -> list[Ring]:
    """What of some areas lies outside all the pieces of the card, layers left out."""
    pieces = _rings(card, pose, {name for piece in card.pieces if not piece.layer for name in piece.panels})
    return [rest for ring in rings for rest in uncovered(ring, pieces)]


def _rings(card: Card, pose: FlatPose, names: Iterable[str]) -> list[Ring]:
    """The outlines of panels, pieces or layers by name, as they lie in a pose."""
    wanted = set(names)
    panels = [panel for panel in card.panels.values() if panel.name in wanted or panel.piece in wanted]
    return [pose.placements[panel.name].ring(panel.ring) for panel in panels if panel.name in pose.placements]


def _missing_overhangs(card: Card, bond: Bond) -> Iterator[Finding]:
    closed, spec = card.closed, bond.spec
    assert isinstance(spec, LayerSpec)
    if closed is None or bond.over.panel not in closed.placements:
        return
    ring = closed.placements[bond.over.panel].ring(card.panels[bond.over.panel].ring)
    for name in spec.overhangs:
        rings = _rings(card, closed, {name.value})
        if name.value == "edge":
            reached = bool(uncovered_by_pieces(card, closed, [ring]))
        elif rings:
            reached = sum((area(part) for part in uncovered(ring, rings)), Fraction(0)) < area(ring)
        else:
            continue
        if not reached:
            what = "past the card's edge" if name.value == "edge" else f"over the {name.value}"
            yield NO_OVERHANG.finding(
                f"The {bond.name} is said to reach {what}, but in the closed card it does not.",
                mend="Take the name out of `overhangs`, or check the size and the place of the layer.",
                place=name.place)


def _amounts(card: Card, bond: Bond, parts: tuple[Ring, ...]) -> str:
    outer = bounding_box(card.panels[bond.under.panel].ring)
    inner = bounding_box(p for ring in parts for p in ring)
    past = [f"{length(card, by)} past the {side} edge"
            for side, by in _strips(inner, outer, bond.under.face).items() if by < 0]
    return listed(past) if past else "past its slanted edge"


def _place_of(spec: LayerSpec, *sides: str) -> Place:
    for side in sides or ("left", "right", "top", "bottom"):
        given = getattr(spec.at, side)
        if given is not None:
            place: Place = given.place
            return place
    return spec.place
