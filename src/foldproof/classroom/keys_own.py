"""The tables of keys of the teacher's own two files: what is on the shelf, and what the desk is like."""

from foldproof.measures.quantity import Kind
from foldproof.recipe.keys_class import PACK_KEYS
from foldproof.recipe.kinds import Bound, Form, Key, Mapped, Measured, Named, Naming, OneOf, Size

_LENGTH = Measured()
_OFFSET = Measured(bound=Bound.ANY)
_UNIT = Key("unit", OneOf(("inch", "mm", "cm")), "The unit of bare numbers.", "mm", default="inch")

SHELF_ITEM = Form(
    "shelf item",
    "Something on the shelf, and how more of it is sold.",
    (
        Key(
            "on hand",
            Measured(kind=Kind.NUMBER, bound=Bound.NOT_NEGATIVE),
            "How many sheets, pieces or lengths there are already; they are used first.",
            "12",
        ),
        *PACK_KEYS,
    ),
)

STOCK = Form(
    "stock file",
    "What the teacher has already, and how papers and supplies are sold.",
    (
        _UNIT,
        Key("papers", Named(Naming.PAPER, Mapped((SHELF_ITEM,))), "Papers by name.", "{slate: {on hand: 12}}"),
        Key("supplies", Named(Naming.SUPPLY, Mapped((SHELF_ITEM,))), "Supplies by name.", "{twine: {on hand: 3}}"),
    ),
)

TRIMMER = Form(
    "trimmer",
    "What the teacher's trimmer does.",
    (
        Key("cuts long", _OFFSET, "By how much strips come out longer than the stop says; below 0: shorter.", "1/32"),
        Key("shortest strip", Measured(bound=Bound.NOT_NEGATIVE), "The shortest strip that it holds.", "3/4"),
        Key("longest cut", _LENGTH, "The longest cut that it makes in one go.", "12"),
        Key("blade", Measured(bound=Bound.NOT_NEGATIVE), "What each cut takes away; nothing for a shear.", "0"),
    ),
)

DESK = Form(
    "desk file",
    "The teacher's desk as it is; plans use it.",
    (
        _UNIT,
        Key("trimmer", Mapped((TRIMMER,)), "The trimmer.", "{cuts long: 1/32, shortest strip: 3/4}"),
        Key("edge trim", Measured(bound=Bound.NOT_NEGATIVE), "Cut off each edge of a new sheet.", "1/8"),
        Key("widest score", _LENGTH, "The longest line that the scoring board takes.", "12"),
        Key("least offcut", Size(), "The smallest offcut worth keeping.", "[2, 3]"),
        Key(
            "measured sheets",
            Named(Naming.PAPER, Size()),
            "Sheets that measure otherwise than they are sold, by paper.",
            "{waves: [5 15/16, 5 15/16]}",
        ),
    ),
)
