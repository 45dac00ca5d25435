"""Nodes to values, driven by the table of keys: the same walk for every mapping of the grammar."""

from foldproof.measures.quantity import Quantity
from foldproof.recipe import scalars
from foldproof.recipe.desk import Desk, Fields, Given, Item
from foldproof.recipe.kinds import (
    Bound,
    ByName,
    Coordinates,
    Form,
    ListOf,
    Mapped,
    Measured,
    Named,
    Naming,
    PointOnPiece,
    Size,
    ValueKind,
    WherePanel,
    namings_in,
)
from foldproof.recipe.matching import complete, form_of, matched, may_be_empty, nothing_written
from foldproof.recipe.naming import fit_for_name, tidy, use
from foldproof.recipe.nodes import Entry, Mapping, Node, Scalar, Sequence
from foldproof.recipe.records import PointAt, Text
from foldproof.recipe.wording import a, an_example, what_stands


def read(node: Node, kind: ValueKind, desk: Desk, name: Text | None = None) -> object | None:
    """Read a node as a kind of value; None where it is broken, with the finding made.

    `name` is the name that the value is given to, where it has one.
    """
    if isinstance(node, Scalar) and node.style == "*":
        return None  # a copy: reported where the text was composed
    match kind:
        case Mapped():
            return _mapped(node, kind, desk, name)
        case Named() | ByName():
            return _by_names(node, kind, desk)
        case ListOf():
            return _list(node, kind, desk)
        case Size() if isinstance(node, Sequence) or not kind.or_words:
            return _pair(node, Size(), Measured(bound=Bound.PAPER_SIZE), desk)
        case Coordinates():
            return _point(node, desk)
        case PointOnPiece() | WherePanel() if isinstance(node, Sequence):
            return _point(node, desk)
    if isinstance(node, Scalar):
        return scalars.read_scalar(node, kind, desk)
    wanted, sign = scalars.described(kind), "{" if isinstance(node, Mapping) else "["
    _wrong_kind(node, wanted, f"Write {wanted}. Words that start with {sign} need quotes around them.", desk)
    return None


def read_fields(node: Mapping, form: Form, desk: Desk) -> tuple[Fields, bool]:
    """Read a mapping by a form; the second value says whether every part was read and none is missing."""
    sound = True
    values: dict[str, object] = {}
    written: dict[str, Entry] = {}
    for key, entry in matched(node, form, desk):
        written[key.name] = entry
        value = None if nothing_written(entry, key, desk) else read(entry.value, key.kind, desk)
        if value is None:
            sound = False
            if not isinstance(entry.value, Mapping):
                desk.unlisted |= namings_in(key.kind)
        else:
            values[key.name] = value
    sound = complete(node, form, written, desk) and sound
    if not sound and desk.owner is None:
        desk.lacking = True
    return Fields(form=form, place=node.place, values=values), sound


def _mapped(node: Node, kind: Mapped, desk: Desk, name: Text | None) -> object | None:
    if isinstance(node, Scalar) and node.empty and not kind.short and may_be_empty(kind.forms[0]):
        node = Mapping(entries=(), place=node.place)
    if not isinstance(node, Mapping) and kind.short:
        key = Scalar(text=kind.short, style=None, place=node.place)
        node = Mapping(entries=(Entry(key=key, value=node),), place=node.place)
    if not isinstance(node, Mapping):
        form = kind.forms[0]
        needed = [key.name for key in form.keys if key.required] or [form.keys[0].name]
        shown = ", ".join(an_example(form, key) for key in needed)
        _wrong_kind(node, f"{a(form.name)} with its keys and values", f"Write keys and values: {shown}", desk)
        desk.unlisted |= namings_in(kind)
        return None
    fields, sound = read_fields(node, form_of(node, kind.forms), desk)
    builder = desk.builders.get(fields.form.name)
    if builder is None:
        return fields if sound or desk.owner is None else None
    return builder(fields, name, desk) if sound else None


def _by_names(node: Node, kind: Named | ByName, desk: Desk) -> tuple[Item, ...] | None:
    if isinstance(node, Scalar) and node.empty:
        node = Mapping(entries=(), place=node.place)
    if not isinstance(node, Mapping):
        _wrong_kind(node, "names with their values", f"Write the name and a colon before each {kind.naming}.", desk)
        return None
    least, most = (kind.least, kind.most) if isinstance(kind, Named) else (0, 200)
    if not _count(len(node.entries), least, most, f"Here is no {kind.naming}", node, desk):
        desk.unlisted |= namings_in(kind)
        return None
    items = []
    for entry in node.entries:
        with desk.item() as owner:
            name: Text | None = Text(value=tidy(entry.key.text), place=entry.key.place)
            if isinstance(kind, ByName):
                name = use(entry.key, (kind.naming,), (), desk)
            elif not _give(name, kind.naming, desk):
                name = None
            named = Text(value=tidy(entry.key.text), place=entry.key.place)
            value = read(entry.value, kind.item, desk, named)
            items.append(Item(name=name, value=value if name else None, owner=owner))
    return _whole(items, desk)


def _give(name: Text | None, naming: Naming, desk: Desk) -> bool:
    assert name is not None
    if naming is not Naming.POINT:  # points are known within their piece only
        desk.given.append(Given(naming=naming, name=name, owner=desk.owner))
    return fit_for_name(name, naming, desk)


def _list(node: Node, kind: ListOf, desk: Desk) -> tuple[Item, ...] | None:
    if isinstance(node, Scalar) and node.empty:
        node = Sequence(items=(), place=node.place)
    if not isinstance(node, Sequence) and kind.or_single:
        node = Sequence(items=(node,), place=node.place)
    if not isinstance(node, Sequence):
        _wrong_kind(
            node,
            "a list",
            f"Write a list: [{node.text}]"
            if isinstance(node, Scalar)
            else "Write a list: each of its items after a dash.",
            desk,
        )
        return None
    least, most = (kind.least, kind.most) if kind.exactly is None else (kind.exactly, kind.exactly)
    if not _count(len(node.items), least, most, "This list is empty", node, desk):
        return None
    items = []
    for part in node.items:
        with desk.item() as owner:
            items.append(Item(name=None, value=read(part, kind.item, desk), owner=owner))
    return _whole(items, desk)


def _whole(items: list[Item], desk: Desk) -> tuple[Item, ...] | None:
    """The items that could be read; none at all where they are parts of another item, which is broken with them."""
    broken = [item for item in items if item.value is None]
    if broken and desk.owner is not None:
        return None
    desk.broken.update(item.owner for item in broken)
    return tuple(item for item in items if item.value is not None)


def _count(count: int, least: int, most: int, none: str, node: Node, desk: Desk) -> bool:
    """Whether there are as many as there may be."""
    if least <= count <= most:
        return True
    here = none if count == 0 else f"Here {'is 1' if count == 1 else f'are {count}'}"
    wanted = (
        f"{least} belong"
        if least == most
        else f"at least {least} belongs"
        if least == 1
        else (f"at least {least} belong" if count < least else f"{most} are the most that may be")
    )
    desk.error(
        "too few" if count < least else "too many",
        f"{here}, where {wanted}.",
        node.place,
        "Add what is missing." if count < least else "Leave some out; a very large recipe is better made two.",
    )
    return False


def _pair(node: Node, shown: Size | Coordinates, kind: Measured, desk: Desk) -> tuple[Quantity, Quantity] | None:
    wanted, example = ("[width, height]", "[4 1/4, 5 1/2]") if isinstance(shown, Size) else ("[x, y]", "[2 1/8, 0]")
    if not isinstance(node, Sequence):
        mend = f"Write them in square brackets: {example}"
        if isinstance(node, Scalar):
            parts = [part.strip() for part in node.text.replace("×", " x ").replace(",", " x ").split(" x ")]
            if len(parts) == 2 and all(parts):
                mend = f"Write [{parts[0]}, {parts[1]}]"
        _wrong_kind(node, f"two lengths, {wanted},", mend, desk)
        return None
    if not _count(len(node.items), 2, 2, "This list is empty", node, desk):
        return None
    one, other = (read(item, kind, desk) for item in node.items)
    if not isinstance(one, Quantity) or not isinstance(other, Quantity):
        return None
    return one, other


def _point(node: Node, desk: Desk) -> PointAt | None:
    pair = _pair(node, Coordinates(), Measured(bound=Bound.ANY), desk)
    return PointAt(x=pair[0], y=pair[1], place=node.place) if pair else None


def _wrong_kind(node: Node, wanted: str, mend: str, desk: Desk) -> None:
    name = "nothing written" if isinstance(node, Scalar) and node.empty else "wrong kind of value"
    desk.error(name, f"{what_stands(node)} stands where {wanted.rstrip(',')} should.", node.place, mend)
