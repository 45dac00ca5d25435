"""The numbers that a passage mentions, as far as they may stand for something that hands set."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Kind, Unit
from foldproof.measures.spotted import Sense as Spot
from foldproof.measures.spotted import Spotted
from foldproof.measures.spotting import spot_numbers
from foldproof.recipe.pinpoint import NO_TEXTS, place_in
from foldproof.recipe.records import Text

_KINDS = {Spot.LENGTH: Kind.LENGTH, Spot.BARE: Kind.LENGTH, Spot.TIME: Kind.TIME, Spot.ANGLE: Kind.ANGLE,
          Spot.COUNT: Kind.NUMBER}
_METRIC = ("mm", "cm", "m")
_SIZE_WORDS = ("wide", "tall", "high", "long", "deep", "across", "square")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mention:
    """A number in a passage."""

    passage: str
    """`title`, `text`, `say`, `tip`, `shot 2`."""
    start: int
    """Character offset in the passage's text, unfilled."""
    end: int
    written: str
    kind: Kind
    value: Fraction
    """A length in the recipe's unit, a time in seconds, an angle in degrees, else the count."""
    unit: str | None
    """As spotted: `in`, `mm`, `sheets`; None where none is written."""
    beside: str | None
    """The measuring word that it stands beside: `score`, `cut`, `mark`, `mat`."""
    joined: bool
    """Whether it is the second or third number of a size, `x` or `by` before it."""
    before: str
    """The words before it."""
    after: str
    """The words after it."""
    place: Place
    """Of the number itself where it can be told (see pinpoint), else of the passage."""
    converts: "Mention | None" = None
    """The mention that it gives once more in another unit."""


def mentions_in(text: Text, passage: str, unit: Unit, texts: Mapping[str, str] = NO_TEXTS) -> tuple[Mention, ...]:
    """Every number that may stand for a length, a time, an angle or a count, in order.

    Loose ones (`about`, `a hair under`), weights, prices, percentages, shares and ordinals are passed over, and so are
    references to measures. A bare number is a length in the recipe's unit only beside `score` and its like, in a size,
    or before `wide`, `tall` and their like.
    """
    found: list[Mention] = []
    sizes: list[Mention] = []
    for spotted in spot_numbers(text.value):
        kind = _KINDS.get(spotted.sense)
        if kind is None or spotted.hedged or (spotted.sense is Spot.BARE and not _measures(spotted)):
            continue
        mention = Mention(
            passage=passage, start=spotted.start, end=spotted.end, written=spotted.written, kind=kind,
            value=spotted.amount(unit), unit=spotted.unit, beside=spotted.beside, joined=spotted.part > 1,
            before=spotted.before, after=spotted.after, place=place_in(text, spotted.start, spotted.end, texts))
        if kind is Kind.LENGTH and spotted.restates:
            partner = _restated(sizes, spotted.part)
            if partner is not None:
                found.append(replace(mention, converts=partner))
                continue
        if kind is Kind.LENGTH:
            sizes = [*sizes, mention] if mention.joined else [mention]
        found.append(mention)
    return tuple(found)


def _measures(spotted: Spotted) -> bool:
    if spotted.beside is not None or spotted.part > 0 or spotted.after.split(" ")[0] in _SIZE_WORDS:
        return True
    return _in_range(spotted)


def _in_range(spotted: Spotted) -> bool:
    """Whether it ends or begins a range in figures: `from 34 to 68`."""
    before, after = spotted.before.split(), spotted.after.split()
    ends = before[-1:] == ["to"] and before[-3:-2] == ["from"] and before[-2][:1].isdigit()
    begins = before[-1:] == ["from"] and after[:1] == ["to"] and after[1:2] != [] and after[1][:1].isdigit()
    return ends or begins


def _restated(sizes: list[Mention], part: int) -> Mention | None:
    """The mention that a conversion goes with: part for part of the size before it."""
    if not sizes:
        return None
    return sizes[part - 1] if 0 < part <= len(sizes) else sizes[-1]

