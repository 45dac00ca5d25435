"""The names of parts, papers and supplies in a sentence."""

import re

from foldproof.facts.tools import ADHESIVES, TOOLS
from foldproof.frozen import dataclass
from foldproof.recipe.colours import COLOUR_WORDS
from foldproof.recipe.naming import LONGEST_NAME, TRUTH_WORDS

PIECE_NOUNS = ("base", "card", "front", "back", "cover", "band", "sleeve", "stand", "pocket", "lid", "box", "cb")
LAYER_NOUNS = (
    "mat", "panel", "layer", "label", "tag", "banner", "strip", "frame", "backing", "insert", "liner", "lining",
    "piece", "sentiment", "stop", "square", "circle", "rectangle", "triangle", "ornament", "flag", "scrap", "matting",
    "mount")
_SHORT_FOR = {"cb": "base", "card base": "base", "matting": "mat"}
_PAPERS = ("cardstock", "card stock", "card", "paper", "vellum", "dp", "cs", "designer paper")
_MORE_COLOURS = frozenset((
    "cream", "kraft", "sand", "sea", "mint", "sage", "rose", "moss", "slate", "charcoal", "mustard", "rust", "shell"))
COLOURS = COLOUR_WORDS | _MORE_COLOURS
_PASSED_OVER = """
a an the of in on at to for from with and or by your my our its it each one two three four five six another other
cut trim make made take add use is are that this same card stock paper glue tape put place lay score fold these then
now next last first second third both all some any piece pieces long short wide tall inch inches mm cm finished
closed step whole new half sheet sheets so you i we letter was
"""
_NO_MODIFIER = frozenset(_PASSED_OVER.split())
"""Words before a part that tell nothing of it."""
_SUPPLIES = (
    "ribbon", "twine", "thread", "string", "lace", "cord", "sequins", "brads", "brad", "ink", "foam", "foam strips",
    "foam squares", "glue dots", "embossing powder", "pearls", "envelope")
_NOUNS = "|".join((*PIECE_NOUNS, *LAYER_NOUNS))
_NOUN = re.compile(
    rf"(?:\b([A-Za-z]+)[ -])?(?:\b([A-Za-z]+)[ -])?\b({_NOUNS})(?:s|es)?\b(?![ -](?:{_NOUNS})(?:s|es)?\b)",
    re.IGNORECASE)
"""A part, with up to two words before it; a part's name before another's only tells which (`front mat`)."""
_KINDS = "|".join(sorted(_PAPERS, key=len, reverse=True))
_PAPER = re.compile(
    rf"(?:\b([A-Za-z]\w*)[ -])?\b({_KINDS})\b(?! (?:trimmer|cutter|base|front|back|punch|card))", re.IGNORECASE)
_OF_CARD = re.compile(r"\bof (?:[a-z]+ ){0,2}$", re.IGNORECASE)
"""A card that something else is made of: `a strip of yellow card`."""
_COUNTS = re.compile(r"\b(two|three|four|five|six|[2-9])\b[^,;.:]*$", re.IGNORECASE)
_ENDS = re.compile(r"[^\w' -]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Noun:
    """A part that a sentence names."""

    name: str
    noun: str
    start: int
    end: int
    colour: str = ""


def part_nouns(text: str) -> tuple[Noun, ...]:
    """Every part that a text names, with the words that tell it from others (`front mat`, `belly band`)."""
    found = []
    for match in _NOUN.finditer(text):
        noun = match[3].casefold()
        if re.match(r"[ -]?(?:stock|board)\b", text[match.end() :], re.IGNORECASE):
            continue
        if noun == "card" and _OF_CARD.search(text[: match.start(3)]):
            continue
        before = [word.casefold() for word in (match[1], match[2]) if word]
        told: list[str] = []
        for word in reversed(before):
            if word in _NO_MODIFIER and not (word == "card" and noun == "base"):
                break
            told.insert(0, word)
        colours = [word for word in told if word in COLOURS]
        words = " ".join((*told, noun))
        words = _SHORT_FOR.get(words, _SHORT_FOR.get(noun, words) if not told else words)
        found.append(Noun(
            name=words, noun=noun, start=match.start(3), end=match.end(), colour=colours[-1] if colours else ""))
    return tuple(found)


def count_before(text: str, noun_end: int) -> str:
    """How many of a part a text speaks of, where it is more than one."""
    found = _COUNTS.search(text[:noun_end])
    return found[1].casefold() if found else ""


def papers_in(text: str, *, listed: bool = False) -> tuple[str, ...]:
    """The papers that a text names: `navy cardstock`, `shell paper`; a colour beside a plain card counts.

    In a list of supplies any card is a paper (`A4 card`).
    """
    found = []
    for match in _PAPER.finditer(text):
        modifier, kind = (match[1] or "").casefold(), match[2].casefold()
        kind = {"card stock": "cardstock", "cs": "cardstock", "dp": "patterned paper"}.get(kind, kind)
        if modifier in _NO_MODIFIER:
            modifier = ""
        if kind == "card" and modifier not in COLOURS and not listed:
            continue
        if modifier or kind != "paper":
            found.append(f"{modifier} {kind}".strip())
    return tuple(dict.fromkeys(found))


def colour_alone(text: str) -> str:
    """A colour that a text names for want of a paper; empty where there is none, or more than one."""
    words = [word for word in re.findall(r"[a-z]+", text.casefold()) if word in COLOURS]
    return words[0] if len(set(words)) == 1 else ""


def tools_in(text: str) -> tuple[str, ...]:
    """Tools that are known by name."""
    return _known(text, tuple((tool.name, *tool.synonyms) for tool in TOOLS))


def supplies_in(text: str) -> tuple[str, ...]:
    """Adhesives and trimmings that are known by name, with the word before them (`white twine`)."""
    found = list(_known(text, tuple((glue.name, *glue.synonyms) for glue in ADHESIVES)))
    if not found and re.search(r"\bglue\b", text, re.IGNORECASE):
        found.append("glue")
    if not any("tape" in name for name in found) and re.search(r"\btape\b", text, re.IGNORECASE):
        found.append("tape")
    for match in re.finditer(rf"(?:\b([A-Za-z]+) )?\b({'|'.join(_SUPPLIES)})\b", text, re.IGNORECASE):
        modifier, noun = (match[1] or "").casefold(), match[2].casefold()
        if noun != "envelope":
            found.append(f"{modifier} {noun}" if modifier in COLOURS else noun)
    return tuple(name for name in dict.fromkeys(found) if not any(each.endswith(f" {name}") for each in found))


def _known(text: str, names: tuple[tuple[str, ...], ...]) -> tuple[str, ...]:
    plain = text.casefold()
    found: dict[str, int] = {}
    for group in sorted(names, key=lambda group: -len(group[0])):
        for name in sorted(group, key=len, reverse=True):
            at = re.search(rf"\b{re.escape(name)}s?\b", plain)
            if at and len(name) > 3:
                plain = plain[: at.start()] + " " * (at.end() - at.start()) + plain[at.end() :]
                found[group[0]] = at.start()
    return tuple(sorted(found, key=lambda name: found[name]))


def trims(name: str) -> bool:
    """Whether a supply is of the kind that is cut to a length and tied."""
    return name.split()[-1] in ("ribbon", "twine", "thread", "string", "lace", "cord")


def usable(words: str, otherwise: str) -> str:
    """A name as a recipe may have it: a letter first, no odd signs, not too long."""
    name = " ".join(_ENDS.sub(" ", words).split()).lstrip("-' ")[:LONGEST_NAME].strip()
    if name.casefold() in ("card", "edge", "found"):  # words that stand for something else in a recipe
        name = f"other {name}"
    return name if name[:1].isalpha() and name.casefold() not in TRUTH_WORDS else otherwise
