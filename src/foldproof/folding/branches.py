"""The ways in which a card can stand: angles that are left open, found from a flat state and from starts all over.

Where the card lies flat its loops lose their grip (every fold could begin to turn), so the flat state is left by a
small step of the angles that are given, from many starts on the side that valley and mountain allow; each way that
closes there is followed to the end. Starts all over the range add ways that no flat state was seen to lead to.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import islice, product
from math import pi, radians

from foldproof.folding.solving import Felt, Numbers, Solution, least_squares
from foldproof.frozen import dataclass
from foldproof.paper.face import Fold

Angles = Mapping[str, float]
"""Radians by score."""
_MOST_STARTS = 27
_FIRST_STEP = radians(6)
_LONGEST_STEP = radians(15)
_APART = 1e-2


@dataclass(frozen=True, slots=True, kw_only=True)
class Puzzle:
    """What is to be found."""

    open_: tuple[str, ...]
    """The scores whose angles are not given."""
    folds: Mapping[str, Fold]
    given: Angles
    flats: tuple[Angles, ...]
    """Flat states of the card that close, with the angle of every score that is folded there."""
    misses: Callable[[Angles], Numbers]
    """How far the card is from closing, as many lengths."""
    tolerance: float

    @property
    def low(self) -> Numbers:
        """The least angles on the side on which valley and mountain leave the flat."""
        return tuple(0.0 if self.folds[name] is Fold.VALLEY else -pi for name in self.open_)

    @property
    def high(self) -> Numbers:
        """The greatest ones."""
        return tuple(a + pi for a in self.low)

    def all_angles(self, at: Numbers, given: Angles | None = None) -> Angles:
        """Every angle, for values of the open ones."""
        return {**(self.given if given is None else given), **dict(zip(self.open_, at, strict=True))}

    def solve(self, start: Numbers, given: Angles | None = None) -> Solution:
        """The nearest that comes to closing from a start."""
        return least_squares(lambda at: self.misses(self.all_angles(at, given)), start, self.low, self.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """One way in which the card comes together."""

    at: Numbers
    misfit: float
    from_flat: bool
    """Whether it was followed from a flat state."""
    felt: Felt
    """What small moves do in a general pose of this branch."""


def branches(puzzle: Puzzle) -> tuple[tuple[Branch, ...], Solution]:
    """The ways that were found, those that start from flat first, and the nearest try. There may be others."""
    followed = [found for flat in puzzle.flats for found in _from_flat(puzzle, flat)]
    most = _MOST_STARTS // 3 if any(found.worst <= puzzle.tolerance for found in followed) else _MOST_STARTS
    direct = [puzzle.solve(start) for start in islice(_starts(puzzle.low, puzzle.high), most)]
    best = min((*followed, *direct), key=lambda found: found.worst)
    kept: list[tuple[Solution, bool]] = []
    for found, known in [*((one, True) for one in followed), *((one, False) for one in direct)]:
        if found.worst <= puzzle.tolerance and all(apart(found.at, other.at) > _APART for other, _ in kept):
            kept.append((found, known))
    return tuple(
        Branch(at=found.at, misfit=found.worst, from_flat=known, felt=_in_general(puzzle, found))
        for found, known in kept
    ), best


def apart(one: Numbers, other: Numbers) -> float:
    """The greatest difference, in radians."""
    return max((abs(a - b) for a, b in zip(one, other, strict=True)), default=0.0)


def _starts(low: Numbers, high: Numbers) -> Iterator[Numbers]:
    """Starts spread over the range, the middle first."""
    count = len(low)
    shares: Sequence[Numbers]
    if 3 ** count <= _MOST_STARTS:
        shares = list(product((1 / 2, 1 / 6, 5 / 6), repeat=count))
    else:
        shares = [(1 / 2,) * count, *_scattered(count, _MOST_STARTS - 1)]
    for mix in shares:
        yield tuple(a + (b - a) * share for a, b, share in zip(low, high, mix, strict=True))


def _scattered(count: int, how_many: int) -> list[Numbers]:
    """Points spread evenly over a cube, the same ones every time (Halton 1960; leaped primes for many unknowns)."""
    primes: list[int] = []
    number = 2
    while len(primes) < count:
        if all(number % prime for prime in primes):
            primes.append(number)
        number += 1
    return [tuple(_mirrored(i + 1, prime) for prime in primes) for i in range(how_many)]


def _mirrored(index: int, base: int) -> float:
    """The digits of a number mirrored behind the point (van der Corput 1935)."""
    value, share = 0.0, 1.0
    while index:
        index, digit = divmod(index, base)
        share /= base
        value += digit * share
    return value


def _from_flat(puzzle: Puzzle, flat: Angles) -> list[Solution]:
    """Leave a flat state by a small step on every side that closes, and go on to the wanted angles."""
    if not puzzle.open_:
        return []
    way = max((abs(angle - flat.get(name, 0.0)) for name, angle in puzzle.given.items()), default=0.0)
    if way < 1e-9:
        return []
    first = min(1.0, _FIRST_STEP / way)
    home = tuple(flat.get(name, 0.0) for name in puzzle.open_)
    inward = tuple(pi if at == lo else -pi for at, lo in zip(home, puzzle.low, strict=True))
    count = len(home)
    shares = [(1.0,) * count, (0.5,) * count, *_scattered(count, min(3 ** count, 16))]
    begun: list[Solution] = []
    for mix in shares:
        start = tuple(
            at + side / pi * share * 2 * way * first for at, side, share in zip(home, inward, mix, strict=True))
        found = puzzle.solve(_clipped(puzzle, start), _part_way(puzzle, flat, first))
        if found.worst <= puzzle.tolerance and all(apart(found.at, other.at) > _APART / 10 for other in begun):
            begun.append(found)
    followed = (_follow(puzzle, flat, home, first, found, way) for found in begun)
    return [found for found in followed if found is not None]


def _follow(
    puzzle: Puzzle, flat: Angles, home: Numbers, share: float, found: Solution, way: float,
) -> Solution | None:
    """Go on from a small step to the whole way; None where it does not stay closed."""
    before, before_share = home, 0.0
    while share < 1.0:
        ahead = min(1.0, share * 1.8, share + _LONGEST_STEP / way)
        pace = (ahead - share) / (share - before_share)
        start = tuple(at + (at - old) * pace for at, old in zip(found.at, before, strict=True))
        there = puzzle.solve(_clipped(puzzle, start), _part_way(puzzle, flat, ahead))
        if there.worst > puzzle.tolerance:
            return None
        before, before_share, found, share = found.at, share, there, ahead
    return found


def _part_way(puzzle: Puzzle, flat: Angles, share: float) -> Angles:
    return {name: flat.get(name, 0.0) + (angle - flat.get(name, 0.0)) * share for name, angle in puzzle.given.items()}


def _clipped(puzzle: Puzzle, at: Numbers) -> Numbers:
    return tuple(min(max(a, lo), hi) for a, lo, hi in zip(at, puzzle.low, puzzle.high, strict=True))


def _in_general(puzzle: Puzzle, found: Solution) -> Felt:
    """What small moves do here; where some are not felt, what they do beside here, at a pose that is not special.

    At a special pose (flat, or stretched out) the rank falls though the card is held: every small move of the given
    angles must leave the same freedom for it to be told.
    """
    if found.fixed or not puzzle.given:
        return found.felt
    best = found.felt
    for step in (radians(2), -radians(2)):
        given = {name: angle + (step if abs(angle + step) <= pi else -step) for name, angle in puzzle.given.items()}
        for nudge in (0.0, step, -step):
            start = tuple(at + nudge * (1 if lo == 0.0 else -1) for at, lo in zip(found.at, puzzle.low, strict=True))
            beside = puzzle.solve(_clipped(puzzle, start), given)
            if beside.worst <= puzzle.tolerance and apart(beside.at, found.at) < radians(30):
                best = max(best, beside.felt, key=lambda one: one.rank)
    return best
