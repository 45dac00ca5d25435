"""The table of keys of shots and of the film as a whole."""

from foldproof.measures.quantity import Kind
from foldproof.recipe.film_records import FRAMINGS
from foldproof.recipe.kinds import Bound, Form, Key, ListOf, Mapped, Measured, NameOf, Naming, OneOf, Words

MOST_DUPLICATES = 3
MOST_WORDS_A_MINUTE = 300
_SECONDS = Measured(kind=Kind.TIME, bare="s", most=3_600)

SHOT = Form(
    "shot",
    "One shot of a step.",
    (
        Key(
            "framing",
            OneOf(FRAMINGS),
            "How the camera sees the table; from what hands do unless said. `off camera` is done before filming.",
            "overhead close",
        ),
        Key("seconds", _SECONDS, "How long it runs.", "25"),
        Key(
            "say",
            Words(prose=True),
            "The line to speak in this shot, where it is not the step's.",
            "Score at 2 1/8 in.",
        ),
        Key(
            "actions",
            Measured(kind=Kind.NUMBER, bound=Bound.NOT_NEGATIVE, most=300),
            "How many of the step's actions hands do in it, in their order; the first shot without a number does the "
            "rest, and a shot with none shows the work as it lies.",
            "2",
        ),
        Key("of", Words(), "The id of another step: the shot shows the work as that step leaves it.", "score-doors"),
        Key(
            "inside",
            ListOf(NameOf((Naming.PIECE, Naming.LAYER, Naming.PANEL)), or_single=True),
            "What must be inside the frame; what is worked on unless said.",
            "[left door, right door]",
        ),
        Key("width", Measured(), "The real width of what the frame shows; from what must be inside unless said.", "6"),
    ),
)

BEAUTY = Form(
    "beauty shot",
    "A shot of the finished card.",
    (
        Key("pose", NameOf((Naming.POSE,)), "The pose in which it is shown.", "closed", required=True),
        Key(
            "framing",
            OneOf(("front on", "turntable", "overhead")),
            "How the camera sees it.",
            "turntable",
            default="front on",
        ),
        Key("when", OneOf(("start", "end")), "Whether the film starts or ends with it.", "start", default="end"),
        Key("seconds", _SECONDS, "How long it runs.", "8"),
        Key("say", Words(prose=True), "The line to speak.", "This is the card that we make."),
    ),
)

FILMING = Form(
    "filming",
    "What holds for the whole film.",
    (
        Key(
            "bottom",
            OneOf(("maker", "opposite")),
            "The edge of the table that is at the bottom of the picture from overhead: the maker's, or the far one.",
            "opposite",
            default="maker",
        ),
        Key(
            "picture",
            OneOf(("wide", "tall", "square")),
            "The picture's shape: 16 to 9, 9 to 16, or 1 to 1.",
            "tall",
            default="wide",
        ),
        Key(
            "words a minute",
            Measured(kind=Kind.NUMBER, most=MOST_WORDS_A_MINUTE),
            "How fast the lines are spoken; 130 unless said.",
            "120",
        ),
        Key("longest silence", _SECONDS, "The longest stretch of a step without words; 20 seconds unless said.", "15"),
        Key(
            "duplicates",
            Measured(kind=Kind.NUMBER, bound=Bound.NOT_NEGATIVE, most=MOST_DUPLICATES),
            "How many duplicates may be prepared so that the camera moves less; none unless said.",
            "1",
        ),
        Key(
            "beauty",
            ListOf(Mapped((BEAUTY,), short="pose"), or_single=True, most=20),
            "Shots of the finished card.",
            "{pose: closed, framing: turntable, when: start, seconds: 8}",
        ),
    ),
)
