"""Slips of words: every left and right, front and back, top and bottom, inside and outside, and every turn said.

An account of its own: which words are directions is decided here by a short list, not by the program.
"""

import re
from collections.abc import Iterator

from slips.slip import Slip, line_of
from slips.spots import passages

_NOT = (
    r"right across|right in the|right over the|right way|right on to|right angle|left over|left then right|in front of|"
    r"top to bottom|top and bottom|back on back|back to back|(?:is|are|be) left\b|(?:is|are|be|that is) right\b|"
    r"quarter turn to the|right beside|right at the"
)
_SKIP = re.compile(rf"\b(?:{_NOT})", re.IGNORECASE)
_PAIRS: tuple[tuple[str, str, str], ...] = (
    ("left and right", "left", "right"),
    ("top and bottom", "top", "bottom"),
    ("top and bottom", "upper", "lower"),
    ("front and back", "front", "back"),
    ("inside and outside", "inside", "outside"),
    ("turn words", "counterclockwise", "clockwise"),
    ("turn words", "anticlockwise", "clockwise"),
    ("turn words", "like the page of a book", "from top to bottom"),
    ("turn words", "like a page", "from top to bottom"),
    ("turn words", "half round", "a quarter turn clockwise"),
)
_NOUN_BEFORE = re.compile(r"\b(?:the|its|their|each|plain|a)\s+$", re.IGNORECASE)
_TURNING = re.compile(r"\b(?:turn|flip|over)\b[^.]*$", re.IGNORECASE)
_ONE_WAY = ("half round", "like a page")


def word_slips(source: str) -> Iterator[Slip]:
    """Every one, passage by passage."""
    for start, end in passages(source):
        passed = [match.span() for match in _SKIP.finditer(source, start, end)]
        taken: list[tuple[int, int]] = []
        for kind, one, other in _PAIRS:
            for old, new in ((one, other), (other, one)):
                if old == "a quarter turn clockwise" or (old == "from top to bottom" and one in _ONE_WAY):
                    continue
                pattern = r"\s+".join(map(re.escape, old.split()))
                for match in re.compile(rf"\b{pattern}\b", re.IGNORECASE).finditer(source, start, end):
                    a, b = match.span()
                    turning = kind == "turn words"
                    if any(a < y and x < b for x, y in taken) or (
                        not turning and any(x <= a and b <= y for x, y in passed)
                    ):
                        continue
                    if old == "from top to bottom" and not _TURNING.search(source[start:a]):
                        continue
                    if old == "back" and not _NOUN_BEFORE.search(source[:a]):
                        continue
                    if old in ("upper", "lower") and not re.match(
                        r"\s+(?:half|edge|part|third|panel|corner)", source[b:]
                    ):
                        continue
                    taken.append((a, b))
                    written = new.capitalize() if match[0][0].isupper() else new
                    yield Slip(
                        kind=kind,
                        start=a,
                        end=b,
                        new=written,
                        line=line_of(source, a),
                        what=f"{' '.join(match[0].split())} to {written}",
                    )
