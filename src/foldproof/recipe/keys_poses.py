"""The table of keys of poses and of what is promised of the finished card."""

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
    SideOf,
    Size,
)
from foldproof.recipe.words import FACES, TURNS

_LENGTH = Measured()
_OFFSET = Measured(bound=Bound.ANY)

RESTS = Form(
    "rest",
    "What a standing card leans on.",
    (
        Key("foot", SideOf(), "The edge that touches.", "stand bottom", required=True),
        Key("against", SideOf(), "The edge that it touches.", "stop top", required=True),
    ),
)

TUCK = Form(
    "tuck",
    "A flap whose corner or edge a hand slips under other paper; the paper bends while that is done.",
    (
        Key("flap", NameOf((Naming.PANEL,)), "The panel that is tucked.", "top flap", required=True),
        Key("under", NameOf((Naming.PANEL,)), "The panel that ends up over it.", "left flap", required=True),
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
            OneOf(("none", *TURNS)),
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
            "tucks",
            ListOf(Mapped((TUCK,))),
            "Flaps that are tucked under others: honoured for who lies on top, not checked on the way there.",
            "[{flap: top flap, under: left flap}]",
        ),
        Key(
            "shows",
            ListOf(NameOf((Naming.PANEL,))),
            "Panels and layers that the reader must see whole.",
            "[label]",
        ),
        Key("hides", ListOf(NameOf((Naming.PANEL,))), "Panels and layers that must not be seen yet.", "[greeting]"),
        Key(
            "first",
            ListOf(NameOf((Naming.SCORE,))),
            "The folds that move first when the card comes to this pose, in turn; the others move after them.",
            "[left hinge]",
        ),
        Key(
            "bends",
            ListOf(NameOf((Naming.PANEL,))),
            "Panels that the hand bends when the card comes to this pose: not checked on the way there.",
            "[left door]",
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
