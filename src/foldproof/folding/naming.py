"""Which name belongs to which panel of a piece."""

from collections.abc import Mapping, Sequence

from foldproof.findings.finding import Finding
from foldproof.folding.card import CardScore
from foldproof.folding.outlines import point_at
from foldproof.folding.scores import side_of
from foldproof.folding.words import error, list_of
from foldproof.paper.polygon import Where, area, edges, locate, meeting
from foldproof.paper.tracing import Area
from foldproof.recipe.records import PanelSpec, PieceSpec, PointAt, Side


def name_panels(
    spec: PieceSpec, faces: Sequence[Area], scores: Mapping[str, CardScore],
) -> tuple[tuple[str, ...], tuple[Finding, ...]]:
    """A name for each face, in order; a face that nobody named gets one of ours and a finding."""
    findings: list[Finding] = []
    names: dict[int, str] = {}
    if not spec.panels and len(faces) == 1:
        return (spec.name.value,), ()
    judged = [panel for panel in spec.panels if _scored(panel, scores)]
    for panel in judged:
        fits, fault = _fits(spec, panel, faces, scores)
        if fault is not None:
            findings.append(fault)
            continue
        face = fits[0]
        if face in names:
            findings.append(error(
                "two names for one panel",
                f"`{names[face]}` and `{panel.name}` name the same panel of {spec.name}.", panel.name.place,
                "Keep one of the names, or put a folding score between the two."))
        else:
            names[face] = panel.name.value
    unnamed = [face for face in range(len(faces)) if face not in names]
    if unnamed and not findings and len(judged) == len(spec.panels):
        where = list_of(f"the one round ({_plain(faces[face])})" for face in unnamed)
        findings.append(error(
            "panel without a name",
            f"The scores divide {spec.name} into {len(faces)} panels; {len(unnamed)} of them have no name: {where}.",
            spec.place, "Name each under `panels`, by the side of a score (`left of SCORE`) or by a point in it."))
    for count, face in enumerate(unnamed, 1):
        names[face] = f"{spec.name} panel {count}"
    return tuple(names[face] for face in range(len(faces))), tuple(findings)


def _scored(panel: PanelSpec, scores: Mapping[str, CardScore]) -> bool:
    """Whether every score that a name leans on could be drawn; one that could not has its own finding."""
    return isinstance(panel.where, PointAt) or all(side.score.value in scores for side in panel.where)


def _plain(face: Area) -> str:
    return f"{float(face.inside.x):.4g}, {float(face.inside.y):.4g}"


def _fits(
    spec: PieceSpec, panel: PanelSpec, faces: Sequence[Area], scores: Mapping[str, CardScore],
) -> tuple[list[int], Finding | None]:
    """The one face that a name fits, or a finding."""
    place = panel.name.place
    if isinstance(panel.where, PointAt):
        p = point_at(panel.where)
        fits = [i for i, face in enumerate(faces) if locate(p, face.ring, face.holes) is Where.IN]
        if not fits:  # a point in a window names the panel round it
            round_it = [i for i, face in enumerate(faces) if locate(p, face.ring) is Where.IN]
            fits = sorted(round_it, key=lambda i: area(faces[i].ring))[:1]
        if fits:
            return fits, None
        edge = any(locate(p, face.ring, face.holes) is Where.ON for face in faces)
        return [], error(
            "name fits no panel",
            f"The point given for the panel {panel.name} lies "
            f"{'on a score or an edge' if edge else 'outside the paper'} of {spec.name}.", panel.where.place,
            "Give a point well inside the panel.")
    for side in panel.where:
        score = scores[side.score.value]
        if side_of(score.segment.start, side.relation, score.segment) is None:
            level = side.relation in ("left of", "right of")
            return [], error(
                "side that a score has not",
                f"The score {score.name} is {'level' if level else 'upright'}, so nothing is {side.relation} it.",
                side.score.place, f"Say {'above or below' if level else 'left of or right of'}.")
    fits = [i for i, face in enumerate(faces) if all(_beside(face, side, scores) for side in panel.where)]
    if len(fits) > 1:
        near = [i for i in fits if all(_borders(faces[i], scores[side.score.value]) for side in panel.where)]
        fits = near if len(near) == 1 else fits
    if len(fits) == 1:
        return fits, None
    sides = list_of(f"{side.relation} {side.score}" for side in panel.where)
    if not fits:
        return [], error("name fits no panel", f"No panel of {spec.name} lies {sides}, as {panel.name} should.", place,
                         "Check the sides, or name the panel by a point in it.")
    return [], error(
        "name fits several panels", f"{len(fits)} panels of {spec.name} lie {sides}, so {panel.name} could be any.",
        place, "Add the side of another score, or name the panel by a point in it.")


def _beside(face: Area, side: Side, scores: Mapping[str, CardScore]) -> bool:
    """Whether a face lies wholly on the named side."""
    segment = scores[side.score.value].segment
    return all((side_of(p, side.relation, segment) or 0) >= 0 for p in face.ring)


def _borders(face: Area, score: CardScore) -> bool:
    """Whether a stretch of the score runs along the face."""
    for side in edges(face.ring):
        shared = meeting(side, score.segment)
        if shared is not None and shared.start != shared.end:
            return True
    return False
