"""Which face a score was pressed on, and which way it folds: two facts, which go together on heavy card.

A tool presses a groove into the face that is up and raises a ridge on the other. Paper folds toward the ridge, which
then lies inside the fold (a secondary page; common practice): a fold away from it cracks heavy card.
"""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from foldproof.checks.check import advice, warning
from foldproof.checks.phrases import paper_of
from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import Card, CardPiece, CardScore
from foldproof.folding.thickness import paper_thickness
from foldproof.making.folds import same_line
from foldproof.making.table import Crease, Making
from foldproof.paper.face import Face, Fold

OUTSIDE = warning(
    "ridge outside the fold",
    "A score of heavy card is pressed from the inside of its fold, so that the ridge lies outside and the card may "
    "crack.")
LESS_GOOD = advice(
    "scored on the less good face", "A score is pressed from the inside of its fold; light paper bears it.")

HEAVY_MM = Fraction(1, 4)
"""Card of this thickness cracks on the wrong side of a score (common practice, no source)."""


def check_pressed_face(card: Card, making: Making) -> Iterable[Finding]:
    """The ridge of each score lies inside its fold. Said once for the card, of heavy card first."""
    wrong = [(piece, score, crease) for piece in card.pieces for score, crease in _wrong(piece, making)]
    if not wrong:
        return
    heavy = [entry for entry in wrong if _is_heavy(card, entry[0])]
    piece, score, crease = (heavy or wrong)[0]
    check = OUTSIDE if heavy else LESS_GOOD
    right = crease.pressed.other
    more = (heavy or wrong)[1:]
    yield check.finding(
        f"The {score.name} is pressed with the {crease.pressed.value} of the {piece.name} up, so its ridge stands on "
        f"the {right.value}; the plan folds it so that the {crease.pressed.value} is inside, and the ridge comes to "
        f"lie outside the fold{', where heavy card may crack' if heavy else ''}.",
        mend=f"Score it with the {right.value} up: turn the {piece.name} over first, and mind that its ends change "
        "places.",
        place=crease.place,
        asides=tuple(Aside(text=f"the {other.name} too", place=pressed.place) for _, other, pressed in more))


def _wrong(piece: CardPiece, making: Making) -> Iterator[tuple[CardScore, Crease]]:
    """Scores of a piece that were pressed, and only from the inside of their fold.

    A valley, as seen from the front, has the front inside: its ridge belongs on the front, and it is pressed on the
    back.
    """
    made = making.end.pieces.get(piece.name)
    if made is None:
        return
    for score in piece.scores:
        if score.fold is Fold.NONE:
            continue
        inside = Face.FRONT if score.fold is Fold.VALLEY else Face.BACK
        pressed = [crease for crease in made.creases if same_line(crease.segment, score.segment)]
        if pressed and all(crease.pressed is inside for crease in pressed):
            yield score, pressed[0]


def _is_heavy(card: Card, piece: CardPiece) -> bool:
    paper = paper_of(card, piece.name)
    thick = paper_thickness(card, paper) if paper is not None else None
    return thick is not None and thick * card.recipe.unit.millimetres >= HEAVY_MM
