"""All steps from a certain one on, told anew for the new card while they are carried out on it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from foldproof.checks.prose import bind_step
from foldproof.folding.card import Card, StandingPose
from foldproof.making.doing import carry_out_action
from foldproof.making.outcome import Setting
from foldproof.making.table import Done, StepMade, Table
from foldproof.measures.quantity import Unit
from foldproof.recipe.actions import Action
from foldproof.recipe.records import FinishedSpec, StepSpec
from foldproof.recipe.repeating import repeated
from foldproof.refit.hands import Loose, as_it_is, refitted, said
from foldproof.refit.words import known_changes, reworded


@dataclass(frozen=True, slots=True, kw_only=True)
class Refit:
    """Steps told anew."""

    steps: tuple[StepSpec, ...]
    table: Table
    """After the last of them."""


def refit_steps(
    old: Card, new: Card, made: Sequence[StepMade], start: Table | None = None, loose: Loose = as_it_is,
) -> Refit:
    """The steps `made` of the old card for the new one, begun on a table of the new card."""
    known = known_changes(old, new)
    table = start or Table()
    steps: list[StepSpec] = []
    for step in made:
        actions: list[Action] = []
        for done in step.done:
            action = refitted(old, new, done, table, loose)
            actions.append(action)
            setting = Setting(card=new, table=table, step=step.spec, action=action)
            table = carry_out_action(action, setting).table
        changed = replace(step.spec, actions=tuple(actions))
        for repeat in changed.repeats:
            for action in repeated(changed, repeat):
                setting = Setting(card=new, table=table, step=changed, action=action, again=True)
                table = carry_out_action(action, setting).table
        steps.append(reworded(step.spec, changed, bind_step(old, step.spec), known, old.recipe.unit))
    return Refit(steps=tuple(steps), table=table)


def part_of(step: StepMade, done: Sequence[Done]) -> StepMade:
    """The same step with some of its actions only."""
    return replace(
        step, done=tuple(done), before=done[0].before if done else step.before,
        after=done[-1].after if done else step.before,
        spec=replace(step.spec, actions=tuple(one.action for one in done)))


def refit_promise(promise: FinishedSpec, card: Card) -> FinishedSpec:
    """The promised sizes as the new card has them: closed exactly, standing to the nearest mark of a ruler."""
    closed = card.closed
    if closed is not None:
        promise = replace(promise, size=(said(promise.size[0], closed.width), said(promise.size[1], closed.height)))
    stands = promise.stands
    pose = card.pose(stands.pose.value) if stands is not None else None
    if stands is not None and isinstance(pose, StandingPose):
        marks = 32 if card.recipe.unit is Unit.INCH else 2
        if abs(stands.height.value - Fraction(pose.height)) * marks > Fraction(1, 2):
            promise = replace(promise, stands=replace(
                stands, height=said(stands.height, Fraction(round(pose.height * marks), marks))))
    return promise
