"""What is cut into a piece: its outline after notches, round corners and scallops; its windows and slits."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from foldproof.findings.finding import Finding
from foldproof.folding.card import CardSlit, CardWindow
from foldproof.folding.outlines import point_at, resolve
from foldproof.folding.words import error, point_in_words
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.paper.cutaway import corner_waste, remaining, scallop_waste
from foldproof.paper.isometry import translation
from foldproof.paper.polygon import (
    Where,
    anticlockwise,
    bounding_box,
    crossing,
    edges,
    locate,
    meeting,
    overlap,
    stretches,
)
from foldproof.paper.shapes import disc, rectangle
from foldproof.paper.vector import ORIGIN, Point, Ring, Segment
from foldproof.recipe.cut_records import Cuts, HoleSpec, RoundedSpec, ScallopSpec
from foldproof.recipe.records import LayerSpec, PieceSpec
from foldproof.recipe.shape_records import Circle, Outline, Rectangle


@dataclass(slots=True)
class CutSheet:
    """A piece's paper with all that is cut into it."""

    outline: Ring
    windows: list[CardWindow] = field(default_factory=list)
    slits: list[CardSlit] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    @property
    def holes(self) -> tuple[Ring, ...]:
        """The rings of the windows."""
        return tuple(window.ring for window in self.windows)


def cut_sheet(spec: PieceSpec | LayerSpec, outline: Ring, points: dict[str, Point], unit: Unit) -> CutSheet:
    """The paper of a piece, sound as far as no finding tells otherwise."""
    cuts: Cuts = spec.cuts
    sheet = CutSheet(outline)
    gone: list[Ring] = []
    for hole in cuts.holes:
        ring = hole_ring(hole)
        if crossing(ring) is not None:
            sheet.findings.append(error(
                "outline crosses itself", f"The outline of {hole.name} in {spec.name} touches or crosses itself.",
                hole.place, "List the corners in the order in which a blade would go round them."))
        elif hole.opens:
            _notch(spec, hole, ring, outline, gone, sheet.findings)
    if cuts.rounded is not None:
        gone += _rounded(spec, cuts.rounded, outline, unit, sheet.findings)
    for scallops in cuts.scallops:
        gone += _scallops(spec, scallops, outline, unit, sheet.findings)
    if gone:
        left = remaining(outline, (), gone)
        if len(left) != 1 or left[0].holes:
            sheet.findings.append(error(
                "piece falls apart", f"The notches of {spec.name} leave {len(left)} separate parts of it.", spec.place,
                "Make them smaller, or make two pieces."))
        else:
            sheet.outline = left[0].ring
    if not sheet.findings:
        for hole in cuts.holes:
            if not hole.opens:
                _window(spec, hole, sheet, unit)
        _slits(spec, points, sheet, unit)
    return sheet


def hole_ring(hole: HoleSpec) -> Ring:
    """The shape of a window or a notch in its piece's own frame, anticlockwise."""
    match hole.shape:
        case Rectangle(width=width, height=height):
            ring = rectangle(width.value, height.value)
        case Circle(across=across):
            ring = disc(across.value)
        case Outline(corners=corners):
            return anticlockwise(tuple(point_at(corner) for corner in corners))
    assert hole.at is not None
    return translation(point_at(hole.at) - ORIGIN).ring(ring)


def _notch(
    spec: PieceSpec | LayerSpec, hole: HoleSpec, ring: Ring, outline: Ring, gone: list[Ring], findings: list[Finding],
) -> None:
    if not overlap(ring, outline):
        findings.append(error("cut beside its piece", f"The notch {hole.name} takes nothing off {spec.name}.",
                              hole.place, "Bring it on to an edge of the piece."))
    elif not any(meeting(side, other) for side in edges(ring) for other in edges(outline)):
        findings.append(error("notch inside its piece", f"The notch {hole.name} reaches no edge of {spec.name}.",
                              hole.place, "Move it to an edge, or list it under `windows`."))
    else:
        gone.append(ring)


def _window(spec: PieceSpec | LayerSpec, hole: HoleSpec, sheet: CutSheet, unit: Unit) -> None:
    ring = hole_ring(hole)
    over = any(meeting(side, other) for side in edges(ring) for other in edges(sheet.outline))
    if over or locate(ring[0], sheet.outline) is not Where.IN:
        box, room = bounding_box(ring), bounding_box(sheet.outline)
        past = {"left": room.left - box.left, "right": box.right - room.right, "top": box.top - room.top,
                "bottom": room.bottom - box.bottom}
        far = max(past, key=lambda side: past[side])
        much = f" It reaches {with_unit(past[far], unit)} past the {far} edge." if past[far] > 0 else ""
        sheet.findings.append(error(
            "window over an edge", f"The window {hole.name} has not paper all round it in {spec.name}.{much}",
            hole.place, "Move it in, make it smaller, or list it under `notches`."))
        return
    for other in sheet.windows:
        if overlap(ring, other.ring) or any(meeting(a, b) for a in edges(ring) for b in edges(other.ring)):
            sheet.findings.append(error(
                "windows run together", f"The windows {other.name} and {hole.name} of {spec.name} touch or overlap.",
                hole.place, "Leave paper between them, or make them one."))
            return
    sheet.windows.append(CardWindow(
        name=hole.name.value, ring=ring, round=isinstance(hole.shape, Circle), place=hole.place))


def _rounded(
    spec: PieceSpec | LayerSpec, rounded: RoundedSpec, outline: Ring, unit: Unit, findings: list[Finding],
) -> list[Ring]:
    box, radius = bounding_box(outline), rounded.radius.value
    if 2 * radius > min(box.width, box.height):
        findings.append(error(
            "corner too round", f"A radius of {with_unit(radius, unit)} is more than half of {spec.name}, which is "
            f"{with_unit(box.width, unit)} wide and {with_unit(box.height, unit)} high.", rounded.radius.place,
            f"{with_unit(min(box.width, box.height) / 2, unit)} is the most."))
        return []
    wastes = []
    for corner in rounded.corners:
        waste = corner_waste(box, corner, radius)
        level, side = corner.split()
        at = Point(box.left if side == "left" else box.right, box.bottom if level == "bottom" else box.top)
        if at not in outline:
            findings.append(error("no corner there", f"{spec.name} has no corner at its {corner}.", rounded.place,
                                  "Name the corners that it has."))
        else:
            wastes.append(waste)
    return wastes


def _scallops(
    spec: PieceSpec | LayerSpec, scallops: ScallopSpec, outline: Ring, unit: Unit, findings: list[Finding],
) -> list[Ring]:
    box, across = bounding_box(outline), scallops.across.value
    long = box.width if scallops.edge in ("top", "bottom") else box.height
    if (long / across).denominator != 1:
        count = max(1, round(long / across))
        findings.append(error(
            "scallops do not come out",
            f"The {scallops.edge} edge of {spec.name} is {with_unit(long, unit)} long, which "
            f"is no whole number of scallops {with_unit(across, unit)} across.", scallops.across.place,
            f"{count} of {with_unit(long / count, unit)} would."))
        return []
    return list(scallop_waste(box, scallops.edge, across))


def _slits(spec: PieceSpec | LayerSpec, points: dict[str, Point], sheet: CutSheet, unit: Unit) -> None:
    for slit in spec.cuts.slits:
        segment = Segment(resolve(slit.start, points), resolve(slit.end, points))
        name = f"The slit {slit.name}"
        if segment.start == segment.end:
            sheet.findings.append(error("no line", f"{name} of {spec.name} starts and ends at the same point.",
                                        slit.place, "Give it another end."))
            continue
        parts = stretches(segment, sheet.outline, sheet.holes)
        off = next((part for part, where in parts if where is Where.OUT), None)
        if off is not None:
            sheet.findings.append(error(
                "cut beside its piece", f"{name} leaves the paper of {spec.name} near "
                f"{point_in_words(off.middle, unit)}.", slit.place, "Bring both ends on to the paper."))
        elif any(where is Where.ON for _, where in parts):
            sheet.findings.append(error(
                "slit along an edge", f"{name} runs along an edge of {spec.name}, where there is nothing to part.",
                slit.place, "Move it in from the edge, or leave it out."))
        elif (twice := _on_one_line(segment, sheet.slits)) is not None:
            sheet.findings.append(error(
                "two cuts on one line", f"{name} lies on the slit {twice.name} for a part of its way.", slit.place,
                "Keep one of them there."))
        else:
            sheet.slits.append(CardSlit(name=slit.name.value, segment=segment, place=slit.place))


def _on_one_line(segment: Segment, slits: Sequence[CardSlit]) -> CardSlit | None:
    for other in slits:
        common = meeting(segment, other.segment)
        if common is not None and common.start != common.end:
            return other
    return None
