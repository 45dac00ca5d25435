"""Poses, what is promised of the finished card, supplies and tools, from read fields."""

from foldproof.measures.quantity import Quantity
from foldproof.paper.face import Face
from foldproof.recipe.desk import Builder, Desk, Fields, Item
from foldproof.recipe.records import (
    EdgeOf,
    FinishedSpec,
    FoldSpec,
    MeetSpec,
    PoseSpec,
    RestSpec,
    StandsSpec,
    SupplySpec,
    Text,
    ToolSpec,
    Turned,
)


def rest(fields: Fields, name: Text | None, desk: Desk) -> RestSpec:
    """What a standing card leans on."""
    return RestSpec(foot=fields.need("foot", EdgeOf), against=fields.need("against", EdgeOf))


def pose(fields: Fields, name: Text | None, desk: Desk) -> PoseSpec | None:
    """A pose."""
    assert name is not None
    folds = tuple(
        FoldSpec(score=item.name, angle=item.value if isinstance(item.value, Quantity) else None)
        for item in fields.get("folds", tuple) or ()
        if isinstance(item, Item) and item.name
    )
    over = []
    for pair in fields.several("over", tuple):
        upper, lower = texts(pair)
        if upper.value == lower.value:
            desk.error(
                "over itself", f"`{upper}` cannot lie over itself.", upper.place, "Name two panels: [upper, lower]."
            )
            return None
        over.append((upper, lower))
    tucks = tuple(pair for pair in fields.several("tucks", tuple) if len(pair) == 2)
    return PoseSpec(
        name=name,
        still=fields.get("still", Text),
        folds=folds,
        seen=Face(fields.word("seen") or "front"),
        turned=Turned(fields.word("turned") or "none"),
        over=tuple(over),
        rests=fields.get("rests", RestSpec),
        place=name.place,
        tucks=tucks,
        shows=fields.several("shows", Text),
        hides=fields.several("hides", Text),
        first=fields.several("first", Text),
        bends=fields.several("bends", Text),
    )


def tuck(fields: Fields, name: Text | None, desk: Desk) -> tuple[Text, Text] | None:
    """(upper, lower) of a tuck."""
    flap, under = fields.need("flap", Text), fields.need("under", Text)
    if flap.value == under.value:
        desk.error("under itself", f"`{flap}` cannot be tucked under itself.", under.place, "Name two panels.")
        return None
    return under, flap


def texts(items: tuple[object, ...]) -> tuple[Text, ...]:
    """The names in a list."""
    plain = tuple(item.value if isinstance(item, Item) else item for item in items)
    assert all(isinstance(each, Text) for each in plain)
    return tuple(each for each in plain if isinstance(each, Text))


def meeting(fields: Fields, name: Text | None, desk: Desk) -> MeetSpec | None:
    """Two panels whose edges face each other."""
    first, second = fields.several("panels", Text)
    if first.value == second.value:
        desk.error("meets itself", f"`{first}` cannot meet itself.", second.place, "Name two panels.")
        return None
    return MeetSpec(
        panels=(first, second),
        gap=fields.get("gap", Quantity),
        overlap=fields.get("overlap", Quantity),
        place=fields.place,
    )


def stands(fields: Fields, name: Text | None, desk: Desk) -> StandsSpec:
    """The size promised for a standing pose."""
    return StandsSpec(pose=fields.need("pose", Text), height=fields.need("height", Quantity), place=fields.place)


def finished(fields: Fields, known_poses: frozenset[str]) -> FinishedSpec | None:
    """What is promised of the finished card; None without its size. Poses that are left out are not named."""
    size = fields.size("size")
    if size is None:
        return None
    chosen, stand = fields.get("pose", Text), fields.get("stands", StandsSpec)
    envelope = fields.get("envelope", object)
    return FinishedSpec(
        size=size,
        pose=chosen if chosen and chosen.value in known_poses else None,
        envelope=envelope if isinstance(envelope, Text) else None,
        envelope_size=fields.size("envelope") if isinstance(envelope, tuple) else None,
        meets=fields.several("meets", MeetSpec),
        stands=stand if stand and stand.pose.value in known_poses else None,
        place=fields.place,
    )


def supply(fields: Fields, name: Text | None, desk: Desk) -> SupplySpec:
    """A supply."""
    assert name is not None
    kind = fields.get("kind", Text)
    return SupplySpec(
        name=name,
        kind=kind.value if kind else None,
        amount=fields.get("amount", Text),
        length=fields.get("length", Quantity),
        thickness=fields.get("thickness", Quantity),
        dries=fields.get("dries", Quantity),
        place=name.place,
    )


def tool(fields: Fields, name: Text | None, desk: Desk) -> ToolSpec:
    """A tool."""
    assert name is not None
    return ToolSpec(
        name=name, basic=fields.word("basic") == "true", caution=fields.get("caution", Text), place=name.place
    )


BUILDERS: dict[str, Builder] = {
    "rest": rest,
    "tuck": tuck,
    "pose": pose,
    "meeting": meeting,
    "stand": stands,
    "supply": supply,
    "tool": tool,
}
