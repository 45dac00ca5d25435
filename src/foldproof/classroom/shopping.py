"""What to buy and what it costs: whole sheets, packs and rolls; what is on hand is used first."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from foldproof.classroom.lesson import Heads, Lesson
from foldproof.classroom.needs import Needs
from foldproof.classroom.own_files import Stock
from foldproof.classroom.supplies import SupplyNeed
from foldproof.findings.finding import Aside, Finding, Severity
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.recipe.class_records import PackSpec

LENGTH_UNITS: Mapping[str, Fraction] = {
    "inch": Fraction(127, 5),
    "foot": Fraction(1524, 5),
    "yard": Fraction(4572, 5),
    "cm": Fraction(10),
    "metre": Fraction(1000),
}
"""Millimetres; the yard is 0.9144 m exactly (yard and pound agreement, 1959)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One line of the shopping list."""

    name: str
    kind: str
    """`paper`, `supply`, `envelope`, `die cut`."""
    unit: str
    """What it is counted in; empty where the recipe gives no amount that can be counted."""
    need: Fraction | None
    """In that unit, for all kits."""
    on_hand: Fraction
    holds: Fraction | None
    """In one pack; None where no pack is known."""
    called: str
    """What a pack is called."""
    packs: int | None
    """To be bought; None where no pack is known."""
    price: Fraction | None
    """Of one pack."""
    note: str

    @property
    def short(self) -> Fraction | None:
        """What is still needed beside what is on hand."""
        return None if self.need is None else max(Fraction(0), self.need - self.on_hand)

    @property
    def spend(self) -> Fraction | None:
        """At the till."""
        return None if self.price is None or self.packs is None else self.price * self.packs

    @property
    def used(self) -> Fraction | None:
        """The worth of what is used, at the price of its pack."""
        if self.price is None or self.holds is None or self.need is None:
            return None
        return self.price * self.need / self.holds


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What the class costs, as far as prices are known."""

    currency: str
    spend: Fraction
    used: Fraction
    each: Fraction
    """Of what is used, for each person who comes."""
    margin: Fraction | None
    """Hundredths."""
    suggested: Fraction | None
    """For each person, rounded up to a whole hundredth."""
    without: tuple[str, ...]
    """Items without a price, which are in no sum."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shopping:
    """The list and its cost."""

    items: tuple[Item, ...]
    cost: Cost | None
    """None where no price is known, or where prices are in two currencies."""


def shopping(
    lessons: Sequence[Lesson], needs: Needs, sheets: Mapping[str, int | None], heads: Heads, stock: Stock
) -> tuple[Shopping, tuple[Finding, ...]]:
    """The shopping list. `sheets` says how many sheets of each paper the cutting plan takes."""
    packs = {str(pack.name): pack for one in lessons if one.spec for pack in one.spec.packs}
    for one in lessons:
        if one.spec and one.spec.envelopes and one.card.recipe.finished.envelope:
            packs.setdefault(f"{one.card.recipe.finished.envelope} envelope", one.spec.envelopes)
    findings: list[Finding] = []
    items = [
        _item(
            name=paper.name,
            kind="paper",
            unit="sheet",
            need=None if sheets.get(paper.name) is None else Fraction(sheets[paper.name] or 0),
            known=_known(paper.spec.name.value, stock.papers, packs),
            note=", ".join(str(word) for word in (paper.spec.kind, paper.spec.weight) if word),
        )
        for paper in needs.papers
    ]
    merged: dict[str, list[SupplyNeed]] = {}
    for supply in (*needs.dies, *needs.supplies):
        merged.setdefault(supply.name, []).append(supply)
    for name, several in merged.items():
        known = _known(name, stock.supplies, packs)
        items.append(_supply_item(name, several, known, heads, findings))
    cost, faults = _cost(items, [(item, _known_any(item.name, stock, packs)) for item in items], lessons, heads)
    return Shopping(items=tuple(items), cost=cost), (*findings, *faults)


def _known(name: str, shelf: Mapping[str, PackSpec], packs: Mapping[str, PackSpec]) -> PackSpec | None:
    """The pack of the stock file, filled up from the recipe where the stock file only says what is on hand."""
    own, told = shelf.get(name), packs.get(name)
    if own is None or told is None or own.price is not None or own.holds is not None:
        return own or told
    return PackSpec(
        name=own.name,
        holds=told.holds,
        unit=told.unit,
        called=told.called,
        price=told.price,
        on_hand=own.on_hand,
        place=own.place,
    )


def _known_any(name: str, stock: Stock, packs: Mapping[str, PackSpec]) -> PackSpec | None:
    return _known(name, {**stock.supplies, **stock.papers}, packs)


def _item(*, name: str, kind: str, unit: str, need: Fraction | None, known: PackSpec | None, note: str) -> Item:
    on_hand = known.on_hand.value if known and known.on_hand else Fraction(0)
    holds = (known.holds.value if known.holds else Fraction(1)) if known and (known.price or known.holds) else None
    rest = None if need is None else max(Fraction(0), need - on_hand)
    return Item(
        name=name,
        kind=kind,
        unit=unit,
        need=need,
        on_hand=on_hand,
        holds=holds,
        called=str(known.called) if known and known.called else "pack",
        packs=None if holds is None or rest is None else -int(-rest // holds),
        price=known.price.value if known and known.price else None,
        note=note,
    )


def _supply_item(
    name: str, several: Sequence[SupplyNeed], known: PackSpec | None, heads: Heads, findings: list[Finding]
) -> Item:
    first = several[0]
    lengths = [one.length * one.unit.millimetres for one in several if one.length is not None]
    pieces = [one.pieces for one in several if one.pieces is not None]
    sold = known.unit if known else ("metre" if first.unit is not Unit.INCH else "yard") if lengths else "piece"
    need: Fraction | None = None
    if sold in LENGTH_UNITS:
        if lengths:
            need = sum(lengths, Fraction(0)) / LENGTH_UNITS[sold] * heads.kits
        elif known is not None:
            findings.append(_no_length(name, sold, known))
    elif sold == "card":
        need = Fraction(heads.kits * len(several))
    elif pieces:
        need = Fraction(sum(pieces) * heads.kits)
    elif lengths:
        need = Fraction(len(lengths) * heads.kits)  # sold cut to length
    kind = "envelope" if first.kind == "envelope" else "die cut" if first.kind.startswith("die cut") else "supply"
    notes = dict.fromkeys(
        one.reckoned or (one.amount if one.pieces is None or kind == "supply" else "") for one in several
    )
    each = "; ".join(note for note in notes if note)
    return _item(
        name=name,
        kind=kind,
        unit=sold if need is not None else "",
        need=need,
        known=known,
        note=f"each kit: {each}" if each and kind == "supply" else each,
    )


def _no_length(name: str, sold: str, known: PackSpec) -> Finding:
    return Finding(
        name="length not known",
        severity=Severity.ADVICE,
        message=f"{name} is sold by the {sold}, and no recipe says how much of it one card takes.",
        mend="Give the supply a length, or say under `wraps` how it goes round the card.",
        place=known.place,
    )


def _cost(
    items: Sequence[Item], known: Iterable[tuple[Item, PackSpec | None]], lessons: Sequence[Lesson], heads: Heads
) -> tuple[Cost | None, tuple[Finding, ...]]:
    priced = [(pack.price.currency or "", pack) for _, pack in known if pack is not None and pack.price is not None]
    if not priced:
        return None, ()
    currencies = dict.fromkeys(_plain_currency(currency) for currency, _ in priced)
    if len(currencies) > 1:
        first, other = priced[0], next(p for p in priced if _plain_currency(p[0]) != _plain_currency(priced[0][0]))
        assert first[1].price is not None and other[1].price is not None
        return None, (
            Finding(
                name="prices in two currencies",
                severity=Severity.ERROR,
                message=f"{first[1].name} is priced in {first[0]} and {other[1].name} in {other[0]}: they can't be "
                "added without a rate, and rates change.",
                mend="Give all prices in one currency.",
                place=other[1].price.place,
                asides=(Aside(text=f"The price in {first[0]}.", place=first[1].price.place),),
            ),
        )
    without = tuple(item.name for item in items if item.price is None and item.need != 0)
    spend = sum((item.spend or Fraction(0) for item in items), Fraction(0))
    used = sum((item.used or Fraction(0) for item in items), Fraction(0))
    each = used / heads.people
    margins = [one.spec.margin.value for one in lessons if one.spec and one.spec.margin]
    margin = max(margins) if margins else None
    suggested = None if margin is None else Fraction(-int(-(each * (100 + margin)) // 1), 100)
    cost = Cost(
        currency=priced[0][0],
        spend=spend,
        used=used,
        each=each,
        margin=margin,
        suggested=suggested,
        without=without,
    )
    return cost, tuple(_no_price(without))


def _plain_currency(sign: str) -> str:
    return sign.strip().upper()


def _no_price(without: Sequence[str]) -> Iterable[Finding]:
    if without:
        yield Finding(
            name="price missing",
            severity=Severity.ADVICE,
            message=f"No price is known for {', '.join(without)}: the cost is without "
            f"{'it' if len(without) == 1 else 'them'}.",
            mend="Give prices under `paper packs` and `supply packs` of the class part, or in the stock file.",
        )
