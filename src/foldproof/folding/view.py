"""What a flat pose looks like: its outline, what is seen from each side, which edges meet, how thick it lies."""

from collections.abc import Callable, Mapping

from foldproof.folding.card import Card, FlatPose, Region
from foldproof.folding.meetings import meetings
from foldproof.folding.overlay import Overlay, ordered, outline_of
from foldproof.folding.thickness import greatest_thickness
from foldproof.paper.face import Face
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import bounding_box
from foldproof.paper.subdivision import merge
from foldproof.recipe.records import PoseSpec


def look(
    card: Card, spec: PoseSpec, placements: Mapping[str, Isometry], laid: Overlay, over: frozenset[tuple[str, str]],
) -> FlatPose:
    """The flat pose with everything that can be seen and measured of it; `laid` is its overlay."""
    laid = ordered(laid, over)
    outline = outline_of(laid)
    box = bounding_box(p for ring in outline for p in ring)
    return FlatPose(
        name=spec.name.value, spec=spec, placements=placements, over=over, outline=outline,
        width=box.width, height=box.height, meetings=meetings(card, placements, laid, box.width),
        seen=_regions(laid, placements, laid.top, False), hidden_side=_regions(laid, placements, laid.bottom, True),
        thickness=greatest_thickness(card, placements, laid),
    )


def _regions(
    laid: Overlay, placements: Mapping[str, Isometry], which: Callable[[int], str | None], behind: bool,
) -> tuple[Region, ...]:
    """What is seen, panel by panel; a panel may be seen in several parts."""
    def face(panel: str) -> Face:
        shown = placements[panel].shows
        return shown.other if behind else shown

    return tuple(
        Region(panel=panel, face=face(panel), ring=part.ring, holes=part.holes)
        for panel, part in merge(laid.whole, which)
    )
