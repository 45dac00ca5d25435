"""What a ruler says of a finished card, and which step went off.

Each setting of the steps moves what can be measured by known amounts (see study). A setting explains the readings when
one error of it, found by least squares, leaves no reading farther off than a ruler can be read; where no single one
does, two are tried.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import combinations

from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Making
from foldproof.measures.quantity import Unit
from foldproof.paper.polygon import bounding_box
from foldproof.tolerance.as_made import Made, as_planned
from foldproof.tolerance.outcomes import Gauge, gauged, readings
from foldproof.tolerance.settings import Setting
from foldproof.tolerance.study import SMALL, slopes

MOST_TOLD = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurable:
    """A length that can be measured on the finished card."""

    name: str
    """As it is named in a reading: `width of left door`."""
    key: str
    value: Fraction
    """What it should be, in the recipe's unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """Settings that were off, and by how much, that explain every reading."""

    errors: tuple[tuple[Setting, Fraction], ...]
    left: Fraction
    """How far the worst reading is still from what they explain."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosis:
    """What the readings say."""

    off: Mapping[str, Fraction]
    """The readings by their name, less what they should be."""
    causes: tuple[Cause, ...]
    """The likeliest first; none where nothing explains them, or nothing is off."""
    ask: str | None
    """What to measure next to tell the first two causes apart."""


def measurable(card: Card) -> tuple[Measurable, ...]:
    """What can be measured: sizes of pieces and panels, and of the finished card what can come out otherwise."""
    return tuple(
        Measurable(name=_named(key), key=key, value=value)
        for key, value in _look(as_planned(card), _gauges(card)).items())


def fineness(unit: Unit) -> Fraction:
    """How closely a ruler is read: to 1/64 in or 0.4 mm, half of its finest common division (our own choice)."""
    return {Unit.INCH: Fraction(1, 64), Unit.MM: Fraction(2, 5), Unit.CM: Fraction(1, 25)}[unit]


def diagnose(card: Card, making: Making, readings: Mapping[str, Fraction]) -> Diagnosis:
    """Which settings explain the readings, which are given by the keys of what can be measured."""
    gauges = _gauges(card)
    before = _look(as_planned(card), gauges)
    off = {key: value - before[key] for key, value in readings.items()}
    fine = fineness(card.recipe.unit)
    if all(abs(error) <= fine for error in off.values()):
        return Diagnosis(off=off, causes=(), ask=None)
    levers = [
        _Lever(setting=setting, sign=sign, slope=slope) for sign in (1, -1)
        for setting, slope in slopes(card, making, lambda made: _look(made, gauges), sign * SMALL)[0]]
    causes = _singles(levers, off, fine) or _pairs(levers, off, fine)
    return Diagnosis(off=off, causes=causes[:MOST_TOLD], ask=_ask(levers, causes, off, fine))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lever:
    """A setting moved one way, and what each measure does then."""

    setting: Setting
    sign: int
    slope: Mapping[str, Fraction]
    """Change of a measure for a change of the setting by one."""

    def by(self, key: str) -> Fraction:
        return self.slope.get(key, Fraction(0))


def _gauges(card: Card) -> Mapping[str, Gauge]:
    return {outcome.name: gauge for outcome, gauge in gauged(card) if outcome.exact}


def _look(made: Made, gauges: Mapping[str, Gauge]) -> dict[str, Fraction]:
    card, found = made.card, dict[str, Fraction]()
    for piece in card.pieces:
        box = bounding_box(piece.outline)
        found |= {f"width {piece.name}": box.width, f"height {piece.name}": box.height}
        if len(piece.panels) > 1:
            for name in piece.panels:
                box = bounding_box(card.panels[name].ring)
                found |= {f"width {name}": box.width, f"height {name}": box.height}
    return found | readings(gauges, made)


def _named(key: str) -> str:
    """`width left door` as `width of left door`, `border left mat` as `left border of mat`."""
    kind, rest = key.split(" ", 1)
    if kind in ("width", "height"):
        return f"{kind} of {rest}"
    if kind == "border":
        side, layer = rest.split(" ", 1)
        return f"{side} border of {layer}"
    return f"gap between {rest.replace(', ', ' and ')}" if kind == "meeting" else f"{rest} of the closed card"


def _singles(levers: Sequence[_Lever], off: Mapping[str, Fraction], fine: Fraction) -> tuple[Cause, ...]:
    found = []
    for lever in levers:
        weight = sum((lever.by(key) ** 2 for key in off), Fraction(0))
        if weight:
            error = sum((lever.by(key) * value for key, value in off.items()), Fraction(0)) / weight
            left = max(abs(value - lever.by(key) * error) for key, value in off.items())
            if left <= fine and error * lever.sign > 0:
                found.append(Cause(errors=((lever.setting, error),), left=left))
    return _likeliest(found)


def _pairs(levers: Sequence[_Lever], off: Mapping[str, Fraction], fine: Fraction) -> tuple[Cause, ...]:
    """Two settings that explain the readings together, by the normal equations of least squares."""
    found = []
    for one, other in combinations([lever for lever in levers if any(lever.by(key) for key in off)], 2):
        a, b, c = (
            sum((left.by(key) * right.by(key) for key in off), Fraction(0))
            for left, right in ((one, one), (one, other), (other, other)))
        p, q = (sum((lever.by(key) * value for key, value in off.items()), Fraction(0)) for lever in (one, other))
        whole = a * c - b * b
        if one.setting == other.setting or not whole:
            continue
        x, y = (p * c - q * b) / whole, (a * q - b * p) / whole
        left = max(abs(value - one.by(key) * x - other.by(key) * y) for key, value in off.items())
        if left <= fine and x * one.sign > 0 and y * other.sign > 0:
            found.append(Cause(errors=((one.setting, x), (other.setting, y)), left=left))
    return _likeliest(found)


def _likeliest(causes: Sequence[Cause]) -> tuple[Cause, ...]:
    """By the size of the errors that they suppose: small ones are made more often than large ones."""
    return tuple(sorted(causes, key=lambda cause: (sum(abs(error) for _, error in cause.errors), cause.left)))


def _ask(
    levers: Sequence[_Lever], causes: Sequence[Cause], off: Mapping[str, Fraction], fine: Fraction,
) -> str | None:
    """What two causes would make most unlike each other, where a ruler can tell."""
    if len(causes) < 2:
        return None
    moved = {(lever.setting, lever.sign): lever for lever in levers}
    first, second = (
        [(moved[setting, 1 if error > 0 else -1], error) for setting, error in cause.errors] for cause in causes[:2])
    keys = sorted({key for lever, _ in (*first, *second) for key in lever.slope} - off.keys())
    apart = {
        key: abs(sum((lever.by(key) * error for lever, error in first), Fraction(0))
                 - sum((lever.by(key) * error for lever, error in second), Fraction(0))) for key in keys}
    best = max(keys, key=lambda key: apart[key], default=None)
    return _named(best) if best is not None and apart[best] > 2 * fine else None
