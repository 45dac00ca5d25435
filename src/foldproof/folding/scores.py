"""From the scores that the author wrote to segments on the piece."""

from fractions import Fraction

from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import CardScore
from foldproof.folding.outlines import resolve
from foldproof.folding.words import distance, error, point_in_words
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.paper.polygon import bounding_box, clip, edges, meeting
from foldproof.paper.vector import Point, Ring, Segment
from foldproof.recipe.records import Across, Between, PieceSpec, ScoreSpec, Up


def scores_of(
    spec: PieceSpec, outline: Ring, points: dict[str, Point], unit: Unit,
) -> tuple[tuple[CardScore, ...], tuple[Finding, ...]]:
    """The sound scores of a piece, and findings for the others."""
    scores: list[CardScore] = []
    findings: list[Finding] = []
    for score in spec.scores:
        found = _segment(spec, score, outline, points, unit)
        if isinstance(found, Finding):
            findings.append(found)
            continue
        fault = _outside(spec, score, found, outline, unit) or _on_edge(spec, score, found, outline)
        if fault is not None:
            findings.append(fault)
            continue
        made = CardScore(name=score.name.value, segment=found, fold=score.fold, place=score.place)
        findings.extend(_twice(made, scores, unit))
        scores.append(made)
    return tuple(scores), tuple(findings)


def _segment(
    spec: PieceSpec, score: ScoreSpec, outline: Ring, points: dict[str, Point], unit: Unit,
) -> Segment | Finding:
    """Where the score runs."""
    box = bounding_box(outline)
    name = f"The score {score.name}"
    match score.line:
        case Across(at=at):
            if not box.left <= at.value <= box.right:
                return error(
                    "score outside its piece",
                    f"{name} is {with_unit(at.value, unit)} across, but {spec.name} reaches from 0 to "
                    f"{with_unit(box.right, unit)}.", at.place, "Bring it on to the piece.")
            whole = Segment(Point(at.value, box.bottom), Point(at.value, box.top))
        case Up(at=at):
            if not box.bottom <= at.value <= box.top:
                return error(
                    "score outside its piece",
                    f"{name} is {with_unit(at.value, unit)} up, but {spec.name} reaches from 0 to "
                    f"{with_unit(box.top, unit)}.", at.place, "Bring it on to the piece.")
            whole = Segment(Point(box.left, at.value), Point(box.right, at.value))
        case Between(start=start, end=end):
            a, b = resolve(start, points), resolve(end, points)
            if a == b:
                return error("score without length", f"{name} starts and ends at {point_in_words(a, unit)}.",
                             score.place, "Give it two different ends.")
            return _settled(Segment(a, b))
    parts = clip(whole, outline)
    return Segment(parts[0].start, parts[-1].end) if parts else whole


def _settled(s: Segment) -> Segment:
    """An upright score runs bottom to top, a level one left to right, others as written."""
    turned = (s.start.x == s.end.x and s.start.y > s.end.y) or (s.start.y == s.end.y and s.start.x > s.end.x)
    return Segment(s.end, s.start) if turned else s


def _outside(spec: PieceSpec, score: ScoreSpec, s: Segment, outline: Ring, unit: Unit) -> Finding | None:
    """A finding for a score between points that leaves the paper; a straight one may jump a bay of the outline."""
    if not isinstance(score.line, Between):
        return None
    parts = clip(s, outline)
    if len(parts) == 1 and parts[0] == s:
        return None
    if not parts:
        return error("score outside its piece", f"The score {score.name} lies outside {spec.name}.", score.place,
                     "Bring it on to the piece.")
    run = [(part.start, part.end) for part in parts]
    ends = [s.start, *(p for pair in run for p in pair), s.end]
    longest = max((a - b).square for a, b in zip(ends[::2], ends[1::2], strict=True))
    return error(
        "score outside its piece",
        f"The score {score.name} runs {distance(longest, unit)} past the edge of {spec.name}.", score.place,
        f"End it on the edge, at {point_in_words(parts[-1].end if parts[-1].end != s.end else parts[0].start, unit)}.")


def _on_edge(spec: PieceSpec, score: ScoreSpec, s: Segment, outline: Ring) -> Finding | None:
    for side in edges(outline):
        shared = meeting(s, side)
        if shared is not None and shared.start != shared.end:
            return error("score along an edge",
                         f"The score {score.name} runs along an edge of {spec.name}, where there is nothing to fold.",
                         score.place, "Move it in from the edge, or leave it out.")
    return None


def _twice(made: CardScore, before: list[CardScore], unit: Unit) -> list[Finding]:
    findings = []
    for other in before:
        shared = meeting(made.segment, other.segment)
        if shared is not None and shared.start != shared.end:
            findings.append(error(
                "two scores on one line",
                f"The scores {other.name} and {made.name} lie on the same line for "
                f"{distance(shared.along.square, unit)}.", made.place, "Keep one of them there.",
                (Aside(text=f"{other.name} is here", place=other.place),)))
    return findings


def side_of(p: Point, relation: str, s: Segment) -> Fraction | None:
    """How far a point lies on the named side of the endless line of a score, up to scale; None where it has none."""
    d = s.along
    if relation in ("left of", "right of"):
        if d.y == 0:
            return None
        side = d.cross(p - s.start) * (1 if d.y > 0 else -1)
        return side if relation == "left of" else -side
    if d.x == 0:
        return None
    side = d.cross(p - s.start) * (1 if d.x > 0 else -1)
    return side if relation == "above" else -side
