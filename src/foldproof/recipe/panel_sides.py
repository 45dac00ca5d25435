"""Where a panel lies, said by the sides of scores: `left of A`, `between A and B`, joined by `and`."""

import re
from dataclasses import replace

from foldproof.findings.finding import Place
from foldproof.findings.nearest import nearest
from foldproof.recipe.desk import Desk
from foldproof.recipe.records import Across, ScoreSpec, Side, Text, Up

RELATIONS = ("left of", "right of", "above", "below")
_SIDE = re.compile(rf"({'|'.join(RELATIONS)}) (.+)")
BETWEEN = "between "


LONGEST_WHERE = 500


def sides_of(where: Text, scores: tuple[ScoreSpec, ...], desk: Desk) -> tuple[Side, ...] | None:
    """The sides of scores on which a panel lies: `left of A`, `between A and B`, joined by `and`."""
    known = {each.name.value: each for each in scores}
    if len(where.value) > LONGEST_WHERE:
        desk.error(
            "panel not placed", "These words are too long to say where a panel lies.", where.place, "Write [x, y]."
        )
        return None
    if where.value.startswith(BETWEEN):
        return _between(where, known, desk)
    sides = []
    for part in re.split(rf" and (?=(?:{'|'.join(RELATIONS)}) )", where.value):
        found = _SIDE.fullmatch(part)
        if not found:
            desk.error(
                "panel not placed",
                f"`{part}` does not say where the panel lies.",
                where.place,
                "Write a point in it, [x, y], or: left of, right of, above or below a score, between two scores, "
                "or several of these joined by and.",
            )
            return None
        if found[2] not in known:
            _unknown_score(found[2], where, known, desk)
            return None
        sides.append(_side(found[1], found[2], where))
    return tuple(sides)


def _side(relation: str, score_name: str, where: Text) -> Side:
    return Side(relation=relation, score=Text(value=score_name, place=_place_in(where, score_name)))


def _place_in(where: Text, words: str) -> Place:
    at = where.value.find(words)
    if at < 0 or where.place.length != len(where.value):
        return where.place
    return replace(where.place, column=where.place.column + at, length=len(words))


def _unknown_score(word: str, where: Text, known: dict[str, ScoreSpec], desk: Desk) -> None:
    guess = nearest(word, known)
    mend = f"Did you mean `{guess}`?" if guess else f"Its scores: {', '.join(known) or 'none'}."
    desk.error("unknown name", f"This piece has no score `{word}`.", _place_in(where, word), mend)


def _between(where: Text, known: dict[str, ScoreSpec], desk: Desk) -> tuple[Side, ...] | None:
    words = where.value.removeprefix(BETWEEN)
    cuts = [(words[: found.start()], words[found.end() :]) for found in re.finditer(" and ", words)]
    if not cuts:
        desk.error("panel not placed", "`between` needs two scores.", where.place, "Write: between A and B.")
        return None
    pair = next(((a, b) for a, b in cuts if a in known and b in known), None)
    if pair is None:
        a, b = next(((a, b) for a, b in cuts if a in known or b in known), cuts[0])
        for word in (a, b):
            if word not in known:
                _unknown_score(word, where, known, desk)
        return None
    lines = (known[pair[0]].line, known[pair[1]].line)
    match lines:
        case (Across(at=a_at), Across(at=b_at)) if a_at.value != b_at.value:
            first, second = pair if a_at.value < b_at.value else pair[::-1]
            return _side("right of", first, where), _side("left of", second, where)
        case (Up(at=a_at), Up(at=b_at)) if a_at.value != b_at.value:
            first, second = pair if a_at.value < b_at.value else pair[::-1]
            return _side("above", first, where), _side("below", second, where)
    desk.error(
        "panel not placed",
        f"`{pair[0]}` and `{pair[1]}` are not two upright or two level scores with room between "
        "them, so between is not clear.",
        where.place,
        "Write a point in the panel: [x, y].",
    )
    return None
