"""Captions: lines cut to a readable length and set at a readable speed within the time that they have."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate

from foldproof.filming.lines import WORDS_A_MINUTE
from foldproof.measures.spotting import spot_numbers
from foldproof.recording.moments import to_millisecond

MOST_CHARACTERS = 37
"""In a line (BBC Subtitle Guidelines, section 3.1: 37 for broadcast, more room online; the stricter is kept)."""
MOST_LINES = 2
"""On a landscape picture (BBC Subtitle Guidelines, section 3.3)."""
FASTEST = Fraction(180)
"""Words a minute (BBC Subtitle Guidelines, section 4: 160 to 180)."""
SHORTEST, LONGEST = Fraction(1), Fraction(7)
"""Seconds for one caption (common practice, from memory)."""

_ENDS = re.compile(r"[.!?][”\")]*$")
_PAUSES = re.compile(r"[,;:–—][”\")]*$")
_BEFORE = frozenset(("and", "or", "but", "so", "then", "that", "which", "while", "until", "because", "before", "after"))
_CLINGS = frozenset(
    (
        *("a", "an", "the", "my", "your", "its", "this", "that", "these", "each", "every", "and", "or", "but", "not"),
        *("of", "to", "at", "in", "on", "by", "for", "from", "into", "onto", "with", "is", "are", "be", "as"),
        *("i", "you", "it", "we", "they", "he", "she", "no", "x", "×"),
    )
)
_NEVER = 40
"""What it costs to tear a measure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caption:
    """What stands under the picture for a while."""

    start: Fraction
    end: Fraction
    lines: tuple[str, ...]


def cut_lines(text: str) -> tuple[tuple[str, ...], ...]:
    """A passage cut into captions of at most two lines, at the ends of sentences and clauses where that can be."""
    words = _whole_words(text)
    tears = _tears(words)
    best: list[tuple[int, int]] = [(0, 0)]
    for end in range(1, len(words) + 1):
        choices = []
        for start in range(end - 1, -1, -1):
            broken_at = _line_break(words, tears, start, end)
            if broken_at is None:
                break
            inner = tears[broken_at] if broken_at < end else 0
            choices.append((best[start][0] + 4 + inner + 3 * tears[end], start))
        best.append(min(choices))
    cuts: list[tuple[str, ...]] = []
    end = len(words)
    while end:
        start = best[end][1]
        at = _line_break(words, tears, start, end) or end
        cuts.append(tuple(" ".join(words[a:b]) for a, b in ((start, at), (at, end)) if a < b))
        end = start
    return tuple(reversed(cuts))


def broken(text: str) -> tuple[str, ...]:
    """A passage in lines of readable length, as few as will do."""
    return tuple(line for caption in cut_lines(text) for line in caption)


def lay_out(passages: Sequence[str], start: Fraction, end: Fraction) -> tuple[Caption, ...] | None:
    """Captions for what is said from `start` to `end`; None where it could not be read in that time.

    They follow on one another without gaps from the start, at the usual speed of speaking, faster only as far as they
    must, and never faster than people read.
    """
    cuts = [cut for passage in passages if passage.strip() for cut in cut_lines(passage)]
    counts = [sum(len(line.split()) for line in cut) for cut in cuts]
    least = [max(SHORTEST, count * 60 / FASTEST) for count in counts]
    usual = [max(short, min(LONGEST, count * 60 / WORDS_A_MINUTE)) for short, count in zip(least, counts, strict=True)]
    room, needed, wanted = end - start, sum(least), sum(usual)
    if needed > room:
        return None
    share = Fraction(1) if wanted <= room else (room - needed) / (wanted - needed)
    captions, at = [], start
    for cut, short, long in zip(cuts, least, usual, strict=True):
        until = at + short + (long - short) * share
        captions.append(Caption(start=to_millisecond(at), end=to_millisecond(until), lines=tuple(cut)))
        at = until
    return tuple(captions)


def words_in(passages: Sequence[str]) -> int:
    """How many words are to be read."""
    return sum(len(passage.split()) for passage in passages)


def _whole_words(text: str) -> tuple[str, ...]:
    """The words of a passage; one that is longer than a line is cut."""
    return tuple(
        word[at : at + MOST_CHARACTERS] for word in text.split() for at in range(0, len(word), MOST_CHARACTERS)
    )


def _line_break(words: Sequence[str], tears: Sequence[int], start: int, end: int) -> int | None:
    """Before which word the second line of a caption begins; `end` where one line will do, None where two will not."""
    if len(" ".join(words[start:end])) <= MOST_CHARACTERS:
        return end
    best: tuple[int, int] | None = None
    for at in range(start + 1, end):
        first, second = len(" ".join(words[start:at])), len(" ".join(words[at:end]))
        if max(first, second) <= MOST_CHARACTERS:
            cost = 8 * tears[at] + abs(first - second)
            best = min(best or (cost, at), (cost, at))
    return best[1] if best else None


def _tears(words: Sequence[str]) -> list[int]:
    """How badly a break before each word tears what belongs together (BBC Subtitle Guidelines, section 3.4).

    Breaks belong at the ends of sentences and clauses, and not after an article, a preposition or a pronoun; a measure
    is not torn, nor parted from its unit. The last figure, for the end, is 0.
    """
    starts = list(accumulate((len(word) + 1 for word in words), initial=0))
    spans = [(number.start, number.end) for number in spot_numbers(" ".join(words))]
    tears = [0]
    for at in range(1, len(words)):
        if any(start < starts[at] < end for start, end in spans):
            tears.append(_NEVER)
        else:
            tears.append(_tear(words[at - 1], words[at].casefold()))
    return [*tears, 0]


def _tear(before: str, after: str) -> int:
    if _ENDS.search(before):
        return 0
    if _PAUSES.search(before):
        return 1
    if before.casefold() in _CLINGS:
        return 8
    if after in ("by", "x", "×"):
        return 6
    return 3 if after in _BEFORE else 5
