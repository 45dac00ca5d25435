"""Names of a recipe changed for others wherever they stand, in its words, too."""

import re
from collections.abc import Callable, Mapping
from dataclasses import replace

from foldproof.recipe import nodes
from foldproof.recipe.nodes import Entry, Node, Scalar, Sequence

_ARTICLE = r"(?:(?P<article>\b[Aa]n?)(?P<gap>\s+))?"


def renamed(node: Node, names: Mapping[str, str]) -> Node:
    """The node with every name changed that stands as words of its own, in keys and values.

    A capital at its start stays one, and `a` or `an` before it is put right by the first letter that follows.
    """
    if not names:
        return node
    change = _changer(names)

    def changed(part: Node) -> Node:
        if isinstance(part, Scalar):
            return replace(part, text=change(part.text))
        if isinstance(part, Sequence):
            return replace(part, items=tuple(changed(item) for item in part.items))
        return nodes.Mapping(
            entries=tuple(
                Entry(key=replace(entry.key, text=change(entry.key.text)), value=changed(entry.value))
                for entry in part.entries),
            place=part.place, braces=part.braces)

    return changed(node)


def _changer(names: Mapping[str, str]) -> Callable[[str], str]:
    plain = {name.casefold(): other for name, other in names.items()}
    longest_first = sorted(names, key=len, reverse=True)
    words = "|".join(r"\s+".join(re.escape(word) for word in name.split()) for name in longest_first)
    pattern = re.compile(rf"{_ARTICLE}(?<![\w-])(?P<name>{words})(?![\w-])", re.IGNORECASE)

    def fresh(match: re.Match[str]) -> str:
        written = match["name"]
        other = plain[" ".join(written.casefold().split())]
        other = other[:1].upper() + other[1:] if written[:1].isupper() else other
        if match["article"] is None:
            return other
        return f"{match['article'][0]}{'n' if other[0].lower() in 'aeiou' else ''}{match['gap']}{other}"

    return lambda text: pattern.sub(fresh, text)
