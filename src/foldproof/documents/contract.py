"""What a theme's style sheets may not say: whatever hides, clips or shrinks what a reader must see.

A theme changes looks. Its contract stands in themes/README.md; this holds a theme's own sheets to it, line by line,
before anything is made. What templates leave out, the audit finds (readback).
"""

import re
from collections.abc import Iterator, Sequence
from typing import Any

from foldproof.documents.fonts import FAMILIES
from foldproof.documents.palette import LINES, PAIRS, ROLES

LEAST_REM, LEAST_PT, LEAST_PX = 0.75, 7.5, 12.0
_PROPERTIES = frozenset((
    "clip", "clip-path", "mask", "mask-image", "filter", "transform", "scale", "translate", "rotate", "zoom",
    "object-fit", "object-position", "animation", "animation-name", "transition", "all", "mix-blend-mode",
    "content-visibility", "line-clamp", "-webkit-line-clamp", "-webkit-text-fill-color", "-webkit-mask",
    "shape-outside", "background-image", "border-image", "text-security", "contain", "perspective", "footnote-display"))
"""Never: they cut off, move, blend or change by themselves what is shown."""
_VALUES: dict[str, frozenset[str]] = {
    "display": frozenset(("none", "contents")),
    "visibility": frozenset(("hidden", "collapse")),
    "position": frozenset(("absolute", "fixed", "sticky")),
    "overflow": frozenset(("hidden", "clip")),
    "overflow-x": frozenset(("hidden", "clip")),
    "overflow-y": frozenset(("hidden", "clip")),
    "float": frozenset(("footnote",)),
    "color": frozenset(("transparent",)),
    "text-transform": frozenset(("full-width", "full-size-kana")),
}
_NO_LESS_THAN_NOTHING = re.compile(r"margin.*|text-indent|word-spacing|top|left|right|bottom|inset.*")
_LESS_THAN_TIGHT = -0.05
"""In em: letters closer than this run into each other (our own measure)."""
_GENERIC = frozenset(("system-ui", "sans-serif", "serif", "inherit"))
_NO_BRACES = re.compile(r"/\*.*?\*/|\"(?:[^\"\\]|\\.)*\"|'(?:[^'\\]|\\.)*'", re.DOTALL)
"""Where a brace is none: comments and strings."""
_BY_ROLE = "colors stand in colours.css alone; name one by its role: var(--accent)"
_COLOUR_FUNCTIONS = re.compile(r"rgb|hsl|hwb|lab|lch|ok|color|.*gradient")
_LENGTHS = re.compile(r"(?:max-)?(?:height|block-size)")


def broken(text: str) -> Iterator[tuple[int, str]]:
    """What a style sheet says that a theme may not, or that can't be read: the line, and why."""
    import tinycss2  # type: ignore[import-untyped, unused-ignore]

    yield from _rules(tinycss2.parse_stylesheet(text, skip_comments=True, skip_whitespace=True))
    bare = _NO_BRACES.sub("", text)
    if bare.count("{") > bare.count("}"):
        yield text.count("\n") + 1, "it cannot be read: a brace stays open to the end"


def _rules(nodes: Sequence[Any]) -> Iterator[tuple[int, str]]:
    import tinycss2

    for node in nodes:
        if node.type == "error":
            yield node.source_line, f"it cannot be read: {node.message}"
        elif node.type == "qualified-rule":
            for token in node.prelude:
                if token.type == "error":
                    yield token.source_line, f"it cannot be read: {token.message}"
            aside = "::" in tinycss2.serialize(node.prelude)
            yield from _block(node.content, aside)
        elif node.type != "at-rule":
            yield node.source_line, "it cannot be read"
        elif node.lower_at_keyword == "media" and node.content is not None:
            yield from _rules(tinycss2.parse_rule_list(node.content, skip_comments=True, skip_whitespace=True))
        elif node.lower_at_keyword.startswith(("page", "top-", "bottom-", "left-", "right-")):
            yield from _block(node.content or (), aside=True)
        else:
            yield node.source_line, (
                f"@{node.at_keyword}: a theme has @media and @page alone, and asks for nothing outside")


def _block(content: Sequence[Any], aside: bool) -> Iterator[tuple[int, str]]:
    """A rule's declarations; `aside` where it is of something that is drawn beside the words."""
    import tinycss2

    said: dict[str, tuple[int, str]] = {}
    for node in tinycss2.parse_blocks_contents(content, skip_comments=True, skip_whitespace=True):
        if node.type == "error":
            yield node.source_line, f"it cannot be read: {node.message}"
        elif node.type == "declaration":
            for why in faults_of(node.lower_name, node.value, aside):
                yield node.source_line, f"{node.name}: {tinycss2.serialize(node.value).strip()}: {why}"
            roles = _named(node.value)
            if node.lower_name == "color" and roles:
                said["color"] = (node.source_line, roles[0])
            elif node.lower_name in ("background", "background-color") and roles:
                said["background"] = (node.source_line, roles[0])
        else:
            yield from _rules([node])
    yield from _upon(said)


def _upon(said: dict[str, tuple[int, str]]) -> Iterator[tuple[int, str]]:
    """Words on a ground, as far as one rule says both: of a pair whose contrast is reckoned."""
    words, ground = said.get("color"), said.get("background")
    usual = {upper for upper, _ in PAIRS if PAIRS[upper, _] > LINES}
    if ground is None:
        if words is not None and words[1] not in usual:
            yield words[0], (
                f"color: var(--{words[1]}) is no color of words unless the same rule has a background for it")
        return
    upper = words[1] if words else "ink"
    pairs = ((upper, ground[1]), (ground[1], upper))
    if not any(PAIRS.get(pair, 0) > LINES for pair in pairs) and not (words is None and ground[1] in ("line", "edge")):
        yield ground[0], f"--{upper} on --{ground[1]} is no pair of words and ground; say a color that goes with it"


def faults_of(name: str, value: Sequence[Any], aside: bool) -> Iterator[str]:
    """What a declaration says that a theme may not; `aside` where it is of something drawn beside the words."""
    words = {token.lower_value for token in value if token.type == "ident"}
    if name in _PROPERTIES:
        yield "a theme may not cut off, move or blend what is shown"
    if words & _VALUES.get(name, frozenset()):
        yield "a theme may not hide what must be shown"
    if name == "opacity" and any(getattr(token, "value", 1) != 1 for token in value if token.type != "whitespace"):
        yield "a theme may not fade what must be shown"
    if name.startswith("--"):
        yield "colors and their roles stand in colours.css alone"
    yield from _numbers(name, value)
    yield from _colours(name, value)
    if name == "content" and (not aside or any(
            token.type == "string" and any(map(str.isalnum, token.value)) for token in value)):
        yield "words and numbers come from the card, never from a style sheet"
    if name in ("font-family", "font"):
        named = [token.value for token in value if token.type == "string"]
        other = [one for one in named if one not in FAMILIES]
        if name == "font-family":
            other += [word for word in words if word not in _GENERIC]
        if other:
            yield f"no family that is shipped: {', '.join(FAMILIES)}"


def _numbers(name: str, value: Sequence[Any]) -> Iterator[str]:
    for token in _tokens(value):
        if token.type not in ("dimension", "number", "percentage"):
            continue
        unit = getattr(token, "lower_unit", "")
        if _NO_LESS_THAN_NOTHING.fullmatch(name) and token.value < 0:
            yield "less than nothing moves words off their place"
        if name == "letter-spacing" and token.value < _LESS_THAN_TIGHT:
            yield f"letters closer than {_LESS_THAN_TIGHT}em run into each other"
        if name == "line-height" and token.type == "number" and token.value < 0.9:
            yield "lines this close run into each other"
        if _LENGTHS.fullmatch(name) and token.type != "percentage":
            yield "a height cuts off or squeezes what is longer; min-height does not"
    if name == "font-size" and value:
        least = {"rem": LEAST_REM, "em": LEAST_REM, "pt": LEAST_PT, "px": LEAST_PX, "": 1, "%": 100 * LEAST_REM}
        for token in _tokens(value):
            unit = "%" if token.type == "percentage" else getattr(token, "lower_unit", "")
            if token.type in ("dimension", "percentage", "number") and unit in least and token.value < least[unit]:
                yield f"smaller than {LEAST_REM:g}rem or {LEAST_PT:g}pt is hard to read"


def _colours(name: str, value: Sequence[Any]) -> Iterator[str]:
    for token in _tokens(value):
        kind = token.type
        if kind == "url" or (kind == "function" and token.lower_name in ("url", "image-set", "element", "cross-fade")):
            yield "a theme asks for nothing outside"
        elif kind == "hash" or (kind == "ident" and _is_colour(name, token)) or (
                kind == "function" and _COLOUR_FUNCTIONS.match(token.lower_name)):
            yield _BY_ROLE
    for role in _named(value):
        if role not in ROLES:
            yield f"--{role} is no role of a color; the roles are {', '.join(f'--{one}' for one in ROLES)}"


def _is_colour(name: str, token: Any) -> bool:
    import tinycss2.color3  # type: ignore[import-untyped, unused-ignore]

    if name in ("font-family", "content") or token.lower_value in ("transparent", "currentcolor"):
        return False
    return tinycss2.color3.parse_color(token.value) is not None


def _named(value: Sequence[Any]) -> list[str]:
    """The roles that a value names."""
    return [
        argument.value.removeprefix("--") for token in _tokens(value)
        if token.type == "function" and token.lower_name == "var"
        for argument in token.arguments if argument.type == "ident"]


def _tokens(value: Sequence[Any]) -> Iterator[Any]:
    """Tokens and those within functions."""
    for token in value:
        yield token
        if token.type == "function":
            yield from _tokens(token.arguments)
