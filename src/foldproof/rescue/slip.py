"""A slip of the hand: one number of one action, made otherwise than it was meant."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from foldproof.checks.parameters import Parameter, parameters
from foldproof.folding.card import Card
from foldproof.making.doing import carry_out_action
from foldproof.making.outcome import Setting
from foldproof.making.table import Done, Making, StepMade
from foldproof.measures.quantity import Kind, Quantity
from foldproof.recipe.actions import Action, Attach, CutAcross, CutOff, CutOut, DieCut, MarkAt, ScoreAt
from foldproof.refit.hands import said


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """What happened."""

    step: int
    """From 1."""
    parameter: Parameter
    """The number that was meant."""
    made: Fraction
    """What was made instead, in the recipe's unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """The table just after the slip."""

    done: tuple[StepMade, ...]
    """The steps up to the slip; the last one ends with the action that slipped."""
    rest: StepMade
    """What is left of that step, as it was meant."""
    slipped: Done


def slips_like(making: Making, step: int, planned: Fraction, made: Fraction) -> Iterator[Slip]:
    """The numbers of a step that have the planned value, in order, each as a slip."""
    for parameter in parameters(making.steps[step - 1].spec):
        if parameter.kind is Kind.LENGTH and parameter.value == planned and _can_slip(making, step, parameter):
            yield Slip(step=step, parameter=parameter, made=made)


def _can_slip(making: Making, step: int, parameter: Parameter) -> bool:
    """A border is no single distance: one that slips is off at one side, and that is what an uneven border tells."""
    action = making.steps[step - 1].spec.actions[parameter.action]
    if isinstance(action, Attach):
        return parameter.what != "border"
    return isinstance(action, CutOut | DieCut | CutAcross | CutOff | ScoreAt | MarkAt)


def moment_of(card: Card, making: Making, slip: Slip) -> Moment:
    """What the hands have done when the slip is seen."""
    step = making.steps[slip.step - 1]
    at = slip.parameter.action
    before, planned, after = step.done[:at], step.done[at], step.done[at + 1:]
    action = with_number(planned.action, slip)
    outcome = carry_out_action(action, Setting(card=card, table=planned.before, step=step.spec, action=action))
    slipped = Done(action=action, piece=outcome.piece, before=planned.before, after=outcome.table,
                   dimensions=outcome.dimensions, lines=outcome.lines)
    made = StepMade(number=step.number, spec=step.spec, done=(*before, slipped), before=step.before,
                    after=outcome.table)
    return Moment(done=(*making.steps[:slip.step - 1], made), rest=replace(step, done=after), slipped=slipped)


def with_number(action: Action, slip: Slip) -> Action:
    """The action with the number as it was made."""
    meant = slip.parameter.quantity
    assert meant is not None

    def changed(quantity: Quantity | None) -> Quantity | None:
        return said(quantity, slip.made) if quantity is meant else quantity

    match action:
        case CutOut() | DieCut():
            width, height = (changed(side) for side in action.size)
            assert width is not None and height is not None
            return replace(action, size=(width, height))
        case ScoreAt() | CutAcross():
            return replace(action, at=said(action.at, slip.made))
        case MarkAt() if action.at is meant:
            return replace(action, at=said(action.at, slip.made))
        case CutOff():
            return replace(action, width=said(action.width, slip.made))
        case Attach():
            at = action.at
            return replace(action, at=replace(
                at, left=changed(at.left), right=changed(at.right), top=changed(at.top), bottom=changed(at.bottom),
                border=changed(at.border)))
    return action


def only_a_mark(moment: Moment) -> bool:
    """Whether all that happened is a pencil mark in a wrong place."""
    return isinstance(moment.slipped.action, MarkAt)
