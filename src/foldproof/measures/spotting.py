"""The numbers in a passage of prose, each with what it measures."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from foldproof.frozen import dataclass
from foldproof.measures.neighbours import Neighbours, an_age, counted, made_of, measuring_word, ordinal_before
from foldproof.measures.number_words import ARTICLES, Said, and_part_after_unit, read_number
from foldproof.measures.prose import Bit, Part, cut_up
from foldproof.measures.prose_units import unit_after, unit_word_at
from foldproof.measures.spotted import Sense, Spotted
from foldproof.measures.units import CURRENCY_SIGNS, LENGTHS, TIMES

_SHARED = (Sense.LENGTH, Sense.TIME, Sense.ANGLE, Sense.WEIGHT, Sense.PERCENT, Sense.COUNT)
_SIZE_SIGNS = (("x",), ("by",))
_SIZE_WORDS = ("wide", "tall", "high", "long", "deep", "across")
_NO_INCH_AFTER = ("ruler", "rule", "scale", "recipe", "edition", "side", "tape", "mark", "marks", "grid", "card")
_BEFORE_BARE_WORDS = ("at", "by", "to", "is", "from", "measures", "measure", "score", "be", "of", "x")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Item:
    """A number among the tokens."""

    first: int
    last: int
    """The token after it, unit included."""
    value: Fraction
    sense: Sense
    unit: str | None
    said: Said
    part: int = 0
    chained: bool = False
    """Its unit came from a number further on: `2 1/8 and 6 3/8 in`."""
    follows: bool = False
    """It continues the size or range of the number before it."""


@lru_cache(maxsize=2048)  # the checks ask for the same passages again and again
def spot_numbers(text: str) -> tuple[Spotted, ...]:
    """Find the numbers in a passage of Markdown, in order, each with what it counts or measures.

    Figures, fractions in every written form, and spelled-out numbers; sizes and lists share the unit that stands at
    their end. Words that merely look like numbers (`half round`, `quarter turn`, `one of the pieces`, `the second`,
    `A2`, `C6`) are not numbers; `step 3`, `2nd` and `#10` are ordinals.
    """
    bits = cut_up(text)
    items = _joined(bits, _found(text, bits))
    spotted: list[Spotted] = []
    for index, item in enumerate(items):
        around = Neighbours.at(text, bits, item.first, item.last)
        before = spotted[-1] if item.follows and spotted else None
        measures = item.sense is Sense.BARE or item.sense is Sense.LENGTH
        spotted.append(Spotted(
            value=item.value, sense=item.sense, unit=item.unit, start=bits[item.first].start,
            end=bits[item.last - 1].end, written=text[bits[item.first].start:bits[item.last - 1].end],
            hedged=around.hedged or (before is not None and before.hedged), before=" ".join(around.before[-4:]),
            after=" ".join(around.after[:4]), part=item.part, restates=_restates(bits, items, index),
            beside=measuring_word(around, item.value, bare=item.sense is Sense.BARE) if measures else None,
        ))
    return tuple(spotted)


def _found(text: str, bits: Sequence[Bit]) -> list[_Item]:
    items: list[_Item] = []
    at, listed, quote = 0, 0, None
    while at < len(bits):
        bit = bits[at]
        marker = _list_marker(text, bits, at, listed)
        item = marker or _item_at(text, bits, at, quote)
        if marker:
            listed = int(marker.value)
        if item and items and item.first < items[-1].last:
            item = replace(item, first=at)  # the sign before it belongs to another number
        if item:
            items.append(item)
            at = item.last
            continue
        quote = _quote(bit, quote)
        at += 1
    return items


def _quote(bit: Bit, opened: str | None) -> str | None:
    """Give the mark that would close the quotation open after a token."""
    if bit.text == opened:
        return None
    return {'"': '"', "“": "”"}.get(bit.text, opened) if opened is None else opened


def _list_marker(text: str, bits: Sequence[Bit], at: int, listed: int) -> _Item | None:
    """Read the number of an item in a numbered list: at the start of a line, before a stop or a bracket, in order."""
    bit = bits[at]
    if not bit.whole or at + 1 >= len(bits) or (bit.value != 1 and bit.value != listed + 1):
        return None
    after = bits[at + 1]
    if after.text not in (".", ")") or after.spaced:
        return None
    if text[text.rfind("\n", 0, bit.start) + 1:bit.start].strip():
        return None
    said = Said(value=bit.value, end=at + 1, word=False)
    return _Item(first=at, last=at + 1, value=bit.value, sense=Sense.ORDINAL, unit=None, said=said)


def _item_at(text: str, bits: Sequence[Bit], at: int, quote: str | None) -> _Item | None:
    bit = bits[at]
    if bit.text == "twice":
        return _Item(first=at, last=at + 1, value=Fraction(2), sense=Sense.COUNT, unit="times",
                     said=Said(value=Fraction(2), end=at + 1))
    if bit.text in CURRENCY_SIGNS and at + 1 < len(bits) and bits[at + 1].part is Part.FIGURE:
        said = Said(value=bits[at + 1].value, end=at + 2, word=False)
        return _Item(first=at, last=at + 2, value=said.value, sense=Sense.MONEY, unit=bit.text, said=said)
    if bit.text in ARTICLES:
        one = _an_inch(bits, at)
        if one:
            return one
    said_or_none = read_number(bits, at)
    if said_or_none is None:
        return None
    said = said_or_none
    if bit.part is Part.FIGURE and at and bits[at - 1].text == "#" and not bit.spaced:
        return _Item(first=at - 1, last=said.end, value=said.value, sense=Sense.ORDINAL, unit=None, said=said)
    suffix = bits[said.end] if said.end < len(bits) else None
    if bit.whole and suffix and suffix.text in ("st", "nd", "rd", "th") and not suffix.spaced:
        return _Item(first=at, last=said.end + 1, value=said.value, sense=Sense.ORDINAL, unit=None, said=said)
    following = unit_after(bits, said, quote)
    if following is None and said.loose_half and not _second_side(bits, at):
        return None
    if following is None:
        return _without_unit(text, bits, at, said)
    return _with_tail(bits, _Item(first=at, last=following.end, value=said.value, sense=following.sense,
                                  unit=following.unit, said=said), quote)


def _first_side(bits: Sequence[Bit], after: int) -> bool:
    """Whether a size begins with the number before a token: `a piece 2 x 3 in`."""
    return after + 1 < len(bits) and (bits[after].text,) in _SIZE_SIGNS and read_number(bits, after + 1) is not None


def _second_side(bits: Sequence[Bit], at: int) -> bool:
    """Whether a size goes on at a token: `four by a half`, but not `cut it by half`."""
    if at < 2 or (bits[at - 1].text,) not in _SIZE_SIGNS:
        return False
    before = bits[at - 2]
    return before.part is Part.FIGURE or unit_word_at(bits, at - 2) is not None or read_number(bits, at - 2) is not None


def _an_inch(bits: Sequence[Bit], at: int) -> _Item | None:
    """Read `an inch`, `an inch and a half`, `an hour`; `a second` may be a place in a row, so it is passed over."""
    found = unit_word_at(bits, at + 1)
    if not found or bits[at + 1].text == "second":
        return None
    if found.end < len(bits) and (bits[found.end].text in _NO_INCH_AFTER or bits[found.end].text == "-"):
        return None
    said = Said(value=Fraction(1), end=at + 1)
    item = _Item(first=at, last=found.end, value=Fraction(1), sense=found.sense, unit=found.unit, said=said)
    return _with_tail(bits, item, None)


def _with_tail(bits: Sequence[Bit], item: _Item, quote: str | None) -> _Item:
    """Take in what belongs to a number after its unit: `and a half`, and smaller units (`1 h 30 min`)."""
    if item.sense not in (Sense.LENGTH, Sense.TIME):
        return item
    tail = and_part_after_unit(bits, item.last)
    if tail and item.value.denominator == 1:
        return replace(item, value=item.value + tail[0], last=tail[1])
    at = item.last + 1 if item.last < len(bits) and bits[item.last].text == "and" else item.last
    said = read_number(bits, at) if at < len(bits) else None
    smaller = unit_after(bits, said, quote) if said else None
    if not said or not smaller or not smaller.unit or smaller.sense is not item.sense:
        return item
    if item.unit in ("h", "min", "ft"):
        table = TIMES if item.sense is Sense.TIME else LENGTHS
        share = said.value * table[smaller.unit] / table[item.unit]
        if share < 1:
            return replace(item, value=item.value + share, last=smaller.end)
    return item


def _without_unit(text: str, bits: Sequence[Bit], at: int, said: Said) -> _Item | None:
    """Judge a number with no unit by the words round it: what it counts, its place in a row, or a bare measure."""
    around = Neighbours.at(text, bits, at, said.end)
    item = _Item(first=at, last=said.end, value=said.value, sense=Sense.BARE, unit=None, said=said)
    if said.word and said.fraction and around.after[:1] in ((), ("the",)) and around.after[:1]:
        return None
    if ordinal_before(around) and said.value.denominator == 1 and not said.word and not _first_side(bits, said.end):
        return replace(item, sense=Sense.ORDINAL)
    after = bits[said.end] if said.end + 1 < len(bits) else None
    if after and after.text == "-" and not after.spaced and bits[said.end + 1].part is Part.WORD and (
        not bits[said.end + 1].spaced and read_number(bits, said.end + 1) is None
    ):  # `two-piece`, `3-D`
        return None if said.word else replace(item, sense=Sense.OTHER)
    if at > 1 and bits[at - 1].text == "or" and bits[at].text == "two" and unit_word_at(bits, at - 2):
        return None  # `a minute or two`
    year = said.value.denominator == 1 and 1900 <= said.value < 2100 and len(bits[at].text) == 4
    if an_age(around) or (year and not said.word):
        return replace(item, sense=Sense.OTHER)
    if said.value.denominator == 1 and made_of(around):
        return replace(item, sense=Sense.COUNT)
    found = counted(around, said)
    if said.lone_one and not (found and found in _COUNTED_ONE):
        return item if _bare_one(around) else None
    if found:
        return replace(item, sense=Sense.COUNT, unit=found)
    if at and bits[at - 1].text == "in" and said.word:
        return None
    if said.word and said.value.denominator == 1 and around.before[-1:] and around.before[-1] not in _BEFORE_BARE_WORDS:
        joined = around.after[:1] and around.after[0] in ("by", "x", *_SIZE_WORDS)
        if not joined and not around.next_number:
            return replace(item, sense=Sense.COUNT)
    return item


_COUNTED_ONE = ("piece", "pieces", "sheet", "strip", "time", "layer", "dot", "mat", "panel", "card", "square", "circle")


def _bare_one(around: Neighbours) -> bool:
    if around.before[-1:] in (("by",), ("x",)):
        return around.before[-2:-1] != ("one",)  # `five by one`, but `one by one`
    return around.before[-1:] == ("at",) and (not around.after or around.after[0] in ("and", "then", "from", "inch"))


def _joined(bits: Sequence[Bit], found: Sequence[_Item]) -> list[_Item]:
    """Let sizes, ranges and lists share the unit at their end; number the parts of sizes."""
    items = list(found)
    for index in range(len(items) - 2, -1, -1):
        left, right = items[index], items[index + 1]
        between = tuple(bit.text for bit in bits[left.last:right.first])
        size = between[-1:] in _SIZE_SIGNS and (len(between) == 1 or (len(between) == 2 and between[0] in _SIZE_WORDS))
        if size and right.sense is Sense.COUNT and _may_join(left) and not left.said.lone_one:
            right = replace(right, sense=Sense.BARE, unit=None)  # `a 12 x 12 sheet`
        if size and _may_join(left) and _may_join(right):
            right = replace(right, follows=True, part=max(right.part, 2), sense=Sense.LENGTH)
            left = replace(left, part=1, sense=Sense.LENGTH, unit=left.unit or right.unit)
        elif left.sense is Sense.BARE and right.sense in _SHARED and _listed(between, right):
            left = replace(left, sense=right.sense, unit=right.unit, chained=True)
            right = replace(right, follows=between in (("to",), ("-",)))
        items[index], items[index + 1] = left, right
    for index in range(1, len(items)):
        if items[index].part > 1 or (items[index].part == 1 and items[index].follows):
            before = items[index - 1]
            items[index] = replace(items[index], part=before.part + 1, unit=items[index].unit or before.unit)
    return items


def _may_join(item: _Item) -> bool:
    return item.sense in (Sense.BARE, Sense.LENGTH)


_CHAIN = (("to",), ("-",), ("or",), ("and",), (",", "and"), (",", "or"), ("and", "at"), ("and", "then"), ("then",))


def _listed(between: tuple[str, ...], right: _Item) -> bool:
    if between in _CHAIN:
        return True
    return between == (",",) and right.chained


_AGAIN = ((), ("about",), ("=",), ("or",), ("approx",), ("~",))


def _restates(bits: Sequence[Bit], items: Sequence[_Item], index: int) -> bool:
    """Whether a length gives the one before it once more: another unit, in brackets or after a stroke."""
    item = items[index]
    first = index - max(item.part - 1, 0)
    if first <= 0 or item.sense is not Sense.LENGTH or not item.unit:
        return False
    before = items[first - 1]
    between = tuple(bit.text for bit in bits[before.last:items[first].first])
    opens = between[:1] in (("(",), ("/",), ("=",)) and between[1:] in _AGAIN
    return opens and before.sense is Sense.LENGTH and before.unit is not None and before.unit != item.unit
