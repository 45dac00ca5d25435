"""Which conditions cannot be kept together."""

from foldproof.folding.ordering import MOST_TRIES, Condition, Question, find_order, with_conditions


def smallest_clash(question: Question, tries: int = MOST_TRIES) -> tuple[Condition, ...]:
    """Conditions that cannot be kept together, none of which can be left out.

    The rest are taken away in ever smaller lots. A lot whose absence leaves the order not decided stays.
    """
    kept = list(question.conditions)
    lot = max(1, len(kept) // 2)
    while True:
        start = 0
        while start < len(kept):
            trial = kept[:start] + kept[start + lot:]
            if find_order(with_conditions(question, trial), tries=tries // 10).impossible:
                kept = trial
            else:
                start += lot
        if lot == 1:
            return tuple(kept)
        lot = (lot + 1) // 2
