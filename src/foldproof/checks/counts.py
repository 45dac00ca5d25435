"""How many pieces the words say are cut, against how many the actions cut."""

from collections.abc import Iterable
from itertools import groupby

from foldproof.checks.check import error
from foldproof.checks.mentions import mentions_in
from foldproof.checks.prose import called, passages_of
from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind
from foldproof.recipe.actions import CutOut, DieCut
from foldproof.recipe.records import StepSpec
from foldproof.recipe.repeating import every_action

WRONG_COUNT = error("count that is wrong", "The words say that more or fewer pieces are cut than the step cuts.")

_ANY_PIECE = ("piece", "part", "panel", "rectangle", "strip", "square", "shape")
_CUTTING = ("cut", "punch", "trim")


def check_counts(card: Card, making: Making) -> Iterable[Finding]:
    """A count beside a word for cutting is that of all cuts, of those so named, or of a run of equal ones."""
    for step in card.recipe.steps:
        cuts = [action for action in every_action(step) if isinstance(action, CutOut | DieCut)]
        if not cuts or len(cuts) != sum(1 for action in every_action(step) if "Cut" in type(action).__name__):
            continue
        names = [_name(step, action) for action in cuts]
        runs = {len(list(run)) for _, run in groupby(cuts, key=lambda a: (a.size[0].value, a.size[1].value))}
        for passage, text in passages_of(step):
            for mention in mentions_in(text, passage, card.recipe.unit, card.recipe.texts):
                if mention.kind is not Kind.NUMBER or not mention.before.endswith(_CUTTING) or not mention.unit:
                    continue
                thing = _singular(mention.unit.split()[-1])
                alike = [name for name in names if _singular(name.split()[-1]) == thing]
                if not alike and thing not in _ANY_PIECE:
                    continue
                right = len(alike) or len(cuts)
                if mention.value == 1 or mention.value in {right, len(cuts), *runs}:
                    continue
                yield WRONG_COUNT.finding(
                    f"The {called(passage)} of the step {step.title} says {mention.written}; the step cuts {right}.",
                    mend=f"Say {right}, or change the actions.", place=mention.place, step=step.id,
                    asides=(Aside(text="the first cut", place=cuts[0].place),))


def _name(step: StepSpec, action: CutOut | DieCut) -> str:
    return action.piece or (step.piece.value if step.piece is not None else "piece")


def _singular(word: str) -> str:
    return word.casefold().removesuffix("s")
