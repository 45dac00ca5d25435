"""The poses of a card: which are flat and how they lie, and which stand off the table."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction

from foldproof.findings.finding import Finding, Severity
from foldproof.folding.bonds import MIRROR, TURNS
from foldproof.folding.card import Card, FlatPose, Hinge, Pose, StandingPose
from foldproof.folding.fixing import still_panel
from foldproof.folding.flat_order import held_bonds
from foldproof.folding.flatness import flat_faults
from foldproof.folding.order_words import told
from foldproof.folding.overlay import overlay
from foldproof.folding.place import Misfit, place_panels
from foldproof.folding.stack import stack_up
from foldproof.folding.stacking import Folding
from foldproof.folding.standing import FLAT, stand
from foldproof.folding.thickness import paper_thickness
from foldproof.folding.view import look
from foldproof.folding.words import distance, error
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.paper.face import Face, Fold
from foldproof.paper.isometry import IDENTITY, Isometry, quarter_turns, translation
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Vector
from foldproof.recipe.records import PoseSpec

_NEARLY = 0.05
"""Degrees: an angle found this near to flat is flat, and the pose is then folded exactly."""


def pose_all(card: Card) -> tuple[tuple[Pose, ...], tuple[Finding, ...]]:
    """Every pose of the recipe that can be worked out, in the recipe's order."""
    poses: list[Pose] = []
    findings: list[Finding] = []
    for spec in card.recipe.poses:
        faults = _faults(card, spec)
        findings.extend(faults)
        if faults:
            continue
        off = any(bond.stand is not None for bond in card.bonds)
        flat = not off and all(fold.angle is not None and fold.angle.value in FLAT for fold in spec.folds)
        pose, faults = fold_flat(card, spec) if flat else stand(card, spec)
        if pose is not None and not flat and not off:
            settled = _lying_flat(spec, pose)
            if settled is not None:
                pose, more = fold_flat(card, settled)
                faults = (*faults, *more)
        findings.extend(faults)
        if pose is not None:
            poses.append(pose)
    return tuple(poses), tuple(findings)


def _lying_flat(spec: PoseSpec, pose: Pose) -> PoseSpec | None:
    """The pose with exact angles, where all that were found come out flat."""
    assert isinstance(pose, StandingPose)
    nearest = {name: min(FLAT, key=lambda flat: abs(float(flat) - angle)) for name, angle in pose.angles.items()}
    if spec.rests is not None or any(abs(float(nearest[name]) - a) > _NEARLY for name, a in pose.angles.items()):
        return None
    folds = tuple(
        fold if fold.angle is not None
        else replace(fold, angle=Quantity(value=nearest[fold.score.value], kind=Kind.ANGLE, written="found",
                                          place=fold.score.place))
        for fold in spec.folds)
    return replace(spec, folds=folds)


def placed_flat(card: Card, spec: PoseSpec) -> Mapping[str, Isometry] | None:
    """Where each panel lies in a flat pose, and nothing more of it; None where a loop does not close."""
    folds = {fold.score.value: fold.angle.value for fold in spec.folds if fold.angle is not None}
    placing = place_panels(card.panels, card.hinges, card.bonds, folds, still_panel(card.recipe, spec, card.panels))
    return None if placing.misfits else framed(card, placing.placements, spec)


def fold_flat(card: Card, spec: PoseSpec) -> tuple[FlatPose | None, tuple[Finding, ...]]:
    """A flat pose, exactly; None where a loop does not close."""
    still = still_panel(card.recipe, spec, card.panels)
    folds = tuple((fold.score.value, fold.angle.value) for fold in spec.folds if fold.angle is not None)
    faults, whole = flat_faults(card, spec, folds)
    if not whole:
        return None, faults
    placing = place_panels(card.panels, card.hinges, card.bonds, dict(folds), still)
    if placing.misfits:
        shut = _glued_shut(card, spec)
        loops = tuple(_open_loop(spec, misfit, card.recipe.unit) for misfit in placing.misfits)
        return None, (shut,) if shut else loops
    back = spec.seen is Face.BACK
    choices = tuple((a.value, b.value) for a, b in spec.over)
    tucks = tuple((a.value, b.value) for a, b in spec.tucks)
    placements = framed(card, placing.placements, spec)
    laid = overlay(card.panels, placements)
    stacking = stack_up(Folding(
        panels=card.panels, hinges=card.hinges, bonds=card.bonds, folds=folds, still=still,
        placements=placing.placements, choices=_as_seen(choices, back), tucks=_as_seen(tucks, back),
    ), laid, _thickest(card))
    over = frozenset(_as_seen(stacking.over, back))
    findings = (*(faults or told(card, spec, stacking)), *_idle(spec, over))
    return look(card, spec, placements, laid, over), findings


def _as_seen(pairs: Iterable[tuple[str, str]], back: bool) -> tuple[tuple[str, str], ...]:
    """(upper, lower) as the viewer sees them, from pairs with the still panel's front up, and the other way round."""
    return tuple((b, a) for a, b in pairs) if back else tuple(pairs)


def _thickest(card: Card) -> Fraction:
    """The thickness of the thickest paper: what reaches no farther only touches."""
    return max((paper_thickness(card, paper) or Fraction(0) for paper in card.recipe.papers), default=Fraction(0))


def framed(card: Card, placements: Mapping[str, Isometry], spec: PoseSpec) -> Mapping[str, Isometry]:
    """The placements turned as the reader holds the card, the outline's lower left corner at the origin."""
    seen = quarter_turns(TURNS[spec.turned]).after(IDENTITY if spec.seen is Face.FRONT else MIRROR)
    turned = {name: seen.after(move) for name, move in placements.items()}
    box = bounding_box(move.point(p) for name, move in turned.items() for p in card.panels[name].ring)
    shift = translation(Vector(-box.left, -box.bottom))
    return {name: shift.after(move) for name, move in turned.items()}


def _faults(card: Card, spec: PoseSpec) -> tuple[Finding, ...]:
    """What is wrong with a pose before anything is folded."""
    findings: list[Finding] = []
    scores = {score.name: score for piece in card.pieces for score in piece.scores}
    for fold in spec.folds:
        name, place = fold.score.value, fold.score.place
        kind = scores[name].fold
        if kind is Fold.NONE:
            findings.append(error("fold on a score that never folds",
                                  f"The pose {spec.name} folds {name}, but that score is there for looks.", place,
                                  "Give the score `fold: valley` or `fold: mountain`, or leave it out of the pose."))
        elif fold.angle is not None:
            angle = fold.angle.value
            wrong = angle < 0 if kind is Fold.VALLEY else angle > 0
            if wrong:
                findings.append(error(
                    "fold against its score",
                    f"{name} is a {kind} score, so its angle is {'positive' if kind is Fold.VALLEY else 'negative'}, "
                    f"but the pose {spec.name} folds it by {fold.angle.written}.", fold.angle.place,
                    f"Write {'-' if angle > 0 else ''}{abs(angle)}, or make the score a {kind.other}."))
    return tuple(findings)


def _glued_shut(card: Card, spec: PoseSpec) -> Finding | None:
    """A join that holds in another pose of the recipe and keeps this one from being reached."""
    held = held_bonds(card.panels, card.hinges, card.bonds)
    closing = [bond for bond in card.bonds if bond not in held]
    for other in card.recipe.poses if closing else ():
        folds = {fold.score.value: fold.angle.value for fold in other.folds if fold.angle is not None}
        if other is spec or len(folds) < len(other.folds) or not set(folds.values()) <= set(FLAT):
            continue
        still = still_panel(card.recipe, other, card.panels)
        if not place_panels(card.panels, card.hinges, card.bonds, folds, still).misfits:
            bond = closing[-1]
            return error(
                "glued shut",
                f"{bond.name} glues {bond.over.panel} to {bond.under.panel} as they lie in the pose {other.name}; in "
                f"the pose {spec.name} the two have to part, so it glues the card shut.", bond.place,
                f"Glue {bond.over.panel} to something that stays beside it in every pose, or tuck it instead.")
    return None


def _open_loop(spec: PoseSpec, misfit: Misfit, unit: Unit) -> Finding:
    link = misfit.link
    where = f"the score {link.score}" if isinstance(link, Hinge) else f"the join {link.name}"
    one, two = (" to ".join(f"{name}" for name in way) for way in misfit.ways)
    return error(
        "loop does not close",
        f"In the pose {spec.name} the card does not come together at {where}: by way of {one}, and by way of {two}, "
        f"it ends up in two places {distance(misfit.square, unit)} apart.", spec.place,
        "Check the distances of the scores and of the join on both ways.")


def _idle(spec: PoseSpec, over: frozenset[tuple[str, str]]) -> tuple[Finding, ...]:
    """Findings for choices between panels that do not lie on each other."""
    return tuple(
        Finding(
            name="order of panels apart", severity=Severity.WARNING, place=upper.place,
            message=f"In the pose {spec.name}, {upper} and {lower} do not lie over each other, so neither is on top.",
            mend="Leave this pair out, or name the two panels that overlap.")
        for upper, lower in (*spec.over, *spec.tucks)
        if not over & {(upper.value, lower.value), (lower.value, upper.value)}
    )
