"""A piece divided into panels by its scores, and the hinges between them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from foldproof.findings.finding import Finding
from foldproof.folding.card import CardPiece, CardScore, Hinge, Panel
from foldproof.folding.naming import name_panels
from foldproof.folding.outlines import is_round, outline_of, point_at, standard_points
from foldproof.folding.scores import scores_of
from foldproof.folding.words import distance, error, point_in_words
from foldproof.measures.quantity import Unit
from foldproof.paper.face import Fold
from foldproof.paper.polygon import Where, clip, edges, locate, on_segment
from foldproof.paper.subdivision import Subdivision, subdivide
from foldproof.paper.vector import Point, Ring, Segment, Vector
from foldproof.recipe.records import Bought, LayerSpec, PieceSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Divided:
    """A piece with its panels and hinges."""

    piece: CardPiece
    panels: tuple[Panel, ...]
    hinges: tuple[Hinge, ...]


def divide(spec: PieceSpec | LayerSpec, unit: Unit) -> tuple[Divided | None, tuple[Finding, ...]]:
    """The piece of a specification; None where its outline is not sound."""
    outline, findings = outline_of(spec, unit)
    if outline is None:
        return None, findings
    points = standard_points(outline)
    if isinstance(spec, LayerSpec):
        panel = Panel(name=spec.name.value, piece=spec.name.value, ring=outline)
        return Divided(piece=_piece(spec, outline, points, (), (panel.name,)), panels=(panel,), hinges=()), ()
    extra: list[Finding] = []
    for named in spec.points:
        p = point_at(named.at)
        points[named.name.value] = p
        if locate(p, outline) is Where.OUT:
            extra.append(error(
                "point outside its piece",
                f"The point {named.name} of {spec.name}, {point_in_words(p, unit)}, is not on the paper.",
                named.at.place, "Bring it on to the piece."))
    scores, faults = scores_of(spec, outline, points, unit)
    extra.extend(faults)
    folding = [score for score in scores if score.fold is not Fold.NONE]
    whole, owners = _subdivide(outline, folding)
    extra.extend(_dangling(spec, whole, owners, folding, outline, unit))
    names, misnamed = name_panels(spec, whole.faces, {score.name: score for score in scores})
    if not extra:  # panels cannot be judged while scores are missing
        extra.extend(misnamed)
    panels = tuple(
        Panel(name=name, piece=spec.name.value, ring=face.ring, holes=face.holes)
        for name, face in zip(names, whole.faces, strict=True)
    )
    hinges = _hinges(spec.name.value, whole, owners, folding, names)
    piece = _piece(spec, outline, points, scores, names)
    return Divided(piece=piece, panels=panels, hinges=hinges), tuple(extra)


def _piece(
    spec: PieceSpec | LayerSpec, outline: Ring, points: Mapping[str, Point], scores: tuple[CardScore, ...],
    panels: tuple[str, ...],
) -> CardPiece:
    return CardPiece(
        name=spec.name.value, layer=isinstance(spec, LayerSpec), paper=spec.paper.value if spec.paper else None,
        outline=outline, round=is_round(spec.shape), bought=isinstance(spec.shape, Bought), points=points,
        scores=scores, panels=panels, spec=spec,
    )


def _subdivide(outline: Ring, folding: Sequence[CardScore]) -> tuple[Subdivision, list[CardScore | None]]:
    """The arrangement of outline and folding scores, and for each segment in it the score that it is part of."""
    segments = list(edges(outline))
    owners: list[CardScore | None] = [None] * len(segments)
    for score in folding:
        for part in clip(score.segment, outline):
            segments.append(part)
            owners.append(score)
    return subdivide(segments), owners


def _score_at(sources: tuple[int, ...], owners: Sequence[CardScore | None]) -> CardScore | None:
    return next((owner for owner in (owners[source] for source in sources) if owner is not None), None)


def _dangling(
    spec: PieceSpec, whole: Subdivision, owners: Sequence[CardScore | None], folding: Sequence[CardScore],
    outline: Ring, unit: Unit,
) -> list[Finding]:
    """Findings for folding scores that stop with paper on all sides of their end."""
    stopped = {
        score.name for edge in whole.edges if edge.left == edge.right
        if (score := _score_at(edge.sources, owners)) is not None
    }
    findings = []
    for score in folding:
        if score.name not in stopped:
            continue
        others = [*edges(outline), *(other.segment for other in folding if other is not score)]
        s = score.segment
        for end, start in ((s.end, s.start), (s.start, s.end)):
            if any(on_segment(end, other) for other in others):
                continue
            short = _way_to_go(end, end - start, others)
            much = "" if short is None else f", {distance(short, unit)} short of the next edge or score"
            findings.append(error(
                "score ends inside a panel",
                f"The score {score.name} of {spec.name} stops at {point_in_words(end, unit)}{much}. "
                "Paper cannot fold there.", score.place,
                "Take it on to an edge or to another score, or give it `fold: none` if it is for looks."))
        if not any(finding.place == score.place for finding in findings):
            findings.append(error(
                "score ends inside a panel",
                f"The score {score.name} of {spec.name} has the same panel on both sides of a part of it. "
                "Paper cannot fold there.", score.place, "Take it on to an edge or to another score."))
    return findings


def _way_to_go(end: Point, way: Vector, others: Sequence[Segment]) -> Fraction | None:
    """The square of the distance from the end of a score, straight on, to what it would meet."""
    shares = []
    for other in others:
        cross = way.cross(other.along)
        if cross == 0:
            continue
        off = other.start - end
        ahead, beside = off.cross(other.along) / cross, off.cross(way) / cross
        if ahead > 0 and 0 <= beside <= 1:
            shares.append(ahead)
    return min(shares) ** 2 * way.square if shares else None


def _hinges(
    piece: str, whole: Subdivision, owners: Sequence[CardScore | None], folding: Sequence[CardScore],
    names: Sequence[str],
) -> tuple[Hinge, ...]:
    """One hinge for each stretch of a score that has the same two panels beside it."""
    hinges: list[Hinge] = []
    for score in folding:
        d = score.segment.along
        runs: list[tuple[Fraction, Segment, tuple[int, int]]] = []
        for edge in whole.edges:
            if _score_at(edge.sources, owners) is not score or edge.left == edge.right:
                continue
            assert edge.left is not None and edge.right is not None
            same = edge.segment.along.dot(d) > 0
            s = edge.segment if same else Segment(edge.segment.end, edge.segment.start)
            sides = (edge.left, edge.right) if same else (edge.right, edge.left)
            runs.append(((s.start - score.segment.start).dot(d), s, sides))
        joined: list[tuple[Segment, tuple[int, int]]] = []
        for _, s, sides in sorted(runs, key=lambda run: run[0]):
            if joined and joined[-1][1] == sides and joined[-1][0].end == s.start:
                joined[-1] = (Segment(joined[-1][0].start, s.end), sides)
            else:
                joined.append((s, sides))
        hinges += [
            Hinge(score=score.name, piece=piece, segment=s, panels=(names[a], names[b]), fold=score.fold)
            for s, (a, b) in joined
        ]
    return tuple(hinges)
