"""Which face is up, inside, outside or glued, and what stands upright: the words against the table."""

import re
from collections.abc import Iterator

from foldproof.checks.directions.clauses import Doing
from foldproof.checks.directions.crosses import Cross
from foldproof.checks.directions.following import Telling
from foldproof.checks.directions.looking import Sight, upright
from foldproof.checks.directions.phrases import OPPOSITE, Phrase
from foldproof.checks.directions.things import face_named, lies_flat, own_face, panels_called, piece_face
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.folding.outside import outside_of
from foldproof.paper.face import Face, Fold

_UP = ("up", "down", "underneath")
_LEAD = re.compile(r"(?:keep|leave|lay|turn|set)\s+", re.IGNORECASE)
_TAIL = re.compile(r"(?:\s*\b(?:is|are|lies|lie|stays?|still|again|now|face|folded))*\s*$", re.IGNORECASE)
_FACED = re.compile(
    r"(?: of (?:the|your|its) \w+)?(?: (?:is|face|still|is still|is now))? (?P<way>up|down|underneath)\b",
    re.IGNORECASE,
)


def judge_cross(telling: Telling, phrase: Phrase, cross: Cross | None) -> Verdict | None:
    """What is said of the face with the pencil mark."""
    if cross is None:
        return None
    clause = telling.clause_at(phrase.start)
    if clause is None:
        return None
    whole = phrase.word in ("inside", "outside")
    if not re.search(rf"\b{cross.name}\b", telling.sentence(phrase.start)[1] if whole else clause.text, re.IGNORECASE):
        return None
    piece = telling.card.piece(cross.piece)
    before = telling.value[clause.start : phrase.start]
    if phrase.word in _UP and re.search(rf"\b{cross.name}(?: is| stays)?(?: still| now)? ?(?:face)? ?$", before, re.I):
        if telling.made.number == cross.step:
            return None
        ups = [piece_face(sight, cross.piece) is cross.face for sight in telling.sights(phrase.start, cross.piece)]
        if not ups:
            return None
        up = phrase.word == "up"
        return decided(
            phrase,
            up in ups,
            f"the face with the {cross.name} is {'down' if up else 'up'} then",
            "down" if up else "up",
        )
    if phrase.word in ("inside", "outside") and piece is not None:
        outside = outside_of(telling.card, piece)
        if outside is None:
            return None
        true = "outside" if cross.face is outside else "inside"
        return decided(phrase, phrase.word == true, f"the face with the {cross.name} is the {true} of the card", true)
    if phrase.word in ("left", "right") and cross.toward is not None and telling.made.number > cross.step:
        if not re.search(r"\bat (?:your|the) $", before, re.IGNORECASE):
            return None
        sides = [
            side
            for sight in telling.sights(phrase.start, cross.piece)
            for side in ("left", "right")
            if (int(sight.way(side).x), int(sight.way(side).y)) == cross.toward
        ]
        return (
            decided(
                phrase,
                phrase.word in sides,
                f"the {cross.name} lies at the {' or '.join(sides) or 'middle'}",
                next(iter(sides), None),
            )
            if sides
            else None
        )
    return None


def judge_face_up(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`Outside up`, `the plain face is up`, `cover up`, `the lapel stays folded underneath`."""
    clause, piece = telling.clause_at(phrase.start), telling.piece(phrase.start)
    if clause is None or piece is None:
        return None
    subject, up = _subject(telling.value[clause.start : phrase.start]), phrase.word == "up"
    if phrase.word in ("inside", "outside", "front", "back"):
        way = _FACED.match(telling.value[phrase.end :])
        if way is None:
            return None
        subject, up = phrase.word, way["way"].casefold() == "up"
    elif phrase.word not in _UP:
        return None
    pieces = _both(telling, subject) or (piece,)
    found: list[bool] = []
    called = ""
    for one in pieces:
        face = face_named(telling, subject, one)
        sights = tuple(telling.sights(phrase.start, one))
        if face is None and all(lies_flat(sight, one) for sight in sights):
            face = own_face(telling, subject, one)
        here = [piece_face(sight, one) is face for sight in sights] if face else []
        if face is not None and here:
            found.append(up in here)
            called = f"the {face.value} of the {one}, so {_which(subject)},"
    if found:
        return decided(phrase, all(found), f"{called} is {'down' if up else 'up'} then", OPPOSITE.get(phrase.word))
    if phrase.word not in _UP:
        return None
    return _panel_up(telling, phrase, subject, piece)


def _panel_up(telling: Telling, phrase: Phrase, subject: str, piece: str) -> Verdict | None:
    """A panel is up when its outside is; it is underneath when it is folded under."""
    true: list[bool] = []
    for sight in telling.sights(phrase.start, piece):
        meant = panels_called(sight, subject, piece)
        if not meant:
            return None
        for panels in meant:
            if phrase.word == "underneath":
                true.append(any(_folded_under(telling, sight, panel) for panel in panels))
                continue
            faces = [_outside(telling, panel) for panel in panels]
            if None in faces:
                return None
            true.append(
                (phrase.word == "up") == all(sight.up(panel) is face for panel, face in zip(panels, faces, strict=True))
            )
    if not true or (len(set(true)) > 1 and phrase.word == "underneath"):
        return None
    where = "folded under" if phrase.word == "underneath" else phrase.word
    return decided(phrase, any(true), f"the {subject.casefold()} is not {where} then", OPPOSITE.get(phrase.word))


def _folded_under(telling: Telling, sight: Sight, panel: str) -> bool:
    """Whether a panel is folded away from the maker, beneath the rest of its piece."""
    folded = dict(sight.table.folded)
    for hinge in telling.card.hinges:
        if panel in hinge.panels and hinge.score in folded:
            other = hinge.panels[0] if hinge.panels[1] == panel else hinge.panels[1]
            if (folded[hinge.score] > 0) != (sight.up(other) is Face.FRONT):
                return True
    return False


def judge_underneath(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`Swing the rear out from underneath`: what is opened lay beneath."""
    deed = telling.deed_at(phrase.start)
    if phrase.word != "underneath" or deed is None or deed.kind is not Doing.UNFOLD or deed.done.piece is None:
        return None
    sight = telling.sight(deed.index, deed.done.piece)
    if sight is None:
        return None
    under = any(_folded_under(telling, sight, name) for name in telling.names[deed.index] if name in sight.fits)
    return decided(phrase, under, "what is opened lies on top, not underneath", "on top")


def judge_looked_at(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The face that is up is the outside`; `pencil a cross on the face that is up`; `glue it on the face ...`."""
    start, sentence = telling.sentence(phrase.start)
    match = re.search(
        r"\b(?:face|side)\b[\w ]*? (?:that is (?P<up>up|down)|(?:that )?you (?:are looking|look) at)"
        r"(?: is the (?P<side>inside|outside))?",
        sentence,
        re.IGNORECASE,
    )
    if match is None or not start + match.start() <= phrase.start < start + match.end():
        return None
    piece = telling.piece(phrase.start)
    if piece is None or phrase.word not in (*_UP, "inside", "outside"):
        return None
    up = (match["up"] or "up").casefold() == "up"
    if match["side"]:
        faces = [
            (piece_face(s, piece), face_named(telling, match["side"], piece))
            for s in telling.sights(phrase.start, piece)
        ]
        true = [(face is meant) == up for face, meant in faces if meant is not None]
        said = match["side"].casefold()
        return (
            decided(
                phrase,
                any(true),
                f"the face that is up is the {OPPOSITE[said]} of the card",
                OPPOSITE[said] if phrase.word == said else "down" if up else "up",
            )
            if true
            else None
        )
    if re.search(r"\b(?:pencil|stamp|write|mark)\b", sentence, re.IGNORECASE):
        return decided(phrase, up, "hands can only mark the face that is up", "up")
    deed = telling.deed_at(phrase.start)
    bond = telling.bond_of(deed) if deed is not None else None
    if deed is None or bond is None or deed.done.piece is None:
        return None
    sight = telling.sight(deed.index, telling.card.panels[bond.under.panel].piece)
    if sight is None or bond.under.panel not in sight.fits:
        return None
    shown = sight.up(bond.under.panel) is bond.under.face
    return decided(
        phrase,
        shown == up,
        f"the face that takes the {bond.name} is {'up' if shown else 'down'} then",
        "up" if shown else "down",
    )


def judge_inside(telling: Telling, phrase: Phrase) -> Verdict | None:
    """Inside and outside: of a panel that tucks, of a ridge, or of a face that is named."""
    if phrase.word not in ("inside", "outside"):
        return None
    start, sentence = telling.sentence(phrase.start)
    if re.search(r"\bridges?\b|\bpressed from\b", sentence, re.IGNORECASE):
        return _ridge(telling, phrase, sentence)
    before = telling.value[start : phrase.start]
    tucks = re.search(r"\bthe ((?:\w+ )?panel) is the one that tucks $", before, re.IGNORECASE)
    piece, closed = telling.piece(phrase.start), telling.card.closed
    if tucks is not None and piece is not None and closed is not None:
        sight = telling.sight(len(telling.tables) - 1, piece)
        meant = panels_called(sight, tucks[1], piece) if sight is not None else ()
        seen = {region.panel for region in (*closed.seen, *closed.hidden_side)}
        true = {"outside" if seen & set(panels) else "inside" for panels in meant}
        if len(true) == 1:
            right = true.pop()
            return decided(phrase, phrase.word == right, f"the {tucks[1]} lies {right} in the closed card", right)
    return None


def _ridge(telling: Telling, phrase: Phrase, sentence: str) -> Verdict | None:
    """A score's ridge is inside its fold when it was pressed from the outside of that fold."""
    inside = set()
    for name in telling.names.values():
        for piece in telling.card.pieces:
            on_table = telling.tables[-1].pieces.get(piece.name)
            if piece.name not in name or on_table is None:
                continue
            for score in piece.scores:
                inner = Face.FRONT if score.fold is Fold.VALLEY else Face.BACK
                inside |= {
                    crease.pressed is not inner
                    for crease in on_table.creases
                    if {crease.segment.start, crease.segment.end} == {score.segment.start, score.segment.end}
                }
    if len(inside) != 1:
        return None
    ridge_inside = inside.pop()
    about_pressing = re.search(r"\bpressed from the $", telling.value[: phrase.start]) is not None
    true = "outside" if about_pressing == ridge_inside else "inside"
    if re.search(r"\b(?:not|or)\b", sentence):
        return None
    return decided(
        phrase, phrase.word == true, f"the ridges end up {'inside' if ridge_inside else 'outside'} their folds", true
    )


def judge_ridge_up(telling: Telling, phrase: Phrase, scores: tuple[object, ...], piece: str) -> Verdict | None:
    """`Its ridge up`: a score's ridge is on the face that was down when it was pressed."""
    true = []
    for sight in telling.sights(phrase.start, piece):
        for crease in sight.table.pieces[piece].creases:
            if crease.segment in scores:
                true.append((crease.pressed is not piece_face(sight, piece)) == (phrase.word == "up"))
    if not true:
        return None
    return decided(phrase, any(true), f"its ridge is {OPPOSITE[phrase.word]} then", OPPOSITE[phrase.word])


_GLUE_ON = re.compile(
    r"\bits $|\b(?:squares|foam|strip|glue|dots|tape)(?: goes| go)? on (?:the|each|both) $", re.IGNORECASE)


def judge_glued_face(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`Dot glue on the back of the mat`: the face that is glued, or written on because it will be hidden."""
    if phrase.word not in ("front", "back"):
        return None
    _, sentence = telling.sentence(phrase.start)
    after = telling.value[phrase.end :]
    mine = re.match(r"\s+of (?:the|each|both)? ?([\w ]+)", after) or re.match(r"()\s*(?:[.,]|$)", after)
    if not re.search(r"\b(?:glue|tape|foam|dots?|write|pencil|squares)\b", sentence, re.IGNORECASE) or mine is None:
        return None
    if not mine[1] and not _GLUE_ON.search(telling.value[: phrase.start]):
        return None
    bonds = [bond for done in telling.made.done for bond in [telling.bond_of(done)] if bond is not None]
    if not bonds:
        cut = {done.piece for done in telling.made.done}
        bonds = [bond for bond in telling.card.bonds if telling.card.panels[bond.over.panel].piece in cut]
    named = [bond for bond in bonds if telling.card.panels[bond.over.panel].piece in mine[1]]
    faces = {bond.over.face for bond in named or bonds}
    if len(faces) != 1:
        return None
    face = faces.pop()
    return decided(phrase, phrase.word == face.value, f"it is glued by its {face.value}", face.value)


def judge_upright(telling: Telling, phrase: Phrase) -> Verdict | None:
    """Something is cut, lies or is fixed with its own up away from the maker."""
    if phrase.word != "upright":
        return None
    deed = telling.deed_of_sentence(phrase.start)
    true: list[bool] = []
    what = "it"
    bond = telling.bond_of(deed) if deed is not None else None
    start, sentence = telling.sentence(phrase.start)
    named = telling.named(sentence[: phrase.start - start])
    if (
        re.match(r"\s*lay the\b", sentence, re.IGNORECASE)
        and named is not None
        and (bond is None or not any(telling.card.panels[s.panel].piece == named for s in (bond.over, bond.under)))
    ):
        for sight in telling.sights(phrase.start, named):
            panels = telling.card.piece(named)
            true += [
                upright(sight, panel) and sight.up(panel) is Face.FRONT for panel in (panels.panels if panels else ())
            ]
        what = f"the {named}"
    elif deed is not None and bond is not None:
        guest, root = bond.over.panel, telling.card.panels[bond.under.panel].piece
        seen = telling.sight(deed.index + 1, root)
        if seen is not None and guest in seen.fits:
            true.append(upright(seen, guest))
            what = f"the {bond.name}"
    elif deed is not None and deed.kind is Doing.CUT and deed.done.piece is not None:
        cut = telling.sight(deed.index + 1, deed.done.piece)
        if cut is not None:
            true += [upright(cut, panel) for panel in cut.own()]
    if not true:
        return None
    said_so = phrase.written.casefold() != "upside down"
    return decided(phrase, any(true) == said_so, f"{what} {'stands' if any(true) else 'does not stand'} upright there")



def _outside(telling: Telling, panel: str) -> Face | None:
    piece = telling.card.piece(telling.card.panels[panel].piece)
    return outside_of(telling.card, piece) if piece is not None else None


def _subject(before: str) -> str:
    return _TAIL.sub("", _LEAD.sub("", before)).strip(" ,")


def _which(subject: str) -> str:
    words = subject.casefold().split()
    return f"its {' '.join(words[-2:] if words and words[-1] in ('face', 'side') else words[-1:])}"


def _both(telling: Telling, subject: str) -> tuple[str, ...]:
    if "both" not in subject.casefold().split():
        return ()
    return tuple(dict.fromkeys(_acted(telling)))


def _acted(telling: Telling) -> Iterator[str]:
    for done in telling.made.done:
        if done.piece is not None:
            yield done.piece
