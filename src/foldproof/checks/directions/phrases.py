"""The direction words of a passage: where they stand and what they mean, idioms and adverbs passed over."""

import re

from foldproof.frozen import dataclass
from foldproof.recipe.text import Text

SIDES = ("left", "right", "top", "bottom")
OPPOSITE = {
    "left": "right",
    "right": "left",
    "top": "bottom",
    "bottom": "top",
    "front": "back",
    "back": "front",
    "inside": "outside",
    "outside": "inside",
    "near": "far",
    "far": "near",
    "up": "down",
    "down": "up",
    "quarter clockwise": "quarter anticlockwise",
    "quarter anticlockwise": "quarter clockwise",
    "above": "below",
    "below": "above",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Phrase:
    """A direction word or phrase in a passage."""

    start: int
    """Character offset in the passage's text."""
    end: int
    written: str
    word: str
    """What it comes to: a side, a face, `up`, `down`, `under`, `upright`, `book page`, `half`..."""


_FACED = (
    r"face|side|cross|dots?|outside|inside|lining|front|back|cover|picture|doors?|ridge|is|are|still|stays?|same|again|"
    r"pieces?|backs?|fronts?|print|pattern|mark|panel|piece|mat"
)
_NOUNS = r"half|third|edge|part|corner|panel|end|side|layer"
_PATTERNS: tuple[tuple[str, str], ...] = (
    (r"like (?:the|a) page(?: of a book)?|like a book page", "book page"),
    (r"(?:from )?top to bottom", "top to bottom"),
    (r"(?:a )?half (?:round|turn)|halfway round", "half"),
    (r"(?:a )?quarter turn (?:to the right|clockwise)|(?:a )?quarter clockwise", "quarter clockwise"),
    (
        r"(?:a )?quarter turn (?:to the left|(?:counter|anti)-?clockwise)|(?:a )?quarter (?:counter|anti)-?clockwise",
        "quarter anticlockwise",
    ),
    (r"by a quarter,? (?:counter|anti)-?clockwise", "quarter anticlockwise"),
    (r"by a quarter,? clockwise", "quarter clockwise"),
    (r"(?:counter|anti)-?clockwise", "anticlockwise"),
    (r"clockwise", "clockwise"),
    (r"toward(?:s)? you(?:rself)?", "toward you"),
    (r"away from you(?:rself)?", "away from you"),
    (r"face up", "up"),
    (r"face down", "down"),
    (rf"(?<=\b)(?:{_FACED}) (?P<word>up)(?=\s*(?:[.,;:]|$|and\b|again\b|on\b|in\b|is the\b|,))", "up"),
    (rf"(?<=\b)(?:{_FACED}) (?P<word>down)(?=\s*(?:[.,;:]|$|and\b|again\b))", "down"),
    (r"underneath", "underneath"),
    (r"on top(?! fold)", "on top"),
    (r"on bottom(?! fold| edge)", "on bottom"),
    (r"(?:(?:and|goes|go|flap|panel|half|it|folds?),? )(?P<word>under)(?! (?:an?|three|two|one|\d))", "under"),
    (r"(?P<word>under)(?= the (?:left|right|top|bottom|upper|lower) half)", "under"),
    (r"upright|right way up|upside down", "upright"),
    (r"portrait", "portrait"),
    (r"landscape", "landscape"),
    (r"left-hand", "left"),
    (r"right-hand", "right"),
    (r"left(?! over\b| alone\b| open\b| to dry\b| behind\b| plain\b| out\b)", "left"),
    (
        r"right(?! across\b| in the\b| on to\b| onto\b| over\b| way\b| down\b| along\b"
        r"| away\b(?! from you)| angle| up\b| size\b"
        r"| beside\b| at the\b| next to\b| number\b| order\b| amount\b| through\b| round\b)",
        "right",
    ),
    (r"top(?!ped|s\b)", "top"),
    (r"bottom", "bottom"),
    (rf"upper(?= (?:{_NOUNS}))", "top"),
    (rf"lower(?= (?:{_NOUNS}))", "bottom"),
    (r"inside", "inside"),
    (r"outside", "outside"),
    (r"(?<!in )front(?! of you)", "front"),
    (r"(?:the|its|their|each) (?P<word>back)", "back"),
    (r"(?:plain|on|a) (?P<word>back)(?! (?:to|into|on|up|again|down|in)\b)", "back"),
    (r"(?:^|(?<=[.,;:] ))(?P<word>back)(?= (?:is )?(?:still )?up\b)", "back"),
    (r"near you(?:rself)?", "near you"),
    (r"near(?= (?:left|right|edge|corner|end|side)\b)", "near"),
    (r"far(?= (?:left|right|edge|corner|end|side)\b)", "far"),
    (r"above(?= the (?:top|bottom)\b)", "above"),
    (r"below(?= the (?:top|bottom)\b)", "below"),
)
_RULES = tuple(
    (
        re.compile(
            rf"\b(?:{pattern})\b" if "(?=" not in pattern and "(?!" not in pattern else rf"\b(?:{pattern})",
            re.IGNORECASE,
        ),
        word,
    )
    for pattern, word in _PATTERNS
)
_PASSED_OVER = re.compile(
    r"\b(?:is|be|was|are|have|has|had|what|all|just|that|not|nothing|you) (?:left|right)(?=\s*(?:[.,;:]|$))"
    r"|\b(?:back on back|back to back|front to back|(?<!the )(?<!its )back (?:to|into|on) |in front of"
    r"|left to right|right to left|inside out|top up\b)",
    re.IGNORECASE,
)


def spot_directions(text: Text | str) -> tuple[Phrase, ...]:
    """Every direction phrase of a passage, in order; of two that overlap the longer one."""
    value = str(text)
    taken = [found.span() for found in _PASSED_OVER.finditer(value)]
    found: list[Phrase] = []
    for pattern, word in _RULES:
        for match in pattern.finditer(value):
            start, end = match.span("word") if "word" in pattern.groupindex else match.span()
            if any(start < b and a < end for a, b in taken):
                continue
            taken.append((start, end))
            found.append(Phrase(start=start, end=end, written=value[start:end], word=word))
    return tuple(sorted(found, key=lambda phrase: phrase.start))
