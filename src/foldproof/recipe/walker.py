"""Nodes to values, driven by the table of keys: the same walk for every mapping of the grammar."""

from collections.abc import Callable

from foldproof.findings.finding import Place
from foldproof.findings.nearest import nearest
from foldproof.recipe import scalars
from foldproof.recipe.desk import Desk, Fields, Given, Item
from foldproof.recipe.kinds import (
    ByName,
    Coordinates,
    Form,
    Key,
    ListOf,
    Mapped,
    Named,
    Naming,
    PointOnPiece,
    Size,
    ValueKind,
    WherePanel,
)
from foldproof.recipe.nodes import Entry, Mapping, Node, Scalar, Sequence
from foldproof.recipe.records import Text
from foldproof.recipe.synonyms import SYNONYMS


def read(node: Node, kind: ValueKind, desk: Desk, name: Text | None = None) -> object | None:
    """Read a node as a kind of value; None where it is broken, with the finding made."""
    match kind:
        case Mapped():
            return _read_mapped(node, kind, desk, name)
        case Named():
            return _read_named(node, kind, desk)
        case ByName():
            return _read_by_name(node, kind, desk)
        case ListOf():
            return _read_list(node, kind, desk)
        case Size() if isinstance(node, Sequence) or not kind.or_words:
            return _read_pair(node, desk, "[width, height]", "[4 1/4, 5 1/2]", positive=True)
        case Coordinates():
            return scalars.point(_read_pair(node, desk, "[x, y]", "[2 1/8, 0]", positive=False), node.place)
        case PointOnPiece() | WherePanel() if isinstance(node, Sequence):
            return scalars.point(_read_pair(node, desk, "[x, y]", "[2 1/8, 0]", positive=False), node.place)
    if not isinstance(node, Scalar):
        wanted = scalars.described(kind)
        desk.error("wrong kind of value", f"{_a(node)} stands where {wanted} belongs.", node.place, _unbracket(node, wanted))
        return None
    return scalars.read_scalar(node, kind, desk)


def read_fields(node: Mapping, form: Form, desk: Desk) -> tuple[Fields, bool]:
    """Read a mapping by a form; the second value says whether every part was read and none is missing."""
    sound = True
    values: dict[str, object] = {}
    written: dict[str, Entry] = {}
    for key, entry in _matched(node, form, desk):
        written[key.name] = entry
        value = None if _nothing(entry, key, desk) else read(entry.value, key.kind, desk)
        if value is None:
            sound = False
        else:
            values[key.name] = value
    sound = _complete(node, form, written, desk) and sound
    return Fields(form=form, place=node.place, values=values), sound


def _read_mapped(node: Node, kind: Mapped, desk: Desk, name: Text | None) -> object | None:
    short = kind.forms[0].key(kind.short) if kind.short else None
    if isinstance(node, Scalar) and node.empty and not kind.short and not any(key.required for key in kind.forms[0].keys):
        node = Mapping(entries=(), place=node.place)
    if not isinstance(node, Mapping):
        if short is None:
            _no_mapping(node, kind.forms[0], desk)
            return None
        key = Scalar(text=short.name, style=None, place=node.place)
        node = Mapping(entries=(Entry(key=key, value=node),), place=node.place)
    form = _form_of(node, kind.forms)
    fields, sound = read_fields(node, form, desk)
    builder = desk.builders.get(form.name)
    if builder is None:
        return fields
    return builder(fields, name, desk) if sound else None


def _no_mapping(node: Node, form: Form, desk: Desk) -> None:
    example = ", ".join(f"{key.name}: {key.example}" for key in form.keys if key.required) or (
        f"{form.keys[0].name}: {form.keys[0].example}")
    if isinstance(node, Scalar) and node.empty:
        desk.error("nothing written", f"Nothing is written here, where the {form.name} belongs.", node.place,
                   f"Write its keys and values: {example}")
        return
    desk.error("wrong kind of value", f"{_a(node)} stands where a mapping of keys and values belongs: the {form.name}.",
               node.place, f"Write it as keys and values: {example}")


def _form_of(node: Mapping, forms: tuple[Form, ...]) -> Form:
    """The form that shares most keys with what is written; the first of equals."""
    written = {entry.key.text for entry in node.entries}
    return max(forms, key=lambda form: sum(key.name in written for key in form.keys))


def _matched(node: Mapping, form: Form, desk: Desk) -> list[tuple[Key, Entry]]:
    """The entries with their keys; a misspelt key is reported and then read as the key that was likely meant."""
    names = [key.name for key in form.keys]
    written = {entry.key.text for entry in node.entries}
    matched: list[tuple[Key, Entry]] = []
    taken = set(written)
    for entry in node.entries:
        key = form.key(entry.key.text)
        if key is None:
            guess = nearest(entry.key.text, [name for name in names if name not in taken], SYNONYMS)
            _unknown_key(entry, form, guess, desk)
            if guess is None:
                continue
            taken.add(guess)
            key = form.key(guess)
            assert key is not None
        matched.append((key, entry))
    return matched


def _unknown_key(entry: Entry, form: Form, guess: str | None, desk: Desk) -> None:
    word = entry.key.text
    message = f"`{word}` is no key of a {form.name}." if word else "A key is missing before the colon."
    if word == "<<":
        message = "`<<` copies another mapping into this one in YAML. Recipes have no such copies."
    if word in form_words(form):
        message = f"`{word}` is already given here in another spelling."
    known = ", ".join(key.name for key in form.keys)
    mend = f"Did you mean `{guess}`?" if guess else f"The keys of a {form.name}: {known}."
    desk.error("unknown key", message, entry.key.place, mend)


def form_words(form: Form) -> frozenset[str]:
    """The names of a form's keys."""
    return frozenset(key.name for key in form.keys)


def _nothing(entry: Entry, key: Key, desk: Desk) -> bool:
    """Report a key with nothing after its colon, unless nothing is a fair way to write an empty mapping or list."""
    value = entry.value
    if not (isinstance(value, Scalar) and value.empty):
        return False
    if isinstance(key.kind, Named | ByName) or (isinstance(key.kind, ListOf) and key.kind.least == 0):
        return False
    if isinstance(key.kind, Mapped) and not key.kind.short and not any(part.required for part in key.kind.forms[0].keys):
        return False
    desk.error("nothing written", f"Nothing is written after `{entry.key.text}:`.", entry.key.place,
               f"Write it, for example {key.name}: {key.example}. A value that starts with # needs quotes: "
               "YAML takes # for the start of a comment.")
    return True


def _complete(node: Mapping, form: Form, written: dict[str, Entry], desk: Desk) -> bool:
    """Report keys that are missing, that exclude each other or that need each other."""
    sound = True
    for key in form.keys:
        if key.required and key.name not in written:
            sound = False
            desk.error("missing part", f"The {form.name} has no `{key.name}`. {key.meaning}", node.place,
                       f"Add it, for example {key.name}: {key.example}")
    for group in form.choose:
        there = [name for name in group if name in written]
        if len(there) > 1:
            sound = False
            desk.error("too many parts", f"A {form.name} takes one of these, not more: {_words(there, 'and')}.",
                       written[there[1]].key.place, "Keep one of them.")
        elif not there:
            sound = False
            desk.error("missing part", f"The {form.name} needs one of these: {_words(group, 'or')}.", node.place,
                       f"Add it, for example {_example(form, group[0])}")
    for group in form.together:
        there = [name for name in group if name in written]
        lacking = [name for name in group if name not in written]
        if there and lacking:
            sound = False
            desk.error("missing part", f"`{there[0]}` needs `{lacking[0]}` beside it.", written[there[0]].key.place,
                       f"Add it, for example {_example(form, lacking[0])}")
    return sound


def _example(form: Form, name: str) -> str:
    key = form.key(name)
    assert key is not None
    return f"{name}: {key.example}"


def _read_named(node: Node, kind: Named, desk: Desk) -> tuple[Item, ...] | None:
    if isinstance(node, Scalar) and node.empty:
        return ()
    if not isinstance(node, Mapping):
        desk.error("wrong kind of value", f"{_a(node)} stands where names with their values belong.", node.place,
                   f"Write a name and a colon before each {kind.naming}.")
        return None
    if len(node.entries) > kind.most:
        desk.error("too many", f"Here are {len(node.entries)} of a kind ({kind.naming}); a recipe may have {kind.most}.",
                   node.place, "Split the recipe, or leave some out.")
        return None
    items = []
    for entry in node.entries:
        name = Text(value=scalars.tidy(entry.key.text), place=entry.key.place)

        def read_item(entry: Entry = entry, name: Text = name) -> object | None:
            fit = scalars.fit_for_name(name, kind.naming, desk)
            if kind.naming is not Naming.POINT:
                desk.given.append(Given(naming=kind.naming, name=name, owner=desk.owner))
            value = read(entry.value, kind.item, desk, name)
            return value if fit else None
        items.append(_own(read_item, name, desk))
    return _whole(items, desk)


def _read_by_name(node: Node, kind: ByName, desk: Desk) -> tuple[Item, ...] | None:
    if isinstance(node, Scalar) and node.empty:
        return ()
    if not isinstance(node, Mapping):
        desk.error("wrong kind of value", f"{_a(node)} stands where a {kind.naming} and its value belong.", node.place,
                   f"Write the {kind.naming}, a colon and the value.")
        return None
    items = []
    for entry in node.entries:
        name = scalars.use(entry.key, (kind.naming,), (), desk)

        def read_item(entry: Entry = entry) -> object | None:
            return read(entry.value, kind.item, desk)
        items.append(_own(read_item, name, desk))
    return _whole(items, desk)


def _read_list(node: Node, kind: ListOf, desk: Desk) -> tuple[Item, ...] | None:
    if isinstance(node, Scalar) and node.empty and kind.least == 0 and kind.exactly is None:
        return ()
    if not isinstance(node, Sequence):
        if not kind.or_single:
            shown = f"[{node.text}]" if isinstance(node, Scalar) and node.text else "- first\n- second"
            desk.error("wrong kind of value", f"{_a(node)} stands where a list belongs.", node.place,
                       f"Write a list: {shown}" if isinstance(node, Scalar) and node.text
                       else "Write a list, each of its items after a dash.")
            return None
        node = Sequence(items=(node,), place=node.place)
    count = len(node.items)
    if kind.exactly is not None and count != kind.exactly:
        desk.error("wrong length of list", f"This list has {count}, where {kind.exactly} belong.", node.place)
        return None
    if count < kind.least:
        desk.error("wrong length of list", f"This list has {count or 'nothing'}, where at least {kind.least} belong.",
                   node.place)
        return None
    if count > kind.most:
        desk.error("too many", f"This list has {count} items; {kind.most} are the most that a recipe may have.", node.place,
                   "Split the recipe, or leave some out.")
        return None
    return _whole([_own(lambda item=item: read(item, kind.item, desk), None, desk)  # type: ignore[misc]
                   for item in node.items], desk)


def _own(read_item: Callable[[], object | None], name: Text | None, desk: Desk) -> Item:
    """Read an item; the outermost one on the way is what is left out when a part of it is broken."""
    owner = desk.owner
    outermost = owner is None
    if outermost:
        desk.owner = desk.new_owner()
    assert desk.owner is not None
    item = Item(name=name, value=read_item(), owner=desk.owner)
    if item.value is None:
        desk.broken.add(desk.owner)
    desk.owner = owner
    return item


def _whole(items: list[Item], desk: Desk) -> tuple[Item, ...] | None:
    """The items; none at all where a part inside another item is broken, which breaks that one too."""
    if desk.owner is not None and any(item.value is None for item in items):
        return None
    return tuple(item for item in items if item.value is not None)


def _read_pair(node: Node, desk: Desk, shown: str, example: str, *, positive: bool) -> tuple[object, object] | None:
    if not isinstance(node, Sequence):
        mend = f"Write it in square brackets: {example}"
        if isinstance(node, Scalar):
            parts = [part.strip() for part in node.text.replace("×", "x").split(" x ")]
            if len(parts) == 2 and all(parts):
                mend = f"Write [{parts[0]}, {parts[1]}]"
        desk.error("wrong kind of value", f"{_a(node)} stands where two lengths belong: {shown}.", node.place, mend)
        return None
    if len(node.items) != 2:
        desk.error("wrong length of list", f"Two lengths belong here, {shown}; this list has {len(node.items) or 'none'}.",
                   node.place, f"Write two, for example {example}")
        return None
    values = [read(item, scalars.LENGTH if positive else scalars.OFFSET, desk) for item in node.items]
    if values[0] is None or values[1] is None:
        return None
    return values[0], values[1]


def _a(node: Node) -> str:
    match node:
        case Sequence():
            return "A list"
        case Mapping():
            return "A mapping of keys and values"
        case Scalar(text=text) if not text.strip():
            return "Nothing"
        case Scalar(text=text):
            flat = " ".join(text.split())
            return f"`{flat if len(flat) < 40 else flat[:36] + ' ...'}`"


def _unbracket(node: Node, wanted: str) -> str:
    if isinstance(node, Mapping):
        return f"Write {wanted}. Text that holds a colon and a space, or starts with {{, needs quotes around it."
    return f"Write {wanted}. Text that starts with [ or - needs quotes around it."


def _words(words: list[str] | tuple[str, ...], joint: str) -> str:
    quoted = [f"`{word}`" for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} {joint} {quoted[-1]}"


def place_of(node: Node) -> Place:
    """Where a node stands."""
    return node.place
