"""Plain names of tools and adhesives, with the words people also use for them."""

from fractions import Fraction
from functools import lru_cache

from foldproof.facts.source import CUSTOM, MEMORY, Source
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolKind:
    """A tool by its plain name."""

    name: str
    synonyms: tuple[str, ...]
    caution: str | None
    """The kind of caution that it needs (facts.cautions)."""
    basic: bool
    """A basic desk tool: listed once, not asked for in the steps."""
    does: tuple[str, ...]
    """What it is used for: `cut`, `score`, `fold`, `mark`, `measure`, `pierce`, `die cut`, `glue`."""
    source: Source = CUSTOM


def _tool(
    name: str,
    synonyms: tuple[str, ...] = (),
    *,
    does: tuple[str, ...] = (),
    caution: str | None = None,
    basic: bool = False,
) -> ToolKind:
    return ToolKind(name=name, synonyms=synonyms, caution=caution, basic=basic, does=does)


TOOLS = (
    _tool("trimmer", ("paper trimmer", "paper cutter", "sliding trimmer"), does=("cut",), caution="trimmer"),
    _tool("guillotine", ("guillotine cutter", "lever trimmer", "lever cutter"), does=("cut",), caution="guillotine"),
    _tool("craft knife", ("knife", "hobby knife", "scalpel", "utility knife", "blade"), does=("cut",), caution="knife"),
    _tool("scissors", ("shears", "fine scissors"), does=("cut",), caution="scissors", basic=True),
    _tool("scoring board", ("score board", "scoreboard"), does=("score",)),
    _tool("scoring tool", ("stylus", "scoring stylus", "embossing stylus", "ball tool"), does=("score",)),
    _tool("bone folder", ("folder", "folding bone", "bone"), does=("fold", "score")),
    _tool("ruler", ("rule",), does=("measure",), basic=True),
    _tool("steel ruler", ("steel rule", "safety rule", "metal ruler", "safety ruler"), does=("measure",)),
    _tool("cutting mat", ("self-healing mat", "mat board for cutting")),
    _tool("pencil", ("soft pencil",), does=("mark",), basic=True),
    _tool("eraser", ("rubber",), basic=True),
    _tool("pen", ("fine pen",), does=("mark",), basic=True),
    _tool(
        "die-cutting machine",
        ("die cutter", "die cutting machine", "roller press"),
        does=("die cut",),
        caution="die cutter",
    ),
    _tool(
        "punch",
        ("paper punch", "hole punch", "corner punch", "corner rounder", "circle punch", "shape punch"),
        does=("die cut",),
        caution="punch",
    ),
    _tool("heat tool", ("heat gun", "embossing heat tool"), caution="heat tool"),
    _tool("hot glue gun", ("glue gun",), does=("glue",), caution="hot glue"),
    _tool("needle", ("sewing needle",), does=("pierce",), caution="piercer"),
    _tool("piercer", ("awl", "paper piercer", "bradawl", "pricker"), does=("pierce",), caution="piercer"),
    _tool("piercing mat", ("foam mat",)),
    _tool("tweezers", ()),
    _tool("stamp", ("rubber stamp", "stamp set", "clear stamp"), does=("stamp",)),
    _tool("stamping block", ("acrylic block", "stamp block")),
    _tool("brush", ("glue brush", "paintbrush")),
    _tool("brayer", ("roller",)),
    _tool("template", ("stencil", "cutting guide")),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class AdhesiveKind:
    """A kind of adhesive, or of what holds layers."""

    name: str
    synonyms: tuple[str, ...]
    wet: bool
    """Whether it is wet for a while and may spread or warp what it touches."""
    thickness_mm: Fraction
    """What it adds between two layers; from memory, products differ."""
    dries_seconds: Fraction
    """Before the bond may be worked; 0 where it holds at once; from memory."""
    caution: str | None
    source: Source = MEMORY


def _adhesive(
    name: str, synonyms: tuple[str, ...], *, wet: bool, thick: str, dries: int = 0, caution: str | None = None
) -> AdhesiveKind:
    return AdhesiveKind(
        name=name,
        synonyms=synonyms,
        wet=wet,
        thickness_mm=Fraction(thick),
        dries_seconds=Fraction(dries),
        caution=caution,
    )


ADHESIVES = (
    _adhesive(
        "wet glue",
        ("liquid glue", "white glue", "craft glue", "pva", "pva glue", "tacky glue"),
        wet=True,
        thick="0.02",
        dries=300,
    ),
    _adhesive("paste", ("wheat paste", "starch paste"), wet=True, thick="0.02", dries=1800),
    _adhesive("glue stick", ("stick glue",), wet=True, thick="0.02", dries=60),
    _adhesive(
        "tape",
        ("double-sided tape", "double sided tape", "adhesive tape", "tape runner", "adhesive roller", "tear tape"),
        wet=False,
        thick="0.1",
    ),
    _adhesive(
        "foam",
        ("foam tape", "foam adhesive", "foam squares", "foam pads", "foam dots", "adhesive foam"),
        wet=False,
        thick="1.5",
    ),
    _adhesive("glue dots", ("adhesive dots", "sticky dots"), wet=False, thick="0.3"),
    _adhesive("adhesive sheet", ("double-sided sheet", "adhesive film"), wet=False, thick="0.1"),
    _adhesive("hot glue", ("glue sticks for the gun",), wet=True, thick="0.5", dries=60, caution="hot glue"),
    _adhesive("spray adhesive", ("spray glue", "adhesive spray"), wet=False, thick="0.02", caution="spray adhesive"),
    _adhesive(
        "solvent glue",
        ("rubber cement", "contact glue", "contact adhesive"),
        wet=True,
        thick="0.05",
        dries=600,
        caution="solvent",
    ),
)

SUPPLY_CAUTIONS = {
    "brads": "small parts",
    "brad": "small parts",
    "beads": "small parts",
    "bead": "small parts",
    "buttons": "small parts",
    "button": "small parts",
    "sequins": "small parts",
    "gems": "small parts",
    "pearls": "small parts",
    "eyelets": "small parts",
    "charms": "small parts",
    "small parts": "small parts",
    "magnet": "magnets",
    "magnets": "magnets",
    "button cell": "button cells",
    "button cells": "button cells",
    "solvent": "solvent",
    "alcohol ink": "solvent",
}
"""Kinds of supply that need a caution of their own."""


def find_tool(name: str) -> ToolKind | None:
    """Look a tool up by its plain name or a synonym; capitals, hyphens and an article are not told apart."""
    plain = _plain(name)
    return next((t for t in TOOLS if plain == _plain(t.name) or plain in map(_plain, t.synonyms)), None)


def find_adhesive(name: str) -> AdhesiveKind | None:
    """Look an adhesive up by its plain name or a synonym; capitals, hyphens and an article are not told apart."""
    plain = _plain(name)
    return next((a for a in ADHESIVES if plain == _plain(a.name) or plain in map(_plain, a.synonyms)), None)


def caution_kind(name: str) -> str | None:
    """Give the kind of caution that a tool, an adhesive or another supply needs; None where it needs none."""
    tool, adhesive = find_tool(name), find_adhesive(name)
    if tool:
        return tool.caution
    if adhesive:
        return adhesive.caution
    plain = _plain(name)
    return next(
        (caution for word, caution in SUPPLY_CAUTIONS.items() if plain == word or plain.endswith(f" {word}")), None
    )


@lru_cache(maxsize=4096)
def _plain(name: str) -> str:
    words = name.casefold().replace("-", " ").split()
    return " ".join(words[1:] if words[:1] in (["a"], ["an"], ["the"]) else words)
