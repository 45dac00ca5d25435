"""A piece divided into panels by its scores, slits and windows, and the hinges between them."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import CardPiece, CardScore, Hinge, Panel
from foldproof.folding.cuts import CutSheet, cut_sheet
from foldproof.folding.naming import name_panels
from foldproof.folding.outlines import is_round, outline_of, point_at, standard_points
from foldproof.folding.remembered import remembered
from foldproof.folding.scores import scores_of
from foldproof.folding.words import distance, error, point_in_words
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.paper.face import Fold
from foldproof.paper.polygon import Where, clip, edges, locate, meeting, on_segment
from foldproof.paper.subdivision import Subdivision, subdivide
from foldproof.paper.vector import Point, Segment, Vector
from foldproof.recipe.records import Bought, LayerSpec, PieceSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Divided:
    """A piece with its panels and hinges."""

    piece: CardPiece
    panels: tuple[Panel, ...]
    hinges: tuple[Hinge, ...]


@remembered(64)
def divide(spec: PieceSpec | LayerSpec, unit: Unit) -> tuple[Divided | None, tuple[Finding, ...]]:
    """The piece of a specification; None where its outline is not sound."""
    outline, findings = outline_of(spec, unit)
    if outline is None:
        return None, findings
    points = standard_points(outline)
    extra: list[Finding] = []
    for named in spec.points if isinstance(spec, PieceSpec) else ():
        p = point_at(named.at)
        points[named.name.value] = p
        if locate(p, outline) is Where.OUT:
            extra.append(error(
                "point outside its piece",
                f"The point {named.name} of {spec.name}, {point_in_words(p, unit)}, is not on the paper.",
                named.at.place, "Bring it on to the piece."))
    cut = cut_sheet(spec, outline, points, unit)
    extra.extend(cut.findings)
    if isinstance(spec, LayerSpec):
        if not extra:
            extra.extend(_apart(spec, _Sheet(cut, ()), spec.name.value))
        panel = Panel(name=spec.name.value, piece=spec.name.value, ring=cut.outline,
                      holes=tuple(ring[::-1] for ring in cut.holes))
        return Divided(piece=_piece(spec, cut, points, (), (panel.name,)), panels=(panel,), hinges=()), tuple(extra)
    scores, faults = scores_of(spec, cut.outline, points, unit)
    extra.extend(faults)
    extra.extend(_scored_and_slit(spec, scores, cut))
    folding = [score for score in scores if score.fold is not Fold.NONE]
    sheet = _Sheet(cut, folding)
    whole, owners = sheet.whole, sheet.owners
    extra.extend(_dangling(spec, whole, owners, folding, cut, unit))
    named_faces, misnamed = name_panels(
        spec, [whole.faces[face] for face in sheet.paper], {score.name: score for score in scores})
    names = dict(zip(sheet.paper, named_faces, strict=True))
    if not extra:  # panels cannot be judged while scores are missing, or parts fall off
        extra.extend(_apart(spec, sheet, spec.name.value) or misnamed)
    panels = tuple(
        Panel(name=name, piece=spec.name.value, ring=face.ring, holes=face.holes)
        for name, face in ((name, whole.faces[index]) for index, name in names.items())
    )
    hinges = _hinges(spec.name.value, whole, owners, folding, names)
    piece = _piece(spec, cut, points, scores, named_faces)
    return Divided(piece=piece, panels=panels, hinges=hinges), tuple(extra)


def _piece(
    spec: PieceSpec | LayerSpec, cut: CutSheet, points: Mapping[str, Point], scores: tuple[CardScore, ...],
    panels: tuple[str, ...],
) -> CardPiece:
    return CardPiece(
        name=spec.name.value, layer=isinstance(spec, LayerSpec), paper=spec.paper.value if spec.paper else None,
        outline=cut.outline, round=is_round(spec.shape), bought=isinstance(spec.shape, Bought), points=points,
        scores=scores, panels=panels, spec=spec, slits=tuple(cut.slits), windows=tuple(cut.windows),
    )


class _Sheet:
    """The arrangement of a piece's outline, windows, slits and folding scores."""

    def __init__(self, cut: CutSheet, folding: Sequence[CardScore]) -> None:
        segments = [side for ring in (cut.outline, *cut.holes) for side in edges(ring)]
        segments += [slit.segment for slit in cut.slits]
        self.owners: list[CardScore | None] = [None] * len(segments)
        """For each segment the score that it is part of."""
        for score in folding:
            for part in clip(score.segment, cut.outline, cut.holes):
                if part.start != part.end:
                    segments.append(part)
                    self.owners.append(score)
        self.whole: Subdivision = subdivide(segments)
        self.paper: list[int] = [
            index for index, face in enumerate(self.whole.faces)
            if not any(locate(face.inside, hole) is Where.IN for hole in cut.holes)
        ]
        """The faces that are paper, not windows."""

    def parts(self) -> int:
        """How many parts it falls into when it is cut."""
        part = {face: face for face in self.paper}

        def find(face: int) -> int:
            while part[face] != face:
                face = part[face]
            return face

        for edge in self.whole.edges:
            if edge.left in part and edge.right in part and _score_at(edge.sources, self.owners) is not None:
                assert edge.left is not None and edge.right is not None
                part[find(edge.left)] = find(edge.right)
        return len({find(face) for face in self.paper})


def _apart(spec: PieceSpec | LayerSpec, sheet: _Sheet, name: str) -> list[Finding]:
    """A finding for a piece that its slits and windows cut into several."""
    parts = sheet.parts()
    if parts == 1:
        return []
    places = [*(slit.place for slit in spec.cuts.slits), *(hole.place for hole in spec.cuts.holes), spec.place]
    return [error(
        "piece falls apart", f"The slits and windows cut {name} into {parts} parts that nothing holds together.",
        places[0],
        "Stop a slit short of the edge or of the other cut, or make two pieces.")]


def _scored_and_slit(spec: PieceSpec, scores: Sequence[CardScore], cut: CutSheet) -> list[Finding]:
    """Findings for slits and edges of windows that run along a score: there is nothing left to fold there."""
    findings = []
    for window in cut.windows:
        for score in scores:
            along = [meeting(side, score.segment) for side in edges(window.ring)]
            if any(common is not None and common.start != common.end for common in along):
                findings.append(error(
                    "score along an edge", f"The score {score.name} runs along an edge of the window {window.name} of "
                    f"{spec.name}, where there is nothing to fold.", score.place,
                    "Move one of them."))
    for slit in cut.slits:
        for score in scores:
            common = meeting(slit.segment, score.segment)
            if common is not None and common.start != common.end:
                findings.append(error(
                    "slit along a score", f"The slit {slit.name} of {spec.name} runs along the score {score.name}, "
                    "so no hinge is left there.", slit.place, "Move one of them, or let the score end at the slit.",
                    (Aside(text=f"{score.name} is here", place=score.place),)))
    return findings


def _score_at(sources: tuple[int, ...], owners: Sequence[CardScore | None]) -> CardScore | None:
    return next((owner for owner in (owners[source] for source in sources) if owner is not None), None)


def _dangling(
    spec: PieceSpec, whole: Subdivision, owners: Sequence[CardScore | None], folding: Sequence[CardScore],
    cut: CutSheet, unit: Unit,
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
        others = [
            *(side for ring in (cut.outline, *cut.holes) for side in edges(ring)),
            *(slit.segment for slit in cut.slits), *(other.segment for other in folding if other is not score)]
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
                "Take it on to an edge, a slit, a window or another score, or give it `fold: none` if it is for "
                "looks."))
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
    names: Mapping[int, str],
) -> tuple[Hinge, ...]:
    """One hinge for each stretch of a score that has the same two panels beside it."""
    hinges: list[Hinge] = []
    for score in folding:
        d = score.segment.along
        runs: list[tuple[Fraction, Segment, tuple[int, int]]] = []
        for edge in whole.edges:
            if _score_at(edge.sources, owners) is not score or edge.left == edge.right:
                continue
            if edge.left is None or edge.right is None or not {edge.left, edge.right} <= names.keys():
                continue  # along an edge or a window, which is told elsewhere
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
