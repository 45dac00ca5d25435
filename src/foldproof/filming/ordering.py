"""The filming order: fewest set-ups with as many duplicates as the teacher is ready to prepare."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import combinations
from math import comb

from foldproof.filming.fewest import Job, Row, fewest_setups
from foldproof.filming.hands import action_seconds
from foldproof.filming.records import Choice, Duplicate, Order
from foldproof.filming.tasks import Bonds, Split, Task, bonds_of, split_at, waits
from foldproof.filming.touched import touched
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.recipe import actions as do

TOLD = 2
"""Numbers of duplicates that are tried for comparison, beyond what the recipe asks for."""
MOST_WAYS = 2_000
"""Ways to place duplicates that are gone through; with more, so many duplicates are not offered."""


def order_of(card: Card, making: Making, tasks: Sequence[Task], duplicates: int) -> tuple[Order, tuple[Split, ...]]:
    """The order for the number of duplicates that the recipe asks for, and what others would give.

    Fewer are prepared where more would not help.
    """
    found: list[tuple[Row, tuple[Split, ...]]] = []
    bonds = bonds_of(tasks)
    for count in range(max(duplicates, TOLD) + 1):
        best = _best(card, making, tasks, bonds, count)
        if best is None:
            break
        found.append(best)
    wanted = found[:duplicates + 1]
    row, splits = min(wanted, key=lambda one: one[0].setups)
    choices: list[Choice] = []
    for count, (other, _) in enumerate(found):
        if not choices or other.setups < choices[-1].setups:
            choices.append(Choice(duplicates=count, setups=other.setups))
    return Order(
        shots=tuple(tasks[i].key for i in row.jobs if tasks[i].setup is not None), changes=row.setups,
        fewest=row.proved, duplicates=tuple(duplicate(card, making, tasks, split) for split in splits),
        choices=tuple(choices)), splits


def sequence(tasks: Sequence[Task], splits: Sequence[Split]) -> Row:
    """The order of all tasks for given duplicates."""
    return _row(tasks, bonds_of(tasks), splits)


def _row(tasks: Sequence[Task], bonds: Bonds, splits: Sequence[Split]) -> Row:
    return fewest_setups([Job(setup=task.setup, after=after) for task, after in zip(
        tasks, waits(bonds, splits), strict=True)])


def _best(
    card: Card, making: Making, tasks: Sequence[Task], bonds: Bonds, count: int,
) -> tuple[Row, tuple[Split, ...]] | None:
    """Every way to place so many duplicates; the least work to prepare them decides between equals."""
    places = [split for i in range(len(tasks)) if tasks[i].setup is not None and (split := split_at(tasks, i))]
    if comb(len(places), count) > MOST_WAYS:
        return None
    best: tuple[tuple[int, Fraction], Row, tuple[Split, ...]] | None = None
    for splits in combinations(places, count):
        row = _row(tasks, bonds, splits)
        cost = row.setups, sum((work_before(card, making, split) for split in splits), Fraction(0))
        if best is None or cost < best[0]:
            best = cost, row, splits
    return (best[1], best[2]) if best is not None else None


def work_before(card: Card, making: Making, split: Split) -> Fraction:
    """Seconds of hands to bring a duplicate to its state."""
    return sum((action_seconds(action) for _, action in _done_before(card, making, split)), Fraction(0))


def _done_before(card: Card, making: Making, split: Split) -> Iterable[tuple[int, do.Action]]:
    at = 0
    for step in making.steps:
        for done in step.done:
            if at < split.moment and touched(card, done) & split.pieces:
                yield step.number, done.action
            at += 1


def duplicate(card: Card, making: Making, tasks: Sequence[Task], split: Split) -> Duplicate:
    """What is to be said of a duplicate."""
    named = tuple(piece.name for piece in card.pieces if piece.name in split.pieces)
    steps = tuple(dict.fromkeys(number for number, _ in _done_before(card, making, split)))
    return Duplicate(
        pieces=named, shot=tasks[split.task].key, steps=steps, seconds=work_before(card, making, split))


