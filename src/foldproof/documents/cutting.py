"""The cut-and-score box: each piece and layer with its count, paper, size and scores, and the sheets that it takes."""

from collections import Counter
from collections.abc import Mapping

from foldproof.documents.plan_words import cut_words, piece_words, score_words
from foldproof.documents.sheets import sheets_for
from foldproof.documents.view import Cut, Listed
from foldproof.documents.words import listed, panel_words, plain_face
from foldproof.folding.card import Card, CardPiece
from foldproof.folding.outside import outside_of
from foldproof.making.table import Making
from foldproof.measures.writing import with_unit, write_size
from foldproof.paper.face import Face
from foldproof.recipe.actions import CutOut, DieCut
from foldproof.recipe.records import Circle, PaperSpec

FRAMES = (
    "Sizes and scores are of each piece with its front up, as drawn here. At the board set the stop by the steps: "
    "there a piece may lie turned, or with its back up, where a valley is a mountain."
)
"""How the box is to be read, the same in every document."""


def cuts(card: Card) -> tuple[Cut, ...]:
    """One row for each kind of part; parts that are cut and scored alike share a row."""
    rows: dict[tuple[str, str, tuple[str, ...]], list[str]] = {}
    unit = card.recipe.unit
    for piece in card.pieces:
        scores = (*(score_words(score, piece, unit) for score in piece.scores), *cut_words(piece, unit),
                  *_outward(card, piece))
        rows.setdefault((_paper(piece), piece_words(piece, unit), scores), []).append(piece.name)
    return tuple(
        Cut(names=tuple(names), count=len(names), paper=paper, size=size, scores=scores)
        for (paper, size, scores), names in rows.items()
    )


def _outward(card: Card, piece: CardPiece) -> tuple[str, ...]:
    outside = outside_of(card, piece)
    return (f"its {outside.other} is the inside of the card",) if outside else ()


def face_called(card: Card, panel: str, face: Face, up: bool) -> str:
    """A face of a panel as a maker calls it: a layer by its name, inside or outside where the card has such.

    `up` is whether the face looks at the maker when it is spoken of.
    """
    piece = card.piece(card.panels[panel].piece)
    if piece is not None and piece.layer and face is Face.FRONT:
        return f"the {panel}"
    outside = outside_of(card, piece) if piece is not None else None
    if outside is None:
        return plain_face(panel, face, up)
    return f"the {'outside' if face is outside else 'inside'} of the {panel_words(panel)}"


def _paper(piece: CardPiece) -> str:
    return piece.paper or ("ready made or die cut" if piece.bought else "")


def papers(card: Card, making: Making) -> tuple[Listed, ...]:
    """Each paper with what it is and how many sheets of it one card takes."""
    counts = sheet_counts(card, making)
    used = {piece.paper for piece in card.pieces}
    return tuple(
        Listed(name=str(paper.name), note=", ".join(filter(None, (
            _stock(paper), _sheets(paper, counts, card) or pieces_wanted(card, making, str(paper.name))))))
        for paper in card.recipe.papers if str(paper.name) in used
    )


def sheet_counts(card: Card, making: Making) -> Mapping[str, int | None]:
    """Sheets of each paper, from the pieces that the steps cut out; None where the sheet's size is not known.

    A part that is cut from another part (the other half of a rectangle cut along its diagonal) takes no sheet.
    """
    counts: dict[str, int | None] = {}
    for paper in card.recipe.papers:
        name = str(paper.name)
        parts = []
        for done in (done for step in making.steps for done in step.every):
            piece = card.piece(done.piece) if done.piece else None
            if isinstance(done.action, CutOut) and piece is not None and piece.paper == name:
                parts.append((done.action.size[0].value, done.action.size[1].value))
        sheet = (paper.sheet[0].value, paper.sheet[1].value) if paper.sheet else None
        counts[name] = sheets_for(parts, sheet, turn=paper.pattern != "upright") if sheet and parts else None
    return counts


def pieces_wanted(card: Card, making: Making, paper: str) -> str:
    """What is cut from a paper, where nobody knows its sheet: `one piece 1 in across`."""
    unit = card.recipe.unit
    sizes: Counter[str] = Counter()
    for done in (done for step in making.steps for done in step.every):
        piece = card.piece(done.piece) if done.piece else None
        if piece is not None and piece.paper == paper and isinstance(done.action, CutOut | DieCut):
            size = (done.action.size[0].value, done.action.size[1].value)
            round_one = isinstance(piece.spec.shape, Circle)
            sizes[f"{with_unit(size[0], unit)} across" if round_one else write_size(size, unit)] += 1
    return listed([f"{'one piece' if count == 1 else f'{count} pieces'} {size}" for size, count in sizes.items()])


def _stock(paper: PaperSpec) -> str:
    printed = paper.printed if paper.printed != "plain" else None
    return ", ".join(str(part) for part in (paper.kind, paper.weight, printed and f"printed on {printed}") if part)


def _sheets(paper: PaperSpec, counts: Mapping[str, int | None], card: Card) -> str:
    count = counts.get(str(paper.name))
    if count is None or paper.sheet is None:
        return ""
    size = write_size((paper.sheet[0].value, paper.sheet[1].value), card.recipe.unit)
    return f"{count} {'sheet' if count == 1 else 'sheets'} of {size}"
