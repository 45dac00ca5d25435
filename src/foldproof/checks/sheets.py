"""Whether each piece and layer can be cut from a sheet of its paper."""

from collections.abc import Iterable
from fractions import Fraction

from foldproof.checks.check import error
from foldproof.checks.phrases import length, listed, paper_of, size
from foldproof.findings.finding import Aside, Finding, Place
from foldproof.folding.card import Card, CardPiece
from foldproof.making.table import Making
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.actions import CutOut
from foldproof.recipe.records import LayerSpec, PaperSpec

TOO_SMALL = error("sheet too small", "A piece or a layer is larger than a sheet of the paper that it is cut from.")


def check_sheets(card: Card, making: Making) -> Iterable[Finding]:
    """The plan's pieces, and the blanks that steps cut for them, fit on a sheet; either way round unless upright."""
    told: set[str] = set()
    for piece in card.pieces:
        paper = paper_of(card, piece.name)
        if paper is None or paper.sheet is None or piece.bought:
            continue
        box = bounding_box(piece.outline)
        finding = _too_small(card, piece.name, paper, box.width, box.height, _place(piece), None)
        if finding is not None:
            told.add(piece.name)
            yield finding
    for step in making.steps:
        for done in step.every:
            action, name = done.action, done.piece
            if not isinstance(action, CutOut) or name is None or name in told:
                continue
            paper = paper_of(card, name)
            if paper is None or paper.sheet is None:
                continue
            width, height = action.size[0].value, action.size[1].value
            finding = _too_small(card, name, paper, width, height, action.size[0].place, step.spec.id)
            if finding is not None:
                told.add(name)
                yield finding


def _place(piece: CardPiece) -> Place:
    return piece.spec.place


def _too_small(
    card: Card, name: str, paper: PaperSpec, width: Fraction, height: Fraction, place: Place, step: str | None
) -> Finding | None:
    assert paper.sheet is not None
    across, up = paper.sheet[0].value, paper.sheet[1].value
    one_way = paper.pattern == "upright" and not _turned(card, name)
    ways = [(across, up)] if one_way else [(across, up), (up, across)]
    if any(width <= a and height <= b for a, b in ways):
        return None
    best = min(ways, key=lambda way: max(width - way[0], Fraction(0)) + max(height - way[1], Fraction(0)))
    over = [f"{length(card, by)} too {way}"
            for by, way in ((width - best[0], "wide"), (height - best[1], "high")) if by > 0]
    turned = ", and its pattern must stand upright" if one_way and width <= up and height <= across else ""
    return TOO_SMALL.finding(
        f"The {name} is {size(card, width, height)}; a sheet of {paper.name} is {size(card, across, up)}: it is "
        f"{listed(over)}{turned}.",
        mend="Make the piece smaller, put it together from two, or take a larger sheet.", place=place, step=step,
        asides=(Aside(text="the sheet", place=paper.sheet[0].place),))


def _turned(card: Card, name: str) -> bool:
    found = card.piece(name)
    return found is not None and isinstance(found.spec, LayerSpec) and "quarter" in found.spec.at.turned.value
