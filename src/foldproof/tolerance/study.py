"""The study: how far each outcome may be off, by which settings, and how often that spoils the card.

Each setting has an independent error, uniform within plus or minus the tolerance. Where an outcome is linear in the
settings (a card folded flat) its sensitivities are exact rationals. The worst case is the sum of |s| e; the root sum of
squares, sqrt(sum (s e)^2), is the textbook statistical stack (for uniform errors the standard deviation is that over
the square root of three). How often an outcome is past a limit is taken from the normal distribution with that
deviation, and is none where the worst case does not reach it.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import erfc, sqrt

from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Unit
from foldproof.recipe.actions import Attach
from foldproof.tolerance.as_made import Made, as_made, as_planned, paper_work
from foldproof.tolerance.outcomes import Outcome, gauged, readings
from foldproof.tolerance.settings import Setting, settings_of, with_setting

SMALL = Fraction(1, 4096)
"""How far a setting is moved to find a sensitivity: exact where the outcome is linear."""
OFTEN = 0.05
"""One in twenty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one setting does to an outcome."""

    setting: Setting
    sensitivity: Fraction
    """Change of the outcome for a change of the setting by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """How far an outcome may be off."""

    outcome: Outcome
    shares: tuple[Share, ...]
    """Those that matter, the greatest first."""
    worst: Fraction
    """In the recipe's unit."""
    root_sum_square: float
    often_low: float
    """How often it is below its least, from 0 to 1."""
    often_high: float

    @property
    def often(self) -> float:
        """How often the card is spoiled by it."""
        return self.often_low + self.often_high

    @property
    def deciding(self) -> tuple[Share, ...]:
        """The few settings that make up four fifths of its variance."""
        total = sum(share.sensitivity ** 2 for share in self.shares)
        found: list[Share] = []
        for share in self.shares:
            if sum(one.sensitivity ** 2 for one in found) >= total * Fraction(4, 5):
                break
            found.append(share)
        return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """All outcomes of a card."""

    tolerance: Fraction
    """The limit of each error, in the recipe's unit."""
    spreads: tuple[Spread, ...]
    """Those that come out wrong most often first."""
    unstudied: tuple[Setting, ...]
    """Settings with whose error the card could not be folded at all, so that nothing is said of it."""


def tolerance_of(card: Card) -> Fraction:
    """What the recipe says, or else about 1/32 in (0.8 mm): what a class cuts and scores to (from memory)."""
    given = card.recipe.tolerance
    if given is not None:
        return given.value
    return {Unit.INCH: Fraction(1, 32), Unit.MM: Fraction(4, 5), Unit.CM: Fraction(2, 25)}[card.recipe.unit]


def study(card: Card, making: Making) -> Study:
    """Move each setting by a little and see what becomes of each outcome."""
    found = tuple(gauged(card))
    outcomes = {outcome.name: outcome for outcome, _ in found}
    gauges = {outcome.name: gauge for outcome, gauge in found}
    moved, unstudied = slopes(card, making, lambda made: readings(gauges, made))
    limit = tolerance_of(card)
    spreads = [
        spread_of(outcome, [Share(setting=setting, sensitivity=slope[name]) for setting, slope in moved
                            if slope.get(name)], limit)
        for name, outcome in outcomes.items()]
    return Study(tolerance=limit, spreads=tuple(sorted(spreads, key=lambda spread: -spread.often)), unstudied=unstudied)


Slopes = tuple[tuple[Setting, Mapping[str, Fraction]], ...]
"""For each setting, by how much each measure changes when the setting changes by one."""


def slopes(
    card: Card, making: Making, look: Callable[[Made], Mapping[str, Fraction]], step: Fraction = SMALL,
) -> tuple[Slopes, tuple[Setting, ...]]:
    """What each setting does to what is looked at, and the settings with whose error the card could not be folded.

    `step` is how far each is moved: a closed size has another slope upward than downward where two panels are alike.
    Measures named `border SIDE LAYER` are also moved by the hand that lays the layer down.
    """
    before, nominal = look(as_planned(card)), paper_work(card, card.recipe.steps)
    moved: list[tuple[Setting, Mapping[str, Fraction]]] = []
    unstudied: list[Setting] = []
    for setting in settings_of(making):
        made = as_made(card, nominal, with_setting(making, setting, step))
        if made is None:
            unstudied.append(setting)
            continue
        now = look(made)
        moved.append((setting, {name: (now[name] - value) / step for name, value in before.items() if name in now}))
    by_hand: dict[Setting, dict[str, Fraction]] = {}
    for name in before:
        for share in _by_hand(making, name):
            by_hand.setdefault(share.setting, {})[name] = share.sensitivity
    return (*moved, *by_hand.items()), tuple(unstudied)


def spread_of(outcome: Outcome, shares: Sequence[Share], limit: Fraction) -> Spread:
    """Worst case, root sum of squares and chance of failing, from the sensitivities."""
    shares = sorted(shares, key=lambda share: -abs(share.sensitivity))
    worst = sum((abs(share.sensitivity) * limit for share in shares), Fraction(0))
    root = sqrt(sum(float(share.sensitivity * limit) ** 2 for share in shares))
    return Spread(
        outcome=outcome, shares=tuple(shares), worst=worst, root_sum_square=root,
        often_low=0.0 if outcome.least is None else chance(outcome.value - outcome.least, worst, root),
        often_high=0.0 if outcome.most is None else chance(outcome.most - outcome.value, worst, root))


def chance(room: Fraction, worst: Fraction, root: float) -> float:
    """How often an error in one direction is greater than the room that there is for it."""
    if room >= worst:
        return 0.0
    if root == 0:
        return 0.0 if room >= 0 else 1.0
    deviation = root / sqrt(3)
    return erfc(float(room) / (deviation * sqrt(2))) / 2


def _by_hand(making: Making, outcome: str) -> list[Share]:
    """A layer is laid down by eye: its place has an error of its own, the same for both borders of a pair."""
    if not outcome.startswith("border "):
        return []
    _, side, name = outcome.split(" ", 2)
    for step in making.steps:
        for which, action in enumerate(step.spec.actions):
            if isinstance(action, Attach) and action.bond == name:
                across = side in ("left", "right")
                setting = Setting(
                    spots=((step.number - 1, which, "across" if across else "up"),), step=step.number,
                    what=f"place of the {name} {'from side to side' if across else 'up and down'}", value=Fraction(0))
                return [Share(setting=setting, sensitivity=Fraction(1 if side in ("left", "bottom") else -1))]
    return []
