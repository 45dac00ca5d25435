"""Turns in the plane, turnings over, and what lies at the fence: the words against the actions."""

import re

from foldproof.checks.directions.clauses import Doing
from foldproof.checks.directions.following import Telling, lie_of
from foldproof.checks.directions.phrases import Phrase
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.recipe import actions as do

WAYS = {"book page": "like the page of a book", "top to bottom": "from top to bottom"}
AMOUNTS = {
    "half": "half round",
    "quarter clockwise": "a quarter turn clockwise",
    "quarter anticlockwise": "a quarter turn counterclockwise",
}


def judge_turn(telling: Telling, phrase: Phrase) -> Verdict | None:
    """A turn said with its amount or its way, in a clause that tells of a turn."""
    if phrase.word not in (*WAYS, *AMOUNTS):
        return None
    deed = telling.deed_at(phrase.start)
    if deed is None or deed.amount is None:
        return _turned_to_lie(telling, phrase) if deed is None and phrase.word in AMOUNTS else None
    kind, words = (Doing.TURN_OVER, WAYS) if phrase.word in WAYS else (Doing.TURN, AMOUNTS)
    if deed.kind is not kind:
        return None
    how = "turns it over" if kind is Doing.TURN_OVER else "turns it"
    return decided(phrase, deed.amount == phrase.word, f"the step {how} {words[deed.amount]}", words[deed.amount])


def _turned_to_lie(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`Turn the strip a quarter clockwise and lay it on`: what is fixed turned, where one thing only is so fixed."""
    turns = [d.done.action.at.turned for d in telling.deeds if isinstance(d.done.action, do.Attach)]
    turned = [amount for amount in turns if amount != "none"]
    if len(turned) != 1 or len(turns) != 1 or turned[0] not in AMOUNTS:
        return None
    says = f"it is fixed turned {AMOUNTS[turned[0]]}"
    return decided(phrase, phrase.word == turned[0], says, AMOUNTS[turned[0]])


def judge_same_face(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The same face up`, beside a turn."""
    if phrase.word not in ("up", "down") or not re.search(r"\bsame (?:face |side )?$", telling.value[: phrase.start]):
        return None
    deed = telling.deed_of_sentence(phrase.start)
    if deed is None or deed.kind not in (Doing.TURN, Doing.TURN_OVER, Doing.LAY):
        return None
    was, now = lie_of(deed.done.before, deed.done.piece), lie_of(deed.done.after, deed.done.piece)
    if was is None or now is None:
        return None
    same = was.up is now.up
    return decided(phrase, same, f"the same face {'stays' if same else 'does not stay'} up")


_EDGE = re.compile(r"\b(long|short) edge $", re.IGNORECASE)


def judge_edge(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`With a long edge toward you`."""
    match = _EDGE.search(telling.value[: phrase.start])
    piece = telling.piece(phrase.start)
    if phrase.word not in ("toward you", "near you", "away from you") or match is None or piece is None:
        return None
    found = []
    for sight in telling.sights(phrase.start, piece):
        (left, right), (near, far) = sight.spans(sight.own() if piece not in _layers(telling) else _of(telling, piece))
        if right - left != far - near:
            found.append("long" if right - left > far - near else "short")
    if not found:
        return None
    said = match[1].casefold()
    other = "short" if said == "long" else "long"
    return decided(
        phrase, said in found, f"the {piece} lies with {_an(found[-1])} edge toward you", f"{other} edge toward you"
    )


def judge_stop(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The left end at the stop`: the stop stands at the left end of the fence."""
    after = telling.value[phrase.end :]
    if phrase.word not in ("left", "right") or not re.match(r"\s+(?:end|edge) (?:at|against|to|on) the stop", after):
        return None
    if not any(isinstance(done.action, do.Lay | do.ScoreAt | do.CutAcross) for done in telling.made.done):
        return None
    return decided(phrase, phrase.word == "left", "the stop stands at the left end of the fence", "left")


def _an(word: str) -> str:
    return f"a {word}"


def _layers(telling: Telling) -> tuple[str, ...]:
    return tuple(piece.name for piece in telling.card.pieces if piece.layer)


def _of(telling: Telling, piece: str) -> tuple[str, ...]:
    found = telling.card.piece(piece)
    return found.panels if found is not None else ()
