"""The table of keys of papers, pieces, joins and layers."""

from foldproof.measures.quantity import Kind
from foldproof.recipe.keys_cuts import CUT_KEYS
from foldproof.recipe.kinds import (
    Bound,
    Coordinates,
    FaceOf,
    Form,
    Key,
    ListOf,
    Mapped,
    Measured,
    Named,
    NameOf,
    Naming,
    Need,
    OneOf,
    PointOnPiece,
    Size,
    WherePanel,
    Words,
)
from foldproof.recipe.words import CORNERS, FACES, FOLDS, TURNS

_LENGTH = Measured()
_OFFSET = Measured(bound=Bound.ANY)

PAPER = Form(
    "paper",
    "A kind of sheet that pieces and layers are cut from.",
    (
        Key("kind", Words(), "What the paper is called in a shop.", "cardstock"),
        Key("weight", Words(), "Its weight as it stands on the pack.", "80 lb cover"),
        Key("thickness", _LENGTH, "How thick one sheet is.", "0.011 in"),
        Key("sheet", Size(), "Width and height of a whole sheet as it is bought.", "[8 1/2, 11]"),
        Key("grain", OneOf(("width", "height")), "Which way of the whole sheet the grain runs.", "height"),
        Key(
            "printed",
            OneOf(("plain", "one face", "both faces")),
            "Which faces are printed; one face is the front.",
            "one face",
            default="plain",
        ),
        Key(
            "pattern",
            OneOf(("none", "any way", "upright")),
            "Whether a print must stand upright where it is seen.",
            "upright",
            default="none",
        ),
        Key("tone", Words(), "A colour for drawings: a CSS colour word, or #rrggbb in quotes.", '"#8a9ba8"'),
    ),
)

SCORE = Form(
    "score",
    "A line pressed for folding, in the piece's own frame: front up, zero at the bottom left corner.",
    (
        Key("across", _LENGTH, "An upright score, so far from the left edge.", "2 1/8"),
        Key("up", _LENGTH, "A level score, so far up from the bottom edge.", "5 1/2"),
        Key(
            "from",
            PointOnPiece(),
            "Where the score starts: [x, y], a corner or middle, or a point of the piece.",
            "top left",
        ),
        Key("to", PointOnPiece(), "Where the score ends.", "[4 1/4, 0]"),
        Key(
            "fold",
            OneOf(FOLDS),
            "How it folds, as seen from the front; none is pressed for looks.",
            "valley",
            required=True,
        ),
    ),
    choose=(("across", "up", "from"),),
    together=(("from", "to"),),
)

PIECE = Form(
    "piece",
    "One shape cut from paper.",
    (
        Key("paper", NameOf((Naming.PAPER,)), "The paper that it is cut from.", "slate", required=True),
        Key("size", Size(), "Width and height of a rectangular piece, flat.", "[8 1/2, 5 1/2]"),
        Key(
            "outline",
            ListOf(Coordinates(), least=3),
            "The corners of a piece that is no rectangle, in order.",
            "[[0, 0], [6, 0], [0, 4]]",
        ),
        Key(
            "points",
            Named(Naming.POINT, Coordinates()),
            "Names for points that scores run to.",
            "{door mark: [3 1/4, 0]}",
        ),
        Key(
            "scores",
            Named(Naming.SCORE, Mapped((SCORE,))),
            "Its scores by name.",
            "{left hinge: {across: 2 1/8, fold: valley}}",
        ),
        Key(
            "panels",
            Named(Naming.PANEL, WherePanel()),
            "Names for its panels: [x, y] in a panel, or its side of scores.",
            "{left door: left of left hinge}",
        ),
        *CUT_KEYS,
    ),
    choose=(("size", "outline"),),
)

_PLACE_KEYS = (
    Key("left", _OFFSET, "From the receiving panel's left edge to the placed one's; negative sticks out.", "1/8"),
    Key("right", _OFFSET, "From the right edges in the same way.", "1/8"),
    Key("top", _OFFSET, "From the top edges in the same way.", "1/8"),
    Key("bottom", _OFFSET, "From the bottom edges in the same way.", "1/8"),
    Key(
        "centred",
        OneOf(("both", "across", "up")),
        "Centred across (left to right), up (bottom to top), or both.",
        "both",
    ),
    Key(
        "centred on",
        NameOf((Naming.PANEL,), ("card",)),
        "What to centre on instead of the receiving panel: another panel, or the closed card.",
        "card",
    ),
    Key(
        "turned",
        OneOf(("none", *TURNS)),
        "How it is turned from upright before it is placed, as seen there.",
        "half",
        default="none",
    ),
    Key(
        "points",
        ListOf(Coordinates(), exactly=2),
        "For a slanted place: two points of the placed piece, each [x, y] in its own frame, front up.",
        "[[0, 1/2], [2 1/2, 1/2]]",
    ),
    Key(
        "lie on",
        ListOf(Coordinates(), exactly=2),
        "The points of the receiving piece, each [x, y] in its own frame, that those two come to lie on.",
        "[[4, 2], [2 1/2, 4]]",
    ),
)

PLACE = Form(
    "place",
    "Where something lies on the panel that receives it, looking at that face; a back is reached by turning the "
    "piece like the page of a book. It fixes both directions, each once.",
    _PLACE_KEYS,
    together=(("points", "lie on"),),
    needs=(Need(("centred on",), "centred"),),
)

STAND_OFF = Form(
    "stand-off",
    "How a joined panel stands up from the surface, glued along one of its edges.",
    (
        Key("edge", OneOf(("left", "right", "top", "bottom")), "The edge that is glued.", "bottom", required=True),
        Key("angle", Measured(kind=Kind.ANGLE, most=180), "Degrees up from lying flat.", "90", required=True),
    ),
)

GLUE = Form(
    "glue area",
    "Where the adhesive goes on what is laid: a strip along each edge that is named, as it lies there, looking at the "
    "face that receives it; or all over.",
    (
        Key("left", _LENGTH, "How wide the strip along its left edge is.", "1/8"),
        Key("right", _LENGTH, "Along its right edge.", "1/8"),
        Key("top", _LENGTH, "Along its top edge.", "1/8"),
        Key("bottom", _LENGTH, "Along its bottom edge.", "1/8"),
        Key("all over", OneOf(("true", "whole")), "The whole of it takes adhesive.", "true"),
    ),
)

JOIN = Form(
    "join",
    "Two pieces glued together.",
    (
        Key("put", FaceOf(), "The face that takes the glue and ends up hidden.", "flap front", required=True),
        Key("upon", FaceOf(), "The face that it is laid on.", "middle front", required=True),
        Key("at", Mapped((PLACE,)), "Where it lies there.", "{left: 0, bottom: 0}", required=True),
        Key("adhesive", NameOf((Naming.SUPPLY,)), "What holds it.", "wet glue"),
        Key(
            "stands",
            Mapped((STAND_OFF,)),
            "For a panel that is glued by one edge and stands up from there; such a card never lies flat.",
            "{edge: bottom, angle: 90}",
        ),
        Key(
            "glue area",
            Mapped((GLUE,), short="all over"),
            "Where it takes adhesive, if not wherever the two touch: strips along its edges, or whole.",
            "{left: 1/8, bottom: 1/8, right: 1/8}",
        ),
    ),
)

TRIANGLE = Form(
    "triangle",
    "A right triangle, half of the rectangle of its size.",
    (
        Key("size", Size(), "Width and height.", "[3, 4]", required=True),
        Key(
            "right angle",
            OneOf(CORNERS),
            "The corner of that rectangle where the right angle is.",
            "bottom left",
            required=True,
        ),
    ),
)

LAYER = Form(
    "layer",
    "A mat, patterned panel, die cut, label or ornament that is fixed to a panel or to another layer.",
    (
        Key("paper", NameOf((Naming.PAPER,)), "The paper that it is cut from; something bought has none.", "waves"),
        Key("size", Size(), "Width and height of a rectangle.", "[4, 5 1/4]"),
        Key(
            "outline",
            ListOf(Coordinates(), least=3),
            "The corners of another shape, in order.",
            "[[0, 0], [3, 0], [0, 4]]",
        ),
        Key("triangle", Mapped((TRIANGLE,)), "A right triangle.", "{size: [3, 4], right angle: bottom left}"),
        Key("circle", Measured(bound=Bound.PAPER_SIZE), "A disc, by its distance across.", "1 1/2"),
        Key("bought", Size(), "Outer width and height of a die-cut, punched or bought shape.", "[1, 1 1/4]"),
        Key("upon", FaceOf(), "The face of the panel or layer that receives it.", "left door back", required=True),
        Key("at", Mapped((PLACE,)), "Where it lies there.", "{centred: both}", required=True),
        Key("glue on", OneOf(FACES), "Which of its own faces is glued.", "back", default="back"),
        Key(
            "overhangs",
            ListOf(NameOf((Naming.PANEL,), ("edge",))),
            "Panels and layers that it may reach over beyond its own; edge is past the card's edge.",
            "[right door]",
        ),
        Key("adhesive", NameOf((Naming.SUPPLY,)), "What holds it.", "wet glue"),
        Key(
            "glue area",
            Mapped((GLUE,), short="all over"),
            "Where it takes adhesive, if not wherever the two touch: strips along its edges, or whole.",
            "{left: 1 1/2}",
        ),
        *CUT_KEYS,
    ),
    choose=(("size", "outline", "triangle", "circle", "bought"),),
    needs=(Need(("size", "outline", "triangle", "circle"), "paper", "Only something bought has none."),),
)
