"""The words round a number in prose, and what they say about it."""

import re
from collections.abc import Sequence
from fractions import Fraction
from itertools import takewhile

from foldproof.frozen import dataclass
from foldproof.measures.number_words import Said, read_number
from foldproof.measures.prose import Bit, Part

_STOPS = (".", "!", "?", ";", ":", "(", ")", "\0")
_LOOSE_BEFORE = re.compile(
    r"(?:\b(?:about|roughly|nearly|approximately|approx|around|almost|circa|scant|generous)"
    r"|\b(?:hair|touch|whisker|little|bit|shade|tad|fraction|just|slightly|barely) "
    r"(?:under|over|less than|more than|short of|shy of|past|below|above|inside|beyond)"
    r"|\b(?:at least|at most|no more than|not more than|no less than|less than|more than|fewer than|within))$"
)
_LOOSE_AFTER = re.compile(
    r"(?:or so|or thereabouts|or two|ish|give or take|roughly|approximately|at most|at least|or more|or less)\b"
)
_MEASURING = {
    **dict.fromkeys(("score", "scores", "scored", "scoring"), "score"),
    **dict.fromkeys(("cut", "cuts", "cutting"), "cut"),
    **dict.fromkeys(("trim", "trims", "trimmed", "trimming"), "trim"),
    **dict.fromkeys(("mark", "marks", "marked", "marking"), "mark"),
    **dict.fromkeys(("mat", "mats", "matted"), "mat"),
    **dict.fromkeys(("measure", "measures", "measured", "measuring"), "measure"),
    **dict.fromkeys(("border", "borders", "margin", "margins"), "border"),
    **dict.fromkeys(("gap", "gaps"), "gap"),
}
_AFTER = ("border", "mat", "mark", "gap")


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


_NO_NOUN = _words("""
    at from in on to and or then with for of by again as so but along across down up off over under into onto before
    after when while until if is are was were be it its the this that these those each apart wide tall high long deep
    square thick total altogether away left right here there only exactly now toward towards round around through both
    a an your my we you i they also still not inside outside between against below above near
""")
_NOUNS = _words("""
    piece pieces sheet sheets strip strips mats dot dots layer layers door doors panel panels side sides edge edges
    corner corners flap flaps card cards fold folds score scores time times turn turns envelope envelopes square squares
    circle circles bead beads brad brads magnet magnets button buttons stamp stamps people person copies copy rows row
    lines hinges cuts marks triangles rectangles hearts stars pages tabs slits holes loops knots spots drops passes
    strokes hands fingers
""")
_NUMBERED = _words("""
    step steps page pages figure figures fig picture photo part chapter number no row shot version size panel door layer
    piece side flap option tool drawing diagram column line item setting stage round
""")
_MARK_NOUNS = ("mark", "line", "point", "notch", "groove", "position", "stop", "setting")


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbours:
    """The words of the sentence before and after a number, lower case."""

    before: tuple[str, ...]
    after: tuple[str, ...]
    joined_after: tuple[str, ...]
    """The words after it up to the first sign."""
    hedged: bool
    next_number: bool
    """Whether a word such as `and`, `to` or `or` joins another number to it."""

    @classmethod
    def at(cls, text: str, bits: Sequence[Bit], first: int, last: int) -> "Neighbours":
        """Look round the tokens first to last (not included)."""
        before = _back(text, bits, first)
        after, joined = _on(text, bits, last)
        tail = " ".join(before[-5:])
        sign = bits[first - 1].text if first else ""
        loose_after = _LOOSE_AFTER.match(" ".join(after[:3]))
        hedged = bool(_LOOSE_BEFORE.search(tail) or loose_after) or sign in ("~", "≈", "±")
        hyphen_ish = last + 1 < len(bits) and bits[last].text == "-" and bits[last + 1].text == "ish"
        joins = last + 1 < len(bits) and bits[last].text in ("and", "to", "or", "-")
        return cls(before=before, after=after, joined_after=joined, hedged=hedged or hyphen_ish,
                   next_number=joins and read_number(bits, last + 1) is not None)


def _back(text: str, bits: Sequence[Bit], first: int) -> tuple[str, ...]:
    words: list[str] = []
    at = first - 1
    while at >= 0 and len(words) < 8:
        if bits[at].text in _STOPS and not _abbreviation(text, bits, at):
            break
        if bits[at].part in (Part.WORD, Part.FIGURE):
            words.append(bits[at].text)
        at -= 1
    return tuple(reversed(words))


def _on(text: str, bits: Sequence[Bit], last: int) -> tuple[tuple[str, ...], tuple[str, ...]]:
    words: list[str] = []
    joined: list[str] = []
    unbroken, at = True, last
    while at < len(bits) and len(words) < 8:
        if bits[at].text in _STOPS and not _abbreviation(text, bits, at):
            break
        word = bits[at].part is Part.WORD
        if word or bits[at].part is Part.FIGURE:
            words.append(bits[at].text)
        unbroken = unbroken and (word or bits[at].text == "-")
        if unbroken and word:
            joined.append(bits[at].text)
        at += 1
    return tuple(words), tuple(joined)


def _abbreviation(text: str, bits: Sequence[Bit], at: int) -> bool:
    """Whether a full stop ends no sentence: what follows begins with a small letter, or it stands after `no`."""
    if bits[at].text != ".":
        return False
    if at and bits[at - 1].text in ("no", "fig", "approx"):
        return True
    return at + 1 < len(bits) and text[bits[at + 1].start].islower()


def made_of(around: Neighbours) -> bool:
    """Whether a whole number tells how many are to be made: `cut 2 from slate`, `make 3 for the doors`."""
    makes = around.before[-1:] and around.before[-1] in ("cut", "make", "take", "punch", "need", "use")
    return bool(makes) and (not around.after or around.after[0] in ("from", "of", "for", "in", "with", "to"))


def an_age(around: Neighbours) -> bool:
    """Whether a number is somebody's age: `children under three`."""
    return around.before[-1:] in (("under",), ("over",), ("aged",)) and bool(
        {"children", "child", "ages", "anyone", "those"} & set(around.before[-4:-1]))


def ordinal_before(around: Neighbours) -> bool:
    """Whether the word before a number makes it the number of a thing: `step 3`, `steps 3 and 4`, `No. 10`."""
    before = around.before
    if before[-1:] and before[-1] in _NUMBERED:
        return True
    return len(before) > 2 and before[-1] in ("and", "to", "or") and before[-2].isdigit() and before[-3] in _NUMBERED


def counted(around: Neighbours, said: Said) -> str | None:
    """Give what a number without a unit counts, or None where it counts nothing."""
    words = around.joined_after
    if not words:
        return None
    previous = around.before[-1:]
    if previous == ("at",) or (words[0] in _MARK_NOUNS and previous in (("the",), ("to",))):
        return None
    if said.value.denominator != 1:
        return next((word for word in takewhile(lambda word: word not in _NO_NOUN, words[:2]) if word in _NOUNS), None)
    if words[0] == "x":
        return "times"
    if words[0] in _NO_NOUN:
        return None
    nouns = [word for word in words[:3] if word in _NOUNS]
    many = [noun for noun in nouns if noun.endswith("s") or noun == "people"]
    return next(iter(many if many and said.value > 1 else nouns), words[0])


def measuring_word(around: Neighbours, value: Fraction, *, bare: bool) -> str | None:
    """Give the measuring word that a number stands beside, in its plain form.

    The nearest in the six words before it, else in the three after. A bare number that is no whole one, or that `at`
    stands before, measures something even without such a word: then it is `at`.
    """
    for word in reversed(around.before[-6:]):
        if word in _MEASURING:
            return _MEASURING[word]
    for word in around.after[:3]:
        if _MEASURING.get(word) in _AFTER:
            return _MEASURING[word]
    if bare and (value.denominator != 1 or around.before[-1:] == ("at",)):
        return "at"
    return None
