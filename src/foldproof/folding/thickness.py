"""How thick a flat pose lies: paper on paper, and foam where there is some."""

from collections.abc import Mapping
from fractions import Fraction

from foldproof.facts.paper_weights import estimate_thickness, read_weight
from foldproof.folding.card import Card, FlatPose
from foldproof.folding.overlay import Overlay, overlay
from foldproof.paper.isometry import Isometry
from foldproof.paper.polygon import Where, locate
from foldproof.paper.subdivision import merge
from foldproof.paper.tracing import Area
from foldproof.recipe.records import PaperSpec


def paper_thickness(card: Card, paper: PaperSpec) -> Fraction | None:
    """The thickness of one sheet in the recipe's unit: as written, or else estimated from the weight; None without."""
    if paper.thickness is not None:
        return paper.thickness.value
    grams = read_weight(paper.weight.value, place=None) if paper.weight is not None else None
    if not isinstance(grams, Fraction):
        return None
    return estimate_thickness(grams).likely / card.recipe.unit.millimetres


def greatest_thickness(card: Card, placements: Mapping[str, Isometry], laid: Overlay) -> Fraction | None:
    """The greatest thickness anywhere, in the recipe's unit; None where that of a paper is not known."""
    found = _of_cells(card, placements, laid)
    return None if found is None else max(found, default=Fraction(0))


def thickness_everywhere(card: Card, pose: FlatPose) -> tuple[tuple[Fraction, Area], ...]:
    """The areas of a flat pose with how thick it lies there, in the pose's frame; none where a paper's is not known."""
    laid = overlay(card.panels, pose.placements)
    found = _of_cells(card, pose.placements, laid)
    return () if found is None else merge(laid.whole, lambda cell: found[cell] if laid.covers[cell] else None)


def _of_cells(card: Card, placements: Mapping[str, Isometry], laid: Overlay) -> tuple[Fraction, ...] | None:
    """For each cell how thick the papers, the foam and what is bought lie there.

    A bought shape of no paper is as thick as the supply of its name says, and is left out where none says so.
    """
    papers = {paper.name.value: paper_thickness(card, paper) for paper in card.recipe.papers}
    supplies = {supply.name.value: supply.thickness.value for supply in card.recipe.supplies if supply.thickness}
    sheets: dict[str, Fraction] = {}
    for piece in card.pieces:
        thick = papers.get(piece.paper) if piece.paper is not None else supplies.get(piece.name, Fraction(0))
        if thick is None:
            return None
        sheets |= dict.fromkeys(piece.panels, thick)
    foam = [
        (supplies[bond.adhesive], placements[bond.under.panel].ring(area)) for bond in card.bonds
        for area in bond.glued if bond.adhesive in supplies and bond.under.panel in placements
    ]
    return tuple(
        sum((sheets[name] for name in cover), Fraction(0))
        + sum((extra for extra, ring in foam if locate(cell.inside, ring) is Where.IN), Fraction(0))
        for cell, cover in zip(laid.whole.faces, laid.covers, strict=True))
