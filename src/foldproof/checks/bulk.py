"""How thick the closed card is and what it weighs."""

from collections.abc import Iterator
from fractions import Fraction

from foldproof.checks.phrases import paper_of
from foldproof.facts.paper_weights import read_weight
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card, CardPiece
from foldproof.paper.polygon import area
from foldproof.recipe.records import PaperSpec

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


def thickness_mm(card: Card) -> Fraction | None:
    """The greatest thickness of the closed card, foam with it; None where a paper tells nothing of its own."""
    closed = card.closed
    if closed is None or closed.thickness is None:
        return None
    return closed.thickness * card.recipe.unit.millimetres


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
