"""A cutting plan for parts and a sheet: searched, proved as far as the time allows, made easy at the table."""

from collections.abc import Sequence
from time import monotonic

from foldproof.classroom.ease import easiest
from foldproof.classroom.replay import replay
from foldproof.classroom.search import Search
from foldproof.classroom.sheets import Layout, Node, Part, Plan, Sheet, taken
from foldproof.classroom.task import task_of


class CannotBeCut(Exception):
    """A part that this sheet and trimmer don't give; `part` is its name, empty where it is not one part alone."""

    def __init__(self, part: str) -> None:
        super().__init__(part or "the cuts are out of the trimmer's reach")
        self.part = part


def plan_cuts(sheet: Sheet, parts: Sequence[Part], *, seconds: float = 10.0) -> Plan:
    """The fewest sheets found, with a proved bound, as layouts that are easy at the table.

    Raises CannotBeCut where a part doesn't come out of the sheet at all. The plan has been replayed when it comes.
    """
    began = monotonic()
    needed = tuple(part for part in parts if part.count > 0)
    task, _ = task_of(sheet, needed)
    for part, kind in zip(needed, task.kinds, strict=True):
        if task.width <= 0 or task.height <= 0 or not task.fits(kind):
            raise CannotBeCut(part.name)
    if not needed:
        return Plan(sheet=sheet, parts=(), layouts=(), least=0, reason="nothing is to be cut", seconds=0.0)
    answer = Search(task, seconds=seconds * 0.8).run()
    chosen = easiest(answer.trees, answer.pool, task, sheet, needed, min(3.0, seconds * 0.2))
    if not chosen:
        raise CannotBeCut("")
    plan = Plan(
        sheet=sheet,
        parts=needed,
        layouts=tuple(_in_order(chosen)),
        least=answer.least,
        reason=answer.reason,
        seconds=monotonic() - began,
    )
    wrong = replay(plan)
    if wrong:
        raise AssertionError("the planner's own plan fails its replay: " + "; ".join(wrong))
    return plan


def _in_order(chosen: Sequence[tuple[Node, int]]) -> list[Layout]:
    """The layout that is cut most often first."""
    layouts = [Layout(root=node, times=times) for node, times in chosen]
    return sorted(layouts, key=lambda one: (-one.times, -sum(taken(one.root).values())))


