"""What a sentence of the notes says that hands do, beside its lengths."""

import re

from foldproof.checks.directions.phrases import spot_directions
from foldproof.notes.records import Fact, Role

_VERBS: tuple[tuple[Role, str], ...] = (
    (Role.SCORE, r"scor(?:e|ed|ing)|s(?= @)|crease"),
    (Role.ATTACH, r"glu(?:e|ed|ing)(?! (?:on|dots|gun|stick)\b)|tap(?:e|ed)(?= (?:it|the|them|on|down|across|together))"
     r"|stick|stuck|attach(?:ed)?|adhere[ds]?|pop(?:ped)? up|mount(?:ed)?|center(?= the)|centre(?= the)|fix(?:ed)?"
     r"|glued on"),
    (Role.FOLD, r"(?<!the )(?<!each )(?<!every )(?<!a )fold(?:ed)?(?! line)"),
    (Role.TIE, r"tie|tied|wrap(?:ped)?|wind"),
    (Role.PART, r"cut|trim(?:med)?|take|punch(?:ed)?|make|made"),
)
_EDGE = re.compile(
    r"\b(?P<edge>long|short|left|right|top|bottom)(?:est)?[ -]?(?:edge|side|end)\b[^.;]*?"
    r"\b(?:along|against|at|on|to|is against)\b[^.;]*?\b(?:fence|top of (?:the|your|a) scor\w*|top|scor\w*board)\b",
    re.IGNORECASE)
_TURNS = {"half": (Role.TURN, "half"), "quarter clockwise": (Role.TURN, "quarter clockwise"),
          "quarter anticlockwise": (Role.TURN, "quarter anticlockwise"), "book page": (Role.TURN_OVER, "book page"),
          "top to bottom": (Role.TURN_OVER, "top to bottom")}
_ALL_ROUND = re.compile(
    r"\b(?:borders?|all (?:a)?round|all the way round|every side|each side|all (?:four )?sides|showing)\b",
    re.IGNORECASE)
_SIDE = re.compile(
    r"(?:from|below|above|down from|up from|in from|under|off)\W+(?:the |its |your )?(?P<side>top|bottom|left|right)\b",
    re.IGNORECASE)


def verb_before(text: str, at: int) -> Role | None:
    """The last thing that a sentence says to do before a place in it."""
    found: tuple[int, Role | None] = (-1, None)
    for role, pattern in _VERBS:
        for match in re.finditer(rf"\b(?:{pattern})(?!\w)", text[:at], re.IGNORECASE):
            found = max(found, (match.start(), role), key=lambda each: each[0])
    return found[1]


def verb_at(text: str, role: Role) -> int | None:
    """Where a sentence first says to do a thing; None where it does not."""
    pattern = dict(_VERBS)[role]
    found = re.search(rf"\b(?:{pattern})(?!\w)", text, re.IGNORECASE)
    return found.start() if found else None


def edge_laid(text: str) -> str:
    """The edge that a sentence lays against the fence; empty where it says none."""
    edges = list(_EDGE.finditer(text))
    return edges[-1]["edge"].casefold() if edges else ""


def turned(text: str, line: int) -> tuple[tuple[int, Fact], ...]:
    """The turns that a sentence says, each with its place."""
    found = []
    for phrase in spot_directions(text):
        turn = _TURNS.get(phrase.word)
        lead = text[: phrase.start].rsplit(".", 1)[-1]
        if turn and re.search(r"\b(?:turn|flip|rotate)", lead, re.IGNORECASE):
            found.append((phrase.start, Fact(role=turn[0], line=line, quote=text, word=turn[1])))
    return tuple(found)


def all_round(text: str) -> bool:
    """Whether a length is said of all four sides."""
    return _ALL_ROUND.search(text) is not None


def side_after(text: str) -> str:
    """The side that a length is measured from, by the words after it; empty where none is near."""
    found = _SIDE.search(text[:45])
    return found["side"].casefold() if found else ""


def takes_back(text: str) -> bool:
    """Whether a sentence corrects the one before it."""
    return re.search(r"\b(?:no,? sorry|sorry|no,? wait|i mean|scratch that)\b", text, re.IGNORECASE) is not None


def object_of(text: str, role: Role) -> str:
    """What a sentence says to do a thing to, after `the` or `a`; empty for a pronoun."""
    pattern = dict(_VERBS)[role]
    found = re.search(
        rf"\b(?:{pattern})\s+(?:the|a|an|your|this|that)\s+((?:[A-Za-z-]+ ?){{1,4}})", text, re.IGNORECASE)
    return found[1] if found else ""


def way_folded(text: str) -> str:
    """`valley` or `mountain`, where a sentence says so; empty otherwise."""
    found = re.search(r"\b(valley|mountain)\b", text, re.IGNORECASE)
    return found[1].casefold() if found else ""
