"""What a standing card leans on: one edge that touches another."""

from collections.abc import Mapping

from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.folding.space import Motion, Vec, dot, length, lifted, minus, times
from foldproof.folding.words import error
from foldproof.frozen import dataclass
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Segment
from foldproof.recipe.records import EdgeOf, PoseSpec


@dataclass(frozen=True, slots=True)
class Rest:
    """A foot and the edge that it stands against."""

    foot: str
    against: str
    edges: tuple[Segment, Segment]
    """In the frames of their pieces."""


def rest_of(card: Card, spec: PoseSpec) -> tuple[Rest | None, tuple[Finding, ...]]:
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
    return Rest(spec.rests.foot.panel.value, spec.rests.against.panel.value, (found[0], found[1])), ()


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


def foot_misses(rest: Rest, placed: Mapping[str, Motion]) -> list[Vec]:
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


def alongside(rest: Rest, placed: Mapping[str, Motion], tolerance: float) -> bool:
    """Whether foot and edge share a stretch."""
    foot, edge = rest.edges
    start = placed[rest.against].point(lifted(edge.start))
    way = minus(placed[rest.against].point(lifted(edge.end)), start)
    size = length(way)
    ends = sorted(
        dot(minus(placed[rest.foot].point(lifted(p)), start), times(way, 1 / size)) for p in (foot.start, foot.end)
    )
    return min(ends[1], size) - max(ends[0], 0.0) > tolerance
