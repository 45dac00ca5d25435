"""What has to be done to film a card: its shots, and the steps off camera, with what each waits for.

Two tasks that share a piece keep the order of the making as soon as one of them changes that piece for good; tasks that
only show it, or only turn and fold it as before, may change places. A duplicate of a piece breaks the chain: from its
shot on the duplicate is used, and the tasks before it work on the first copy.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from foldproof.filming.cuts import Piecework, cut_into_shots, filmed
from foldproof.filming.measuring import shown_pieces
from foldproof.filming.records import Shot
from foldproof.filming.touched import changed, touched
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Done, Making, Table
from foldproof.recipe import actions as do
from foldproof.recipe.records import StepSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """A shot, or a step that is done off camera."""

    key: str
    """The shot's key, or the id of the step."""
    setup: str | None
    """None off camera."""
    step: StepSpec | None
    done: tuple[Done, ...]
    before: Table
    after: Table
    moment: tuple[Fraction, Fraction]
    pieces: frozenset[str]
    changed: frozenset[str]


def tasks_of(card: Card, making: Making, shots: Sequence[Shot], setups: Mapping[str, str]) -> tuple[Task, ...]:
    """All tasks in the order of the making. `setups` gives each shot's set-up by its key."""
    found = [
        Task(
            key=shot.key, setup=setups[shot.key], step=shot.step.spec if shot.step else None, done=shot.done,
            before=shot.before, after=shot.after, moment=shot.moment, pieces=shot.pieces, changed=shot.changed)
        for shot in shots]
    folded = creased_before(making)
    found += [_off_camera(card, work, folded) for work in cut_into_shots(card, making) if not filmed(work)]
    return tuple(sorted(found, key=lambda task: task.moment))


def creased_before(making: Making) -> Mapping[int, frozenset[str]]:
    """The scores that have been folded before each step, by its number."""
    known: dict[int, frozenset[str]] = {}
    creased: frozenset[str] = frozenset()
    for step in making.steps:
        known[step.number] = creased
        creased |= {done.action.score for done in step.done if isinstance(done.action, do.FoldOn)}
    return known


def _off_camera(card: Card, work: Piecework, creased: Mapping[int, frozenset[str]]) -> Task:
    assert work.step is not None
    before = creased[work.step.number]
    pieces = frozenset(name for done in work.done for name in touched(card, done)) or shown_pieces(card, work)
    return Task(
        key=work.step.spec.id, setup=None, step=work.step.spec, done=work.done, before=work.before, after=work.after,
        moment=work.moment, pieces=pieces,
        changed=frozenset(name for done in work.done for name in changed(card, done, before)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """Where a duplicate takes over."""

    task: int
    """The place of the first task that works on it."""
    pieces: frozenset[str]
    moment: Fraction


def split_at(tasks: Sequence[Task], index: int) -> Split | None:
    """A duplicate of everything that a task works on as it is before it; None where there is nothing yet."""
    task = tasks[index]
    there = frozenset(name for name in task.pieces if name in task.before.pieces)
    earlier = any(other.changed & there and other.moment[0] < task.moment[0] for other in tasks)
    return Split(task=index, pieces=there, moment=task.moment[0]) if there and earlier else None


def copy_of(piece: str, task: int, splits: Sequence[Split]) -> int:
    """Which copy of a piece a task works on, the task by its place: 0 is the one that is made before the camera."""
    return sum([piece in split.pieces and task >= split.task for split in splits])


Bonds = Sequence[Sequence[tuple[int, frozenset[str]]]]
"""For each task those before it that share pieces with it for whose sake the two keep their order, with these."""


def bonds_of(tasks: Sequence[Task]) -> Bonds:
    """What holds the tasks in order as long as there is one copy of each piece."""
    return [
        [(i, shared) for i, first in enumerate(tasks[:j])
         if (shared := first.pieces & task.pieces & (first.changed | task.changed))]
        for j, task in enumerate(tasks)]


def waits(bonds: Bonds, splits: Sequence[Split] = ()) -> list[frozenset[int]]:
    """For each task those that must be done before it."""
    copied = frozenset(piece for split in splits for piece in split.pieces)
    copies = {piece: [copy_of(piece, task, splits) for task in range(len(bonds))] for piece in copied}
    return [
        frozenset(
            i for i, shared in earlier
            if shared - copied or any(copies[piece][i] == copies[piece][j] for piece in shared))
        for j, earlier in enumerate(bonds)]
