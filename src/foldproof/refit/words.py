"""The words of a step that has other numbers now."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from foldproof.checks.binding import Bound, Sense, StepBinding
from foldproof.checks.parameters import Parameter, parameters
from foldproof.folding.card import Card
from foldproof.measures.quantity import Kind, Unit
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.records import StepSpec
from foldproof.recipe.text import Text
from foldproof.refit.numbers import Change, applied, number_like

Known = Mapping[Fraction, Fraction]
"""A size of the old card and what it is on the new one, where there is no doubt which is meant."""


def reworded(step: StepSpec, refitted: StepSpec, binding: StepBinding, known: Known, unit: Unit) -> StepSpec:
    """The refitted step with each number of its words that stood for one of its actions, or for a size of the card."""
    fresh = {(one.action, one.what): one for one in parameters(refitted)}
    moved = {
        old: new for old in parameters(step)
        if (new := fresh.get((old.action, old.what))) is not None and old.value != new.value}
    bound = {passage.name: passage.bound for passage in binding.passages}

    def told(text: Text, name: str) -> Text:
        return replace(text, value=retold(text.value, bound.get(name, ()), moved, known, unit))

    def maybe(text: Text | None, name: str) -> Text | None:
        return None if text is None else told(text, name)

    return replace(
        refitted, title=told(step.title, "title"), text=told(step.text, "text"), say=maybe(step.say, "say"),
        tip=maybe(step.tip, "tip"),
        shots=tuple(replace(shot, say=maybe(shot.say, f"shot {number}"))
                    for number, shot in enumerate(step.shots, start=1)))


def retold(
    text: str, bound: Sequence[Bound], moved: Mapping[Parameter, Parameter], known: Known, unit: Unit,
) -> str:
    """A passage with the numbers that have changed said anew."""
    return applied(text, (
        Change(start=one.mention.start, end=one.mention.end,
               said=number_like(text[one.mention.start:one.mention.end], value, unit))
        for one, value in _values(bound, moved, known)))


def _values(
    bound: Sequence[Bound], moved: Mapping[Parameter, Parameter], known: Known,
) -> Iterator[tuple[Bound, Fraction]]:
    for one in bound:
        if one.parameter is not None and one.parameter in moved:
            yield one, moved[one.parameter].value
        elif one.sense is Sense.KNOWN and one.mention.kind is Kind.LENGTH and one.mention.value in known:
            yield one, known[one.mention.value]


def known_changes(old: Card, new: Card) -> Known:
    """The widths and heights of pieces, panels and the closed card that have become others, each with one meaning."""
    found: dict[Fraction, set[Fraction]] = {}
    for before, after in paired_sizes(old, new):
        found.setdefault(before, set()).add(after)
    stays = {side.value for paper in old.recipe.papers if paper.sheet is not None for side in paper.sheet}
    return {
        before: next(iter(after)) for before, after in found.items()
        if len(after) == 1 and before not in after and before not in stays}


def paired_sizes(old: Card, new: Card) -> Iterator[tuple[Fraction, Fraction]]:
    """Each width and height of a panel, of a piece and of the closed card: on the old card, on the new one."""
    for name, panel in old.panels.items():
        if name in new.panels:
            yield from _pair(bounding_box(panel.ring), bounding_box(new.panels[name].ring))
    for piece in old.pieces:
        other = new.piece(piece.name)
        if other is not None:
            yield from _pair(bounding_box(piece.outline), bounding_box(other.outline))
    if old.closed is not None and new.closed is not None:
        yield old.closed.width, new.closed.width
        yield old.closed.height, new.closed.height


def _pair(before: object, after: object) -> Iterator[tuple[Fraction, Fraction]]:
    for side in ("width", "height"):
        yield getattr(before, side), getattr(after, side)
