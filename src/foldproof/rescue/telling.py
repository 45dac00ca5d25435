"""What is different from a slip on, when a card is saved."""

from collections.abc import Iterator

from foldproof.checks.parameters import Parameter, parameters
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind
from foldproof.measures.writing import with_unit
from foldproof.recipe.actions import Attach
from foldproof.recipe.records import StepSpec
from foldproof.rescue.search import Option


def changes(card: Card, making: Making, option: Option, step: int) -> Iterator[str]:
    """Each number that is another one now, with its step: `step 4: width of the cut of the left mat 1 3/4 in, ...`."""
    unit = card.recipe.unit
    planned = (making.steps[step - 1], *making.steps[step:])
    for old, new in zip(planned, option.making.steps, strict=True):
        kept = len(old.spec.actions) - len(new.spec.actions)
        before = {(one.action - kept, one.what): one for one in parameters(old.spec)}
        for one in parameters(new.spec):
            was = before.get((one.action, one.what))
            if one.kind is Kind.LENGTH and (was is None or was.value != one.value):
                instead = f" instead of {with_unit(was.value, unit)}" if was is not None else ""
                yield (f"step {old.number}: {one.what}{_of(new.spec, one)} {with_unit(one.value, unit)}{instead}")


def _of(step: StepSpec, parameter: Parameter) -> str:
    action = step.actions[parameter.action]
    if isinstance(action, Attach):
        return f" of the {action.bond}"
    name = action.piece or (step.piece.value if step.piece is not None else None)
    return f" of the {name}" if name is not None else ""
