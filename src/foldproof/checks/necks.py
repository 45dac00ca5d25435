"""Paper left so narrow beside a slit or a window that it tears."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import combinations
from typing import NamedTuple

from foldproof.checks.check import warning
from foldproof.checks.phrases import length, small
from foldproof.findings.finding import Finding, Place
from foldproof.folding.card import Card, CardPiece
from foldproof.folding.words import distance
from foldproof.making.table import Making
from foldproof.paper.polygon import edges, meeting, square_distance
from foldproof.paper.vector import Segment

THIN = warning(
    "thin neck of paper",
    "Between a slit or a window and the next cut or edge so little paper is left that it may tear.")


def least_neck(card: Card) -> Fraction:
    """Paper narrower than this is called a thin neck: 1/8 in or 3 mm (common practice, no source)."""
    return small(card.recipe.unit, inch=Fraction(1, 8), mm=Fraction(3))


class _Cut(NamedTuple):
    name: str
    lines: Sequence[Segment]
    place: Place | None


def check_necks(card: Card, making: Making) -> Iterable[Finding]:
    """Each place between two cuts of a piece, or between one and its edge, that is narrower than a neck should be."""
    least = least_neck(card)
    for piece in card.pieces:
        for one, other in combinations(_cuts(piece), 2):
            square = _apart(one.lines, other.lines)
            if 0 < square < least * least:
                place = other.place or one.place
                yield THIN.finding(
                    f"In the {piece.name} only {distance(square, card.recipe.unit)} of paper is left between "
                    f"{one.name} and {other.name}; less than {length(card, least)} tears easily.",
                    mend="Move or shorten one of the two.", place=place)


def _cuts(piece: CardPiece) -> Iterator[_Cut]:
    yield _Cut("its edge", edges(piece.outline), None)
    for window in piece.windows:
        yield _Cut(f"the window {window.name}", edges(window.ring), window.place)
    for slit in piece.slits:
        yield _Cut(f"the slit {slit.name}", (slit.segment,), slit.place)


def _apart(one: Sequence[Segment], other: Sequence[Segment]) -> Fraction:
    """The square of the least distance; zero where they meet. Lines that do not cross are nearest at an end."""
    if any(meeting(a, b) is not None for a in one for b in other):
        return Fraction(0)
    return min(
        square_distance(p, line) for lines, others in ((one, other), (other, one))
        for line in lines for end in others for p in (end.start, end.end))
