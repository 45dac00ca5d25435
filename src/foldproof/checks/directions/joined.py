"""Which part of a piece is joined, beyond which score, and what lies near or far: the words against the table."""

import re

from foldproof.checks.directions.clauses import Doing
from foldproof.checks.directions.following import Telling
from foldproof.checks.directions.phrases import SIDES, Phrase
from foldproof.checks.directions.things import bare, panels_called
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.recipe import actions as do

_AWAY = re.compile(r"^(?:so that )?(?P<subject>.*?) (?:is|are|lies?) (?:still |now )?(?:at the )?$", re.IGNORECASE)


def judge_nearness(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`So that the cover is away from you`, `so the cover is at the back`: where a panel lies, near or far."""
    clause = telling.clause_at(phrase.start)
    if clause is None or phrase.word not in ("toward you", "near you", "away from you", "back"):
        return None
    match = _AWAY.match(telling.value[clause.start : phrase.start])
    if match is None or match[0].endswith("at the ") != (phrase.word == "back"):
        return None
    if phrase.word == "back" and not any(
        one.sentence == clause.sentence and telling.told[one].kind is Doing.TURN for one in telling.told
    ):
        return None
    what = bare(match["subject"].split(" so ")[-1])
    found = []
    for piece in telling.pieces(phrase.start):
        for sight in telling.sights(phrase.start, piece):
            meant = panels_called(sight, what, piece)
            if len(meant) == 1 and (sides := sight.sides(meant[0]) & {"top", "bottom"}):
                found.append(sides)
        if found:
            break
    if not found:
        return None
    near = phrase.word in ("toward you", "near you")
    true = any(("bottom" if near else "top") in sides for sides in found)
    return decided(phrase, true, f"the {what} lies {'away from you' if near else 'toward you'} then")


_PEER = re.compile(r"\s+(tab|flap|panel|part|door|wall)\b", re.IGNORECASE)


def judge_joined(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The fold of the right tab lies 60 mm from the spine`, `press the left tab down`: the one that is fixed then."""
    noun, clause = _PEER.match(telling.value[phrase.end :]), telling.clause_at(phrase.start)
    if phrase.word not in SIDES or noun is None or clause is None:
        return None
    start, sentence = telling.sentence(phrase.start)
    numbers = {
        bound.parameter.action
        for bound in telling.bound
        if bound.parameter is not None and start <= bound.mention.start < start + len(sentence)
    }
    fixed = [deed for deed in telling.deeds if deed.index in numbers and isinstance(deed.done.action, do.Attach)]
    bond = telling.bond_of(fixed[0]) if len(fixed) == 1 else None
    if bond is None:
        return None
    over = bond.over.panel
    sight = telling.sight(fixed[0].index + 1, telling.card.panels[bond.under.panel].piece)
    piece = telling.card.piece(telling.card.panels[over].piece)
    if sight is None or piece is None or over not in sight.fits or over.split()[-1].casefold() != noun[1].casefold():
        return None
    peers = [one for one in piece.panels if one.split()[-1] == over.split()[-1] and one in sight.fits]
    level = phrase.word in ("left", "right")
    places = {one: sum(sight.spans((one,))[0 if level else 1]) for one in peers}
    if len(places) != 2 or len(set(places.values())) != 2:
        return None
    low, high = ("left", "right") if level else ("bottom", "top")
    side = low if places[over] == min(places.values()) else high
    return decided(phrase, phrase.word == side, f"the {noun[1].casefold()} at the {side} is fixed then", side)


def judge_beyond(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`Its fold lies 60 mm to the right of the spine`: beyond the score from which the distance counts."""
    start, _ = telling.sentence(phrase.start)
    line = re.match(r" of the ([\w ]+)", telling.value[phrase.end :])
    if phrase.word not in ("left", "right") or line is None:
        return None
    if not re.search(r"\bto the $", telling.value[start : phrase.start]):
        return None
    lines = {score.name for piece in telling.card.pieces for score in piece.scores}
    before = [b for b in telling.bound if start <= b.mention.start < phrase.start and b.parameter is not None]
    if line[1].strip() not in lines or not before:
        return None
    parameter = before[-1].parameter
    assert parameter is not None
    side = re.fullmatch(r"distance from the (left|right)", parameter.what)
    deed = next((one for one in telling.deeds if one.index == parameter.action), None)
    bond = telling.bond_of(deed)
    if side is None or deed is None or bond is None:
        return None
    sight = telling.sight(deed.index + 1, telling.card.panels[bond.under.panel].piece)
    if sight is None or bond.under.panel not in sight.fits:
        return None
    there = next(iter(sight.sides((bond.under.panel,)) & {"left", "right"}), None)
    if there is None:
        return None
    return decided(phrase, phrase.word == there, f"the {bond.under.panel} lies at the {there} of it", there)
