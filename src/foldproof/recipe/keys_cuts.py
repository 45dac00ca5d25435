"""The table of keys of what is cut into a piece, and of what slides or turns without a hinge."""

from foldproof.recipe.kinds import (
    Bound,
    Coordinates,
    Form,
    Key,
    ListOf,
    Mapped,
    Measured,
    Named,
    NameOf,
    Naming,
    OneOf,
    PointOnPiece,
    Size,
)
from foldproof.recipe.words import CORNERS, EDGES

SLIT = Form(
    "slit",
    "A cut line inside a piece: it parts the paper without a hinge and takes none away.",
    (
        Key(
            "from",
            PointOnPiece(),
            "Where it starts: [x, y], a corner or middle, or a point of the piece.",
            "[1, 1 1/4]",
            required=True,
        ),
        Key("to", PointOnPiece(), "Where it ends.", "[1, 4]", required=True),
    ),
)

_SHAPE_KEYS = (
    Key("size", Size(), "Width and height of a rectangle.", "[2, 1 1/2]"),
    Key("circle", Measured(bound=Bound.PAPER_SIZE), "A disc, by its distance across.", "1"),
    Key(
        "outline",
        ListOf(Coordinates(), least=3),
        "The corners of another shape in the frame of the piece, in order.",
        "[[1, 1], [2, 1], [1, 2]]",
    ),
    Key("at", Coordinates(), "The bottom left corner of its bounding rectangle: [x, y] on the piece.", "[1, 2]"),
)

WINDOW = Form(
    "window",
    "A cut-out with paper all round: what lies behind shows through.",
    _SHAPE_KEYS,
    choose=(("size", "circle", "outline"),),
)

NOTCH = Form(
    "notch",
    "A shape that is cut away over an edge, as with a punch that reaches past it.",
    _SHAPE_KEYS,
    choose=(("size", "circle", "outline"),),
)

ROUNDED = Form(
    "round corners",
    "Corners cut round; reckoned as polygons that lie within 1/100 of the radius.",
    (
        Key("radius", Measured(), "The radius.", "1/4", required=True),
        Key("corners", ListOf(OneOf(CORNERS), or_single=True), "Which corners; all four unless said.", "[top left]"),
    ),
)

SCALLOP = Form(
    "scalloped edge",
    "A straight edge cut as a row of half discs; reckoned as polygons that lie within 1/200 of their width.",
    (
        Key("edge", OneOf(EDGES), "The edge, front up.", "bottom", required=True),
        Key("across", Measured(), "The width of one scallop; the edge holds a whole number of them.", "1/2",
            required=True),
    ),
)

CUT_KEYS = (
    Key(
        "slits",
        Named(Naming.SLIT, Mapped((SLIT,))),
        "Cut lines inside it, by name.",
        "{top slit: {from: [1, 1], to: [4, 1]}}",
    ),
    Key(
        "windows",
        Named(Naming.WINDOW, Mapped((WINDOW,))),
        "Cut-outs with paper all round, by name.",
        "{porthole: {circle: 1, at: [1, 2]}}",
    ),
    Key(
        "notches",
        Named(Naming.NOTCH, Mapped((NOTCH,))),
        "Shapes cut away over an edge, by name.",
        "{thumb notch: {circle: 3/4, at: [1 3/4, 5 1/8]}}",
    ),
    Key("rounded", Mapped((ROUNDED,), short="radius"), "Corners cut round.", "1/4"),
    Key(
        "scallops",
        ListOf(Mapped((SCALLOP,)), or_single=True),
        "Edges cut as a row of half discs.",
        "{edge: bottom, across: 1/2}",
    ),
)

SLIDE = Form(
    "slide",
    "Something that moves or holds without a hinge and without glue, and the room that it has.",
    (
        Key(
            "what",
            NameOf((Naming.PANEL, Naming.PIECE, Naming.LAYER), ("card",)),
            "What moves, or what is held: a piece, a layer, a panel, or the closed card.",
            "tag",
            required=True,
        ),
        Key("pocket", NameOf((Naming.LAYER, Naming.JOIN)), "The layer or join whose strips of glue make it.", "pouch"),
        Key("slit", NameOf((Naming.SLIT,)), "The slit that a tongue or a pull tab goes through.", "tongue slit"),
        Key("band", NameOf((Naming.PIECE,)), "The strip that is closed to a ring round it.", "belly band"),
        Key("brad", NameOf((Naming.PANEL, Naming.LAYER)), "The panel or layer that a brad fastens it to.", "dial"),
        Key("laps", Measured(), "Of a band: how much its two ends overlap.", "1/2"),
        Key("at", Coordinates(), "Of a brad: where it goes through the panel below, [x, y] on its piece.", "[2, 2]"),
        Key("pin", Coordinates(), "Of a brad: where it goes through what turns, [x, y] on its piece.", "[1, 1]"),
        Key(
            "play",
            Measured(bound=Bound.NOT_NEGATIVE),
            "The room that it needs in all; 1/8 in (3 mm) in a pocket or a slit, 1/16 in (1.5 mm) for a band or "
            "between turning pieces unless said.",
            "1/8",
        ),
    ),
    choose=(("pocket", "slit", "band", "brad"),),
    together=(("band", "laps"), ("brad", "at", "pin")),
)
