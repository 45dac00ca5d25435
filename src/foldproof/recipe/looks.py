"""A look of a card: the recipe that it builds on, with what the look says instead laid over it."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from foldproof.findings.finding import Finding
from foldproof.findings.nearest import nearest
from foldproof.recipe.desk import Desk
from foldproof.recipe.keys_look import CONSTRUCTION, LEAVE_OUT, LOOK, SECTIONS
from foldproof.recipe.matching import complete, matched
from foldproof.recipe.nodes import Entry, Mapping, Node, Scalar, Sequence, entries_of
from foldproof.recipe.reading_steps import slug
from foldproof.recipe.renaming import renamed

LOOK_OF = "look of"
_PICTURE = "picture"
_INSTEAD = "instead of"
_PLACES = (_INSTEAD, "after", "before")

Beside = Callable[[Scalar], tuple[Mapping | None, tuple[Finding, ...]]]
"""Opens the recipe that a look names: its top mapping, or the findings that say why there is none."""


@dataclass(frozen=True, slots=True)
class _Base:
    """The recipe that a look builds on, its names changed as the look says."""

    root: Mapping
    before: Mapping
    """As it is written."""
    file: str


def is_look(root: Mapping) -> bool:
    """Whether a recipe builds on another."""
    return root.value(LOOK_OF) is not None


def laid_over(look: Mapping, open_beside: Beside, desk: Desk) -> Mapping | None:
    """The whole recipe of a look, each part with the place where it is written; None where there is none to read.

    What is wrong with the look itself is reported; all else is found when the whole is read like any recipe.
    """
    named = look.value(LOOK_OF)
    if not isinstance(named, Scalar) or not named.text.strip():
        desk.error(
            "wrong kind of value", "The recipe that this look builds on should be named here.",
            named.place if named else look.place, "Write its file's name: look of: tide-gate.yaml")
        return None
    root, findings = open_beside(named)
    desk.findings.extend(findings)
    if root is None:
        return None
    if is_look(root):
        desk.error(
            "look of a look", f"`{named.text}` is a look itself; a look builds on a whole recipe.", named.place,
            f"Build on the recipe that {named.text} builds on.")
        return None
    look = _without_construction(look, named.text, desk)
    entries = {key.name: entry for key, entry in matched(look, LOOK, desk)}
    complete(look, LOOK, entries, desk)
    base = _Base(root=_bare(root), before=_bare(root), file=named.text)
    base = replace(base, root=_renamed(base, entries, desk))
    return _merged(base, entries, desk)


def _without_construction(look: Mapping, file: str, desk: Desk) -> Mapping:
    kept = []
    for entry in look.entries:
        if entry.key.text in (*CONSTRUCTION, "finished"):
            desk.error(
                "construction in a look", f"`{entry.key.text}` belongs to the construction, which a look shares.",
                entry.key.place,
                "Write envelope: here and leave the rest of finished: to the other recipe."
                if entry.key.text == "finished" else
                f"Change it in {file}, for every look; or make this a recipe of its own.")
        else:
            kept.append(entry)
    return replace(look, entries=tuple(kept))


def _bare(root: Mapping) -> Mapping:
    """Without photographs: they show the other look."""
    entries = []
    for entry in root.entries:
        if entry.key.text == "steps" and isinstance(entry.value, Sequence):
            steps = tuple(_without(item, {_PICTURE}) for item in entry.value.items)
            entry = replace(entry, value=replace(entry.value, items=steps))
        if entry.key.text != _PICTURE:
            entries.append(entry)
    return replace(root, entries=tuple(entries))


def _without(node: Node, keys: set[str]) -> Node:
    if not isinstance(node, Mapping):
        return node
    return replace(node, entries=tuple(entry for entry in node.entries if entry.key.text not in keys))


def _renamed(base: _Base, look: dict[str, Entry], desk: Desk) -> Mapping:
    """The base with the names that the look gives to its papers, layers, supplies and tools."""
    names: dict[str, str] = {}
    for section in SECTIONS:
        known = _names_in(base.before, section)
        for entry in _named(look, section):
            said = entry.value.value(_INSTEAD) if isinstance(entry.value, Mapping) else None
            if said is None:
                continue
            if not isinstance(said, Scalar) or said.text not in known:
                _unknown(said, known, f"{section[:-1]}" if section != "supplies" else "supply", base, desk)
            elif entry.key.text in known:
                desk.error(
                    "name given twice", f"`{entry.key.text}` is the name of another one in {base.file} already.",
                    entry.key.place, f"Leave `{_INSTEAD}` out to change that one, or take a new name.")
            else:
                names[said.text] = entry.key.text
    root = renamed(base.root, names)
    assert isinstance(root, Mapping)
    return root


def _merged(base: _Base, look: dict[str, Entry], desk: Desk) -> Mapping:
    left_out = look.get("leave out")
    gone = {key.name: entry.value for key, entry in matched(left_out.value, LEAVE_OUT, desk)} if (
        left_out is not None and isinstance(left_out.value, Mapping)) else {}
    entries = {entry.key.text: entry for entry in base.root.entries}
    for key, entry in look.items():
        if key in ("leave out", "steps", "envelope", LOOK_OF, *SECTIONS):
            continue
        under = entries.get(key)
        entries[key] = replace(entry, value=_over(under.value, entry.value)) if under is not None else entry
    for section in SECTIONS:
        _merge_section(section, entries, look, gone.get(section), base, desk)
    if "envelope" in look and "finished" in entries:
        fresh = Mapping(entries=(look["envelope"],), place=look["envelope"].key.place)
        entries["finished"] = replace(entries["finished"], value=_over(entries["finished"].value, fresh))
    steps = entries.get("steps")
    if steps is not None and isinstance(steps.value, Sequence):
        items = _steps(base, steps.value, look.get("steps"), gone.get("steps"), desk)
        entries["steps"] = replace(steps, value=replace(steps.value, items=items))
    return replace(base.root, entries=tuple(entries.values()))


def _over(under: Node, upper: Node) -> Node:
    """The upper node; of two mappings all keys of both, the upper one's values where both have one."""
    if not isinstance(under, Mapping) or not isinstance(upper, Mapping):
        return upper
    entries = {entry.key.text: entry for entry in under.entries}
    entries.update((entry.key.text, entry) for entry in upper.entries)
    return replace(under, entries=tuple(entries.values()))


def _merge_section(
    section: str, entries: dict[str, Entry], look: dict[str, Entry], gone: Node | None, base: _Base, desk: Desk,
) -> None:
    under = entries.get(section)
    parts = {entry.key.text: entry for entry in entries_of(under.value if under else None)}
    for name in _words(gone):
        if parts.pop(name.text, None) is None:
            _unknown(name, tuple(parts), section.removesuffix("s"), base, desk)
    for entry in _named(look, section):
        lower, value = parts.get(entry.key.text), _without(entry.value, {_INSTEAD})
        parts[entry.key.text] = (
            replace(lower, value=_over(lower.value, value)) if lower is not None else replace(entry, value=value))
    if under is not None or parts:
        whole = under or look[section]
        place = whole.value.place
        entries[section] = replace(whole, value=Mapping(entries=tuple(parts.values()), place=place))


def _steps(
    base: _Base, steps: Sequence, written: Entry | None, gone: Node | None, desk: Desk,
) -> tuple[Node, ...]:
    rows: list[tuple[frozenset[str], Node]] = [
        (frozenset((*_called(step), *_called(before))), step)
        for step, before in zip(steps.items, _step_nodes(base.before), strict=True)]
    for name in _words(gone):
        if (index := _found(name, rows, base, desk)) is not None:
            del rows[index]
    added: dict[str, int] = {}
    for item in written.value.items if written is not None and isinstance(written.value, Sequence) else ():
        if not isinstance(item, Mapping):
            rows.append((frozenset(), item))  # the reader says what belongs there
            continue
        said = [(key, value) for key in _PLACES if isinstance(value := item.value(key), Scalar)]
        if len(said) != 1:
            desk.error(
                "place of a step missing" if not said else "does not go together",
                "A step of a look says once where it belongs: instead of a step, after it or before it.", item.place,
                "Add after: and the title of the step that it follows." if not said else "Keep one of them.")
            continue
        (where, name), step = said[0], _without(item, set(_PLACES))
        index = _found(name, rows, base, desk)
        if index is None:
            continue
        if where == _INSTEAD:
            over = _over(rows[index][1], step)
            rows[index] = (rows[index][0] | frozenset(_called(over)), over)
        else:
            behind = added.get(slug(name.text), 0) if where == "after" else 0
            rows.insert(index + (1 + behind if where == "after" else 0), (frozenset(_called(step)), step))
            if where == "after":
                added[slug(name.text)] = behind + 1
    return tuple(step for _, step in rows)


def _found(name: Scalar, rows: Iterable[tuple[frozenset[str], Node]], base: _Base, desk: Desk) -> int | None:
    rows = list(rows)
    for index, (called, _) in enumerate(rows):
        if slug(name.text) in called:
            return index
    titles = [title.text for _, step in rows if isinstance(title := _value(step, "title"), Scalar)]
    _unknown(name, titles, "step", base, desk)
    return None


def _called(step: Node) -> Iterator[str]:
    """What a step may be named by: its id and its title, as ids are written."""
    for key in ("id", "title"):
        value = _value(step, key)
        if isinstance(value, Scalar):
            yield slug(value.text)


def _value(node: Node, key: str) -> Node | None:
    return node.value(key) if isinstance(node, Mapping) else None


def _step_nodes(root: Mapping) -> tuple[Node, ...]:
    steps = root.value("steps")
    return steps.items if isinstance(steps, Sequence) else ()


def _names_in(root: Mapping, section: str) -> tuple[str, ...]:
    return tuple(entry.key.text for entry in entries_of(root.value(section)))


def _named(look: dict[str, Entry], section: str) -> tuple[Entry, ...]:
    return entries_of(look[section].value) if section in look else ()


def _words(node: Node | None) -> tuple[Scalar, ...]:
    """The words of a list, or the one word."""
    items = node.items if isinstance(node, Sequence) else (node,) if node is not None else ()
    return tuple(item for item in items if isinstance(item, Scalar))


def _unknown(name: Node, known: Iterable[str], what: str, base: _Base, desk: Desk) -> None:
    known = tuple(known)
    written = name.text if isinstance(name, Scalar) else ""
    guess = nearest(written, known)
    desk.error(
        "unknown name", f"{base.file} has no {what} `{written}`.", name.place,
        f"Did you mean `{guess}`?" if guess else f"It has {', '.join(known)}." if known else "It has none.")
