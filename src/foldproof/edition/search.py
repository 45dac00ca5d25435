"""Looking for the nearest plan in the other unit that is sound: the likeliest marks first, each plan proved whole."""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from itertools import chain, islice

from foldproof.checks import counts, prose, summary
from foldproof.checks.catalogue import run_checks
from foldproof.checks.directions import check as directions
from foldproof.checks.envelope import check_envelope
from foldproof.checks.layers import SIDE_BORDERS
from foldproof.checks.parameters import parameters
from foldproof.edition.demands import asked, sets_of_marks
from foldproof.edition.plan import exactly, parts_of, replanned
from foldproof.edition.roundings import FINEST
from foldproof.edition.words import retold_step, retold_text, sizes_of
from foldproof.findings.finding import Finding, Severity, has_errors
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.carry_out import carry_out
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind, Unit
from foldproof.measures.writing import write_length
from foldproof.recipe.actions import Attach
from foldproof.recipe.records import Recipe
from foldproof.refit.hands import distances
from foldproof.refit.steps import refit_promise, refit_steps

MOST_PLANS = 40
"""How many plans are folded and made before it is given up."""
REFUSED = "no sound plan in the other unit"
_OF_WORDS = frozenset(check.name for check in (
    prose.WRONG_NUMBER, prose.SWAPPED, prose.WRONG_CONVERSION, prose.UNSAID, directions.WRONG_DIRECTION,
    directions.NO_SUCH_TURN, directions.TURN_UNSAID, counts.WRONG_COUNT, summary.NOT_THE_CARDS))
"""What other marks would not mend."""
MOST_BETTER = 8
"""How many more plans are looked at for one whose borders are as even as the card's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """A card in the other unit, proved."""

    card: Card
    making: Making
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fault:
    """Why a plan is none."""

    why: str
    finding: Finding | None = None


def edition(card: Card, making: Making, quiet: frozenset[str]) -> Edition | Finding:
    """The card of a sound proof in the other unit: metric for an inch recipe, else inches; or why there is none.

    `quiet` are the names of the warnings and of the advice that the card has in its own unit and may keep.
    """
    unit = Unit.MM if card.recipe.unit is Unit.INCH else Unit.INCH
    exact, _ = build_card(exactly(card.recipe, unit))
    assert exact is not None, "a card that folds in one unit folds in the other"
    own = exact.recipe.metric if unit is Unit.MM else exact.recipe.inches
    made = carry_out(exact)
    first: _Fault | None = None
    wanted = asked(exact.recipe, parts_of(exact, own))
    fair: Edition | None = None
    left = MOST_PLANS
    for chosen in islice(sets_of_marks(wanted), MOST_PLANS):
        if left == 0:
            break
        left -= 1
        found = _proved(card, exact, made, replanned(exact, chosen, own), quiet)
        if isinstance(found, Edition):
            if SIDE_BORDERS.name in quiet or all(one.name != SIDE_BORDERS.name for one in found.findings):
                return found
            fair, left = fair or found, min(left, MOST_BETTER)
            continue
        first = first or found
        if found.finding is not None and found.finding.name in _OF_WORDS:
            break
    if fair is not None:
        return fair
    if first is None:
        first = _Fault(why=f"{wanted.first_miss() or 'a sum'}, which is {_no_mark(unit)}.")
    return _refused(card, unit, first)


def _proved(card: Card, exact: Card, made: Making, recipe: Recipe, quiet: frozenset[str]) -> Edition | _Fault:
    """The plan folded, its steps told anew and carried out, its words retold, everything checked."""
    unit = recipe.unit
    new, faults = build_card(recipe)
    if new is None or has_errors(faults):
        return _Fault(why="it does not fold", finding=next(iter(faults), None))
    promise = refit_promise(recipe.finished, new)
    new = replace(new, recipe=replace(recipe, finished=promise))
    early = _first_wrong(check_envelope(new, made), quiet)
    if early is not None:
        return _Fault(why="", finding=early)
    beside = _between_marks(new, exact)
    if beside is not None:
        return beside
    steps = refit_steps(exact, new, made.steps, loose=_Loose(unit)).steps
    for number, step in enumerate(steps, start=1):
        for one in parameters(step):
            if one.kind is Kind.LENGTH and (one.value / FINEST[unit]).denominator != 1:
                said = write_length(one.value, unit)
                return _Fault(why=f"in step {number} the {one.what} comes to {said}, which is {_no_mark(unit)}.")
    sizes = sizes_of(card, exact, new)
    steps = tuple(
        retold_step(card, spec, fresh, sizes, unit) for spec, fresh in zip(card.recipe.steps, steps, strict=True))
    recipe = replace(
        new.recipe, steps=steps, summary=retold_text(card, recipe.summary, sizes, unit),
        supplies=tuple(replace(one, amount=retold_text(card, one.amount, sizes, unit)) for one in recipe.supplies))
    new = replace(new, recipe=recipe)
    making = carry_out(new)
    found = (*faults, *run_checks(new, making))
    wrong = _first_wrong(found, quiet)
    return Edition(card=new, making=making, findings=found) if wrong is None else _Fault(why="", finding=wrong)


def _between_marks(new: Card, exact: Card) -> _Fault | None:
    """A distance at which a step of the old card puts a layer, and that comes to no mark on the new one."""
    bonds = {bond.name: bond for bond in new.bonds}
    for number, step in enumerate(exact.recipe.steps, start=1):
        for action in step.actions:
            if not isinstance(action, Attach) or action.bond not in bonds or action.at.points is not None:
                continue
            at, now = action.at, distances(new, bonds[action.bond])
            sides = ("left", "top") if at.border is not None else tuple(
                side for side in now if getattr(at, side) is not None)
            for side in sides:
                if (now[side] / FINEST[new.recipe.unit]).denominator != 1:
                    return _Fault(why=f"in step {number} the distance of the {action.bond} from the {side} comes to "
                                  f"{write_length(now[side], new.recipe.unit)}, which is {_no_mark(new.recipe.unit)}.")
    return None


def _first_wrong(found: Iterable[Finding], quiet: frozenset[str]) -> Finding | None:
    """The first error, else the first warning that the card does not have in its own unit."""
    found = tuple(found)
    bad = (one for one in found if one.severity is Severity.ERROR)
    new = (one for one in found if one.severity is Severity.WARNING and one.name not in quiet)
    return next(chain(bad, new), None)


@dataclass(frozen=True, slots=True)
class _Loose:
    """An allowance or a waste: at the nearest mark."""

    unit: Unit

    def __call__(self, amount: Fraction) -> Fraction:
        step = FINEST[self.unit]
        return round(amount / step) * step


def _no_mark(unit: Unit) -> str:
    return "no sixteenth of an inch" if unit is Unit.INCH else "no whole or half millimetre"


def _refused(card: Card, unit: Unit, fault: _Fault | None) -> Finding:
    """Say which sum does not hold and which key gives the sizes."""
    key, name = ("inches", "inch") if unit is Unit.INCH else ("metric", "metric")
    why = fault.finding.message if fault is not None and fault.finding is not None else fault.why if fault else ""
    measures = [one.name.value for one in card.recipe.measures if one.value.witness and one.value.kind is Kind.LENGTH]
    example = f"{measures[0]}: ..." if measures else "..."
    return Finding(
        name=REFUSED, severity=Severity.ERROR,
        message=f"No {name} plan near this card is sound. With the nearest sizes: {why[:1].lower() + why[1:]}",
        mend=f"Give the sizes that hold: `{key}: {{measures: {{{example}}}}}`; papers and the envelope can stand "
        "there, too. A plain length that stands in the way is best named under `measures`.",
        place=card.recipe.place)
