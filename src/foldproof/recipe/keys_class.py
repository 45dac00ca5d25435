"""The table of keys of the class part, and of how papers and supplies are sold."""

from foldproof.measures.quantity import Kind
from foldproof.recipe.kinds import (
    Bound,
    ByName,
    Form,
    Key,
    ListOf,
    Mapped,
    Measured,
    NameOf,
    Naming,
    OneOf,
    Sort,
    Words,
)

MOST_PEOPLE = 1_000
SOLD_BY = ("sheet", "piece", "card", "inch", "foot", "yard", "cm", "metre")

_COUNT = Measured(kind=Kind.NUMBER, bound=Bound.NOT_NEGATIVE)
_TIME = Measured(kind=Kind.TIME, bound=Bound.NOT_NEGATIVE, bare="min")

PACK_KEYS = (
    Key("holds", Measured(kind=Kind.NUMBER), "How many sheets, pieces or lengths one pack holds; 1 unless said.", "25"),
    Key(
        "of",
        OneOf(SOLD_BY),
        "What it is counted in; card is enough for one card.",
        "yard",
        default="sheet",
    ),
    Key("called", Words(), "What one buys: pack, pad, roll, bottle.", "roll"),
    Key("price", Measured(kind=Kind.MONEY, bound=Bound.NOT_NEGATIVE), "What one pack costs.", "8.40 USD"),
)

PACK = Form(
    "pack",
    "How a paper or a supply is sold, for the shopping list and for readers of the page.",
    (
        *PACK_KEYS,
        Key("link", Words(sort=Sort.ADDRESS), "Where it can be had.", "https://example.org/waves"),
        Key("until", Words(sort=Sort.DAY), "The last day on which it can be had.", "2026-12-31"),
        Key("substitute", Words(prose=True), "What does as well when it is gone.", "any small all-over pattern"),
    ),
)

WRAP = Form(
    "wrap",
    "How ribbon or thread goes round the closed card: its length is reckoned from this.",
    (
        Key("round", OneOf(("width", "height")), "Which way it runs: round the width or round the height.", "width"),
        Key("times", Measured(kind=Kind.NUMBER), "How often it goes round.", "2", default="1"),
        Key("knot", Measured(bound=Bound.NOT_NEGATIVE), "What the knot or bow takes.", "1 1/2"),
        Key("tails", Measured(bound=Bound.NOT_NEGATIVE), "Each of the two loose ends.", "3"),
    ),
)

CLASS = Form(
    "class",
    "What a class of this card needs: kits, cutting plan, shopping list, cost and time are made from it.",
    (
        Key(
            "people",
            Measured(kind=Kind.NUMBER, bound=Bound.ANY, most=MOST_PEOPLE),
            "How many people come.",
            "12",
        ),
        Key("spares", _COUNT, "Kits beyond one for each person; one for every ten people unless said.", "2"),
        Key("sample", OneOf(("one", "none")), "Whether the teacher makes one, too.", "one", default="one"),
        Key(
            "pace",
            Measured(kind=Kind.NUMBER, most=10),
            "How much slower the class works than the steps' minutes; 1 1/2 unless said.",
            "1 1/2",
        ),
        Key("margin", _COUNT, "Hundredths that are added to the cost of one kit for the suggested price.", "60"),
        Key(
            "cut ahead",
            ListOf(NameOf((Naming.PIECE, Naming.LAYER), ("everything", "nothing")), or_single=True),
            "Pieces and layers that the teacher cuts before the class; each person cuts the others.",
            "[left mat, right mat]",
            default="everything",
        ),
        Key(
            "tools at hand",
            ByName(Naming.TOOL, Measured(kind=Kind.NUMBER)),
            "How many of a tool the class shares; where there are fewer than people, the time line shows the queue.",
            "{trimmer: 2}",
        ),
        Key("welcome", _TIME, "Time before the first step; 5 minutes unless said.", "10 min"),
        Key("tidying", _TIME, "Time after the last step; 10 minutes unless said.", "10 min"),
        Key(
            "paper packs",
            ByName(Naming.PAPER, Mapped((PACK,))),
            "How each paper is sold.",
            "{slate: {holds: 25, price: 8.40 USD}}",
        ),
        Key(
            "supply packs",
            ByName(Naming.SUPPLY, Mapped((PACK,))),
            "How each supply is sold.",
            "{wet glue: {holds: 40, of: card, called: bottle, price: 3.20 USD}}",
        ),
        Key("envelopes", Mapped((PACK,)), "How its envelopes are sold.", "{holds: 25, price: 6.00 USD}"),
        Key(
            "wraps",
            ByName(Naming.SUPPLY, Mapped((WRAP,))),
            "Ribbon and thread that go round the card.",
            "{twine: {round: width, times: 2, knot: 1, tails: 3}}",
        ),
    ),
)
