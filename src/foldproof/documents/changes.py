"""What is otherwise in one revision of a card than in another, and which documents and shots that makes stale.

Both sides are the facts of a card as `card.json` has them (see facts_file), so that a recipe can be held against a
set that was built from it long ago.
"""

import json
from collections.abc import Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from enum import StrEnum
from fractions import Fraction
from pathlib import Path
from typing import Any

from foldproof.bounded import read_json
from foldproof.documents.standing import exactly
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_size

Facts = Mapping[str, Any]


class Stale(StrEnum):
    """What has to be made again."""

    HANDOUT = "handout"
    PAGE = "page"
    TEMPLATE = "template"
    SHOTS = "shot list and cue sheet"
    CLASS = "class plan"
    FILM = "film"


_READ = frozenset({Stale.HANDOUT, Stale.PAGE})
_DONE = _READ | {Stale.SHOTS, Stale.FILM}
_SHAPE = _READ | {Stale.TEMPLATE, Stale.CLASS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing that is otherwise."""

    where: str
    """`the card`, or `step 2, Score the doors`."""
    what: str
    """What it is that changed, after nothing: `width of the base`, `text`; empty for an instruction of its own."""
    before: str | None
    """None where it was not there."""
    after: str | None
    """None where it is gone."""
    stale: frozenset[Stale]
    step: str | None = None
    """The id of the step, as it is now where there is one."""
    misleads: bool = False
    """Whether who has the earlier edition would make another card, or fail."""


def changes(old: Facts, new: Facts) -> tuple[Change, ...]:
    """Every change from one revision to the other: of the card, then step by step."""
    if old["unit"] != new["unit"]:
        return (Change(
            where="the card", what="unit", before=old["unit"], after=new["unit"], stale=frozenset(Stale),
            misleads=True),)
    unit = Unit(new["unit"])
    return (*_card(old, new, unit), *_steps(old, new))


def comparable(old: Facts, new: Facts) -> tuple[Change, ...] | None:
    """The changes from one to the other; None where one is not what this version of the program writes."""
    try:
        return changes(old, new)
    except (KeyError, TypeError, ValueError, AttributeError, IndexError, ZeroDivisionError):
        return None


def since(folder: Path, now: bytes) -> tuple[Change, ...]:
    """What is otherwise than in the set that stands in a folder; nothing where none stands there that can be read."""
    try:
        before = read_json(folder / "card.json")
    except (OSError, ValueError):
        return ()
    return comparable(before, json.loads(now)) or ()


def line(change: Change) -> str:
    """A change in one line."""
    what = f"{change.what}: " if change.what else ""
    if change.before is None:
        return f"{what}new: {change.after}"
    if change.after is None:
        return f"{what}gone: {change.before}"
    return f"{what}{change.after}; it was: {change.before}"


def _card(old: Facts, new: Facts, unit: Unit) -> Iterator[Change]:
    yield from _plain("title", old["title"], new["title"], _READ | {Stale.SHOTS, Stale.CLASS})
    yield from _named(old, new, "measures", lambda name, fact: {f"measure {name}": _length(fact, unit)}, frozenset())
    yield from _plain(
        "closed size", _size(old["finished"]["size"], unit), _size(new["finished"]["size"], unit), _READ, True)
    yield from _plain("envelope", old["finished"]["envelope"], new["finished"]["envelope"], _READ | {Stale.CLASS}, True)
    yield from _plain(
        "height when it stands", _stands(old, unit), _stands(new, unit), _READ, True)
    yield from _named(old, new, "papers", lambda name, fact: _paper(name, fact, unit), _READ | {Stale.CLASS}, True)
    yield from _named(old, new, "pieces", lambda name, fact: _piece(name, fact, unit), _SHAPE, True)
    yield from _named(old, new, "joins", lambda name, fact: _join(name, fact, unit), _READ)
    yield from _named(old, new, "poses", lambda name, fact: _pose(name, fact), _READ)
    yield from _named(old, new, "supplies", lambda name, fact: {name: _words(fact)}, _READ | {Stale.CLASS}, True)
    for tool in _either(old.get("tools", ()), new.get("tools", ())):
        yield from _plain(
            f"tool {tool}", "needed" if tool in old.get("tools", ()) else None,
            "needed" if tool in new.get("tools", ()) else None, _READ)


def _plain(what: str, before: str | None, after: str | None, stale: frozenset[Stale], misleads: bool = False
           ) -> Iterator[Change]:
    if before != after:
        yield Change(
            where="the card", what=what, before=before, after=after, stale=stale, misleads=misleads)


def _named(
    old: Facts, new: Facts, part: str, told: Any, stale: frozenset[Stale], misleads: bool = False,
) -> Iterator[Change]:
    """Changes of things that have names; `told` says in words what is to be known of one, by what it is."""
    before, after = old.get(part, {}), new.get(part, {})
    for name in _either(before, after):
        was = told(name, before[name]) if name in before else {}
        now = told(name, after[name]) if name in after else {}
        for what in _either(was, now):
            yield from _plain(what, was.get(what), now.get(what), stale, misleads)


def _either(first: Any, second: Any) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*first, *second)))


def _exact(number: Any) -> Fraction:
    return exactly(number["exact"])


def _length(number: Any, unit: Unit) -> str:
    return with_unit(_exact(number), unit)


def _size(pair: Any, unit: Unit) -> str | None:
    return write_size((_exact(pair["width"]), _exact(pair["height"])), unit) if pair else None


def _stands(facts: Facts, unit: Unit) -> str | None:
    stands = facts["finished"]["stands"]
    return f"{_length(stands['height'], unit)} in the pose {stands['pose']}" if stands else None


def _paper(name: str, fact: Any, unit: Unit) -> dict[str, str]:
    told = {"kind": fact["kind"], "weight": fact["weight"], "sheet": _size(fact["sheet"], unit),
            "grain": fact["grain"], "pattern": fact["pattern"], "printed": fact["printed"], "color": fact["tone"]}
    return {f"{what} of the paper {name}": value for what, value in told.items() if value is not None}


def _corners(ring: Sequence[Any]) -> list[tuple[Fraction, Fraction]]:
    return [(exactly(point["exact"][0]), exactly(point["exact"][1])) for point in ring]


def _piece(name: str, fact: Any, unit: Unit) -> dict[str, str]:
    corners = _corners(fact["outline"])
    width, height = (max(axis) - min(axis) for axis in zip(*corners, strict=True))
    told = {f"paper of the {name}": fact["paper"] or "", f"size of the {name}": write_size((width, height), unit)}
    told[f"outline of the {name}"] = "; ".join(f"{x}, {y}" for x, y in _shape(corners, width, height))
    for score, line in fact["scores"].items():
        told[f"{score} of the {name}"] = f"{line['fold']} at {_line(line, unit)}"
    for slit, line in fact["slits"].items():
        told[f"{slit} of the {name}"] = f"from {_line(line, unit)}"
    for window, hole in fact["windows"].items():
        told[f"{window} of the {name}"] = "; ".join(
            f"{with_unit(x, unit)}, {with_unit(y, unit)}" for x, y in _corners(hole["outline"])[:4])
    return {what: value for what, value in told.items() if value}


def _shape(
    corners: Sequence[tuple[Fraction, Fraction]], width: Fraction, height: Fraction,
) -> list[tuple[Fraction, Fraction]]:
    """Corners as shares of width and height; none of a rectangle, whose size says all."""
    shares = sorted((x / width, y / height) for x, y in corners)
    square = [(Fraction(x), Fraction(y)) for x, y in ((0, 0), (0, 1), (1, 0), (1, 1))]
    return [] if shares == square else shares


def _line(line: Any, unit: Unit) -> str:
    start, end = _corners([line["from"], line["to"]])
    if start[0] == end[0]:
        return f"{with_unit(start[0], unit)} from the left"
    if start[1] == end[1]:
        return f"{with_unit(start[1], unit)} from the bottom"
    spots = [f"{with_unit(x, unit)} from the left and {with_unit(y, unit)} from the bottom" for x, y in (start, end)]
    return " to ".join(spots)


def _join(name: str, fact: Any, unit: Unit) -> dict[str, str]:
    under = fact["under"]
    told = {f"what the {name} lies on": f"the {under['panel']}, its {under['face']}"}
    if fact["adhesive"]:
        told[f"adhesive of the {name}"] = fact["adhesive"]
    if fact["area"]:
        corners = _corners(fact["area"])
        left, bottom = (min(axis) for axis in zip(*corners, strict=True))
        told[f"place of the {name}"] = (
            f"{with_unit(left, unit)} from the left and {with_unit(bottom, unit)} from the bottom")
    return told


def _pose(name: str, fact: Any) -> dict[str, str]:
    over = fact.get("over", ())
    return {f"order of the papers in the pose {name}": ", ".join(f"{upper} over {lower}" for upper, lower in over)} \
        if over else {f"pose {name}": "flat" if fact["flat"] else "standing"}


def _words(fact: Any) -> str:
    return ", ".join(part for part in (fact["kind"], fact["amount"]) if part) or "needed"


def _steps(old: Facts, new: Facts) -> Iterator[Change]:
    before, after = ({step["id"]: step for step in facts["steps"]} for facts in (old, new))
    for step in old["steps"]:
        if step["id"] not in after:
            yield Change(
                where=_called(step), what="step", before=step["title"], after=None, stale=_DONE, step=step["id"],
                misleads=True)
    kept = [step["id"] for step in old["steps"] if step["id"] in after]
    now = [step["id"] for step in new["steps"] if step["id"] in before]
    for step in new["steps"]:
        same = before.get(step["id"])
        if same is None:
            yield Change(
                where=_called(step), what="step", before=None, after=step["title"], stale=_DONE, step=step["id"],
                misleads=True)
            continue
        if kept.index(step["id"]) != now.index(step["id"]):
            yield Change(
                where=_called(step), what="number of the step", before=str(same["number"]),
                after=str(step["number"]), stale=_DONE, step=step["id"])
        yield from _step(same, step)


def _called(step: Any) -> str:
    return f"step {step['number']}, {step['title']}"


def _step(old: Any, new: Any) -> Iterator[Change]:
    where, step = _called(new), new["id"]
    was, now = ([action["said"] for action in side["actions"]] for side in (old, new))
    for before, after in _lines(was, now):
        yield Change(where=where, what="", before=before, after=after, stale=_DONE, step=step, misleads=True)
    for what, stale in (
        ("title", _READ | {Stale.SHOTS}), ("text", _READ), ("say", frozenset({Stale.SHOTS, Stale.FILM})),
        ("tip", _READ), ("caution", _READ | {Stale.SHOTS}),
    ):
        if old.get(what) != new.get(what):
            before, after = _shortened(old.get(what), new.get(what))
            yield Change(where=where, what=what, before=before, after=after, stale=stale, step=step)
    if old["minutes"] != new["minutes"]:
        before, after = (
            f"{side['minutes']['exact']} min" if side["minutes"] else None for side in (old, new))
        yield Change(where=where, what="time", before=before, after=after, stale=_READ | {Stale.CLASS}, step=step)


MOST_LINES = 1_000
"""Instructions of a step; a recipe has at most 300, and holding very many against each other would never end."""


def _lines(was: Sequence[str], now: Sequence[str]) -> Iterator[tuple[str | None, str | None]]:
    """Lines that are otherwise, laid beside each other as far as they go. Raises ValueError where there are many."""
    if max(len(was), len(now)) > MOST_LINES:
        raise ValueError("more instructions than any step has")
    for kind, a, b, c, d in SequenceMatcher(None, was, now, autojunk=False).get_opcodes():
        if kind != "equal":
            for index in range(max(b - a, d - c)):
                yield (was[a + index] if index < b - a else None, now[c + index] if index < d - c else None)


_ROUND = 4
"""Words shown on either side of what changed in a sentence."""


def _shortened(before: str | None, after: str | None) -> tuple[str | None, str | None]:
    """Two passages without the words that are the same at both ends, but for a few."""
    if before is None or after is None:
        return before, after
    was, now = before.split(), after.split()
    first = next((index for index, pair in enumerate(zip(was, now, strict=False)) if pair[0] != pair[1]),
                 min(len(was), len(now)))
    last = 0
    while last < min(len(was), len(now)) - first and was[-1 - last] == now[-1 - last]:
        last += 1
    start, end = max(0, first - _ROUND), max(0, last - _ROUND)
    return _cut(was, start, end), _cut(now, start, end)


def _cut(words: Sequence[str], start: int, end: int) -> str:
    kept = " ".join(words[start:len(words) - end])
    return f"{'… ' if start else ''}{kept}{' …' if end else ''}"
