"""Poses that stand off the table, in floats; angles that are left open are found."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import degrees, pi, radians

from foldproof.findings.finding import Finding, Severity
from foldproof.folding.bonds import MIRROR, TURNS
from foldproof.folding.card import Card, StandingPose
from foldproof.folding.fixing import still_panel
from foldproof.folding.solving import Numbers, Solution, least_squares
from foldproof.folding.space import Linkage, Motion, Vec, dot, flat_motion, length, lifted, minus, times
from foldproof.folding.words import error, list_of
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.paper.face import Face, Fold
from foldproof.paper.isometry import IDENTITY, quarter_turns
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Segment
from foldproof.recipe.records import EdgeOf, PoseSpec

TOLERANCE_MM = 0.05
"""How far loops and foot may stay open, in millimetres: half of what a ruler shows."""
_MOST_STARTS = 81


@dataclass(frozen=True, slots=True)
class _Rest:
    foot: str
    against: str
    edges: tuple[Segment, Segment]
    """In the frames of their pieces."""


def stand(card: Card, spec: PoseSpec) -> tuple[StandingPose | None, tuple[Finding, ...]]:
    """A standing pose; None where it does not come together."""
    unit = card.recipe.unit
    still = still_panel(card.recipe, spec, card.panels)
    rest, faults = _rest(card, spec)
    if faults:
        return None, faults
    linkage = Linkage(card.panels, card.hinges, card.bonds, still)
    given = {fold.score.value: radians(float(fold.angle.value)) for fold in spec.folds if fold.angle is not None}
    open_ = [fold.score.value for fold in spec.folds if fold.angle is None]
    if open_ and rest is None and not linkage.loops:
        return None, (error(
            "angle that nothing fixes",
            f"The pose {spec.name} leaves the angle of {list_of(open_)} to be found, but the card rests on nothing and "
            "closes no loop.", spec.place, "Give the angle, or say what the card `rests` against."),)

    def residuals(values: Numbers) -> Numbers:
        angles = given | dict(zip(open_, values, strict=True))
        placed = linkage.frames(angles)
        misses = linkage.misfits(angles, placed)
        if rest is not None:
            misses += _foot_misses(rest, placed)
        return tuple(v for miss in misses for v in miss)

    low, high = _range(card, open_)
    solutions = [least_squares(residuals, start, low, high) for start in _starts(low, high)]
    tolerance = TOLERANCE_MM / float(unit.millimetres)
    good = _distinct([s for s in solutions if s.worst <= tolerance])
    if not good:
        best = min(solutions, key=lambda s: s.worst)
        return None, (_open(spec, best, rest, unit),)
    chosen = good[0]
    findings: list[Finding] = []
    if not chosen.fixed and open_:
        findings.append(error(
            "angle that nothing fixes", f"In the pose {spec.name} the card can still move: the angles of "
            f"{list_of(open_)} are not settled by what it rests on.", spec.place, "Give one of the angles."))
    elif len(good) > 1:
        ways = "; ".join(
            list_of(f"{name} {degrees(v):.0f}°" for name, v in zip(open_, s.at, strict=True)) for s in good)
        findings.append(Finding(
            name="stands in several ways", severity=Severity.WARNING, place=spec.place,
            message=f"The pose {spec.name} can come together in {len(good)} ways: {ways}. The first is drawn.",
            mend="Give one of the angles to say which is meant."))
    angles = given | dict(zip(open_, chosen.at, strict=True))
    placed = linkage.frames(angles)
    if rest is not None and not _alongside(rest, placed, tolerance):
        findings.append(error(
            "foot beside its edge", f"In the pose {spec.name} the foot comes down beside the edge that it should rest "
            "against, not on it.", spec.place, "Check where the two lie from left to right."))
    told = {fold.score.value: float(fold.angle.value) for fold in spec.folds if fold.angle is not None}
    told |= {name: degrees(value) for name, value in zip(open_, chosen.at, strict=True)}
    return _posed(card, spec, still, placed, told, chosen.worst), tuple(findings)


def _posed(
    card: Card, spec: PoseSpec, still: str, placed: Mapping[str, Motion], angles: Mapping[str, float], misfit: float,
) -> StandingPose:
    """The still panel in z = 0, its seen face up, turned as the reader has it, its bounding corner at the origin."""
    turn = quarter_turns(TURNS[spec.turned]).after(IDENTITY if spec.seen is Face.FRONT else MIRROR)
    box = bounding_box(turn.point(p) for p in card.panels[still].ring)
    base = flat_motion(turn)
    base = Motion(base.right, base.up, base.out, (-float(box.left), -float(box.bottom), 0.0))
    moved = {name: base.after(motion) for name, motion in placed.items()}
    tops = [motion.point(lifted(p))[2] for name, motion in moved.items() for p in card.panels[name].ring]
    scores = {score.name: 0.0 for piece in card.pieces for score in piece.scores}
    return StandingPose(
        name=spec.name.value, spec=spec, frames={name: motion.frame for name, motion in moved.items()},
        angles=scores | dict(angles), height=max(tops), misfit=misfit,
    )


def _range(card: Card, open_: list[str]) -> tuple[Numbers, Numbers]:
    """The side on which valley and mountain leave the flat."""
    folds = {score.name: score.fold for piece in card.pieces for score in piece.scores}
    low = tuple(0.0 if folds[name] is Fold.VALLEY else -pi for name in open_)
    return low, tuple(a + pi for a in low)


def _starts(low: Numbers, high: Numbers) -> Iterator[Numbers]:
    """Starts spread over the range, the middle first."""
    shares = (1 / 2, 1 / 6, 5 / 6) if 3 ** len(low) <= _MOST_STARTS else (1 / 2,)
    for mix in product(shares, repeat=len(low)):
        yield tuple(a + (b - a) * share for a, b, share in zip(low, high, mix, strict=True))


def _distinct(solutions: list[Solution]) -> list[Solution]:
    kept: list[Solution] = []
    for s in solutions:
        if all(max((abs(a - b) for a, b in zip(s.at, k.at, strict=True)), default=0.0) > 1e-2 for k in kept):
            kept.append(s)
    return kept


def _rest(card: Card, spec: PoseSpec) -> tuple[_Rest | None, tuple[Finding, ...]]:
    """What the card leans on, as edges."""
    if spec.rests is None:
        return None, ()
    findings: list[Finding] = []
    found: list[Segment] = []
    for edge in (spec.rests.foot, spec.rests.against):
        side = edge_of(card, edge)
        if side is None:
            findings.append(error("no edge there", f"{edge.panel} has no straight edge at its {edge.side}.",
                                  edge.panel.place, "Name a side along which the paper runs straight."))
        else:
            found.append(side)
    if findings:
        return None, tuple(findings)
    return _Rest(spec.rests.foot.panel.value, spec.rests.against.panel.value, (found[0], found[1])), ()


def edge_of(card: Card, edge: EdgeOf) -> Segment | None:
    """The straight edge of a panel along a side of its bounding rectangle, in its piece's frame; None without one."""
    ring = card.panels[edge.panel.value].ring
    box = bounding_box(ring)
    on = {
        "left": lambda p: p.x == box.left, "right": lambda p: p.x == box.right,
        "bottom": lambda p: p.y == box.bottom, "top": lambda p: p.y == box.top,
    }.get(edge.side)
    spots = sorted(p for p in ring if on is not None and on(p))
    return Segment(spots[0], spots[-1]) if len(spots) >= 2 else None


def _foot_misses(rest: _Rest, placed: Mapping[str, Motion]) -> list[Vec]:
    """How far both ends of the foot are from the endless line of the edge that it rests against."""
    foot, edge = rest.edges
    start = placed[rest.against].point(lifted(edge.start))
    along = minus(placed[rest.against].point(lifted(edge.end)), start)
    along = times(along, 1 / length(along))
    misses = []
    for p in (foot.start, foot.end):
        to = minus(placed[rest.foot].point(lifted(p)), start)
        misses.append(minus(to, times(along, dot(to, along))))
    return misses


def _alongside(rest: _Rest, placed: Mapping[str, Motion], tolerance: float) -> bool:
    """Whether foot and edge share a stretch."""
    foot, edge = rest.edges
    start = placed[rest.against].point(lifted(edge.start))
    way = minus(placed[rest.against].point(lifted(edge.end)), start)
    size = length(way)
    ends = sorted(
        dot(minus(placed[rest.foot].point(lifted(p)), start), times(way, 1 / size)) for p in (foot.start, foot.end)
    )
    return min(ends[1], size) - max(ends[0], 0.0) > tolerance


def _open(spec: PoseSpec, best: Solution, rest: _Rest | None, unit: Unit) -> Finding:
    """A finding for a pose that does not close."""
    grain = {Unit.INCH: 64, Unit.MM: 10, Unit.CM: 100}[unit]
    miss = max(length(best.residuals[i:i + 3]) for i in range(0, len(best.residuals), 3))  # type: ignore[arg-type]
    much = with_unit(Fraction(max(1, round(miss * grain)), grain), unit)
    if rest is not None:
        return error(
            "foot does not reach",
            f"In the pose {spec.name} the {spec.rests.foot.side if spec.rests else ''} edge of {rest.foot} stays about "
            f"{much} from the edge of {rest.against} that it should rest against.", spec.place,
            "Move the edge that it rests against, or the scores.")
    return error("loop does not close", f"In the pose {spec.name} the card stays about {much} open.", spec.place,
                 "Check the angles and the distances of the scores.")
