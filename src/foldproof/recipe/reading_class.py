"""The class part from read fields."""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from foldproof.measures.quantity import Kind, Quantity
from foldproof.recipe.class_records import ClassSpec, PackSpec, ToolCount, WrapSpec
from foldproof.recipe.desk import Builder, Desk, Fields, Item
from foldproof.recipe.text import Text

WHOLE = ("people", "spares")


def pack(fields: Fields, name: Text | None, desk: Desk) -> PackSpec:
    """How something is sold; envelopes have no name of their own."""
    name = name or Text(value="envelope", place=fields.place)
    own = fields.form.key("link") is not None
    return PackSpec(
        name=name,
        holds=fields.get("holds", Quantity),
        unit=fields.word("of") or "sheet",
        called=fields.get("called", Text),
        price=fields.get("price", Quantity),
        on_hand=fields.get("on hand", Quantity) if fields.form.key("on hand") else None,
        place=name.place,
        link=fields.get("link", Text) if own else None,
        until=fields.get("until", Text) if own else None,
        substitute=fields.get("substitute", Text) if own else None,
    )


def wrap(fields: Fields, name: Text | None, desk: Desk) -> WrapSpec | None:
    """How ribbon goes round."""
    assert name is not None
    times = fields.get("times", Quantity)
    way = fields.word("round") or "width"
    if times is None:
        times = Quantity(value=Fraction(1), kind=Kind.NUMBER, written="1", place=name.place)
    return WrapSpec(
        supply=name,
        way="across" if way == "width" else "up",
        times=times,
        knot=fields.get("knot", Quantity),
        tails=fields.get("tails", Quantity),
        place=fields.place,
    )


def class_part(fields: Fields, name: Text | None, desk: Desk) -> ClassSpec | None:
    """The whole part."""
    sound = whole_numbers(((key, fields.get(key, Quantity)) for key in WHOLE), desk)
    people = fields.get("people", Quantity)
    if people is not None and people.value < 1:
        desk.error(
            "nobody comes",
            f"`{people.written}` people: a class has at least one.",
            people.place,
            "Write how many people come.",
        )
        sound = False
    counts = tuple(
        ToolCount(tool=item.name, count=item.value)
        for item in fields.get("tools at hand", tuple) or ()
        if isinstance(item, Item) and item.name is not None and isinstance(item.value, Quantity)
    )
    sound = whole_numbers(((f"the {one.tool}", one.count) for one in counts), desk) and sound
    ahead = fields.several("cut ahead", Text) if "cut ahead" in fields.values else None
    if not sound:
        return None
    return ClassSpec(
        people=people,
        spares=fields.get("spares", Quantity),
        sample=fields.word("sample") != "none",
        pace=fields.get("pace", Quantity),
        margin=fields.get("margin", Quantity),
        cut_ahead=ahead,
        tools=counts,
        welcome=fields.get("welcome", Quantity),
        tidying=fields.get("tidying", Quantity),
        packs=(*fields.several("paper packs", PackSpec), *_pieces(fields.several("supply packs", PackSpec))),
        envelopes=next(iter(_pieces([one] if (one := fields.get("envelopes", PackSpec)) else [])), None),
        wraps=fields.several("wraps", WrapSpec),
        place=fields.place,
    )


def _pieces(packs: Iterable[PackSpec]) -> Iterable[PackSpec]:
    """A supply that is counted in nothing said is sold by the piece, not by the sheet."""
    return (replace(one, unit="piece") if one.unit == "sheet" else one for one in packs)


def whole_numbers(given: Iterable[tuple[str, Quantity | None]], desk: Desk) -> bool:
    """Whether these are whole; a finding for each that is not."""
    broken = [(what, count) for what, count in given if count is not None and count.value.denominator != 1]
    for what, count in broken:
        desk.error(
            "not a whole number",
            f"`{count.written}` is no whole number, and {what} are counted.",
            count.place,
            f"Write {int(count.value)} or {int(count.value) + 1}.",
        )
    return not broken


BUILDERS: dict[str, Builder] = {"pack": pack, "wrap": wrap, "class": class_part}
