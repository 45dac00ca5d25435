"""Sizes that were said, width by height, and lengths in the other kind of unit."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from foldproof.checks.known import Known, Pair
from foldproof.checks.mentions import Mention
from foldproof.checks.parameters import Parameter, parameters
from foldproof.checks.summary import true_lengths
from foldproof.folding.card import Card
from foldproof.measures.quantity import Kind, Unit
from foldproof.measures.units import LENGTHS

_AT_ONCE = 25
"""Characters between two sizes, where the second only says the first once more."""
_AGAIN = (["that's"], ["thats"], ["so"], ["is"], ["again"], ["yes"], ["right"], ["inches"], ["millimetres"])


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """Whether one side of a size is right, and if not, which number of the step was likely meant."""

    right: bool
    meant: Parameter | None = None


def sizes_said(
    card: Card, mentions: Sequence[Mention], found: Sequence[Parameter], known: Known
) -> Mapping[Mention, Verdict]:
    """A verdict for each side of each size: both sides must be those of one thing, in either order.

    Where one side is right, the other is wrong; where neither is, the nearest size of the step was meant.
    """
    verdicts: dict[Mention, Verdict] = {}
    lengths = [one for one in found if one.kind is Kind.LENGTH]
    set_here = list(_pairs(lengths))
    here = {(a.value, b.value) for a, b in set_here}
    values = {(a.value, b.value) for a, b in pairwise(mentions) if b.joined}
    true = here | set(known.ordered) | set(known.either)
    if all(pair in values or pair[::-1] in values for pair in here):
        true |= set(_of_pieces(card))  # all that this step sets has been said, so another is another step's
    before: Mention | None = None
    times: Counter[Pair] = Counter()
    for first, second in pairwise(mentions):
        if not second.joined or first.kind is not Kind.LENGTH or second.kind is not Kind.LENGTH:
            continue
        said = (first.value, second.value)
        again = before is not None and first.start - before.end < _AT_ONCE and first.before.split()[-1:] in _AGAIN
        times[said] += not again
        before = second
        other = _in_its_place(said, times[said], set_here, values)
        if other is not None and not again:
            verdicts |= dict(_verdicts(card, (first, second), other))
        elif _among(card, (first, second), said, true):
            verdicts |= {first: Verdict(right=True), second: Verdict(right=True)}
        elif ways := [pair for a, b in set_here for pair in ((a, b), (b, a))]:
            nearest = min(ways, key=lambda pair: _off(said, (pair[0].value, pair[1].value)))
            if _off(said, (nearest[0].value, nearest[1].value))[0] > 1 and said in _of_pieces(card):
                verdicts |= {first: Verdict(right=True), second: Verdict(right=True)}  # another step's, told ahead
                continue
            verdicts |= dict(_verdicts(card, (first, second), nearest))
    return verdicts


def _verdicts(
    card: Card, mentions: tuple[Mention, Mention], meant: tuple[Parameter, Parameter]
) -> Iterator[tuple[Mention, Verdict]]:
    """Side by side."""
    for mention, parameter in zip(mentions, meant, strict=True):
        right = mention.value == parameter.value or converts(card, mention, [parameter.value])
        yield mention, Verdict(right=right, meant=None if right else parameter)


def _in_its_place(
    said: Pair, times: int, set_here: Sequence[tuple[Parameter, Parameter]], values: set[Pair]
) -> tuple[Parameter, Parameter] | None:
    """The size that is never said, where this one is said once too often and they differ in one side."""
    if times <= sum((a.value, b.value) == said for a, b in set_here) or said not in {
        (a.value, b.value) for a, b in set_here
    }:
        return None
    never = [(a, b) for a, b in set_here if (a.value, b.value) not in values and (b.value, a.value) not in values]
    return next((pair for pair in never if _off(said, (pair[0].value, pair[1].value))[0] == 1), None)


def converts(card: Card, mention: Mention, values: Sequence[Fraction], unit: str | None = None) -> bool:
    """Whether it gives one of the lengths in the other kind of unit, as far as its own fineness goes."""
    own, said_in = card.recipe.unit, unit or mention.unit
    millimetres = LENGTHS.get(said_in or "")
    if mention.kind is not Kind.LENGTH or millimetres is None or millimetres == own.millimetres:
        return False
    ratio = own.millimetres / millimetres
    printed = mention.value * ratio if mention.unit is not None else mention.value
    exact = (said_in == "in") is (own is Unit.INCH)
    slack = Fraction(0) if exact else Fraction(1, 2 * printed.denominator)
    return any(abs(printed - value * ratio) <= slack for value in values)


def of_the_card(card: Card) -> frozenset[Fraction]:
    """Every length that is true of the card or set by any of its steps."""
    set_by_steps = {one.value for step in card.recipe.steps for one in parameters(step) if one.kind is Kind.LENGTH}
    return frozenset(true_lengths(card)) | set_by_steps


def _pairs(lengths: Sequence[Parameter]) -> Iterator[tuple[Parameter, Parameter]]:
    """Width and height of each cut, and of each size to check."""
    for first, second in pairwise(lengths):
        if first.action == second.action and first.what.startswith("width") and second.what.startswith("height"):
            yield first, second


def _of_pieces(card: Card) -> Iterator[Pair]:
    """Sizes that any step of the recipe cuts or checks."""
    for step in card.recipe.steps:
        found = [one for one in parameters(step) if one.kind is Kind.LENGTH]
        yield from ((a.value, b.value) for a, b in _pairs(found))


def _among(card: Card, mentions: tuple[Mention, Mention], said: Pair, true: set[Pair]) -> bool:
    if said in true or said[::-1] in true:
        return True
    return any(
        all(converts(card, mention, [side]) for mention, side in zip(mentions, way, strict=True))
        for pair in true
        for way in (pair, pair[::-1])
    )


def _off(said: Pair, pair: Pair) -> tuple[int, Fraction]:
    """How many sides differ, then by how much in all."""
    differences = [abs(a - b) for a, b in zip(said, pair, strict=True)]
    return sum(map(bool, differences)), sum(differences, Fraction(0))
