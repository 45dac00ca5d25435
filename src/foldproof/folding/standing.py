"""Poses that stand off the table, in floats; angles that are left open are found."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from math import degrees, radians

from foldproof.findings.finding import Finding, Severity
from foldproof.folding.bonds import MIRROR, TURNS
from foldproof.folding.branches import Angles, Branch, Puzzle, branches
from foldproof.folding.card import Bond, Card, Hinge, StandingPose
from foldproof.folding.fixing import still_panel
from foldproof.folding.place import place_panels
from foldproof.folding.resting import Rest, alongside, edge_of, foot_misses, rest_of
from foldproof.folding.solving import Numbers, Solution
from foldproof.folding.space import Linkage, Motion, flat_motion, length, lifted
from foldproof.folding.words import error, list_of
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.paper.face import Face
from foldproof.paper.isometry import IDENTITY, quarter_turns
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.records import PoseSpec

TOLERANCE_MM = 0.05
"""How far loops and foot may stay open, in millimetres: half of what a ruler shows."""
FLAT = (Fraction(0), Fraction(180), Fraction(-180))


def stand(card: Card, spec: PoseSpec) -> tuple[StandingPose | None, tuple[Finding, ...]]:
    """A standing pose; None where it does not come together."""
    unit = card.recipe.unit
    still = still_panel(card.recipe, spec, card.panels)
    rest, faults = rest_of(card, spec)
    if faults:
        return None, faults
    linkage = Linkage(card.panels, card.hinges, card.bonds, still)
    given = {fold.score.value: radians(float(fold.angle.value)) for fold in spec.folds if fold.angle is not None}
    open_ = tuple(fold.score.value for fold in spec.folds if fold.angle is None)
    if open_ and rest is None and not linkage.loops:
        return None, (error(
            "angle that nothing fixes",
            f"The pose {spec.name} leaves the angle of {list_of(open_)} to be found, but the card rests on nothing and "
            "closes no loop.", spec.place, "Give the angle, or say what the card `rests` against."),)
    puzzle = Puzzle(
        open_=open_, folds={score.name: score.fold for piece in card.pieces for score in piece.scores}, given=given,
        flats=_flats(card) if open_ else (), misses=_misses(linkage, rest),
        tolerance=TOLERANCE_MM / float(unit.millimetres))
    ways, best = branches(puzzle)
    if not ways:
        return None, (_apart(card, spec, linkage, puzzle, best, rest),)
    chosen = ways[0]
    findings = _open_questions(spec, puzzle, ways)
    placed = linkage.frames(puzzle.all_angles(chosen.at))
    if rest is not None and not alongside(rest, placed, puzzle.tolerance):
        findings.append(error(
            "foot beside its edge", f"In the pose {spec.name} the foot comes down beside the edge that it should rest "
            "against, not on it.", spec.place, "Check where the two lie from left to right."))
    told = {fold.score.value: float(fold.angle.value) for fold in spec.folds if fold.angle is not None}
    told |= {name: degrees(value) for name, value in zip(open_, chosen.at, strict=True)}
    return posed(card, spec, still, placed, told, chosen.misfit), tuple(findings)


def posed(
    card: Card, spec: PoseSpec, still: str, placed: Mapping[str, Motion], angles: Mapping[str, float], misfit: float,
) -> StandingPose:
    """The still panel in z = 0, its seen face up, turned as the reader has it, its bounding corner at the origin."""
    base = as_held(card, spec, still)
    moved = {name: base.after(motion) for name, motion in placed.items()}
    tops = [motion.point(lifted(p))[2] for name, motion in moved.items() for p in card.panels[name].ring]
    scores = {score.name: 0.0 for piece in card.pieces for score in piece.scores}
    return StandingPose(
        name=spec.name.value, spec=spec, frames={name: motion.frame for name, motion in moved.items()},
        angles=scores | dict(angles), height=max(tops), misfit=misfit,
    )


def as_held(card: Card, spec: PoseSpec, still: str) -> Motion:
    """From the frame of the still panel's piece to the frame of a standing pose."""
    turn = quarter_turns(TURNS[spec.turned]).after(IDENTITY if spec.seen is Face.FRONT else MIRROR)
    box = bounding_box(turn.point(p) for p in card.panels[still].ring)
    base = flat_motion(turn)
    return Motion(base.right, base.up, base.out, (-float(box.left), -float(box.bottom), 0.0))


def _misses(linkage: Linkage, rest: Rest | None) -> Callable[[Angles], Numbers]:
    """How far loops and foot stay open, as many lengths."""
    bare = linkage.reaching(() if rest is None else (rest.foot, rest.against))

    def misses(angles: Angles) -> Numbers:
        placed = bare.frames(angles)
        found = bare.misfits(angles, placed)
        if rest is not None:
            found += foot_misses(rest, placed)
        return tuple(v for miss in found for v in miss)

    return misses


def _flats(card: Card) -> tuple[Angles, ...]:
    """The flat states that close: the recipe's flat poses and the card as it was cut, angles in radians."""
    wanted: list[dict[str, Fraction]] = []
    for spec in card.recipe.poses:
        folds = {fold.score.value: fold.angle.value for fold in spec.folds if fold.angle is not None}
        if len(folds) == len(spec.folds) and all(angle in FLAT for angle in folds.values()) and folds not in wanted:
            wanted.append(folds)
    if {} not in wanted:
        wanted.append({})
    if any(bond.stand is not None for bond in card.bonds):
        return ()
    still = next(iter(card.panels))
    return tuple(
        {name: radians(float(angle)) for name, angle in folds.items()} for folds in wanted
        if not place_panels(card.panels, card.hinges, card.bonds, folds, still).misfits
    )


def _open_questions(spec: PoseSpec, puzzle: Puzzle, ways: tuple[Branch, ...]) -> list[Finding]:
    """Findings for angles that nothing settles, or that can be settled in several ways."""
    free = ways[0].felt
    if puzzle.open_ and free.free:
        moving = list_of(puzzle.open_[i] for i in free.moving())
        more = "one more angle" if len(free.free) == 1 else f"{len(free.free)} more angles"
        return [error(
            "angle that nothing fixes", f"In the pose {spec.name} the card can still move: nothing settles the angles "
            f"of {moving}; {more} must be given.", spec.place, f"Give an angle for {more} of these.")]
    if len(ways) > 1:
        told = "; ".join(
            list_of(f"{name} {degrees(v):.0f}°" for name, v in zip(puzzle.open_, way.at, strict=True)) for way in ways)
        return [Finding(
            name="stands in several ways", severity=Severity.WARNING, place=spec.place,
            message=f"The pose {spec.name} can come together in {len(ways)} ways that were found: {told}. The first is "
            "drawn.", mend="Give one of the angles to say which is meant.")]
    return []


def _apart(
    card: Card, spec: PoseSpec, linkage: Linkage, puzzle: Puzzle, best: Solution, rest: Rest | None,
) -> Finding:
    """A finding for a pose that does not close: by how much, where, and which folds have a part in it."""
    unit = card.recipe.unit
    grain = {Unit.INCH: 64, Unit.MM: 10, Unit.CM: 100}[unit]
    misses = [length(best.residuals[i:i + 3]) for i in range(0, len(best.residuals), 3)]  # type: ignore[arg-type]
    much = with_unit(Fraction(max(1, round(max(misses) * grain)), grain), unit)
    worst = misses.index(max(misses)) // 3
    if worst >= len(linkage.loops):
        assert rest is not None and spec.rests is not None
        return error(
            "foot does not reach",
            f"In the pose {spec.name} the {spec.rests.foot.side} edge of {rest.foot} stays about "
            f"{much} from the edge of {rest.against} that it should rest against.", spec.place,
            "Move the edge that it rests against, or the scores.")
    link = linkage.loops[worst].link
    where = f"the score {link.score}" if isinstance(link, Hinge) else f"{_kind(link)} {link.name}"
    scores = linkage.scores_round(worst)
    held = f", whatever was tried for the angles of {list_of(puzzle.open_)}" if puzzle.open_ else ""
    return error(
        "loop does not close",
        f"In the pose {spec.name} the card stays about {much} open at {where}{held}. The loop runs over "
        f"{list_of(scores) if scores else 'no fold'}.", spec.place,
        "Check the angles that are given, and the distances of these scores and of the joins between them.")


def _kind(bond: Bond) -> str:
    return "the join" if hasattr(bond.spec, "put") else "the layer"


__all__ = ["FLAT", "TOLERANCE_MM", "as_held", "edge_of", "posed", "stand"]
