"""A passage cut into sentences and clauses, and what kind of doing each clause tells of."""

import re
from enum import StrEnum
from itertools import pairwise

from foldproof.frozen import dataclass


class Doing(StrEnum):
    """What hands do in a clause, as far as its words tell."""

    CUT = "cut"
    TURN = "turn"
    TURN_OVER = "turn over"
    LAY = "lay"
    SCORE = "score"
    MARK = "mark"
    FOLD = "fold"
    UNFOLD = "unfold"
    FOLD_OR_UNFOLD = "fold or unfold"
    ATTACH = "attach"
    STAMP = "stamp"


@dataclass(frozen=True, slots=True, kw_only=True)
class Clause:
    """A stretch of a sentence with one doing or one statement."""

    start: int
    end: int
    """Character offsets in the passage's text."""
    text: str
    sentence: int
    """Which sentence, from 0."""
    doing: Doing | None


_VERBS = (
    r"turn|flip|fold|lay|score|glue|tape|put|press|make|measure|keep|open|close|shut|sharpen|swing|lift|set|cut|dot|"
    r"stamp|write|rub|run|take|punch|tie|slide|check|fix|pencil|mark|stick|join|tuck|bring|place|trim|swing|dot"
)
_BREAK = re.compile(
    rf"(?:,\s*|\s+)(?:and\s+)?(?:then\s+|so\s+that\s+|so\s+(?=the\b|it\b))"
    rf"|(?:,\s*|\s+)and\s+(?:then\s+)?(?=(?:{_VERBS})\b)|[,;:]\s+(?:and\s+)?(?:so\s+|now\s+)?",
    re.IGNORECASE,
)
_SENTENCE = re.compile(r"[^.!?]*(?:\.(?=\d)[^.!?]*)*(?:[.!?]+|$)")
_KINDS: tuple[tuple[Doing, str], ...] = (
    (
        Doing.TURN_OVER,
        r"\b(?:turn|flip|over)\b.*(?:like (?:the|a) page|like a book page|top to bottom)"
        r"|\b(?:turn|flip)(?: \w+){1,4}? over\b"
        r"|^(?:now )?turn (?:it|them|the [\w ]+?) back\b(?!.*\b(?:quarter|half)\b)"
        r"|\bturn\b.*\bface (?:up|down)\b|^over like\b",
    ),
    (
        Doing.TURN,
        r"^(?:and |then |now )*turn(?: it| the [\w ]+)?$|\b(?:turn|rotate)\b.*(?:half|quarter|clockwise|round)"
        r"|^(?:a )?(?:half|quarter) turn|\brotate\b",
    ),
    (
        Doing.UNFOLD,
        r"^(?:and )?(?:now )?(?:un|re)?open\b|\bunfold\b|\bswing\b|\blay it back\b|\bdoors? open\b|^unbutton"
        r"|\blift the (?:top|bottom|left|right) half\b",
    ),
    (
        Doing.FOLD,
        r"^(?:now |again )?(?:fold|close|shut)(?! on\b)\b"
        r"|\b(?:goes|comes|go) (?:in|under|underneath|over|down)\b(?! with| from| the middle| on the| the\b)"
        r"|\b(?:door|panel|flap|half|side|lapel)s? (?:in|over|down|under)\b(?! the\b)",
    ),
    (Doing.SCORE, r"^(?:now |and )?scor(?:e|ing)\b|\bscore (?:along|at|from)\b|\bscore is at\b|\bhinge is at\b"),
    (Doing.MARK, r"\bmeasure\b.*\bfrom\b|^from the .*\bmeasure\b|\bmake a (?:pencil )?mark\b|^mark\b"),
    (Doing.LAY, r"\b(?:edge|end)\b.*\b(?:fence|stop)\b"),
    (Doing.STAMP, r"\bstamp\b|\bwrite\b"),
    (Doing.CUT, r"^(?:from .*)?\b(?:cut|trim|punch|die-cut)\b|\bcut (?:the|a|one|two|your|it)\b"),
    (
        Doing.ATTACH,
        r"^(?:now )?(?:glue|tape|fix|stick|join|attach|hang)\b|^(?:set|lay) (?:it|the [\w ]+?|one [\w ]+?) "
        r"(?:upright )?(?:on|between|across|over|in|level|exactly|so)\b"
        r"|\b(?:goes|go|sits?|comes) (?:on|in|between|(?:top|bottom|upper|lower) (?:left|right))\b"
        r"|\b(?:mat|strip|panel|band|piece)s? on the\b|^set it\b",
    ),
)
_RULES = tuple((kind, re.compile(pattern, re.IGNORECASE)) for kind, pattern in _KINDS)
_TUCKING = re.compile(r"^(?:now |then )?(?:slip|tuck|push|pull|lift)\b", re.IGNORECASE)
_SAME = re.compile(r"^(?:do|then) the same\b|^then the other\b|\bin the same way\b", re.IGNORECASE)
_FACE_UP = re.compile(r"^(?:the |its )?(?:front|back) (?:is )?(?:still )?(?:up|down)$", re.IGNORECASE)
_BARE = re.compile(
    r"^(?:the |its |your )?(?:left|right|near|far|top|bottom|upper|lower|front|back|first|second|other)\b[\w -]*?"
    r"(?:| first| after it| last| next| in| over it| with its \w+)$",
    re.IGNORECASE,
)


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a passage; the point in a number ends none."""
    return tuple(found.group() for found in _SENTENCE.finditer(text) if found.group().strip())


def clauses(text: str) -> tuple[Clause, ...]:
    """The clauses of a passage, in order."""
    found: list[Clause] = []
    for number, sentence in enumerate(_SENTENCE.finditer(text)):
        start, end = sentence.span()
        cuts = [start, *(start + m.end() for m in _BREAK.finditer(text[start:end])), end]
        before: Doing | None = None
        for a, b in pairwise(cuts):
            part = text[a:b]
            bare = re.sub(r"[\s,]*\b(?:and|so that|so|then)$", "", part.strip(" \n.,;:!?")).strip(" \n,")
            if not bare:
                continue
            kind = _kind(bare, before, found)
            before = kind if kind is not None else before
            lead = len(part) - len(part.lstrip())
            found.append(Clause(start=a + lead, end=b, text=" ".join(bare.split()), sentence=number, doing=kind))
    return tuple(found)


def _kind(bare: str, before: Doing | None, earlier: list[Clause]) -> Doing | None:
    folding = (Doing.FOLD, Doing.UNFOLD, Doing.FOLD_OR_UNFOLD)
    bare = " ".join(bare.split())
    for kind, rule in _RULES:
        if rule.search(bare) and not (kind is Doing.FOLD and _TUCKING.match(bare)):
            return kind
    if _SAME.search(bare):
        last = next((clause.doing for clause in reversed(earlier) if clause.doing is not None), None)
        return Doing.FOLD_OR_UNFOLD if last is Doing.UNFOLD else last
    if _FACE_UP.match(bare):
        return None
    if _BARE.match(bare) and not re.search(r"\b(?:edge|end|corner)s?\b", bare):
        if before in folding:
            return before
        return Doing.FOLD_OR_UNFOLD if before is None and len(bare.split()) <= 4 else None
    return None
