"""The manner of speech: what is said of other things, taken back, warned against or told in passing."""

import re

from foldproof.checks.mentions import Mention, mentions_in
from foldproof.findings.finding import Place
from foldproof.measures.quantity import Kind, Unit
from foldproof.recipe.text import Text

_NOWHERE = Place(file="", line=1, column=1)
_COMPARED = re.compile(
    r"(?:narrower|wider|shorter|longer|taller|smaller|bigger|larger|less|more|apart|thicker|thinner|away|at a time)\b")
"""After these a length is a difference or a distance that no step sets."""
_STOCK = re.compile(r"(?:strip|sheets?|paper|card|cardstock|board|ruler|roll|square|pack|pad)\b")
"""What comes in sizes of its own."""
_WAITING = re.compile(r"\b(?:dr(?:y|ies|ying)|wait|leave|let|press|hold|set|under a)\b")
_TURNING = re.compile(r"\b(?:turn|rotat|spin|swing)\w*")
_NEGATED = re.compile(
    r"(?:\b(?:not|never|rather than|instead of|without|used to be)|n't)\W+"
    r"(?!forget|worry|miss)(?:(?!but\b)\w+\W+){0,4}$")
_TAKEN_BACK = re.compile(
    r"\W*(?:\w+\W+){0,4}?(?:sorry|no|i mean|rather|correction|make that|oops|whoops|i should say|"
    r"that's wrong|scratch that)\b")
_ELSEWHERE = re.compile(
    r"\b(?:last|other|previous|earlier|older|bigger|smaller) (?:video|time|card|year|class|recording|version)\b"
    r"[^.!?]*$")
_PAST = re.compile(r"(?:\W+(?:\w+\W+){0,7}?)(?:past|plus)\b")
_BACK = re.compile(r"\b(?:was|were|did|remember|earlier|before)\b")
_RESULTS = re.compile(r"\b(?:leaves|leaving|gives|giving|left with)\b")


def meant_mentions(text: str, unit: Unit) -> tuple[Mention, ...]:
    """The numbers that say what hands set. Times count where something waits, angles where something turns."""
    passage = Text(value=text, place=_NOWHERE)
    return tuple(mention for mention in mentions_in(passage, "said", unit) if _counts(text, mention))


def _counts(text: str, mention: Mention) -> bool:
    before = text[max(0, mention.start - 60):mention.start].casefold()
    after = text[mention.end:mention.end + 110].casefold()
    if _NEGATED.search(before) or _ELSEWHERE.search(before) or _taken_back(after):
        return False
    match mention.kind:
        case Kind.TIME:
            return _WAITING.search(before[-40:]) is not None
        case Kind.ANGLE:
            return _TURNING.search(before[-40:]) is not None
    return mention.kind is Kind.LENGTH


def _taken_back(after: str) -> bool:
    """Whether it is corrected at once: `a quarter, sorry, an eighth`. A number must follow."""
    found = _TAKEN_BACK.match(after[:60])
    if found is None:
        return False
    passage = Text(value=f"at {after[found.end():found.end() + 50]}", place=_NOWHERE)
    return any(mention.kind is Kind.LENGTH for mention in mentions_in(passage, "said", Unit.INCH))


def in_passing(text: str, mention: Mention) -> bool:
    """Whether it compares two things, or is a mark that the number is counted on from: `the two, and one past`."""
    return bool(_COMPARED.match(mention.after) or _PAST.match(text[mention.end:mention.end + 50].casefold()))


def of_stock(mention: Mention) -> bool:
    """Whether it is said of a sheet or a strip as it is bought."""
    return _STOCK.match(mention.after) is not None


def looks_back(mention: Mention) -> bool:
    """Whether it is said of something done before."""
    return _BACK.search(mention.before) is not None


def results(mention: Mention) -> bool:
    """Whether it says what comes out, rather than what is set: `that leaves four and a quarter`."""
    return _RESULTS.search(mention.before) is not None
