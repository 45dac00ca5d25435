"""What every length of the plan asks of the marks: that it comes to a mark itself. Sets of marks that grant it."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from heapq import heappop, heappush

from foldproof.edition.centring import centred
from foldproof.edition.plan import Chosen, Part, in_plan, named
from foldproof.edition.roundings import FINEST
from foldproof.edition.sums import literals, measures_at, worked
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Kind, Quantity, Unit
from foldproof.measures.writing import write_length
from foldproof.recipe.records import LayerSpec, PieceSpec, Recipe

MOST_LOOKS = 40_000
"""How many beginnings of sets of marks are looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """A length of the plan that must come to a mark, and the parts that it is worked out from."""

    told: str
    """The sum, as written."""
    sums: tuple[Quantity, ...]
    """One length; or two of which half the difference is meant."""
    parts: tuple[int, ...]
    """Their numbers, in order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The demands of a plan."""

    recipe: Recipe
    parts: tuple[Part, ...]
    demands: tuple[Demand, ...]
    known: dict[tuple[str, tuple[Fraction, ...]], Fraction]
    """What demands have come to so far."""

    def comes_to(self, demand: Demand, values: tuple[Fraction, ...]) -> Fraction:
        """What a demand comes to with these values of its parts."""
        key = demand.told, values
        if key not in self.known:
            unit = self.recipe.unit
            chosen = {self.parts[number]: value for number, value in zip(demand.parts, values, strict=True)}
            marks = {part.exact: value for part, value in chosen.items() if part.measure is None}
            at = {part.measure: value for part, value in chosen.items() if part.measure is not None}
            names = measures_at(named(self.recipe), at, marks, unit)
            found = [worked(one, names, marks, unit).value for one in demand.sums]
            self.known[key] = found[0] if len(found) == 1 else (found[0] - found[1]) / 2
        return self.known[key]

    def misses(self, demand: Demand, values: tuple[Fraction, ...]) -> bool:
        """Whether it comes to no mark."""
        return (self.comes_to(demand, values) / FINEST[self.recipe.unit]).denominator != 1

    def first_miss(self) -> str | None:
        """What is told of the likeliest marks, where a sum of theirs comes to no mark."""
        for demand in self.demands:
            values = tuple(self.parts[number].choices[0].value for number in demand.parts)
            if self.misses(demand, values):
                return f"`{demand.told}` comes to {write_length(self.comes_to(demand, values), self.recipe.unit)}"
        return None


def asked(recipe: Recipe, parts: Sequence[Part]) -> Asked:
    """The demands of a plan that stands in the edition's unit, exact."""
    names, unit = named(recipe), recipe.unit
    sums: dict[str, tuple[Quantity, ...]] = {}
    for quantity in (*names.values(), *in_plan(recipe)):
        if quantity.kind is Kind.LENGTH and quantity.names:
            sums.setdefault(quantity.written, (quantity,))
    specs: tuple[PieceSpec | LayerSpec, ...] = (*recipe.pieces, *recipe.layers)
    for spec in specs:
        for hole in spec.cuts.holes:
            for _, whole, part in centred(spec, hole):
                sums.setdefault(f"({whole.written} - {part.written}) / 2", (whole, part))
    numbers = {(part.measure, part.exact if part.measure is None else None): n for n, part in enumerate(parts)}
    demands = []
    for told, quantities in sums.items():
        behind: set[int] = set()
        for one in quantities:
            behind |= {numbers[key] for key in _behind(one, names, unit) if key in numbers}
        demands.append(Demand(told=told, sums=quantities, parts=tuple(sorted(behind))))
    return Asked(recipe=recipe, parts=tuple(parts), demands=tuple(demands), known={})


def _behind(
    quantity: Quantity, names: dict[str, Quantity], unit: Unit,
) -> Iterator[tuple[str | None, Fraction | None]]:
    """The keys of all parts that a length is worked out from."""
    yield from ((None, plain) for plain in literals(quantity, names, unit))
    for name in quantity.names:
        yield name, None
        yield from _behind(names[name], names, unit) if names[name].names or not names[name].value else ()


def sets_of_marks(asked: Asked) -> Iterator[Chosen]:
    """Sets of marks with which every sum of the plan comes to a mark, the nearest to the exact lengths first."""
    parts = asked.parts
    order = sorted(range(len(parts)), key=lambda n: (-sum(n in one.parts for one in asked.demands), n))
    place = {number: at for at, number in enumerate(order)}
    due: dict[int, list[Demand]] = {}
    for demand in asked.demands:
        if demand.parts:
            due.setdefault(max(place[number] for number in demand.parts), []).append(demand)
    rest = [Fraction(0)]
    for number in reversed(order):
        rest.append(rest[-1] + parts[number].choices[0].cost)
    rest.reverse()
    waiting: list[tuple[Fraction, int, tuple[Fraction, ...]]] = [(rest[0], 0, ())]
    for _ in range(MOST_LOOKS):
        if not waiting:
            return
        cost, depth, values = heappop(waiting)
        depth = -depth
        if depth == len(parts):
            yield {parts[number]: value for number, value in zip(order, values, strict=True)}
            continue
        for choice in parts[order[depth]].choices:
            more = (*values, choice.value)
            if not any(asked.misses(one, tuple(more[place[n]] for n in one.parts)) for one in due.get(depth, ())):
                fresh = cost - rest[depth] + choice.cost + rest[depth + 1]
                heappush(waiting, (fresh, -(depth + 1), more))
