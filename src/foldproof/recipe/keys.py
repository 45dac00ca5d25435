"""The table of keys of a whole recipe, and a walk over every form of a grammar."""

from foldproof.measures.quantity import Kind
from foldproof.recipe.keys_class import CLASS
from foldproof.recipe.keys_cuts import SLIDE
from foldproof.recipe.keys_editions import INCHES, METRIC
from foldproof.recipe.keys_film import FILMING
from foldproof.recipe.keys_plan import JOIN, LAYER, PAPER, PIECE
from foldproof.recipe.keys_poses import FINISHED, POSE
from foldproof.recipe.keys_steps import STEP
from foldproof.recipe.kinds import (
    Bound,
    ByName,
    Form,
    Key,
    ListOf,
    Mapped,
    Measured,
    Named,
    NameOf,
    Naming,
    OneOf,
    Sort,
    ValueKind,
    Words,
)

_LENGTH = Measured()
HANDOUTS = ("large-print", "one-ink", "compact")
"""The kinds of handout beside the usual one."""
_OFFSET = Measured(bound=Bound.ANY)

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
            "slides",
            Named(Naming.SLIDE, Mapped((SLIDE,))),
            "What moves or holds without a hinge and without glue, by name.",
            "{tag in pouch: {what: tag, pocket: pouch}}",
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
        Key(
            "class",
            Mapped((CLASS,)),
            "What a class of this card needs.",
            "{people: 12, cut ahead: everything}",
        ),
        Key(
            "filming",
            Mapped((FILMING,)),
            "What holds for the whole film.",
            "{bottom: opposite, words a minute: 120}",
        ),
        Key(
            "metric",
            Mapped((METRIC,)),
            "Sizes of its metric edition, where they are not to be rounded from the inches.",
            "{measures: {width: 105}, papers: {slate: A4}, envelope: C6}",
        ),
        Key(
            "inches",
            Mapped((INCHES,)),
            "Sizes of its inch edition, where they are not to be rounded from the millimetres.",
            "{measures: {width: 4 1/4}, papers: {slate: letter}, envelope: A2}",
        ),
        Key(
            "handouts",
            ListOf(OneOf(HANDOUTS), or_single=True),
            "The kinds of handout that are always made beside the usual one.",
            "[large-print, compact]",
        ),
        Key("tolerance", _LENGTH, "How far off a class may cut and score.", "1/32", default="1/32 in"),
        Key("picture", Words(), "A photograph of the card, by a path inside the recipe's folder.", "pictures/gate.jpg"),
        Key(
            "picture shows",
            Words(),
            "What the photograph shows, for readers who cannot see it.",
            "The closed gate on a gray table, its band slipped over the right door.",
        ),
        Key(
            "theme",
            Words(),
            "How its documents look: a theme that is shipped, or a theme's folder inside the recipe's folder.",
            "ledger",
            default="plain",
        ),
        Key(
            "published",
            Words(sort=Sort.PAGE),
            "The address at which the page stands once it is on the web; its pictures lie beside it.",
            "https://example.org/cards/tide-gate/page.html",
        ),
    ),
)


def forms(root: Form = RECIPE) -> tuple[Form, ...]:
    """Every form that a form leads to, each once, itself first: all of the grammar from a recipe."""
    found: list[Form] = []
    waiting: list[Form] = [root]
    while waiting:
        form = waiting.pop(0)
        if form not in found:
            found.append(form)
            waiting.extend(inner for key in form.keys for inner in forms_in(key.kind))
    return tuple(found)


def forms_in(kind: ValueKind) -> tuple[Form, ...]:
    """The forms that a value of a kind may have."""
    if isinstance(kind, Mapped):
        return kind.forms
    return forms_in(kind.item) if isinstance(kind, Named | ByName | ListOf) else ()


ALL_KEYS = frozenset(key.name for form in forms() for key in form.keys)
"""The names of all keys."""
