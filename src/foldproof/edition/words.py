"""Words in the other unit: each length says what it stands for on the edition's card."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from foldproof.checks.binding import Bound, Sense
from foldproof.checks.parameters import Parameter, parameters
from foldproof.checks.prose import bind_step, passages_of
from foldproof.edition.roundings import nearest
from foldproof.folding.card import Card
from foldproof.measures.quantity import Kind, Unit
from foldproof.measures.speaking import speak_length
from foldproof.measures.spotted import Sense as Spot
from foldproof.measures.spotted import Spotted
from foldproof.measures.spotting import spot_numbers
from foldproof.measures.units import LENGTHS
from foldproof.measures.writing import with_unit, write_length
from foldproof.recipe.actions import Note
from foldproof.recipe.records import Recipe, StepSpec
from foldproof.recipe.text import Text
from foldproof.refit.numbers import Change, applied
from foldproof.refit.words import paired_sizes

Sizes = Mapping[Fraction, Fraction]
"""Lengths of the first card, in its unit, and what they are on the edition's card, in the other one."""
_SIGN = re.compile(r"(?:\b(?:in|mm|cm)\.?|[\"″])$", re.IGNORECASE)
_SPELLED = re.compile(r"\b(?:inch(?P<s>es)?|(?:milli|centi)met(?:re|er)(?P<m>s)?)$", re.IGNORECASE)
_METRIC = ("mm", "cm", "m")


def sizes_of(old: Card, exact: Card, new: Card) -> Sizes:
    """What each size of the old card has become, where there is no doubt which is meant; sheets and promises too."""
    scale = new.recipe.unit.millimetres / old.recipe.unit.millimetres
    found: dict[Fraction, set[Fraction]] = {}
    for before, after in (*paired_sizes(exact, new), *_stock(exact.recipe, new.recipe)):
        found.setdefault(before * scale, set()).add(after)
    return {before: next(iter(after)) for before, after in found.items() if len(after) == 1}


def _stock(exact: Recipe, new: Recipe) -> Iterator[tuple[Fraction, Fraction]]:
    for one, other in zip(exact.measures, new.measures, strict=True):
        if one.value.kind is Kind.LENGTH:
            yield one.value.value, other.value.value
    for paper, fresh in zip(exact.papers, new.papers, strict=True):
        if paper.sheet is not None and fresh.sheet is not None:
            yield from zip((side.value for side in paper.sheet), (side.value for side in fresh.sheet), strict=True)
    for supply, listed in zip(exact.supplies, new.supplies, strict=True):
        if supply.length is not None and listed.length is not None:
            yield supply.length.value, listed.length.value
    was, now = exact.finished, new.finished
    if was.stands is not None and now.stands is not None:
        yield was.stands.height.value, now.stands.height.value
    if was.envelope_size is not None and now.envelope_size is not None:
        yield from zip((s.value for s in was.envelope_size), (s.value for s in now.envelope_size), strict=True)


def retold_step(old: Card, spec: StepSpec, fresh: StepSpec, sizes: Sizes, unit: Unit) -> StepSpec:
    """The edition's step `fresh`, with the words of the first card's step `spec` in the other unit.

    Seconds that the recipe gives to shots were meant for its own words: with others they are reckoned.
    """
    binding = bind_step(old, spec)
    here = _Words(old=old, sizes=sizes, unit=unit)
    moved = _moved(spec, fresh)
    bound = {passage.name: passage.bound for passage in binding.passages}

    def told(text: Text, name: str) -> Text:
        return replace(text, value=here.retold(text.value, bound.get(name, ()), moved))

    def maybe(text: Text | None, name: str) -> Text | None:
        return None if text is None else told(text, name)

    told_step = replace(
        fresh, title=told(spec.title, "title"), text=told(spec.text, "text"), say=maybe(spec.say, "say"),
        tip=maybe(spec.tip, "tip"), caution=maybe(spec.caution, "caution"),
        actions=tuple(replace(one, words=here.retold(one.words)) if isinstance(one, Note) else one
                      for one in fresh.actions),
        shots=tuple(replace(shot, say=maybe(told_shot.say, f"shot {number}"))
                    for number, (shot, told_shot) in enumerate(zip(fresh.shots, spec.shots, strict=True), start=1)))
    if [text.value for _, text in passages_of(told_step)] == [text.value for _, text in passages_of(spec)]:
        return told_step
    return replace(told_step, shots=tuple(replace(shot, seconds=None) for shot in told_step.shots))


def retold_text(old: Card, text: Text | None, sizes: Sizes, unit: Unit) -> Text | None:
    """A passage that belongs to no step: each length in it is a size of the card, or is rounded."""
    if text is None:
        return None
    return replace(text, value=_Words(old=old, sizes=sizes, unit=unit).retold(text.value))


def _moved(spec: StepSpec, fresh: StepSpec) -> dict[Parameter, Fraction]:
    """What each number of a step has become. A border that has become two distances is the first of them."""
    by_name = {(one.action, one.what): one.value for one in parameters(fresh)}
    first: dict[int, Fraction] = {}
    for one in parameters(fresh):
        first.setdefault(one.action, one.value)
    moved = {}
    for one in parameters(spec):
        value = by_name.get((one.action, one.what), first.get(one.action))
        if value is not None and one.kind is Kind.LENGTH:
            moved[one] = value
    return moved


class _Words:
    """Passages of the old card's recipe, told in the other unit."""

    def __init__(self, *, old: Card, sizes: Sizes, unit: Unit) -> None:
        self._unit, self._sizes = unit, sizes
        self._from = old.recipe.unit
        self._american = old.recipe.language.casefold() in ("en-us", "en")  and self._from is Unit.INCH

    def retold(self, text: str, bound: Sequence[Bound] = (), moved: Mapping[Parameter, Fraction] = {}) -> str:
        by_start = {one.mention.start: one for one in bound}
        changes = []
        for spot in spot_numbers(text):
            one = by_start.get(spot.start)
            if not _is_length(spot, one):
                continue
            if (one is not None and one.sense is Sense.CONVERSION) or spot.restates:
                changes.append(_left_out(text, spot))
            elif (spot.unit in _METRIC) is (self._unit is Unit.INCH) or one is not None or spot.unit is None:
                value = self._value(spot, one, moved)
                changes.append(Change(start=spot.start, end=spot.end, said=self._said(text, spot, value)))
        return applied(text, _apart(changes))

    def _value(self, spot: Spotted, one: Bound | None, moved: Mapping[Parameter, Fraction]) -> Fraction:
        value = spot.amount(self._from)
        if one is not None and one.parameter is not None and one.parameter in moved and (
                one.sense in (Sense.PARAMETER, Sense.REPEAT)):
            return moved[one.parameter]
        if value in self._sizes and not spot.hedged:
            return self._sizes[value]
        return nearest(value * self._from.millimetres / self._unit.millimetres, self._unit)

    def _said(self, text: str, spot: Spotted, value: Fraction) -> str:
        """The number in figures, its unit as the author wrote it: a sign, a word, or none."""
        written, unit = spot.written, self._unit
        if _SIGN.search(written) and written[:1] in "0123456789.½¼¾⅛⅜⅝⅞":
            return with_unit(value, unit)
        spelled = _SPELLED.search(written)
        in_figures = written[:1].isdigit() or written[:1] in ".½¼¾⅛⅜⅝⅞"
        if spelled is None and (in_figures or spot.part or value == 0):
            return write_length(value, unit)
        said = speak_length(value, unit)
        if spelled is None:
            return self._spelling(said)
        words = text[:spot.start].split()
        if not (spelled["s"] or spelled["m"]) and words and words[-1].casefold() in ("a", "an", "the", "one"):
            said = re.sub(r"(?<=inch)es$|(?<=metre)s$", "", said)
        return self._spelling(said)

    def _spelling(self, said: str) -> str:
        return re.sub(r"metre(s?)$", r"meter\1", said) if self._american else said


def _is_length(spot: Spotted, one: Bound | None) -> bool:
    if one is not None:
        return one.mention.kind is Kind.LENGTH
    return spot.sense is Spot.LENGTH and spot.unit in LENGTHS


def _left_out(text: str, spot: Spotted) -> Change:
    """A conversion with the brackets round it: in its own unit it would only say the number twice."""
    opened = text.rfind("(", 0, spot.start)
    closed = text.find(")", spot.end)
    if opened < 0 or closed < 0 or ")" in text[opened:spot.start] or "(" in text[spot.end:closed]:
        return Change(start=spot.start, end=spot.end, said="")
    start = opened - 1 if text[opened - 1:opened] == " " else opened
    return Change(start=start, end=closed + 1, said="")


def _apart(changes: Sequence[Change]) -> Iterator[Change]:
    """Changes that do not overlap: of those that do, the first."""
    end = 0
    for change in sorted(changes, key=lambda one: (one.start, -one.end)):
        if change.start >= end:
            yield change
            end = change.end
