"""Named measures: read in any order, each once, never in a ring."""

import re
from collections.abc import Sequence

from foldproof.findings.finding import Aside, Finding, Place, Severity
from foldproof.measures.quantity import Quantity, Unit
from foldproof.measures.reading import read_quantity
from foldproof.measures.scanning import names_in
from foldproof.measures.units import LENGTHS

_NAME = re.compile(r"[^\W\d_](?:[\w' ]|-(?=\w))*", re.UNICODE)

Entry = tuple[str, Place, str, Place]
"""A measure's name, where the name stands, its text, where the text stands."""


def resolve_measures(entries: Sequence[Entry], unit: Unit) -> tuple[dict[str, Quantity], tuple[Finding, ...]]:
    """Read named measures, whatever their order; give those that could be read, in the order written, and the findings.

    A measure may be of any kind; a bare number is a length in the recipe's unit. One that leans, near or far, on a
    measure that can't be read is left out without a finding of its own. Use `scanning.names_in` with the names left
    out to pass over the rest of the recipe in the same way.
    """
    findings: list[Finding] = []
    first: dict[str, Entry] = {}
    misnamed: set[str] = set()
    for entry in entries:
        name, place = entry[0], entry[1]
        if name in first:
            findings.append(_twice(name, place, first[name][1]))
            continue
        first[name] = entry
        fault = _name_fault(name, place)
        if fault:
            findings.append(fault)
            misnamed.add(name)
    leans = {name: names_in(entry[2], first) for name, entry in first.items()}
    rings = _rings(leans)
    findings.extend(_ring_finding(ring, first) for ring in rings)
    in_ring = {name for ring in rings for name in ring}
    read: dict[str, Quantity] = {}
    for name in _in_order(leans, in_ring):
        if name in misnamed or any(other not in read for other in leans[name]):
            continue
        _, _, text, place = first[name]
        found = read_quantity(text, place=place, kind=None, unit=unit, names=read)
        if isinstance(found, Finding):
            findings.append(found)
        else:
            read[name] = found
    return {name: read[name] for name in first if name in read}, tuple(findings)


def _in_order(leans: dict[str, tuple[str, ...]], skip: set[str]) -> list[str]:
    """Order the measures so that each comes after those it leans on (those in a ring left out); no recursion."""
    waiting = {name: set(others) - skip for name, others in leans.items() if name not in skip}
    order: list[str] = []
    while waiting:
        ready = [name for name, others in waiting.items() if not others & waiting.keys()]
        assert ready, "rings were taken out"
        order.extend(ready)
        for name in ready:
            del waiting[name]
    return order


def _rings(leans: dict[str, tuple[str, ...]]) -> list[tuple[str, ...]]:
    """Find rings: one from each set of measures that lean on each other, begun at the one written first."""
    order = {name: index for index, name in enumerate(leans)}
    done: set[str] = set()
    rings: list[tuple[str, ...]] = []
    for start in leans:
        if start in done:
            continue
        path: list[str] = [start]
        branches = [iter(leans[start])]
        while path:
            following = next(branches[-1], None)
            if following is None:
                done.add(path.pop())
                branches.pop()
            elif following in path:
                ring = path[path.index(following):]
                turn = ring.index(min(ring, key=order.__getitem__))
                rings.append(tuple(ring[turn:] + ring[:turn]))
            elif following not in done:
                path.append(following)
                branches.append(iter(leans[following]))
    return list(dict.fromkeys(rings))


def _ring_finding(ring: tuple[str, ...], entries: dict[str, Entry]) -> Finding:
    shown = " -> ".join((*ring, ring[0]))
    if len(ring) == 1:
        message = f"`{ring[0]}` is reckoned from itself."
    else:
        message = f"These measures are reckoned from each other in a ring, so none has a value: {shown}."
    return Finding(
        name="measures in a ring", severity=Severity.ERROR, message=message,
        mend="Give one of them as a number.", place=entries[ring[0]][3],
        asides=tuple(Aside(text=f"`{name}` leans on the next", place=entries[name][3]) for name in ring[1:]),
    )


def _twice(name: str, place: Place, earlier: Place) -> Finding:
    return Finding(
        name="measure named twice", severity=Severity.ERROR,
        message=f"`{name}` is given twice, and only one can be meant.", mend="Rename one of them, or take it away.",
        place=place, asides=(Aside(text="first given here", place=earlier),),
    )


def _name_fault(name: str, place: Place) -> Finding | None:
    if name.casefold() in LENGTHS and len(name) > 1:
        message = f"`{name}` is the name of a unit, so a measure can't have it."
    elif not _NAME.fullmatch(name) or name != " ".join(name.split()):
        message = f"`{name}` can't be the name of a measure: sums could not be told from it."
    else:
        return None
    return Finding(name="name of a measure not usable", severity=Severity.ERROR, message=message,
                   mend="Begin with a letter; use letters, digits, single spaces and hyphens.", place=place)
