"""The way to a place in a recipe by its keys: pieces, base, scores, right hinge, across."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import yaml

from foldproof.findings.finding import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stretch:
    """The characters of a value that is not made of others."""

    start: tuple[int, int]
    """Line and column, from 1."""
    end: tuple[int, int]
    keys: tuple[str, ...]


class Paths:
    """The keys that lead to each value of a recipe."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        """`texts` are those of the recipe by their files; one that is no YAML has no paths."""
        self._stretches = {file: _stretches(text) for file, text in texts.items()}

    def to(self, place: Place) -> tuple[str, ...]:
        """The keys that lead to the value at a place, from the outside in; empty where no value stands there.

        Things in a list are counted from 1; a thing that has a title or a name of its own is called by it too.
        """
        at = (place.line, place.column)
        return next((each.keys for each in self._stretches.get(place.file, ()) if each.start <= at < each.end), ())


def _stretches(text: str) -> tuple[_Stretch, ...]:
    try:
        root = yaml.compose(text, Loader=yaml.SafeLoader)
    except yaml.YAMLError:
        root = None
    return tuple(_walk(root, ())) if root is not None else ()


def _walk(node: yaml.Node, keys: tuple[str, ...]) -> Iterator[_Stretch]:
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            yield from _walk(value, (*keys, str(key.value)))
    elif isinstance(node, yaml.SequenceNode):
        for number, value in enumerate(node.value, start=1):
            yield from _walk(value, (*keys, _numbered(number, value)))
    else:
        first, last = node.start_mark, node.end_mark
        yield _Stretch(start=(first.line + 1, first.column + 1), end=(last.line + 1, last.column + 1), keys=keys)


def _numbered(number: int, node: yaml.Node) -> str:
    """`2 (Score the doors)`."""
    pairs: Sequence[tuple[yaml.Node, yaml.Node]] = node.value if isinstance(node, yaml.MappingNode) else ()
    title = next((str(value.value) for key, value in pairs if key.value in ("title", "name")), "")
    return f"{number} ({title})" if title else str(number)
