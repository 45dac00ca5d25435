"""Where and until when a thing can be had, as the documents say it."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from foldproof.checks.sold import is_gone
from foldproof.documents.class_buying import amount, counted
from foldproof.documents.days import day_words
from foldproof.documents.view import Listed
from foldproof.measures.quantity import Unit
from foldproof.recipe.class_records import PackSpec
from foldproof.recipe.records import Recipe


def with_sale(
    listed: Iterable[Listed], recipe: Recipe, dated: str, said: Callable[[str], str],
) -> tuple[Listed, ...]:
    """The things with what the recipe's packs say of them. `dated` is the day that is printed, or empty.

    A day on which something ends is printed as it is written, so that the same recipe and day make the same words.
    """
    packs = {str(pack.name): pack for pack in recipe.class_part.packs} if recipe.class_part else {}
    return tuple(
        _told(one, packs[one.name], recipe.unit, dated, said) if one.name in packs else one for one in listed)


def _told(one: Listed, pack: PackSpec, unit: Unit, dated: str, said: Callable[[str], str]) -> Listed:
    note = "; ".join(part for part in (one.note, _until(pack, unit, dated, said)) if part)
    return replace(one, note=note, offer=_offer(pack), link=str(pack.link or ""), price=_price(pack))


def _until(pack: PackSpec, unit: Unit, dated: str, said: Callable[[str], str]) -> str:
    """The last day, and what does as well afterwards, or at any time where there is no such day."""
    other = said(str(pack.substitute)) if pack.substitute else ""
    if pack.until is None:
        return f"or {other}" if other else ""
    day = day_words(str(pack.until), unit)
    if is_gone(pack, dated):
        return f"no longer to be had since {day}" + (f": take {other}" if other else "")
    return f"to be had until {day}" + (f", then {other}" if other else "")


def _offer(pack: PackSpec) -> str:
    """`bottle for 40 cards, 3.20 USD`."""
    called = str(pack.called or ("pack" if pack.holds else ""))
    holds = counted(pack.holds.value, pack.unit) if pack.holds else ""
    joined = holds if pack.unit == "card" or not holds else f"of {holds}"
    if pack.holds is not None and pack.holds.value == 1 and called == pack.unit:
        joined = ""
    return ", ".join(part for part in (" ".join(filter(None, (called, joined))), _price(pack)) if part)


def _price(pack: PackSpec) -> str:
    return amount(pack.price.value, pack.price.currency or "") if pack.price else ""
