"""The table of keys of the steps and their actions."""

from foldproof.measures.quantity import Kind
from foldproof.recipe.keys_film import SHOT
from foldproof.recipe.kinds import (
    Bound,
    Coordinates,
    Defines,
    FaceOf,
    Form,
    Key,
    ListOf,
    Mapped,
    Measured,
    NameOf,
    Naming,
    Need,
    OneOf,
    PointOnTable,
    Size,
    Sort,
    Words,
)
from foldproof.recipe.words import CORNERS, EDGES, TURNS

_LENGTH = Measured()
_OFFSET = Measured(bound=Bound.ANY)
_WITH = Key("with", NameOf((Naming.TOOL,)), "The tool, where the step has several that could do it.", "trimmer")
_OTHER = Key(
    "other", NameOf((Naming.PIECE, Naming.LAYER)), "The piece or layer that the other part becomes.", "right mat"
)
_START = Key(
    "from", OneOf(("left", "right")), "The end that is measured from, as it lies.", "right", default="left"
)
_POINT = "a corner or a middle as it lies, a mark, or a point found on scores."

CUT_OUT = Form(
    "cut from the sheet",
    "Cut a piece or a layer from its paper as a rectangle, front up.",
    (Key("size", Size(), "Width and height as it is read.", "[8 1/2, 5 1/2]", required=True), _WITH),
)

DIE_CUT = Form(
    "die cut",
    "Cut or punch with a die, or take a bought shape.",
    (Key("size", Size(), "Outer width and height.", "[1, 1 1/4]", required=True), _WITH),
)

CUT_ACROSS = Form(
    "cut straight across",
    "Cut square to the fence and keep one side.",
    (
        Key("at", _LENGTH, "How far from the stop at the left.", "4 1/4", required=True),
        Key("keep", OneOf(("left", "right")), "The side to keep, as it lies.", "left", required=True),
        _START,
        _OTHER,
        _WITH,
    ),
)

CUT_OFF = Form(
    "cut of a strip",
    "Cut a strip off along an edge: trim it.",
    (
        Key("strip", _LENGTH, "How wide a strip comes off.", "1/4", required=True),
        Key("edge", OneOf(EDGES), "The edge that it comes off, as it lies.", "right", required=True),
        _OTHER,
        _WITH,
    ),
)

CUT_BETWEEN = Form(
    "cut between two points",
    "Cut along a line between two points and keep one part.",
    (
        Key(
            "from",
            PointOnTable(),
            f"Where the cut starts: {_POINT}",
            "top left",
            required=True,
        ),
        Key("to", PointOnTable(), "Where it ends.", "door mark", required=True),
        Key("keep", OneOf(CORNERS), "The corner that the kept part has, as it lies.", "bottom left", required=True),
        _OTHER,
        _WITH,
    ),
)

BLADE = Form(
    "blade",
    "Put a blade into a trimmer. It starts with its cutting blade in.",
    (
        Key("kind", OneOf(("cutting", "scoring")), "Which blade goes in.", "scoring", required=True),
        Key("in", NameOf((Naming.TOOL,)), "The trimmer, where there are several.", "trimmer"),
    ),
)

LAY = Form(
    "laying",
    "Lay the piece with an edge against the fence, or against the stop.",
    (
        Key(
            "edge",
            OneOf(("long", "short", *EDGES)),
            "The edge that goes against the fence, as it lies.",
            "long",
            required=True,
        ),
        Key("against", OneOf(("fence", "stop")), "What the edge lies against.", "stop", default="fence"),
        Key("up", OneOf(("front", "back")), "The face that is up, where the step says it.", "front"),
    ),
)

MARK = Form(
    "mark",
    "Make a pencil mark on an edge, or a distance in from it.",
    (
        Key("at", Measured(bound=Bound.NOT_NEGATIVE), "How far along the edge.", "1", required=True),
        Key("edge", OneOf(EDGES), "The edge, as it lies.", "top", required=True),
        Key("from", OneOf(EDGES), "The end of that edge that is measured from.", "left", required=True),
        Key("in", _LENGTH, "How far in from that edge; on the edge itself unless said.", "3/4"),
        Key("name", Defines(Naming.MARK), "A name for the mark.", "door mark", required=True),
    ),
)

SCORE_AT = Form(
    "straight score",
    "Score square to the fence, right across or a part of the way.",
    (
        Key("at", _LENGTH, "How far from the stop at the left.", "2 1/8", required=True),
        Key("begins", _LENGTH, "How far from the fence it begins; at the fence unless said.", "1 1/4"),
        Key("ends", _LENGTH, "How far from the fence it ends; at the near edge unless said.", "4 1/4"),
        _START,
        _WITH,
    ),
)

SLIT_AT = Form(
    "straight slit",
    "Cut a slit square to the fence.",
    (
        Key("at", _LENGTH, "How far from the stop at the left.", "1 1/4", required=True),
        Key("begins", _LENGTH, "How far from the fence it begins.", "1", required=True),
        Key("ends", _LENGTH, "How far from the fence it ends.", "5", required=True),
    ),
)

SLIT_BETWEEN = Form(
    "slit between two points",
    "Cut a slit along a ruler from point to point.",
    (
        Key(
            "from",
            PointOnTable(),
            "Where it starts: a corner or a middle as it lies, or a mark.",
            "top left",
            required=True,
        ),
        Key("to", PointOnTable(), "Where it ends.", "bottom right", required=True),
    ),
)

_AWAY_KEYS = (
    Key("size", Size(), "Width and height of a rectangle, as it lies.", "[2, 1 1/2]"),
    Key("circle", Measured(bound=Bound.PAPER_SIZE), "A disc, by its distance across.", "1"),
    Key("corners", ListOf(PointOnTable(), least=3), "Its corners by marks, in order.", "[top left, centre, top right]"),
    Key("left", _OFFSET, "From the left edge of the work to the shape's; negative reaches past it.", "1"),
    Key("right", _OFFSET, "From the right edges in the same way.", "1"),
    Key("top", _OFFSET, "From the far edges in the same way.", "1"),
    Key("bottom", _OFFSET, "From the near edges in the same way.", "1"),
    Key("centred", OneOf(("both", "across", "up")), "Centred on the work across, up, or both.", "across"),
)

CUT_WINDOW = Form(
    "cut window",
    "Cut or punch a shape with paper all round it, through all the paper beneath.",
    _AWAY_KEYS,
    choose=(("size", "circle", "corners"),),
)

CUT_NOTCH = Form(
    "cut notch",
    "Cut or punch a shape over an edge, through all the paper beneath.",
    _AWAY_KEYS,
    choose=(("size", "circle", "corners"),),
)

ROUND_CORNERS = Form(
    "rounding",
    "Cut corners round, as with a corner rounder.",
    (
        Key("radius", _LENGTH, "The radius.", "1/4", required=True),
        Key("corners", ListOf(OneOf(CORNERS), or_single=True), "Which, as it lies; else all four.", "[top left]"),
    ),
)

CUT_SCALLOPS = Form(
    "cut scallops",
    "Cut a straight edge as a row of half discs.",
    (
        Key("edge", OneOf(EDGES), "The edge, as it lies.", "bottom", required=True),
        Key("across", _LENGTH, "The width of one scallop.", "1/2", required=True),
    ),
)

SCORE_BETWEEN = Form(
    "score between two points",
    "Score from point to point.",
    (
        Key(
            "from",
            PointOnTable(),
            f"Where it starts: {_POINT}",
            "top left",
            required=True,
        ),
        Key("to", PointOnTable(), "Where it ends.", "bottom right", required=True),
        _WITH,
    ),
)

FOLD = Form(
    "fold",
    "Fold on a score.",
    (
        Key("score", NameOf((Naming.SCORE,)), "The score.", "left hinge", required=True),
        Key(
            "fold",
            OneOf(("valley", "mountain")),
            "Which way, as seen from the face that is up.",
            "valley",
            required=True,
        ),
        Key("angle", Measured(kind=Kind.ANGLE, most=180), "Degrees from flat; right over unless said.", "90"),
        Key("sharp", OneOf(("true", "false")), "Whether the fold is creased hard.", "false", default="true"),
    ),
)

TUCK = Form(
    "tuck by hand",
    "Slip the edge or the corner of a flap under other paper of the same work.",
    (
        Key("flap", NameOf((Naming.PANEL,)), "The panel that is tucked.", "top flap", required=True),
        Key("under", NameOf((Naming.PANEL,)), "The panel that ends up over it.", "left flap", required=True),
    ),
)

ATTACH = Form(
    "attaching",
    "Fix a layer, or glue a piece on, where the plan says. The distances are what hands are told; each is "
    "from the edges of the panel that receives it, as that face is read.",
    (
        Key("what", NameOf((Naming.LAYER, Naming.JOIN)), "The layer, or the join.", "left mat", required=True),
        Key("left", _OFFSET, "From the receiving panel's left edge.", "1/8"),
        Key("right", _OFFSET, "From its right edge.", "1/8"),
        Key("top", _OFFSET, "From its top edge.", "1/8"),
        Key("bottom", _OFFSET, "From its bottom edge.", "1/8"),
        Key("border", _OFFSET, "The same distance from all four edges.", "1/8"),
        Key("centred", OneOf(("both", "across", "up")), "Centred across, up, or both.", "both"),
        Key(
            "centred on",
            NameOf((Naming.PANEL,), ("card",)),
            "What to centre on instead of the receiving panel.",
            "card",
        ),
        Key("turned", OneOf(("none", *TURNS)), "How it is turned from upright, as seen there.", "half", default="none"),
        Key(
            "points",
            ListOf(Coordinates(), exactly=2),
            "For a slanted place: two points of the placed piece, each [x, y] in its own frame, front up.",
            "[[0, 1/2], [2 1/2, 1/2]]",
        ),
        Key(
            "lie on",
            ListOf(Coordinates(), exactly=2),
            "The points of the receiving piece that those two come to lie on, front up.",
            "[[4, 2], [2 1/2, 4]]",
        ),
        Key("with", NameOf((Naming.SUPPLY,)), "What holds it.", "wet glue"),
    ),
    together=(("points", "lie on"),),
    needs=(Need(("centred on",), "centred"),),
)

SLIDE_IN = Form(
    "sliding in",
    "Slide something in, or fasten it, as one of the plan's slides says; where a layer comes to lie is told as when "
    "one is attached.",
    (
        Key("what", NameOf((Naming.SLIDE,)), "The slide.", "tag in pouch", required=True),
        *(key for key in ATTACH.keys if key.name not in ("what", "with")),
    ),
    together=(("points", "lie on"),),
    needs=(Need(("centred on",), "centred"),),
)

STAMP = Form(
    "stamping",
    "Stamp, write or print on a face.",
    (
        Key("upon", FaceOf(), "The face.", "middle front", required=True),
        Key("words", Words(), "What it says.", "Thank you"),
    ),
)

TIE = Form(
    "tying",
    "Tie ribbon or thread round the card.",
    (
        Key("with", NameOf((Naming.SUPPLY,)), "The ribbon or thread.", "ribbon", required=True),
        Key("length", Measured(most=100_000), "How long a piece.", "18"),
    ),
)

ACTION = Form(
    "action",
    "One thing that hands do: one of these words with its value, and the piece where it is not the step's.",
    (
        Key(
            "cut",
            Mapped((CUT_OUT, CUT_ACROSS, CUT_OFF, CUT_BETWEEN), short="size"),
            "Cut from the sheet, straight across, a strip off an edge, or between two points.",
            "[8 1/2, 5 1/2]",
        ),
        Key(
            "die cut",
            Mapped((DIE_CUT,), short="size"),
            "Cut or punch with a die, or take a bought shape: its outer size.",
            "[1, 1 1/4]",
        ),
        Key("blade", Mapped((BLADE,), short="kind"), "Put a blade into a trimmer.", "scoring"),
        Key(
            "slit",
            Mapped((SLIT_AT, SLIT_BETWEEN)),
            "Cut a slit at a distance, or from point to point.",
            "{at: 1 1/4, begins: 1, ends: 5}",
        ),
        Key("window", Mapped((CUT_WINDOW,)), "Cut or punch a window.", "{circle: 1, centred: across, top: 1}"),
        Key("notch", Mapped((CUT_NOTCH,)), "Cut or punch over an edge.", "{circle: 1, centred: across, top: -1/2}"),
        Key("round", Mapped((ROUND_CORNERS,), short="radius"), "Cut corners round.", "1/4"),
        Key("scallop", Mapped((CUT_SCALLOPS,)), "Cut an edge in scallops.", "{edge: bottom, across: 1/2}"),
        Key("slide", Mapped((SLIDE_IN,), short="what"), "Slide something in or through.", "tag in pouch"),
        Key("fasten", Mapped((SLIDE_IN,), short="what"), "Close a band, or push a brad through.", "tag in pouch"),
        Key("lay", Mapped((LAY,), short="edge"), "Lay an edge against the fence.", "long"),
        Key(
            "mark",
            Mapped((MARK,)),
            "Make a pencil mark.",
            "{at: 1, edge: top, from: left, name: door mark}",
        ),
        Key(
            "score",
            Mapped((SCORE_AT, SCORE_BETWEEN), short="at"),
            "Score at a distance, or from point to point.",
            "2 1/8",
        ),
        Key("turn", OneOf(TURNS), "Turn the work on the table, the same face up.", "half"),
        Key("turn over", OneOf(("book page", "top to bottom")), "Turn the work over.", "book page"),
        Key("fold", Mapped((FOLD,)), "Fold on a score.", "{score: left hinge, fold: valley}"),
        Key("tuck", Mapped((TUCK,)), "Slip a flap under other paper.", "{flap: top flap, under: left flap}"),
        Key(
            "bring to",
            NameOf((Naming.POSE,)),
            "Fold or open at once all that a flat pose folds otherwise: scores in a ring can only go together.",
            "closed",
        ),
        Key("unfold", NameOf((Naming.SCORE,)), "Lay a fold flat again.", "left hinge"),
        Key("attach", Mapped((ATTACH,), short="what"), "Fix a layer or make a join.", "{what: left mat, border: 1/8}"),
        Key("stamp", Mapped((STAMP,), short="upon"), "Stamp, write or print.", "{upon: middle front, words: Thanks}"),
        Key("tie", Mapped((TIE,), short="with"), "Tie something round.", "{with: ribbon, length: 18}"),
        Key("dry", Measured(kind=Kind.TIME, bare="min", most=7 * 86_400), "Wait; a bare number is minutes.", "5 min"),
        Key(
            "measure",
            Size(),
            "Check the outline of the piece as it is now: width and height as it lies.",
            "[4 1/4, 5 1/2]",
        ),
        Key("note", Words(), "Something to do or see that changes no paper.", "Rub out the pencil mark."),
        Key("piece", NameOf((Naming.PIECE, Naming.LAYER)), "The piece or layer, where it is not the step's.", "base"),
    ),
    choose=(
        (
            "cut",
            "die cut",
            "blade",
            "slit",
            "window",
            "notch",
            "round",
            "scallop",
            "slide",
            "fasten",
            "lay",
            "mark",
            "score",
            "turn",
            "turn over",
            "fold",
            "tuck",
            "bring to",
            "unfold",
            "attach",
            "stamp",
            "tie",
            "dry",
            "measure",
            "note",
        ),
    ),
)

INSTEAD = Form(
    "name instead",
    "A name that the repeat has in place of one of the step's.",
    (
        Key("of", Words(), "The name as the step's actions have it.", "spine", required=True),
        Key("take", Words(), "What stands in its place.", "lid spine", required=True),
    ),
)

REPEAT = Form(
    "repeat",
    "The same once more with another piece.",
    (
        Key("for", NameOf((Naming.PIECE, Naming.LAYER)), "The other piece or layer.", "right mat", required=True),
        Key("mirrored", OneOf(("true", "false")), "Whether left and right change places.", "true", default="false"),
        Key(
            "instead",
            ListOf(Mapped((INSTEAD,)), or_single=True),
            "Names that do not follow from the names of the two pieces.",
            "[{of: spine, take: lid spine}]",
        ),
    ),
)

CORRECTION = Form(
    "correction",
    "What an earlier edition of a step had wrong, and what comes of it.",
    (
        Key("day", Words(sort=Sort.DAY), "The day on which it was put right.", "2026-03-01", required=True),
        Key(
            "text",
            Words(prose=True),
            "What stood there, and what goes wrong with it.",
            "The score stood at 2 1/4 in; the doors then overlap.",
            required=True,
        ),
    ),
)

STEP = Form(
    "step",
    "One thing that the maker does, with the words that say it.",
    (
        Key("id", Words(), "A name that stays when the title changes; from the title unless said.", "score-the-doors"),
        Key("title", Words(), "The step in a few words.", "Score the doors", required=True),
        Key("piece", NameOf((Naming.PIECE, Naming.LAYER)), "The piece or layer that its actions act on.", "base"),
        Key("tools", ListOf(NameOf((Naming.TOOL,))), "Tools that it needs.", "[scoring board]"),
        Key("supplies", ListOf(NameOf((Naming.SUPPLY,))), "Supplies that it needs.", "[wet glue]"),
        Key("do", ListOf(Mapped((ACTION,))), "What hands do, in order.", "[{lay: long}, {score: 2 1/8}]"),
        Key(
            "repeat",
            ListOf(Mapped((REPEAT,), short="for"), or_single=True),
            "The pieces that the same is done with afterwards; told once, with the count.",
            "[right mat]",
        ),
        Key(
            "text",
            Words(prose=True),
            "What the handout and the page say, in Markdown.",
            "Score at 2 1/8 in.",
            required=True,
        ),
        Key("say", Words(prose=True), "The line to speak; the text unless said.", "Score at 2 1/8 inches."),
        Key("tip", Words(prose=True), "A hint beside the step.", "Score twice on heavy card."),
        Key("caution", Words(prose=True), "A caution for this step.", "Mind the blade."),
        Key("minutes", Measured(kind=Kind.TIME, bare="min", most=7 * 86_400), "How long it takes.", "3"),
        Key(
            "film",
            ListOf(Mapped((SHOT,), short="framing"), or_single=True, most=20),
            "The shot, or the shots; made from what hands do unless said.",
            "{framing: overhead close, seconds: 25}",
        ),
        Key("picture", Words(), "A photograph, by a path inside the recipe's folder.", "pictures/doors.jpg"),
        Key(
            "picture shows",
            Words(),
            "What the photograph shows, for readers who cannot see it.",
            "Two scores, each 2 1/8 in from its end.",
        ),
        Key(
            "corrections",
            ListOf(Mapped((CORRECTION,)), most=20),
            "What an earlier edition of this step had wrong, for those who have it.",
            "[{day: 2026-03-01, text: The second score was given from the wrong end.}]",
        ),
    ),
)
