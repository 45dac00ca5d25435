"""The face that hands work on: the words against what each action did."""

import re

from foldproof.checks.directions.clauses import Doing
from foldproof.checks.directions.following import Deed, Telling
from foldproof.checks.directions.phrases import Phrase
from foldproof.checks.directions.things import lies_flat, piece_face
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.folding.outside import outside_of
from foldproof.paper.face import Face


def judge_worked_face(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`On the back, score at 12 mm`, `Tape the lamp on the back`: the face that is up when hands work on it."""
    clause = telling.clause_at(phrase.start)
    if phrase.word not in ("front", "back") or clause is None:
        return None
    lead, rest = telling.value[: phrase.start], telling.value[phrase.end :]
    if not re.search(r"\bon the $", lead, re.IGNORECASE) or not re.match(r"\s*(?:[.,;]|$)", rest):
        return None
    _, sentence = telling.sentence(phrase.start)
    about = next((kind for word, kind in _WORKED if re.search(rf"\b{word}\b", sentence, re.IGNORECASE)), None)
    if about is None or re.search(r"\b(?:glue|squares|foam)\b", sentence, re.IGNORECASE):
        return None
    told = telling.deed_at(phrase.start) or next(
        (telling.told[c] for c in telling.clauses if c.sentence == clause.sentence and c in telling.told), None
    )
    meant = [deed for deed in telling.deeds if deed.kind is about and (told is None or told.kind is not about)]
    faces = {_worked(telling, deed) for deed in meant or ([told] if told is not None else [])}
    face = next(iter(faces)) if len(faces) == 1 else None
    if face is None:
        return None
    return decided(phrase, phrase.word == face.value, f"the step works on the {face.value}", face.value)


_WORKED = (("score", Doing.SCORE), ("tape", Doing.ATTACH), ("fix", Doing.ATTACH), ("stamp", Doing.STAMP))


def _worked(telling: Telling, deed: Deed) -> Face | None:
    """The face of the piece that a deed works on, where it lies flat and is no layer.

    None too where the card has an outside: its front and back may then be its cover and its rear.
    """
    bond = telling.bond_of(deed)
    name = telling.card.panels[bond.under.panel].piece if bond is not None else deed.done.piece
    piece = telling.card.piece(name) if name is not None else None
    if piece is None or piece.layer or outside_of(telling.card, piece) is not None:
        return None
    sight = telling.sight(deed.index + 1, piece.name)
    if sight is None or not lies_flat(sight, piece.name):
        return None
    return bond.under.face if bond is not None else piece_face(sight, piece.name)
