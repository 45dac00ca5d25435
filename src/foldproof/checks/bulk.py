"""How thick the closed card is and what it weighs, with estimates where a paper gives only its weight."""

from collections.abc import Iterator
from fractions import Fraction

from foldproof.checks.phrases import paper_of
from foldproof.facts.paper_weights import estimate_thickness, read_weight
from foldproof.facts.tools import find_adhesive
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card, CardPiece
from foldproof.paper.polygon import Where, area, bounding_box, locate
from foldproof.paper.vector import Point
from foldproof.recipe.records import PaperSpec

_GRID = 12
ENVELOPE_GRAMMAGE = Fraction(90)
"""g/m2 of an envelope, 24 lb bond (from memory: common for stationery)."""
_ENVELOPE_FLAPS = Fraction(5, 4)
"""Paper in an envelope for each of its two faces: a quarter more for flaps and seams (from memory)."""


def grammage_of(paper: PaperSpec | None) -> Fraction | None:
    """Grams per square metre of a paper, where its weight can be read."""
    if paper is None or paper.weight is None:
        return None
    found = read_weight(paper.weight.value, place=paper.weight.place)
    return None if isinstance(found, Finding) else found


def paper_thickness_mm(card: Card, paper: PaperSpec | None) -> Fraction | None:
    """As the recipe gives it, else estimated from its weight."""
    if paper is None:
        return None
    if paper.thickness is not None:
        return paper.thickness.value * card.recipe.unit.millimetres
    grams = grammage_of(paper)
    return estimate_thickness(grams).likely if grams is not None else None


def thickness_mm(card: Card) -> Fraction | None:
    """The greatest thickness of the closed card, adhesives with it; None where a paper tells nothing.

    Taken at the middles of all panels and on a grid over the card; what is bought counts for nothing.
    """
    closed = card.closed
    if closed is None:
        return None
    rings = {name: placed.ring(card.panels[name].ring) for name, placed in closed.placements.items()}
    sheets: dict[str, Fraction] = {}
    for piece in card.pieces:
        thick = Fraction(0) if piece.paper is None else paper_thickness_mm(card, paper_of(card, piece.name))
        if thick is None:
            return None
        sheets |= dict.fromkeys(piece.panels, thick)
    glue = {bond.over.panel: _adhesive_mm(card, bond.adhesive) for bond in card.bonds}
    points = [bounding_box(ring).centre for ring in rings.values()]
    points += [Point(closed.width * (2 * i + 1) / (2 * _GRID), closed.height * (2 * j + 1) / (2 * _GRID))
               for i in range(_GRID) for j in range(_GRID)]
    return max(
        sum((sheets.get(name, Fraction(0)) + glue.get(name, Fraction(0))
             for name, ring in rings.items() if locate(p, ring) is Where.IN), Fraction(0))
        for p in points
    )


def _adhesive_mm(card: Card, name: str | None) -> Fraction:
    if name is None:
        return Fraction(0)
    supply = next((one for one in card.recipe.supplies if one.name.value == name), None)
    if supply is not None and supply.thickness is not None:
        return supply.thickness.value * card.recipe.unit.millimetres
    kind = find_adhesive((supply.kind if supply else None) or name) or find_adhesive(name)
    return kind.thickness_mm if kind is not None else Fraction(0)


def mass_g(card: Card, envelope_mm: tuple[Fraction, Fraction] | None) -> Fraction | None:
    """The mass of the card's papers, from their exact areas, and of an envelope; None where a weight is not known.

    What is bought, and adhesives, count for nothing.
    """
    square_metre = Fraction(1_000_000) / card.recipe.unit.millimetres ** 2
    total = Fraction(0)
    for piece in _paper_pieces(card):
        grams = grammage_of(paper_of(card, piece.name))
        if grams is None:
            return None
        total += abs(area(piece.outline)) / square_metre * grams
    if envelope_mm is not None:
        total += 2 * _ENVELOPE_FLAPS * envelope_mm[0] * envelope_mm[1] / 1_000_000 * ENVELOPE_GRAMMAGE
    return total


def _paper_pieces(card: Card) -> Iterator[CardPiece]:
    return (piece for piece in card.pieces if piece.paper is not None and not piece.bought)
