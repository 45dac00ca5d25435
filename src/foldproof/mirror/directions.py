"""Direction words in a sentence changed over; what only looks like one is left alone.

What speaks of the stop stays as well: it is a tool, and the left end of the work lies at it in either card.
"""

import re
from collections.abc import Iterable

from foldproof.measures.quantity import Unit
from foldproof.recipe.sides import dressed
from foldproof.refit.numbers import Change, applied

_WORD = re.compile(r"\b(left|right|(?:counter|anti)?clockwise|L|R)\b(?!'|’)", re.IGNORECASE)
_BEFORE = re.compile(r"([\w'’-]+)[^\w.!?;:,]*$")
_NEAR = 80
"""Signs before a word in which the word before it is looked for: a row of dashes would take hours otherwise."""
_AFTER = re.compile(r"^[ \n*_]*([\w'’-]+)")
_CLAUSE_END = re.compile(r"[.,;:!?](?=\s|$)")
_POINTING = frozenset({
    "the", "its", "your", "their", "this", "that", "near", "far", "top", "bottom", "upper", "lower", "inner", "outer",
    "from", "to", "at", "left", "right", "or", "and", "then", "point", "points", "pointing", "face", "faces",
    "facing",
})
"""After these a side is meant, whatever comes next."""
_NEVER_AFTER_RIGHT = frozenset({
    "way", "angle", "angles", "angled", "amount", "size", "order", "side-up",
})
_RUNNING_ON = frozenset({
    "across", "in", "over", "on", "up", "down", "to", "through", "now", "away", "along", "round", "around", "beside",
    "against", "at", "next", "into", "onto", "after", "before", "there", "here", "under", "underneath", "where", "by",
    "off", "out", "back", "so",
})
"""`right across`, `right in the middle`: no side."""
_LEFT_BEHIND = frozenset({
    "over", "out", "alone", "behind", "off", "open", "to", "for", "wet", "unglued", "free", "lying",
})
_REMAINING = frozenset({
    "is", "are", "was", "were", "be", "been", "what", "have", "has", "had", "any", "anything", "nothing", "some",
    "being",
})
_OTHER = {"left": "right", "right": "left", "clockwise": "anticlockwise", "anticlockwise": "clockwise",
          "counterclockwise": "clockwise", "l": "R", "r": "L"}


def changed_directions(text: str, unit: Unit) -> str:
    """A passage with the sides that it speaks of changed over; `unit` is the recipe's and tells its spelling."""
    return applied(text, direction_changes(text, unit))


def direction_changes(text: str, unit: Unit, keep: Iterable[int] = ()) -> tuple[Change, ...]:
    """The sides that a passage speaks of, changed over; words that start at an offset in `keep` stay."""
    kept = set(keep)
    against = "counterclockwise" if unit is Unit.INCH else "anticlockwise"
    found = [
        (match, _OTHER[match.group().lower()]) for match in _WORD.finditer(text)
        if match.start() not in kept and is_direction(text, match.start(), match.end())]
    return tuple(
        Change(start=match.start(), end=match.end(),
               said=dressed(against if fresh == "anticlockwise" else fresh, match.group()))
        for match, fresh in found)


def is_direction(text: str, start: int, end: int) -> bool:
    """Whether the word at these offsets says a side of the work."""
    word = text[start:end]
    before, after = _BEFORE.search(text[max(0, start - _NEAR) : start]), _AFTER.match(text[end:])
    last, following = (found.group(1).lower() if found else "" for found in (before, after))
    low = word.lower()
    if len(word) == 1:
        return word.isupper()
    if low not in ("left", "right"):
        return True
    if at_stop(text, start):
        return False
    if low == "right" and (following in _NEVER_AFTER_RIGHT or text[end:end + 7].lower() == "-angled"):
        return False
    if following in ("hand", "hands") and last in ("your", "the", "one"):
        return False
    if last in _POINTING:
        return True
    if low == "right":
        return following not in _RUNNING_ON
    return last not in _REMAINING and following not in _LEFT_BEHIND


def at_stop(text: str, start: int) -> bool:
    """Whether the words of the clause say which end lies at the stop."""
    first = max((found.end() for found in _CLAUSE_END.finditer(text, 0, start)), default=0)
    stop = _CLAUSE_END.search(text, start)
    clause = text[first:stop.start() if stop else len(text)]
    return bool(re.search(r"\bend\b[^.]*\b(?:at|against|to|touches)\b[^.]*\bstop\b", clause))
