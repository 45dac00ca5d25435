"""Slips of hands: turns, edges, corners and folds of the plan and the steps, and the order of steps and actions."""

import re
from collections.abc import Iterator
from itertools import pairwise

import yaml

from slips.slip import Slip, line_of
from slips.spots import actions, root, span, steps

_SWAP = {
    "left": "right",
    "right": "left",
    "top": "bottom",
    "bottom": "top",
    "long": "short",
    "short": "long",
    "above": "below",
    "below": "above",
}
_SIDE = re.compile(r"\b(?:left|right|top|bottom|above|below)\b")
_TURNS = {
    "quarter clockwise": "quarter anticlockwise",
    "quarter anticlockwise": "quarter clockwise",
    "book page": "top to bottom",
    "top to bottom": "book page",
}
_NOT_SIDES = ("words", "note", "with", "paper", "adhesive", "tools", "supplies", "tone", "envelope", "name", "kind")


def hand_slips(source: str) -> Iterator[Slip]:
    """Every one, kind by kind."""
    yield from _turns(source)
    yield from _edges(source)
    yield from _folds(source)
    yield from _order(source)


def _turns(source: str) -> Iterator[Slip]:
    for step in steps(source):
        listed = actions(step)
        for node in listed.value if listed is not None else ():
            if not isinstance(node, yaml.MappingNode):
                continue
            names = {key.value: value for key, value in node.value}
            value = names.get("turn", names.get("turn over"))
            if value is None or listed is None:
                continue
            start, end = span(source, node)
            written = " ".join(source[start:end].split())
            line = line_of(source, start)
            yield _without(source, listed, start, end, f"{written} left out")
            between = ", " if listed.flow_style else "\n" + " " * (node.start_mark.column - 2) + "- "
            yield Slip(
                kind="turn doubled",
                start=end,
                end=end,
                new=between + source[start:end],
                line=line,
                what=f"{written} twice",
            )
            if value.value in _TURNS:
                a, b = span(source, value)
                yield Slip(
                    kind="turn reversed",
                    start=a,
                    end=b,
                    new=_TURNS[value.value],
                    line=line,
                    what=f"{value.value} to {_TURNS[value.value]}",
                )


def _without(source: str, listed: yaml.SequenceNode, start: int, end: int, what: str) -> Slip:
    line = line_of(source, start)
    if not listed.flow_style:
        start, end = source.rindex("\n", 0, start), end
    elif re.match(r"\s*,\s*", source[end:]):
        end += len(re.match(r"\s*,\s*", source[end:])[0])  # type: ignore[index]
    else:
        start = source.rindex(",", 0, start)
    return Slip(kind="turn removed", start=start, end=end, new="", line=line, what=what)


def _edges(source: str) -> Iterator[Slip]:
    """Sides and corners in the plan and in the actions, each word for itself; names of things are references."""
    for key, value in root(source).value:
        if key.value in ("pieces", "layers", "joins", "poses", "finished"):
            yield from _sides(source, value, "edge or corner in the plan", key.value)
    for step in steps(source):
        listed = actions(step)
        if listed is not None:
            yield from _sides(source, listed, "edge or corner in the steps", "do")


def _sides(source: str, node: yaml.Node, kind: str, under: str) -> Iterator[Slip]:
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            names_it = under in ("pieces", "layers", "joins", "poses", "scores", "panels", "points", "folds")
            if not names_it and key.value in ("left", "right", "top", "bottom"):
                yield _swapped(source, key, 0, len(key.value), kind)
            if key.value not in _NOT_SIDES:
                yield from _sides(source, value, kind, key.value)
    elif isinstance(node, yaml.SequenceNode):
        for value in node.value:
            yield from _sides(source, value, kind, under)
    elif isinstance(node, yaml.ScalarNode):
        if node.value in ("long", "short"):
            yield _swapped(source, node, 0, len(node.value), kind)
        elif node.value not in _TURNS:
            for match in _SIDE.finditer(source, *span(source, node)):
                offset = node.start_mark.index
                yield _swapped(source, node, match.start() - offset, match.end() - offset, kind)


def _swapped(source: str, node: yaml.Node, start: int, end: int, kind: str) -> Slip:
    a, b = node.start_mark.index + start, node.start_mark.index + end
    return Slip(
        kind=kind,
        start=a,
        end=b,
        new=_SWAP[source[a:b]],
        line=line_of(source, a),
        what=f"{source[a:b]} to {_SWAP[source[a:b]]}",
    )


def _folds(source: str) -> Iterator[Slip]:
    kept = [value for key, value in root(source).value if key.value in ("pieces", "steps")]
    for node in kept:
        for scalar in _scalars(node):
            if scalar.value in ("valley", "mountain"):
                start, end = span(source, scalar)
                other = "mountain" if scalar.value == "valley" else "valley"
                yield Slip(
                    kind="fold flipped",
                    start=start,
                    end=end,
                    new=other,
                    line=line_of(source, start),
                    what=f"{scalar.value} to {other}",
                )
    poses = next((value for key, value in root(source).value if key.value == "poses"), None)
    for scalar in _scalars(poses) if poses is not None else ():
        if re.fullmatch(r"-?\d+", scalar.value) and scalar.value != "0":
            start, end = span(source, scalar)
            other = scalar.value.removeprefix("-") if scalar.value.startswith("-") else f"-{scalar.value}"
            yield Slip(
                kind="fold flipped",
                start=start,
                end=end,
                new=other,
                line=line_of(source, start),
                what=f"{scalar.value} to {other}",
            )


def _order(source: str) -> Iterator[Slip]:
    every = steps(source)
    for first, second in pairwise(every):
        yield _changed_about(source, first, second, "steps swapped")
    for step in every:
        listed = actions(step)
        for a, b in pairwise(listed.value if listed is not None else ()):
            yield _changed_about(source, a, b, "actions swapped")


def _changed_about(source: str, first: yaml.Node, second: yaml.Node, kind: str) -> Slip:
    (a, b), (c, d) = span(source, first), span(source, second)
    line = line_of(source, a)
    return Slip(
        kind=kind,
        start=a,
        end=d,
        new=source[c:d] + source[b:c] + source[a:b],
        line=line,
        what=f"lines {line} and {line_of(source, c)} change places",
    )


def _scalars(node: yaml.Node) -> Iterator[yaml.ScalarNode]:
    if isinstance(node, yaml.ScalarNode):
        yield node
    elif isinstance(node, yaml.MappingNode):
        for _, value in node.value:
            yield from _scalars(value)
    elif isinstance(node, yaml.SequenceNode):
        for value in node.value:
            yield from _scalars(value)
