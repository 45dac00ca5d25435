"""Where the parts of a recipe stand in its text, read with yaml's own marks, not with the program's reader."""

from collections.abc import Iterator

import yaml

PROSE = ("title", "text", "say", "tip", "caution")


def root(source: str) -> yaml.MappingNode:
    """The recipe's own mapping."""
    node = yaml.compose(source, Loader=yaml.SafeLoader)
    assert isinstance(node, yaml.MappingNode)
    return node


def part(source: str, name: str) -> yaml.Node | None:
    """The value of a key of the recipe."""
    return next((value for key, value in root(source).value if key.value == name), None)


def steps(source: str) -> tuple[yaml.MappingNode, ...]:
    """The steps."""
    found = part(source, "steps")
    return tuple(found.value) if isinstance(found, yaml.SequenceNode) else ()


def passages(source: str) -> Iterator[tuple[int, int]]:
    """From where to where each passage of the steps reaches."""
    for step in steps(source):
        for key, value in step.value:
            if key.value in PROSE:
                yield value.start_mark.index, value.end_mark.index
            elif key.value == "film":
                shots = value.value if isinstance(value, yaml.SequenceNode) else [value]
                yield from (
                    (line.start_mark.index, line.end_mark.index)
                    for shot in shots
                    for name, line in shot.value
                    if name.value == "say"
                )


def actions(step: yaml.MappingNode) -> yaml.SequenceNode | None:
    """The list of a step's actions."""
    found = next((value for key, value in step.value if key.value == "do"), None)
    return found if isinstance(found, yaml.SequenceNode) else None


def span(source: str, node: yaml.Node) -> tuple[int, int]:
    """From where to where a node's own text reaches, blanks and comments after it left out."""
    start, end = node.start_mark.index, node.end_mark.index
    return start, start + len(source[start:end].rstrip())


def part_span(source: str, name: str) -> tuple[int, int]:
    """From where to where the value of a key of the recipe reaches; nowhere when it is not there."""
    found = part(source, name)
    return span(source, found) if found is not None else (0, 0)
