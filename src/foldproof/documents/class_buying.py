"""The shopping list and the cost of a class, in words."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from foldproof.classroom.class_plan import ClassPlan
from foldproof.classroom.shopping import LENGTH_UNITS, Cost, Item
from foldproof.documents.view import Fact
from foldproof.measures.quantity import Unit
from foldproof.measures.rounding import decimal, half_even
from foldproof.measures.writing import write_length

_PLURAL = {"inch": "inches", "foot": "feet", "cm": "cm"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """A row of the shopping list."""

    name: str
    note: str
    need: str
    on_hand: str
    buy: str
    price: str
    """Of what is bought, together; empty where it is not known."""


def tell_item(item: Item, plan: ClassPlan) -> Bought:
    """A row of the shopping list."""
    buy = ""
    if item.packs is not None and item.holds is not None:
        if item.packs == 0:
            buy = "nothing"
        else:
            called = item.called if item.packs == 1 else plural(item.called)
            holds = counted(item.holds, item.unit)
            joined = holds if item.unit == "card" else f"of {holds}"
            buy = f"{item.packs} {called}" + ("" if item.called == item.unit and item.holds == 1 else f" {joined}")
    elif item.short is not None:
        buy = "nothing" if item.short == 0 else counted(item.short, item.unit)
    cost = plan.shopping.cost
    return Bought(
        name=item.name,
        note=item.note,
        need="shared" if item.need is None else counted(item.need, item.unit),
        on_hand=counted(item.on_hand, item.unit) if item.on_hand else "",
        buy=buy,
        price=amount(item.spend, cost.currency) if cost and item.spend is not None else "",
    )


def counted(number: Fraction, unit: str) -> str:
    """A number with its unit, as sold: whole things as they are, lengths up to the next tenth."""
    if unit in LENGTH_UNITS:
        tenths = -int(-number * 10 // 1)
        shown = str(tenths // 10) if tenths % 10 == 0 else f"{tenths // 10}.{tenths % 10}"
        return f"{shown} {unit if shown == '1' else plural(unit)}"
    whole = -int(-number // 1)
    if unit == "card":
        return f"for {whole} {'card' if whole == 1 else 'cards'}"
    return f"{whole} {unit if whole == 1 else plural(unit)}" if unit != "piece" else str(whole)


def plural(word: str) -> str:
    """Several of them."""
    return _PLURAL.get(word) or (f"{word}es" if word.endswith(("s", "x", "ch")) else f"{word}s")


def amount(value: Fraction, currency: str) -> str:
    """Money with its currency as written: a sign before, letters after."""
    shown = decimal(half_even(value, 2), 2)
    return f"{shown} {currency}" if currency.isalpha() else f"{currency}{shown}"


def tell_cost(cost: Cost) -> Iterator[Fact]:
    """The sums below the list."""
    yield Fact(label="To spend", text=amount(cost.spend, cost.currency))
    yield Fact(label="Materials used", text=amount(cost.used, cost.currency))
    yield Fact(label="Each of the people", text=amount(cost.each, cost.currency))
    if cost.suggested is not None and cost.margin is not None:
        yield Fact(
            label=f"Suggested price, {write_length(cost.margin, Unit.MM)} % added",
            text=amount(cost.suggested, cost.currency),
        )


def money_note(cost: Cost | None) -> str:
    """How the sums were reckoned, and what is in none."""
    if cost is None:
        return "No price is known, so there is no cost."
    note = (
        "Materials used are reckoned by the share of each pack that all kits take, what was on hand too, and divided "
        "among the people who come."
    )
    return note + (f" Without a price, and so in no sum: {', '.join(cost.without)}." if cost.without else "")
