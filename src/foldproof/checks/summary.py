"""Lengths in the recipe's summary: each is a size that the card has."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from foldproof.checks.check import error
from foldproof.checks.mentions import mentions_in
from foldproof.checks.phrases import length
from foldproof.facts.envelopes import find_envelope
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind, Quantity
from foldproof.paper.polygon import bounding_box

NOT_THE_CARDS = error(
    "size in the summary that the card has not", "The summary gives a length that nothing in the card has.")


def check_summary(card: Card, making: Making) -> Iterable[Finding]:
    """A named measure, a side of the finished or open card, a sheet, a piece, a panel, a layer, or a gap."""
    summary = card.recipe.summary
    if summary is None:
        return
    true = set(true_lengths(card))
    for mention in mentions_in(summary, "summary", card.recipe.unit, card.recipe.texts):
        if mention.kind is not Kind.LENGTH or mention.converts is not None or mention.value in true:
            continue
        near = min(true, key=lambda value: abs(value - mention.value), default=None)
        yield NOT_THE_CARDS.finding(
            f"The summary says {mention.written}, and nothing in the card has that size"
            f"{f'; the nearest is {length(card, near)}' if near is not None else ''}.",
            mend=f"Say {length(card, near)} if that is meant, or put `about` before it." if near is not None else None,
            place=mention.place)


def true_lengths(card: Card) -> Iterator[Fraction]:
    """Every length that something in the card, its paper or its envelope has."""
    recipe, promise = card.recipe, card.recipe.finished
    yield from (measure.value.value for measure in recipe.measures if measure.value.kind is Kind.LENGTH)
    given: list[Quantity | None] = [*promise.size, *(promise.envelope_size or ())]
    given += [side for paper in recipe.papers for side in paper.sheet or ()]
    given += [side for meets in promise.meets for side in (meets.gap, meets.overlap)]
    given += [side for supply in recipe.supplies for side in (supply.length, supply.thickness)]
    given.append(promise.stands.height if promise.stands is not None else None)
    yield from (side.value for side in given if side is not None)
    for ring in (*(piece.outline for piece in card.pieces), *(panel.ring for panel in card.panels.values())):
        box = bounding_box(ring)
        yield from (box.width, box.height)
    for pose in card.poses:
        yield from (side for side in (getattr(pose, "width", None), getattr(pose, "height", None))
                    if isinstance(side, Fraction))
    envelope = find_envelope(promise.envelope.value) if promise.envelope is not None else None
    if envelope is not None:
        yield from (side / recipe.unit.millimetres for side in envelope.size_mm)
