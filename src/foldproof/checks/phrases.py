"""How amounts and lists are said in findings, and the small lengths that the checks go by."""

from collections.abc import Iterable
from fractions import Fraction

from foldproof.folding.card import Card
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_length
from foldproof.recipe.records import PaperSpec


def length(card: Card, value: Fraction) -> str:
    """A length with its unit, its sign dropped: `1/8 in`."""
    return with_unit(abs(value), card.recipe.unit)


def size(card: Card, width: Fraction, height: Fraction) -> str:
    """A width and a height with their unit: `4 1/4 × 5 1/2 in`."""
    return f"{write_length(width, card.recipe.unit)} × {with_unit(height, card.recipe.unit)}"


def small(unit: Unit, *, inch: Fraction, mm: Fraction) -> Fraction:
    """A limit in the recipe's unit: the one for inches or the one for millimetres, as the recipe is written."""
    return {Unit.INCH: inch, Unit.MM: mm, Unit.CM: mm / 10}[unit]


def accident(card: Card) -> Fraction:
    """Borders that differ by no more than this were meant alike: 1/16 in or 1.5 mm (our own choice)."""
    return small(card.recipe.unit, inch=Fraction(1, 16), mm=Fraction(3, 2))


def sliver(card: Card) -> Fraction:
    """A strip no wider than this tells nobody which way up a pattern is: 1/4 in or 6 mm (our own choice)."""
    return small(card.recipe.unit, inch=Fraction(1, 4), mm=Fraction(6))


def hair(card: Card) -> Fraction:
    """What a hand can set at best, half a mark of a common rule: 1/32 in (facts: from memory) or 0.5 mm."""
    return small(card.recipe.unit, inch=Fraction(1, 32), mm=Fraction(1, 2))


def listed(words: Iterable[str]) -> str:
    """Words in a row: `a, b and c`."""
    words = list(words)
    return " and ".join(([", ".join(words[:-1])] if len(words) > 1 else []) + words[-1:])


def paper_of(card: Card, piece: str) -> PaperSpec | None:
    """The paper that a piece or layer is cut from."""
    found = card.piece(piece)
    if found is None or found.paper is None:
        return None
    return next((paper for paper in card.recipe.papers if paper.name.value == found.paper), None)
