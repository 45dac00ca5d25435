"""The settings of the steps: what a hand sets once, with an error of its own.

Two scores from one setting of the stop share its error, and so do two mats cut one after the other at the same size.
Sizes of what is die cut or bought are taken as exact.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from foldproof.making.table import Making
from foldproof.measures.quantity import Quantity
from foldproof.recipe.actions import Action, CutAcross, CutOff, CutOut, MarkAt, ScoreAt
from foldproof.recipe.records import StepSpec
from foldproof.refit.hands import said

Spot = tuple[int, int, str]
"""Step and action, from 0, and which number of the action."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """A number that is set once and used for one action or several."""

    spots: tuple[Spot, ...]
    step: int
    """The number of the step, from 1, in which it is set."""
    what: str
    """After `the`: `score at 2 1/8 in`, `width of the left mat`."""
    value: Fraction
    """In the recipe's unit."""


def settings_of(making: Making) -> tuple[Setting, ...]:
    """Every setting of the steps, in order."""
    found: list[Setting] = []
    for at, step in enumerate(making.steps):
        own: list[Setting] = []
        for which, action in enumerate(step.spec.actions):
            for name, quantity, what in _numbers(step.spec, action):
                same = next((one for one in own if _shared(one, action, step.spec, name, quantity)), None)
                spot = (at, which, name)
                if same is not None:
                    own[own.index(same)] = replace(same, spots=(*same.spots, spot))
                else:
                    own.append(Setting(spots=(spot,), step=step.number, what=what, value=quantity.value))
        found += own
    return tuple(found)


def with_setting(making: Making, setting: Setting, error: Fraction) -> tuple[StepSpec, ...]:
    """The steps with a setting that is off by an error."""
    steps = [step.spec for step in making.steps]
    for at, which, name in setting.spots:
        actions = list(steps[at].actions)
        actions[which] = _off(actions[which], name, error)
        steps[at] = replace(steps[at], actions=tuple(actions))
    return tuple(steps)


def _numbers(step: StepSpec, action: Action) -> Iterator[tuple[str, Quantity, str]]:
    target = action.piece or (step.piece.value if step.piece is not None else "piece")
    match action:
        case CutOut():
            yield "width", action.size[0], f"width of the {target}"
            yield "height", action.size[1], f"height of the {target}"
        case CutAcross():
            yield "at", action.at, f"cut across the {target}"
        case CutOff():
            yield "width", action.width, f"strip off the {target}"
        case ScoreAt():
            yield "at", action.at, f"score of the {target}"
        case MarkAt():
            yield "at", action.at, f"mark on the {target}"
        case _:
            return


def _shared(setting: Setting, action: Action, step: StepSpec, name: str, quantity: Quantity) -> bool:
    """Whether a number is used as it stands from the action before: the stop, or the trimmer, was not moved."""
    _, which, same = setting.spots[-1]
    before = step.actions[which]
    if same != name or quantity.value != setting.value or type(before) is not type(action):
        return False
    if isinstance(action, CutOut) and isinstance(before, CutOut) and _size(before) != _size(action):
        return False
    between = step.actions[which + 1:step.actions.index(action, which + 1)]
    return not any(isinstance(one, type(action)) for one in between) and not isinstance(action, MarkAt)


def _size(cut: CutOut) -> tuple[Fraction, Fraction]:
    return cut.size[0].value, cut.size[1].value


def _off(action: Action, name: str, error: Fraction) -> Action:
    match action:
        case CutOut():
            width, height = action.size
            if name == "width":
                return replace(action, size=(said(width, width.value + error), height))
            return replace(action, size=(width, said(height, height.value + error)))
        case CutOff():
            return replace(action, width=said(action.width, action.width.value + error))
        case CutAcross() | ScoreAt() | MarkAt():
            return replace(action, at=said(action.at, action.at.value + error))
    return action
