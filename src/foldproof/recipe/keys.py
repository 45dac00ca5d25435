"""The table of keys of the plan: every mapping that a recipe may hold but for its steps, with its keys."""

from foldproof.measures.quantity import Kind
from foldproof.recipe.keys_steps import STEP
from foldproof.recipe.kinds import (
    Bound,
    ByName,
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
    OneOf,
    PointOnPiece,
    SideOf,
    Size,
    ValueKind,
    WherePanel,
    Words,
)

CORNERS = ("top left", "top right", "bottom left", "bottom right")
FACES = ("front", "back")
FOLDS = ("valley", "mountain", "none")
TURNS = ("none", "half", "quarter clockwise", "quarter anticlockwise")

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
        OneOf(TURNS),
        "How it is turned from upright before it is placed, as seen there.",
        "half",
        default="none",
    ),
)

PLACE = Form(
    "place",
    "Where something lies on the panel that receives it, looking at that face; a back is reached by turning the "
    "piece like the page of a book. It fixes both directions, each once.",
    _PLACE_KEYS,
)

JOIN = Form(
    "join",
    "Two pieces glued together.",
    (
        Key("put", FaceOf(), "The face that takes the glue and ends up hidden.", "flap front", required=True),
        Key("upon", FaceOf(), "The face that it is laid on.", "middle front", required=True),
        Key("at", Mapped((PLACE,)), "Where it lies there.", "{left: 0, bottom: 0}", required=True),
        Key("adhesive", NameOf((Naming.SUPPLY,)), "What holds it.", "wet glue"),
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
    ),
    choose=(("size", "outline", "triangle", "circle", "bought"),),
)

RESTS = Form(
    "rest",
    "What a standing card leans on.",
    (
        Key("foot", SideOf(), "The edge that touches.", "stand bottom", required=True),
        Key("against", SideOf(), "The edge that it touches.", "stop top", required=True),
    ),
)

POSE = Form(
    "pose",
    "A named way to hold the card: how far each score is folded.",
    (
        Key(
            "still",
            NameOf((Naming.PANEL,)),
            "The panel that stays as it lies; the first piece's largest unless said.",
            "middle",
        ),
        Key(
            "folds",
            ByName(Naming.SCORE, Measured(kind=Kind.ANGLE, bound=Bound.ANY, most=180, or_word="found")),
            "Degrees from flat by score, in the order of folding: a valley is more than 0, a mountain less; found "
            "where the rest decides.",
            "{left hinge: 180, right hinge: 180}",
        ),
        Key("seen", OneOf(FACES), "The face of the still panel that the reader looks at.", "front", default="front"),
        Key(
            "turned",
            OneOf(TURNS),
            "How the whole card is turned before the reader, after it is folded.",
            "half",
            default="none",
        ),
        Key(
            "over",
            ListOf(ListOf(NameOf((Naming.PANEL,)), exactly=2)),
            "Pairs [upper, lower] where either could lie on top and it shows.",
            "[[left door, right door]]",
        ),
        Key(
            "rests",
            Mapped((RESTS,)),
            "For a card that stands: the edge that leans and the edge that holds it.",
            "{foot: stand bottom, against: stop top}",
        ),
    ),
)

MEETS = Form(
    "meeting",
    "Two panels whose free edges face each other in the finished card.",
    (
        Key(
            "panels",
            ListOf(NameOf((Naming.PANEL,)), exactly=2),
            "The two panels.",
            "[left door, right door]",
            required=True,
        ),
        Key("gap", Measured(bound=Bound.NOT_NEGATIVE), "How far apart the edges stay; 0 where they meet.", "0"),
        Key("overlap", _LENGTH, "How far one reaches over the other.", "1/4"),
    ),
    choose=(("gap", "overlap"),),
)

STANDS = Form(
    "stand",
    "The size that is promised for a standing pose.",
    (
        Key("pose", NameOf((Naming.POSE,)), "The pose in which it stands.", "standing", required=True),
        Key("height", _LENGTH, "From the table to the highest point.", "4 1/4", required=True),
    ),
)

FINISHED = Form(
    "finished card",
    "What the recipe promises of the finished card, in plain numbers.",
    (
        Key(
            "size",
            Size(),
            "Width and height of the closed card as the reader holds it.",
            "[4 1/4, 5 1/2]",
            required=True,
        ),
        Key("pose", NameOf((Naming.POSE,)), "The pose that this is; closed unless said.", "closed"),
        Key("envelope", Size(or_words=True), "The envelope, by its trade name or by width and height.", "A2"),
        Key(
            "meets",
            ListOf(Mapped((MEETS,))),
            "Edges that face each other.",
            "[{panels: [left door, right door], gap: 0}]",
        ),
        Key("stands", Mapped((STANDS,)), "The height when it stands.", "{pose: standing, height: 4 1/4}"),
    ),
)

SUPPLY = Form(
    "supply",
    "Something that is used up.",
    (
        Key("kind", Words(), "What it is: wet glue, tape, foam, glue dots, ribbon, thread, ink, ornament.", "wet glue"),
        Key("amount", Words(), "How much of it one card needs.", "a few dots"),
        Key("length", Measured(most=100_000), "How long a piece of it one card needs.", "18"),
        Key("thickness", _LENGTH, "How much it adds to the bulk.", "1/16"),
        Key(
            "dries",
            Measured(kind=Kind.TIME, bare="min", most=7 * 86_400),
            "How long before the bond may be worked.",
            "5 min",
        ),
    ),
)

TOOL = Form(
    "tool",
    "Something that is used and kept.",
    (
        Key(
            "basic",
            OneOf(("true", "false")),
            "A desk tool that everybody has: listed once, not named in steps.",
            "true",
            default="false",
        ),
        Key("caution", Words(prose=True), "The usual caution for it.", "Keep fingers behind the blade."),
    ),
)

RECIPE = Form(
    "recipe",
    "One card.",
    (
        Key("title", Words(), "The card's name.", "Tide gate", required=True),
        Key("summary", Words(prose=True), "What the card is, in a sentence or two.", "A gate fold held by a band."),
        Key("skill", Words(), "Who can make it.", "beginner"),
        Key("unit", OneOf(("inch", "mm", "cm")), "The unit of bare numbers.", "mm", default="inch"),
        Key("language", Words(), "Language of the prose, as a web page declares it.", "en-GB"),
        Key(
            "measures",
            Named(Naming.MEASURE, Measured(bound=Bound.ANY)),
            "Named measures: a literal, or arithmetic over others.",
            "{width: 4 1/4, door: width / 2}",
        ),
        Key(
            "papers",
            Named(Naming.PAPER, Mapped((PAPER,)), most=40, least=1),
            "The papers by name.",
            "{slate: {kind: cardstock, weight: 80 lb cover}}",
            required=True,
        ),
        Key(
            "pieces",
            Named(Naming.PIECE, Mapped((PIECE,)), most=60, least=1),
            "The pieces of the card by name.",
            "{base: {paper: slate, size: [8 1/2, 5 1/2]}}",
            required=True,
        ),
        Key(
            "joins",
            Named(Naming.JOIN, Mapped((JOIN,)), most=100),
            "How pieces are glued together.",
            "{flap on base: {put: flap front, upon: middle front, at: {left: 0, bottom: 0}}}",
        ),
        Key(
            "layers",
            Named(Naming.LAYER, Mapped((LAYER,)), most=100),
            "What is fixed on the pieces, by name.",
            "{left mat: {paper: waves, size: [1 7/8, 5 1/4], upon: left door back, at: {centred: both}}}",
        ),
        Key(
            "poses",
            Named(Naming.POSE, Mapped((POSE,)), most=40, least=1),
            "How the card is held, by name.",
            "{closed: {folds: {left hinge: 180}}, open: {}}",
            required=True,
        ),
        Key("opening", ListOf(NameOf((Naming.POSE,))), "Poses in the order in which the card opens.", "[closed, open]"),
        Key(
            "finished",
            Mapped((FINISHED,)),
            "What the recipe promises of the finished card.",
            "{size: [4 1/4, 5 1/2], envelope: A2}",
            required=True,
        ),
        Key(
            "supplies",
            Named(Naming.SUPPLY, Mapped((SUPPLY,)), most=100),
            "What is used up, by name.",
            "{wet glue: {kind: wet glue, dries: 5 min}}",
        ),
        Key(
            "tools",
            Named(Naming.TOOL, Mapped((TOOL,)), most=100),
            "What is used and kept, by name.",
            "{trimmer: {}, pencil: {basic: true}}",
        ),
        Key(
            "steps",
            ListOf(Mapped((STEP,)), least=1),
            "What the maker does, in order.",
            "[{title: Cut the base, piece: base, do: [{cut: [8 1/2, 5 1/2]}], text: Cut it.}]",
            required=True,
        ),
        Key("picture", Words(), "A photograph of the card, by a path inside the recipe's folder.", "pictures/gate.jpg"),
    ),
)


def forms() -> tuple[Form, ...]:
    """Every form of the grammar, each once, the recipe first."""
    found: list[Form] = []
    waiting: list[Form] = [RECIPE]
    while waiting:
        form = waiting.pop(0)
        if form not in found:
            found.append(form)
            waiting.extend(inner for key in form.keys for inner in _forms_in(key.kind))
    return tuple(found)


def _forms_in(kind: ValueKind) -> tuple[Form, ...]:
    if isinstance(kind, Mapped):
        return kind.forms
    return _forms_in(kind.item) if isinstance(kind, Named | ByName | ListOf) else ()


ALL_KEYS = frozenset(key.name for form in forms() for key in form.keys)
"""The names of all keys."""
