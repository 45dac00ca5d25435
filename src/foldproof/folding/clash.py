"""Which conditions cannot be kept together."""

from collections.abc import Callable, Sequence
from typing import TypeVar

from foldproof.folding.ordering import MOST_STEPS, Condition, Question, find_order, with_conditions

Thing = TypeVar("Thing")


def smallest_clash(question: Question, steps: int = MOST_STEPS) -> tuple[Condition, ...]:
    """Conditions that cannot be kept together, none of which can be left out.

    First whole panels are taken away, then conditions. What cannot be decided in a tenth of the steps stays.
    """
    def clashes(part: Question) -> bool:
        return find_order(part, steps=steps // 10).impossible

    names = sorted({name for pair in question.pairs for name in pair})
    few = _least(names, lambda kept: clashes(_among(question, kept)))
    small = _among(question, few)
    return tuple(_least(small.conditions, lambda kept: clashes(with_conditions(small, kept))))


def _least(things: Sequence[Thing], enough: Callable[[Sequence[Thing]], bool]) -> list[Thing]:
    """Things of which none can be left out, taken away in ever smaller lots."""
    kept = list(things)
    lot = max(1, len(kept) // 2)
    while True:
        start = 0
        while start < len(kept):
            trial = kept[:start] + kept[start + lot:]
            if enough(trial):
                kept = trial
            else:
                start += lot
        if lot == 1:
            return kept
        lot = (lot + 1) // 2


def _among(question: Question, names: Sequence[str]) -> Question:
    """What is asked of some of the panels alone."""
    here = set(names)
    return Question(
        pairs=tuple(pair for pair in question.pairs if here.issuperset(pair)),
        conditions=tuple(c for c in question.conditions if all(here.issuperset(pair) for pair in c.pairs)),
        triples=tuple(three for three in question.triples if here.issuperset(three)))
