"""The proof that an order can be filmed: every task carried out again on the virtual table, in that order.

Each task finds the pieces that it needs in just the state in which the story shows them, and leaves them in just the
state that the story goes on from. Duplicates stand ready from the start. How a piece lies, folds and tucks that were
made before, and the blade in the trimmer, are set by hand between shots; everything else must be there. What no table
knows (a pencil cross, an envelope, drying) is held by the row of changes that each piece has been through.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from foldproof.filming.tasks import Split, Task, copy_of
from foldproof.folding.card import Card
from foldproof.making.doing import carry_out_action
from foldproof.making.outcome import Setting
from foldproof.making.table import UPRIGHT, Bonded, OnTable, Stamped, Table

Copy = tuple[str, int]


@dataclass(slots=True, kw_only=True)
class _World:
    """All copies of all pieces, as they are after the tasks so far."""

    pieces: dict[Copy, OnTable] = field(default_factory=dict)
    bonds: dict[Copy, tuple[Bonded, ...]] = field(default_factory=dict)
    """By the guest."""
    stamped: dict[Copy, frozenset[Stamped]] = field(default_factory=dict)
    past: dict[Copy, tuple[str, ...]] = field(default_factory=dict)
    """The tasks that have changed it for good."""


def faults_of(
    card: Card, tasks: Sequence[Task], order: Sequence[int], splits: Sequence[Split] = (),
) -> tuple[str, ...]:
    """Why an order cannot be filmed; nothing where it can. Each says the task's key and the piece."""
    world = _World()
    for split in splits:
        _prepare(card, world, tasks, split, splits)
    faults: list[str] = []
    for index in order:
        task = tasks[index]
        copies = {piece: copy_of(piece, index, splits) for piece in sorted(task.pieces)}
        faults += _not_ready(card, world, tasks, task, copies)
        faults += _carry_out(card, world, task, copies)
        for piece in sorted(task.changed):
            if piece in copies:
                copy = (piece, copies[piece])
                world.past[copy] = (*world.past.get(copy, ()), task.key)
    missing = sorted(set(range(len(tasks))) - set(order))
    return (*faults, *(f"{tasks[i].key}: it is not in the order" for i in missing))


def _prepare(card: Card, world: _World, tasks: Sequence[Task], split: Split, splits: Sequence[Split]) -> None:
    task = tasks[split.task]
    for piece in split.pieces:
        copy = copy_of(piece, split.task, splits)
        _put(card, world, task.before, piece, copy)
        world.past[piece, copy] = _past(tasks, task, piece)


def _put(card: Card, world: _World, table: Table, piece: str, copy: int) -> None:
    world.pieces[piece, copy] = _bare(table.pieces[piece])
    world.bonds[piece, copy] = tuple(_dry(bond) for bond in table.bonds if bond.guest == piece)
    world.stamped[piece, copy] = _stamped(card, table, piece)


def _past(tasks: Sequence[Task], task: Task, piece: str) -> tuple[str, ...]:
    """What the story has done to a piece before a task."""
    return tuple(
        other.key for other in tasks
        if other is not task and piece in other.changed and other.moment[1] <= task.moment[0])


def _not_ready(
    card: Card, world: _World, tasks: Sequence[Task], task: Task, copies: Mapping[str, int],
) -> Iterable[str]:
    for piece, copy in copies.items():
        there = world.pieces.get((piece, copy))
        wanted = task.before.pieces.get(piece)
        if (there is None) != (wanted is None):
            yield f"{task.key}: the {piece} is {'there already' if wanted is None else 'not there yet'}"
        elif there is not None and wanted is not None and (
            there != _bare(wanted)
            or world.bonds[piece, copy] != tuple(_dry(bond) for bond in task.before.bonds if bond.guest == piece)
            or world.stamped[piece, copy] != _stamped(card, task.before, piece)
            or set(world.past.get((piece, copy), ())) != set(_past(tasks, task, piece))
        ):
            yield f"{task.key}: the {piece} is not as the story has it"


def _carry_out(card: Card, world: _World, task: Task, copies: Mapping[str, int]) -> Iterable[str]:
    """Do the task's actions on the copies, laid and folded as the story has them, and compare what comes out."""
    pieces = {
        piece: replace(world.pieces[piece, copy], lie=laid.lie)
        for piece, copy in copies.items()
        if (laid := task.before.pieces.get(piece)) is not None and (piece, copy) in world.pieces}
    scores = {score.name for name in pieces if (plan := card.piece(name)) for score in plan.scores}
    table = Table(
        pieces=MappingProxyType(pieces),
        bonds=tuple(bond for bond in task.before.bonds if bond.guest in pieces and bond.root in pieces),
        folded=tuple(fold for fold in task.before.folded if fold[0] in scores),
        tucked=tuple(pair for pair in task.before.tucked if all(card.panels[name].piece in pieces for name in pair)),
        stamped=tuple(one for one in task.before.stamped if card.panels[one.panel].piece in pieces),
        clock=task.before.clock, blades=task.before.blades)
    for done in task.done:
        if task.step is not None:
            setting = Setting(card=card, table=table, step=task.step, action=done.action)
            table = carry_out_action(done.action, setting).table
    for piece, copy in copies.items():
        if piece not in table.pieces:
            if piece in task.after.pieces:
                yield f"{task.key}: the {piece} does not come out of it"
            continue
        _put(card, world, table, piece, copy)
        if piece not in task.after.pieces or world.pieces[piece, copy] != _bare(task.after.pieces[piece]):
            yield f"{task.key}: the {piece} comes out unlike the story"


def _bare(piece: OnTable) -> OnTable:
    """A piece whatever way it lies."""
    return replace(piece, lie=UPRIGHT)


def _dry(bond: Bonded) -> Bonded:
    """A bond whatever its clock says."""
    return replace(bond, wet_until=bond.wet_until * 0)


def _stamped(card: Card, table: Table, piece: str) -> frozenset[Stamped]:
    return frozenset(
        one for one in table.stamped if one.panel in card.panels and card.panels[one.panel].piece == piece)
