"""What hands set in a step: the numbers of its actions, in the order in which hands meet them."""

from collections.abc import Iterator
from fractions import Fraction

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Kind, Quantity
from foldproof.recipe.actions import (
    Action,
    Attach,
    CutAcross,
    CutAway,
    CutOff,
    CutOut,
    DieCut,
    Dry,
    FoldOn,
    MarkAt,
    Measure,
    RoundCorners,
    Scallop,
    ScoreAt,
    SlideIn,
    SlitAt,
    Tie,
    Turn,
)
from foldproof.recipe.records import StepSpec

_TURNS = {"half": Fraction(180), "quarter clockwise": Fraction(90), "quarter anticlockwise": Fraction(90)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameter:
    """One number that one action sets."""

    action: int
    """Which action of the step, from 0."""
    what: str
    """In plain words, after `the`: `width of the cut`, `distance of the score`."""
    kind: Kind
    value: Fraction
    """A length in the recipe's unit, a time in seconds, an angle in degrees."""
    quantity: Quantity | None
    """None where a word sets it: a half turn is 180 degrees."""
    place: Place
    needed: bool
    """Whether someone who follows the text alone would lack it: a cut, a mark, a score."""
    optional: bool = False
    """Whether it stands for itself without being said, and is never missed: a turn, the time of the step."""


def parameters(step: StepSpec) -> tuple[Parameter, ...]:
    """All of them, the step's own time last."""
    found = [one for index, action in enumerate(step.actions) for one in _of_action(index, action)]
    if step.minutes is not None:
        found.append(Parameter(
            action=len(step.actions), what="time of the step", kind=Kind.TIME, value=step.minutes.value,
            quantity=step.minutes, place=step.minutes.place, needed=False, optional=True))
    return tuple(found)


def _of_action(index: int, action: Action) -> Iterator[Parameter]:
    def one(what: str, quantity: Quantity | None, needed: bool = False) -> Iterator[Parameter]:
        if quantity is not None:
            yield Parameter(action=index, what=what, kind=quantity.kind, value=quantity.value, quantity=quantity,
                            place=quantity.place, needed=needed)

    match action:
        case CutOut() | DieCut():
            yield from one("width of the cut", action.size[0], isinstance(action, CutOut))
            yield from one("height of the cut", action.size[1], isinstance(action, CutOut))
        case CutAcross():
            yield from one("distance of the cut", action.at, True)
        case CutOff():
            yield from one("width of the strip", action.width, True)
        case MarkAt():
            yield from one("distance of the mark", action.at, True)
            yield from one("distance of the mark from the edge", action.inward, True)
        case ScoreAt() | SlitAt():
            sort = "score" if isinstance(action, ScoreAt) else "slit"
            yield from one(f"distance of the {sort}", action.at, True)
            yield from one(f"start of the {sort}", action.begins, True)
            yield from one(f"end of the {sort}", action.ends, True)
        case CutAway():
            sort = "notch" if action.opens else "window"
            if action.size is not None:
                yield from one(f"width of the {sort}", action.size[0], True)
                yield from one(f"height of the {sort}", action.size[1], True)
            yield from one(f"distance across the {sort}", action.circle, True)
            for side in ("left", "right", "top", "bottom"):
                yield from one(f"distance of the {sort} from the {side}", getattr(action.at, side), True)
        case RoundCorners():
            yield from one("radius of the corners", action.radius, True)
        case Scallop():
            yield from one("width of a scallop", action.across, True)
        case Attach() | SlideIn():
            at = action.at
            for side in ("left", "right", "top", "bottom"):
                yield from one(f"distance from the {side}", getattr(at, side))
            yield from one("border", at.border)
        case Measure():
            yield from one("width to check", action.size[0])
            yield from one("height to check", action.size[1])
        case Tie():
            yield from one("length to tie", action.length)
        case Dry():
            yield from one("time to wait", action.time)
        case FoldOn():
            yield Parameter(
                action=index, what="angle of the fold", kind=Kind.ANGLE,
                value=action.angle.value if action.angle else Fraction(180), quantity=action.angle,
                place=action.angle.place if action.angle else action.place, needed=False, optional=action.angle is None)
        case Turn() if action.amount in _TURNS:
            yield Parameter(action=index, what="angle of the turn", kind=Kind.ANGLE, value=_TURNS[action.amount],
                            quantity=None, place=action.place, needed=False, optional=True)
        case _:
            return
