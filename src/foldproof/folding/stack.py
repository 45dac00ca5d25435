"""Who lies over whom in a flat pose.

The written order of the folds decides first: the flap that is folded last lies on top. Where those folds cannot be made
one after the other, or the recipe chooses otherwise, an order is searched for that keeps all that must hold and is as
near to the written one as can be; what shows and could still be either way round is reported.
"""

from fractions import Fraction

from foldproof.folding.bodies import bodies
from foldproof.folding.clash import smallest_clash
from foldproof.folding.conditions import question_of
from foldproof.folding.one_by_one import Folded, fold_one_by_one
from foldproof.folding.ordering import Pair, Question, asked, broken, find_order
from foldproof.folding.overlay import Overlay, ordered
from foldproof.folding.stacking import Folding, Stacking


def stack_up(folding: Folding, laid: Overlay, least: Fraction = Fraction(0)) -> Stacking:
    """The order of all panels; `laid` holds them where they lie, in any frame, `least` is what paper may reach over."""
    question = question_of(folding, laid, least)
    made = fold_one_by_one(folding)
    over = made.over(question.pairs)
    faults = broken(question, over)
    if not made.locked and all(fault.kind in ("across", "along", "inside") for fault in faults):
        return Stacking(over=over, broken=faults)
    wished = _wishes(made, question)
    answer = find_order(question, wished)
    if answer.impossible:
        return Stacking(over=over, clash=smallest_clash(question))
    if answer.over is None:
        return Stacking(over=over, undecided=True)
    return Stacking(over=answer.over, open=_open(folding, question, made, ordered(laid, answer.over), answer.over))


def as_folded(folding: Folding, pairs: tuple[Pair, ...]) -> frozenset[Pair] | None:
    """The order that the folds give as they are written; None where they cannot be made one by one or it was chosen."""
    made = fold_one_by_one(folding)
    return None if made.locked or folding.choices or folding.tucks else made.over(pairs)


def _wishes(made: Folded, question: Question) -> tuple[Pair, ...]:
    """The pairs as the folds would have them, panel by panel from the bottom: what was folded later gives way."""
    height = {name: place for place, name in enumerate(made.order)}
    return tuple(sorted(made.over(question.pairs), key=lambda pair: (height[pair[0]], height[pair[1]])))


def _open(
    folding: Folding, question: Question, made: Folded, laid: Overlay, over: frozenset[Pair],
) -> tuple[Pair, ...]:
    """Pairs of which one is seen, from the front or from behind, and that neither folds, recipe nor paper settle."""
    body = bodies(folding.bonds, folding.panels)
    kept = {pair for pair in made.over(question.pairs) & over if frozenset(pair) not in made.unsettled}
    settled = {frozenset(pair) for pair in (*kept, *folding.choices, *folding.tucks)}
    question = asked(question, *sorted(kept))
    shown: dict[Pair, None] = {}
    for layers in laid.layers:
        shown |= {(layers[-1], other): None for other in layers[:-1]}
        shown |= {(other, layers[0]): None for other in layers[1:]}
    found: list[Pair] = []
    for pair in shown:
        if frozenset(pair) in settled or body[pair[0]] == body[pair[1]]:
            continue
        if find_order(asked(question, (pair[1], pair[0])), tuple(over)).over is not None:
            found.append(pair)
            question = asked(question, pair)
    return tuple(found)

