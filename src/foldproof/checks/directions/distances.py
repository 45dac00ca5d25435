"""The edges from which a number is measured: words beside a number that is bound to an action."""

import re

from foldproof.checks.binding import Bound, Sense
from foldproof.checks.directions.following import Telling
from foldproof.checks.directions.looking import upright
from foldproof.checks.directions.phrases import SIDES, Phrase
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.measures.quantity import Kind
from foldproof.recipe import actions as do

_FROM = re.compile(r"\b(?:from|above|below|with|down from|up from) (?:the|its|your) $", re.IGNORECASE)
_OWN = re.compile(r"(?:^|[.;,]\s*|\band )(?:set )?(?:its|the|their) $", re.IGNORECASE)
_EDGE = re.compile(r"\s*(?:-hand )?(?:edge|end|side)s?\b", re.IGNORECASE)


def judge_distance(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`1/4 in from the left edge`, `its top edge is 1 in below the top edge`, `score at 5 in from the left end`."""
    start, sentence = telling.sentence(phrase.start)
    lead, rest = telling.value[start : phrase.start], telling.value[phrase.end :]
    from_edge = _FROM.search(lead) is not None and not re.match(r"\s*-?\w* ?half\b", rest)
    own_edge = _OWN.search(lead) is not None and _EDGE.match(rest) is not None
    if phrase.word in ("above", "below"):
        bound = _before(telling, start, phrase)
        side = _attach_side(bound)
        if bound is None or side not in ("top", "bottom"):
            return None
        return decided(
            phrase,
            (phrase.word == "below") == (side == "top"),
            f"the distance is from the {side}",
            "below" if side == "top" else "above",
        )
    if phrase.word in ("near", "far") and re.match(r"\s+edge\b", rest):
        clause = telling.clause_at(phrase.start)
        last = _run_to_edge(telling, phrase, _before(telling, start, phrase))
        if last is not None:
            return last
        here = [b for b in _bound(telling) if clause is not None and clause.start <= b.mention.start < clause.end]
        after = _after(telling, start + len(sentence), phrase)
        number = _sure(here[0]) if here else after or _before(telling, start, phrase)
        return _marked_edge(telling, phrase, number)
    if phrase.word not in SIDES or not (from_edge or own_edge):
        return None
    if _flush(telling, phrase, start, sentence):
        return judge_flush(telling, phrase)
    bound = (
        _after(telling, start + len(sentence), phrase)
        if own_edge
        else _before(telling, start, phrase) or _after(telling, start + len(sentence), phrase)
    )
    return _against(telling, phrase, bound) if bound is not None else None


def _against(telling: Telling, phrase: Phrase, bound: Bound) -> Verdict | None:
    assert bound.parameter is not None
    action = telling.made.done[bound.parameter.action].action
    side = _attach_side(bound)
    if side is not None:
        if not _as_read(telling, bound.parameter.action):
            return None
        return decided(phrase, phrase.word == side, f"{bound.mention.written} is the distance from the {side}", side)
    if isinstance(action, do.ScoreAt | do.CutAcross | do.SlitAt):
        end = "left" if isinstance(action, do.SlitAt) else action.start
        where = "the stop is at the left end: the distance counts from there"
        says = where if end == "left" else f"the distance counts from the {end} end"
        return decided(phrase, phrase.word == end, says, end)
    if isinstance(action, do.MarkAt):
        return decided(
            phrase, phrase.word == action.start, f"the mark is measured from the {action.start} end", action.start
        )
    return None


def judge_flush(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`Its right end is flush with the right edge`: the distance there is nothing."""
    if phrase.word not in SIDES:
        return None
    deed = telling.deed_of_sentence(phrase.start)
    start, sentence = telling.sentence(phrase.start)
    own = [telling.deed_at(c.start) for c in telling.clauses if start <= c.start < start + len(sentence)]
    deed = next((d for d in own if d is not None and isinstance(d.done.action, do.Attach)), deed)
    named = [
        d
        for d in telling.deeds
        if isinstance(d.done.action, do.Attach)
        and re.search(
            rf"\b{re.escape(d.done.action.bond.split()[-1])}\b",
            re.split(r"\bflush\b|\bof the\b|, ", sentence)[0],
            re.IGNORECASE,
        )
    ]
    deed = named[0] if len(named) == 1 else deed
    if deed is None or not isinstance(deed.done.action, do.Attach):
        deed = next((d for d in telling.deeds if isinstance(d.done.action, do.Attach)), None)
    if deed is None or not isinstance(deed.done.action, do.Attach) or not _as_read(telling, deed.index):
        return None
    at = deed.done.action.at
    zero = [side for side in SIDES if (length := getattr(at, side)) is not None and length.value == 0]
    if not zero or at.border is not None:
        return None
    return decided(phrase, phrase.word in zero, f"it is flush at the {' and the '.join(zero)}", zero[0])


def _flush(telling: Telling, phrase: Phrase, start: int, sentence: str) -> bool:
    """Whether the edge is spoken of as flush: in a clause with that word, or as the one from which a strip comes in."""
    clause = telling.clause_at(phrase.start)
    words = clause.text if clause is not None else sentence
    if re.search(r"\bflush\b", words, re.IGNORECASE):
        return True
    return re.search(r"\b(?:comes|runs|come|run) in from the $", telling.value[start : phrase.start]) is not None


def _run_to_edge(telling: Telling, phrase: Phrase, bound: Bound | None) -> Verdict | None:
    """`Score at 74 mm, from 68 mm to the near edge`: the fence is at the far edge; with no end it runs to the near."""
    if bound is None or bound.parameter is None or not re.search(r"\bto the $", telling.value[: phrase.start]):
        return None
    action = telling.made.done[bound.parameter.action].action
    if not isinstance(action, do.ScoreAt) or action.begins is None or action.ends is not None:
        return None
    return decided(phrase, phrase.word == "near", "the score runs from the fence to the near edge", "near")


def _marked_edge(telling: Telling, phrase: Phrase, bound: Bound | None) -> Verdict | None:
    """`On the far edge, make a mark`: the edge of the mark whose distance the sentence says."""
    if bound is None or bound.parameter is None:
        return None
    action = telling.made.done[bound.parameter.action].action
    edge = {"top": "far", "bottom": "near"}.get(action.edge) if isinstance(action, do.MarkAt) else None
    return decided(phrase, phrase.word == edge, f"the mark is made on the {edge} edge", edge) if edge else None


def judge_position(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The score is at 7 1/2 in, near the right-hand end`."""
    start, _ = telling.sentence(phrase.start)
    if phrase.word not in ("left", "right") or not re.search(r"\bnear the $", telling.value[start : phrase.start]):
        return None
    bound = _before(telling, start, phrase)
    if bound is None or bound.parameter is None:
        return None
    done = telling.made.done[bound.parameter.action]
    if not isinstance(done.action, do.ScoreAt) or done.piece is None or not done.lines:
        return None
    sight = telling.sight(bound.parameter.action + 1, done.piece)
    if sight is None:
        return None
    line = done.lines[0]
    sides = sight.point_sides(line.start + line.along * (done.action.at.value / done.action.at.value / 2))
    return (
        decided(
            phrase,
            phrase.word in sides,
            f"the score lies toward the {'left' if 'left' in sides else 'right'}",
            "left" if "left" in sides else "right",
        )
        if sides & {"left", "right"}
        else None
    )


def _as_read(telling: Telling, index: int) -> bool:
    """Whether the panel that receives lies as it is read, so that its left is the maker's left."""
    action = telling.made.done[index].action
    if not isinstance(action, do.Attach):
        return True
    bond = next((b for b in telling.card.bonds if b.name == action.bond), None)
    sight = telling.sight(index + 1, telling.card.panels[bond.under.panel].piece) if bond is not None else None
    if bond is None or sight is None or bond.under.panel not in sight.fits:
        return False
    return upright(sight, bond.under.panel) and sight.up(bond.under.panel) is bond.under.face


def _attach_side(bound: Bound | None) -> str | None:
    what = bound.parameter.what if bound is not None and bound.parameter is not None else ""
    found = re.fullmatch(r"distance (?:of the (?:window|notch) )?from the (left|right|top|bottom)", what)
    return found[1] if found is not None else None


def _bound(telling: Telling) -> list[Bound]:
    """The lengths of the passage, in order, but for conversions."""
    return [b for b in telling.bound if b.sense is not Sense.CONVERSION and b.mention.kind is Kind.LENGTH]


def _sure(bound: Bound | None) -> Bound | None:
    """A number that stands for one of an action; a wrong one has its own finding, and nothing can be told by it."""
    sure = bound is not None and bound.parameter is not None and bound.sense in (Sense.PARAMETER, Sense.REPEAT)
    return bound if sure else None


def _before(telling: Telling, start: int, phrase: Phrase) -> Bound | None:
    """The number said last before a phrase in its sentence, with no other edge between."""
    found = [b for b in _bound(telling) if start <= b.mention.start < phrase.start]
    return _sure(found[-1]) if found else None


def _after(telling: Telling, end: int, phrase: Phrase) -> Bound | None:
    """The number said first after a phrase in its sentence."""
    return _sure(next((b for b in _bound(telling) if phrase.end <= b.mention.start < end), None))
