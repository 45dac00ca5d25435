"""What a fold moves, from where, which way and over what: the words against the action."""

import re

from foldproof.checks.directions.clauses import Doing
from foldproof.checks.directions.following import Deed, Telling
from foldproof.checks.directions.looking import Sight, motion, moved
from foldproof.checks.directions.phrases import OPPOSITE, SIDES, Phrase
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.paper.face import Fold
from foldproof.recipe import actions as do

_OPENING = re.compile(
    r"^(?:now |again |then |and )*(?:(?:fold|close|open|lift|bring|swing|unfold|shut)\s+)?"
    r"(?:in |over |up |down |back )?(?:it )?(?:the |its |your )?$",
    re.IGNORECASE,
)
_ONTO = re.compile(r"\b(?:over|onto|under|on to|across)(?: it)?(?: onto| on to)? the $", re.IGNORECASE)
_HERE = re.compile(r"\b(?:panel|flap|tab|half|leaf|part|triangle)s? (?:is )?(?:at|on) (?:the|your) $", re.IGNORECASE)


def judge_fold(telling: Telling, phrase: Phrase) -> Verdict | None:
    """A direction in a clause that tells of folding or opening.

    Where the passage does not tell of every fold, it is not certain of which one a clause tells: then nothing is
    called wrong.
    """
    found = _judged(telling, phrase)
    if found is None or found.true:
        return found
    deed = _fold_deed(telling, phrase)
    return found if deed is not None and telling.tells_all(deed.kind) else None


def _judged(telling: Telling, phrase: Phrase) -> Verdict | None:
    deed = _fold_deed(telling, phrase)
    if deed is None or deed.done.piece is None:
        return None
    before, after = telling.sight(deed.index, deed.done.piece), telling.sight(deed.index + 1, deed.done.piece)
    if before is None or after is None:
        return None
    panels = moved(before, after)
    if not panels:
        return None
    if phrase.word in ("toward you", "away from you", "under", "underneath"):
        clause = telling.clause_at(phrase.start)
        return None if clause is not None and _BOTH_WAYS.search(clause.text) else _toward(deed, phrase)
    if phrase.word in ("on top", "on bottom"):
        found = _toward(deed, phrase)
        return found
    if phrase.word not in SIDES:
        return None
    start, _ = telling.sentence(phrase.start)
    clause = telling.clause_at(phrase.start)
    lead = telling.value[clause.start if clause is not None else start : phrase.start]
    rest = telling.value[phrase.end :]
    lifted = re.search(r"\blift\b.*\b(?:the|its|their) $", telling.value[start : phrase.start], re.IGNORECASE)
    if deed.kind is Doing.UNFOLD and lifted is not None and re.match(r"(?:-hand)?\s+edge\b", rest):
        free = frozenset(OPPOSITE[side] for side in motion(before, after, panels))
        return _one_of(phrase, free, "what opens has its free edge at the")
    if re.search(r"\bto (?:the|your) $", lead) and not re.match(r"\s+(?:edge|end|half)", rest):
        ways = motion(before, after, panels)
        return _one_of(phrase, ways, "the fold moves it to the")
    from_side, to_side = (before, after) if deed.kind is Doing.FOLD else (after, before)
    here = _beside(from_side, to_side, panels)
    if _ONTO.search(lead):
        return _one_of(phrase, frozenset(OPPOSITE[side] for side in here), "it is folded over the part at the")
    if _OPENING.match(lead) or _HERE.search(lead):
        if re.match(r"\s+(?:edge|corner)", rest):
            return None
        return _one_of(phrase, here, "what the step moves lies at the")
    return None


def _fold_deed(telling: Telling, phrase: Phrase) -> Deed | None:
    """The fold of the clause; for `under the right half` that of the clause before it."""
    deed = telling.deed_at(phrase.start)
    clause = telling.clause_at(phrase.start)
    if deed is None and clause is not None and re.match(r"lift\b", clause.text, re.IGNORECASE):
        return next(
            (
                telling.told[c]
                for c in telling.clauses
                if c.sentence == clause.sentence and c in telling.told and telling.told[c].kind is Doing.UNFOLD
            ),
            None,
        )
    if deed is None:
        if clause is None or not re.match(r"(?:under|over|onto) the\b", clause.text, re.IGNORECASE):
            return None
        deed = telling.deed_of_sentence(phrase.start)
    return deed if deed is not None and deed.kind in (Doing.FOLD, Doing.UNFOLD) else None


_BOTH_WAYS = re.compile(r"toward you.*away from you|away from you.*toward you", re.IGNORECASE)


def _toward(deed: Deed, phrase: Phrase) -> Verdict | None:
    action = deed.done.action
    if not isinstance(action, do.FoldOn):
        return None
    up = phrase.word in ("toward you", "on top")
    is_up = action.fold is Fold.VALLEY
    return decided(
        phrase,
        up == is_up,
        "the step folds it toward you" if is_up else "the step folds it away from you",
        "toward you" if is_up else "away from you",
    )


def _beside(flat: Sight, folded: Sight, panels: tuple[str, ...]) -> frozenset[str]:
    """On which side of the fold the moving panels lie while it is flat: opposite to where they go."""
    return frozenset(OPPOSITE[side] for side in motion(flat, folded, panels))


def _one_of(phrase: Phrase, sides: frozenset[str], says: str) -> Verdict | None:
    level, upright = {"left", "right"} & sides, {"top", "bottom"} & sides
    mine = level if phrase.word in ("left", "right") else upright
    if not mine or (level and upright):
        if not sides or (level and upright):
            return None
        return decided(phrase, False, f"{says} {min(sides)}", min(sides))
    return decided(phrase, phrase.word in mine, f"{says} {min(mine)}", min(mine))
