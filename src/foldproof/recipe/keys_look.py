"""The table of keys of a look: a recipe that says only what is otherwise than in the recipe that it builds on."""

from dataclasses import replace

from foldproof.recipe.keys import RECIPE
from foldproof.recipe.keys_poses import FINISHED
from foldproof.recipe.kinds import Form, Key, ListOf, Mapped, Named, Words

CONSTRUCTION = ("unit", "measures", "pieces", "joins", "poses", "opening", "slides", "tolerance")
"""What is the same in every look of a card and is written only in the recipe that they build on."""
SECTIONS = ("papers", "layers", "supplies", "tools")
"""Parts by name of which a look may change some, add some and leave some out."""

_INSTEAD = Key(
    "instead of",
    Words(),
    "What this stands for in the other recipe, where its name gives way to this one, in the words, too.",
    "slate",
)


def _as_changed(form: Form, *more: Key) -> Form:
    """A form of which only the keys that change are written."""
    return replace(
        form, name=f"{form.name} of a look", keys=(*more, *(replace(key, required=False) for key in form.keys)),
        choose=(), together=(), needs=())


def _of(name: str) -> Key:
    return next(key for key in RECIPE.keys if key.name == name)


def _form_of(key: Key) -> Form:
    kind = key.kind
    inner = kind.item if isinstance(kind, Named | ListOf) else kind
    assert isinstance(inner, Mapped)
    return inner.forms[0]


def _section(name: str) -> Key:
    key = _of(name)
    assert isinstance(key.kind, Named)
    changed = Mapped((_as_changed(_form_of(key), _INSTEAD),))
    return replace(key, kind=replace(key.kind, item=changed, least=0), required=False)


LOOK_STEP = _as_changed(
    _form_of(_of("steps")),
    Key("instead of", Words(), "The step of the other recipe, by its title or id, whose keys these replace.",
        "Stamp the greetings"),
    Key("after", Words(), "The step that this new one follows.", "Glue the band"),
    Key("before", Words(), "The step that this new one comes before.", "Glue the band"),
)

LEAVE_OUT = Form(
    "what a look leaves out", "Names from the recipe that the look builds on.",
    tuple(
        Key(name, ListOf(Words(), or_single=True), f"The {name} that this look has not.", example)
        for name, example in (
            ("layers", "[band]"), ("steps", "[Stamp the greetings]"), ("papers", "[chalk]"),
            ("supplies", "[gray ink]"), ("tools", "[greeting stamps]"))
    ),
)

LOOK = Form(
    "look",
    "The same construction with other papers, colours, ornaments or words; all else is taken from another recipe.",
    (
        Key("look of", Words(), "The recipe that it builds on, by its path from this one's folder.", "tide-gate.yaml",
            required=True),
        _of("title"),
        *(_of(name) for name in ("summary", "skill", "language", "picture", "theme")),
        Key("leave out", Mapped((LEAVE_OUT,)), "What the other recipe has and this look has not.", "{layers: [band]}"),
        *(_section(name) for name in SECTIONS),
        Key("steps", ListOf(Mapped((LOOK_STEP,))), "Steps that change or that are added.",
            "[{instead of: Stamp the greetings, text: Write the greetings.}]"),
        *(key for key in FINISHED.keys if key.name == "envelope"),
        *(replace(_of(name), required=False) for name in ("class", "filming")),
    ),
)
