"""The steps carried out in order on an empty table."""

from collections.abc import Sequence

from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.making.again import lost_in_repeat
from foldproof.making.compare import compare
from foldproof.making.doing import carry_out_action
from foldproof.making.drying import rested
from foldproof.making.layered import AFTER_GLUING, THROUGH_FOLDS
from foldproof.making.outcome import Setting
from foldproof.making.table import Done, Making, StepMade, Table
from foldproof.making.tools import tool_faults, tool_for
from foldproof.recipe.records import RepeatSpec, StepSpec
from foldproof.recipe.repeating import repeated


def carry_out(card: Card, table: Table | None = None) -> Making:
    """Every step done on the virtual sheet, with what could not be done and what came out unlike the plan.

    The table is empty at the start unless something lies there already.
    """
    made, findings = do_steps(card, card.recipe.steps, table or Table())
    layered = frozenset(
        finding.place for finding in findings if finding.name in (AFTER_GLUING, THROUGH_FOLDS) and finding.place)
    return Making(steps=made, findings=(*findings, *compare(card, made, layered)))


def do_steps(
    card: Card, specs: Sequence[StepSpec], table: Table, first: int = 1,
) -> tuple[tuple[StepMade, ...], list[Finding]]:
    """Steps done one after the other on what lies on the table, and what could not be done; not held against the plan.

    `first` is the number of the first of them.
    """
    steps: list[StepMade] = []
    findings: list[Finding] = []
    for number, spec in enumerate(specs, start=first):
        before = table
        done, table, found = _round(card, table, spec, None)
        findings += found
        again: list[Done] = []
        for repeat in spec.repeats:
            more, table, more_found = _round(card, table, spec, repeat)
            again += more
            told = {(finding.name, finding.place) for finding in found}
            findings += [finding for finding in more_found if (finding.name, finding.place) not in told]
        table = rested(table, before, spec)
        steps.append(StepMade(
            number=number, spec=spec, done=tuple(done), again=tuple(again), before=before, after=table))
    return tuple(steps), findings


def _round(
    card: Card, table: Table, spec: StepSpec, repeat: RepeatSpec | None,
) -> tuple[list[Done], Table, list[Finding]]:
    """The actions of a step, with its own piece or with one that it is repeated with."""
    done: list[Done] = []
    findings: list[Finding] = []
    actions = spec.actions if repeat is None else repeated(spec, repeat)
    for first, action in zip(spec.actions, actions, strict=True):
        setting = Setting(card=card, table=table, step=spec, action=action, again=repeat is not None)
        lost = lost_in_repeat(setting, first, repeat) if repeat is not None else None
        if lost is not None:
            findings.append(lost)
            continue
        tool = tool_for(card.recipe, spec, action)
        findings.extend(tool_faults(setting, tool))
        outcome = carry_out_action(action, setting)
        done.append(Done(
            action=action, piece=outcome.piece, before=table, after=outcome.table,
            dimensions=outcome.dimensions, lines=outcome.lines, tool=outcome.tool or tool, gone=outcome.gone))
        findings.extend(outcome.findings)
        table = outcome.table
    return done, table, findings
