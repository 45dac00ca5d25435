"""The pencil mark that tells a face: on which piece, on which face and where it was made."""

import re

from foldproof.checks.directions.looking import Sight
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Making, StepMade
from foldproof.paper.face import Face
from foldproof.recipe.actions import Note

MARKED = re.compile(
    r"\bpencil (?:an? )?(?:small |tiny |little )?(?P<mark>cross|dot|star|arrow)\b"
    r"|\bput an? (?:small |tiny |little )?pencil (?P<put>cross|dot|star)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cross:
    """A mark in pencil that tells the face that was up when it was made."""

    name: str
    """`cross`, as the sentences call it."""
    step: int
    """The number of the step that makes it, from 1."""
    piece: str
    face: Face
    side: str | None
    """Near which end of the piece as it lay it was made; None for its middle."""
    toward: tuple[int, int] | None
    """That end as a direction of the piece's own frame."""


def find_crosses(card: Card, making: Making) -> tuple[Cross, ...]:
    """Every such mark of the recipe, from the notes and the texts of the steps: the first on each piece."""
    found: dict[str, Cross] = {}
    for made in making.steps:
        notes = [done.action.words for done in made.done if isinstance(done.action, Note)]
        for words in (*notes, made.spec.text.value):
            match = MARKED.search(words)
            for piece in _marked(card, made, words[match.end() :].split(". ")[0]) if match is not None else ():
                if match is not None and piece in made.after.pieces and piece not in found:
                    found[piece] = _cross(card, made, piece, (match["mark"] or match["put"]).casefold())
    return tuple(found.values())


def _marked(card: Card, made: StepMade, rest: str) -> tuple[str, ...]:
    """The pieces that are marked: those named after the mark; for `each` and `both` all that the step cuts."""
    named = [one.name for one in card.pieces if re.search(rf"\b{re.escape(one.name)}\b", rest)]
    cut = list(dict.fromkeys(done.piece for done in made.done if done.piece is not None))
    if named:
        return tuple(named)
    if re.search(r"\b(?:each|both|every)\b", rest, re.IGNORECASE):
        return tuple(cut)
    own = made.spec.piece.value if made.spec.piece is not None else None
    return (own,) if own is not None else tuple(cut[:1]) if len(cut) == 1 else ()


def _cross(card: Card, made: StepMade, piece: str, name: str) -> Cross:
    lie = made.after.pieces[made.after.root(piece)].lie
    end = re.search(r"\b(left|right)(?:-hand)? (?:end|edge|side)\b", made.spec.text.value)
    way = Sight(card, made.after, piece).way(end[1]) if end is not None else None
    return Cross(
        name=name, step=made.number, piece=piece, face=lie.up, side=end[1] if end is not None else None,
        toward=(int(way.x), int(way.y)) if way is not None else None)
