"""The colours of a theme by what they are for, and their contrast.

`colours.css` names every colour once: a role for each, in a light scheme, which is the paper's, too, and in a dark one.
No other style sheet names a colour, so that the contrast of all that a reader meets can be reckoned from this file.

Contrast: WCAG 2.2, (L1 + 0.05) / (L2 + 0.05), L the relative luminance (https://www.w3.org/TR/WCAG22/, "contrast ratio"
and https://w3c.github.io/wcag/guidelines/relative-luminance.html).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from foldproof.documents.trouble import ThemeError

FILE = "colours.css"
TEXT = 4.5
"""The least contrast of words that are not large: WCAG 2.2 SC 1.4.3 (AA)."""
LINES = 3.0
"""The least contrast of lines that mean something: WCAG 2.2 SC 1.4.11 (AA)."""
WORDS = ("ink", "soft", "accent")
"""The roles of words on a ground."""
GROUNDS = ("ground", "tint")
SHEET_WORDS = ("sheet-ink", "sheet-accent")
"""The roles of words and buttons on the sheet on which drawings lie."""
ROLES = (*WORDS, *GROUNDS, "line", "edge", "sheet", *SHEET_WORDS)
PAIRS: Mapping[tuple[str, str], float] = {
    **{(word, ground): TEXT for word in WORDS for ground in GROUNDS},
    **{(word, "sheet"): TEXT for word in SHEET_WORDS},
    **{("edge", ground): LINES for ground in GROUNDS},
}
"""What stands on what, with the least contrast; a pair may be turned round. `line` parts and says nothing."""
SCHEMES = ("light", "dark", "paper")

Colour = tuple[int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """The colours of one theme."""

    schemes: Mapping[str, Mapping[str, Colour]]
    """By scheme, by role: red, green and blue from 0 to 255."""
    lines: Mapping[tuple[str, str], int]
    """The line in the file of each role in each scheme."""


def read_palette(text: str) -> Palette:
    """The colours of a `colours.css`. Raises ThemeError with the line where it holds anything else."""
    import tinycss2  # type: ignore[import-untyped, unused-ignore]

    found: dict[str, dict[str, Colour]] = {scheme: {} for scheme in SCHEMES}
    lines: dict[tuple[str, str], int] = {}
    for scheme, block in _blocks(tinycss2.parse_stylesheet(text, skip_comments=True, skip_whitespace=True)):
        for node in tinycss2.parse_blocks_contents(block, skip_comments=True, skip_whitespace=True):
            role, colour = _role(node)
            found[scheme][role] = colour
            lines[scheme, role] = node.source_line
    found["paper"] = found["light"] | found["paper"]
    lines = {(scheme, role): lines.get((scheme, role), lines.get(("light", role), 1))
             for scheme in SCHEMES for role in ROLES}
    for scheme in SCHEMES:
        lacking = [f"--{role}" for role in ROLES if role not in found[scheme]]
        if lacking:
            raise ThemeError(f"{FILE}: the {scheme} scheme does not name {', '.join(lacking)}")
    return Palette(schemes=found, lines=lines)


def faint(palette: Palette) -> Iterator[tuple[int, str]]:
    """Pairs with too little contrast: the line of the first, and why."""
    for scheme, colours in palette.schemes.items():
        for (upper, lower), least in PAIRS.items():
            ratio = contrast(colours[upper], colours[lower])
            if ratio < least:
                yield palette.lines[scheme, upper], (
                    f"--{upper} on --{lower} has a contrast of {ratio:.2f}:1 in the {scheme} scheme, "
                    f"less than {least:g}:1")


def contrast(one: Colour, other: Colour) -> float:
    """From 1 to 21, the same either way round."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def luminance(colour: Colour) -> float:
    """From 0, black, to 1, white."""
    red, green, blue = (
        share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4
        for share in (part / 255 for part in colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def in_black() -> str:
    """The rule that gives every role black or white, for one ink."""
    white = (*GROUNDS, "sheet")
    return ":root { " + " ".join(f"--{role}: {'#fff' if role in white else '#000'};" for role in ROLES) + " }"


_MEDIA = {"screenand(prefers-color-scheme:dark)": "dark", "print": "paper"}


def _blocks(nodes: object, scheme: str = "light") -> Iterator[tuple[str, object]]:
    """The contents of each `:root`, with its scheme."""
    import tinycss2

    for node in nodes:  # type: ignore[attr-defined]
        written = "".join(tinycss2.serialize(node.prelude).split()) if hasattr(node, "prelude") else ""
        if node.type == "error":
            raise ThemeError(f"{FILE}, line {node.source_line}: it cannot be read: {node.message}")
        if node.type == "qualified-rule" and written == ":root":
            yield scheme, node.content
        elif node.type == "at-rule" and node.lower_at_keyword == "media" and written in _MEDIA and node.content:
            inner = tinycss2.parse_rule_list(node.content, skip_comments=True, skip_whitespace=True)
            yield from _blocks(inner, _MEDIA[written])
        else:
            raise ThemeError(
                f"{FILE}, line {node.source_line}: it holds :root alone, once more in @media print and in "
                "@media screen and (prefers-color-scheme: dark)")


def _role(node: object) -> tuple[str, Colour]:
    import tinycss2
    import tinycss2.color3  # type: ignore[import-untyped, unused-ignore]

    line = node.source_line  # type: ignore[attr-defined]
    if node.type != "declaration":  # type: ignore[attr-defined]
        raise ThemeError(f"{FILE}, line {line}: it cannot be read")
    role, written = node.name.removeprefix("--"), tinycss2.serialize(node.value).strip()  # type: ignore[attr-defined]
    if role not in ROLES or not node.name.startswith("--"):  # type: ignore[attr-defined]
        raise ThemeError(
            f"{FILE}, line {line}: {node.name} is no role of a color; "  # type: ignore[attr-defined]
            f"the roles are {', '.join(f'--{one}' for one in ROLES)}")
    colour = tinycss2.color3.parse_color(written)
    if not isinstance(colour, tinycss2.color3.RGBA) or colour.alpha != 1:
        raise ThemeError(f"{FILE}, line {line}: {written} is no plain color; write it like #8a3b1e")
    return role, (round(colour.red * 255), round(colour.green * 255), round(colour.blue * 255))
