"""The class part of a recipe, as written: who comes, what is cut ahead, what things are sold in and for how much."""

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Quantity
from foldproof.recipe.text import Text


@dataclass(frozen=True, slots=True, kw_only=True)
class PackSpec:
    """How a paper or a supply is sold."""

    name: Text
    holds: Quantity | None
    """How many of `unit` a pack, roll or bottle holds; one unless said."""
    unit: str
    """`sheet`, `piece`, `card` (enough for one card), `inch`, `foot`, `yard`, `cm` or `metre`."""
    called: Text | None
    """What is bought: pack, pad, roll, bottle."""
    price: Quantity | None
    on_hand: Quantity | None
    """How many of `unit` there are already: in a stock file only."""
    place: Place
    link: Text | None = None
    """Where it can be had: a web address."""
    until: Text | None = None
    """The last day on which it can be had, as YYYY-MM-DD."""
    substitute: Text | None = None
    """What does as well when it is gone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WrapSpec:
    """How ribbon or thread goes round the closed card, so that its length can be reckoned."""

    supply: Text
    way: str
    """`across` (round the width) or `up` (round the height)."""
    times: Quantity
    knot: Quantity | None
    """What the knot or bow takes."""
    tails: Quantity | None
    """Each of the two loose ends."""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolCount:
    """How many of a tool the class shares."""

    tool: Text
    count: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassSpec:
    """What a class of this card needs to know."""

    people: Quantity | None
    spares: Quantity | None
    sample: bool
    """Whether the teacher makes one, too."""
    pace: Quantity | None
    margin: Quantity | None
    """Hundredths added to the cost."""
    cut_ahead: tuple[Text, ...] | None
    """Pieces and layers that the teacher cuts; `everything` or `nothing` may stand. None: everything."""
    tools: tuple[ToolCount, ...]
    welcome: Quantity | None
    tidying: Quantity | None
    packs: tuple[PackSpec, ...]
    envelopes: PackSpec | None
    wraps: tuple[WrapSpec, ...]
    place: Place
