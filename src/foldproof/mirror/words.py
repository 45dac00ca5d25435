"""The words of a step for the mirrored card: direction words changed over, distances from the stop said anew."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from foldproof.checks.binding import Bound, StepBinding
from foldproof.checks.parameters import Parameter, parameters
from foldproof.measures.quantity import Unit
from foldproof.mirror.directions import changed_directions, direction_changes
from foldproof.mirror.hands import from_stop
from foldproof.recipe.actions import Action, Note
from foldproof.recipe.records import StepSpec
from foldproof.recipe.text import Text
from foldproof.refit.numbers import Change, applied, number_like

_FROM_ITS_END = re.compile(
    r"^(?:\s+(?:in|inches|mm|cm))?\s+(?:in\s+)?from\s+(?:the|its)\s+(left|right)\b", re.IGNORECASE)
"""After a distance from the stop: the end that it is measured from, which stays as it is."""
_SET_AT = re.compile(r"\b(left|right)(?:-hand)?\s+(?:edge|end)\s+at\s+$", re.IGNORECASE)
"""Before a distance from the stop: the edge that is set there stays as well."""


def mirrored_words(step: StepSpec, mirrored: StepSpec, binding: StepBinding, unit: Unit) -> StepSpec:
    """The mirrored step with the words of the original, changed to go with its actions.

    `step` is the original, `mirrored` the same step with its records changed over, `binding` what the numbers in the
    original's words stand for. Photographs are left out: they show the other card.
    """
    moved = {
        old: new for old, new in zip(parameters(step), parameters(mirrored), strict=True) if old.value != new.value}
    bound = {passage.name: passage.bound for passage in binding.passages}

    def told(text: Text, name: str) -> Text:
        return replace(text, value=retold(text.value, step, bound.get(name, ()), moved, unit))

    def maybe(text: Text | None, name: str) -> Text | None:
        return None if text is None else told(text, name)

    return replace(
        mirrored, id=step.id, title=told(step.title, "title"), text=told(step.text, "text"),
        say=maybe(step.say, "say"), tip=maybe(step.tip, "tip"), caution=maybe(step.caution, "caution"), picture=None,
        actions=tuple(
            _noted(action, fresh, unit) for action, fresh in zip(step.actions, mirrored.actions, strict=True)),
        shots=tuple(
            replace(fresh, say=maybe(shot.say, f"shot {number}"), framing=shot.framing)
            for number, (shot, fresh) in enumerate(zip(step.shots, mirrored.shots, strict=True), start=1)))


def _noted(action: Action, mirrored: Action, unit: Unit) -> Action:
    if isinstance(action, Note) and isinstance(mirrored, Note):
        return replace(mirrored, words=changed_directions(action.words, unit))
    return mirrored


def retold(
    text: str, step: StepSpec, bound: Sequence[Bound], moved: Mapping[Parameter, Parameter], unit: Unit,
) -> str:
    """A passage with its direction words changed over and the numbers that have moved said anew."""
    numbers = [
        (one.mention, moved[one.parameter]) for one in bound if one.parameter is not None and one.parameter in moved]
    at_stop = [one.mention for one in bound if one.parameter is not None and _from_stop(step, one.parameter)]
    stay = [
        *(mention.end + found.start(1) for mention in at_stop
          if (found := _FROM_ITS_END.match(text[mention.end:])) is not None),
        *(found.start(1) for mention in at_stop
          if (found := _SET_AT.search(text[:mention.start])) is not None)]
    return applied(text, (
        *direction_changes(text, unit, stay),
        *(Change(start=mention.start, end=mention.end,
                 said=number_like(text[mention.start:mention.end], new.value, unit)) for mention, new in numbers)))


def _from_stop(step: StepSpec, parameter: Parameter) -> bool:
    return parameter.action < len(step.actions) and from_stop(step.actions[parameter.action])
