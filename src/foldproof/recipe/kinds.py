"""What kinds of value a recipe can hold, as data: the reader, a schema and a reference page are made from these."""

from enum import StrEnum

from foldproof.frozen import dataclass
from foldproof.measures.quantity import Kind


class Naming(StrEnum):
    """What a name stands for. Names of one space are never the same."""

    MEASURE = "measure"
    PAPER = "paper"
    PIECE = "piece"
    POINT = "point"
    SCORE = "score"
    PANEL = "panel"
    LAYER = "layer"
    JOIN = "join"
    POSE = "pose"
    SUPPLY = "supply"
    TOOL = "tool"
    MARK = "mark"
    SLIT = "slit"
    WINDOW = "window"
    NOTCH = "notch"
    SLIDE = "slide"


class Bound(StrEnum):
    """Which values of a quantity make sense."""

    ANY = "any"
    POSITIVE = "more than zero"
    NOT_NEGATIVE = "zero or more"
    PAPER_SIZE = "at least a millimetre"


class Sort(StrEnum):
    """What words must be, where not any will do."""

    ANY = "any words"
    ADDRESS = "an address on the web"
    PAGE = "the address of a page"
    DAY = "a day, like 2026-03-01"


@dataclass(frozen=True, slots=True)
class Words:
    """Text of any length; `prose` may hold references to measures: {band width}."""

    prose: bool = False
    sort: Sort = Sort.ANY


@dataclass(frozen=True, slots=True)
class OneOf:
    """One of a few words."""

    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Measured:
    """A quantity: a literal, or arithmetic over the recipe's measures."""

    kind: Kind = Kind.LENGTH
    bound: Bound = Bound.POSITIVE
    bare: str = ""
    """The unit that a bare number takes, where it is not the recipe's unit of length or degrees."""
    most: int | None = None
    """The largest sensible value: millimetres, degrees or seconds. None for the usual one of its kind."""
    or_word: str | None = None
    """A word that may stand instead of the quantity."""


@dataclass(frozen=True, slots=True)
class Size:
    """`[width, height]`, two lengths."""

    or_words: bool = False
    """Whether a name may stand instead."""


@dataclass(frozen=True, slots=True)
class Coordinates:
    """`[x, y]`, two lengths."""


@dataclass(frozen=True, slots=True)
class PointOnPiece:
    """`[x, y]`, or the name of a corner, a middle or one of the piece's points."""


@dataclass(frozen=True, slots=True)
class PointOnTable:
    """A corner or a middle as the piece lies, or the name of a mark."""


@dataclass(frozen=True, slots=True)
class Defines:
    """A new name given as a value."""

    naming: Naming


@dataclass(frozen=True, slots=True)
class NameOf:
    """The name of something that the recipe describes elsewhere."""

    namings: tuple[Naming, ...]
    also: tuple[str, ...] = ()
    """Words that may stand instead of a name."""


@dataclass(frozen=True, slots=True)
class FaceOf:
    """`PANEL front` or `PANEL back`."""


@dataclass(frozen=True, slots=True)
class SideOf:
    """`PANEL left`, `right`, `top` or `bottom`."""


@dataclass(frozen=True, slots=True)
class WherePanel:
    """A point in a panel, or the sides of scores on which it lies."""


@dataclass(frozen=True, slots=True)
class ListOf:
    """A list; `exactly` fixes its length."""

    item: "ValueKind"
    exactly: int | None = None
    least: int = 0
    or_single: bool = False
    """Whether a single item may stand without the brackets."""
    most: int = 300


@dataclass(frozen=True, slots=True)
class Named:
    """A mapping from new names to values of one kind."""

    naming: Naming
    item: "ValueKind"
    most: int = 200
    least: int = 0


@dataclass(frozen=True, slots=True)
class ByName:
    """A mapping from names described elsewhere to values of one kind."""

    naming: Naming
    item: "ValueKind"


@dataclass(frozen=True, slots=True)
class Mapped:
    """A mapping of one of these forms, told apart by their keys."""

    forms: tuple["Form", ...]
    short: str | None = None
    """The key of the first form whose value may stand alone instead of the mapping."""


ValueKind = (
    Words
    | OneOf
    | Measured
    | Size
    | Coordinates
    | PointOnPiece
    | PointOnTable
    | Defines
    | NameOf
    | FaceOf
    | SideOf
    | WherePanel
    | ListOf
    | Named
    | ByName
    | Mapped
)


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a mapping."""

    name: str
    kind: ValueKind
    meaning: str
    """One sentence."""
    example: str
    """A value as it would be written after the colon."""
    required: bool = False
    default: str | None = None
    """What holds when the key is left out, as it would be written."""


@dataclass(frozen=True, slots=True)
class Need:
    """Keys that need another key beside them."""

    keys: tuple[str, ...]
    other: str
    why: str = ""
    """A sentence that says when it is not needed, or why it is."""


@dataclass(frozen=True, slots=True)
class Form:
    """A mapping: its keys and how they go together."""

    name: str
    """What one of these is, after `a` or `the`."""
    meaning: str
    keys: tuple[Key, ...]
    choose: tuple[tuple[str, ...], ...] = ()
    """Groups of keys of which exactly one must be there."""
    together: tuple[tuple[str, ...], ...] = ()
    """Groups of keys that come together or not at all."""
    needs: tuple[Need, ...] = ()

    def key(self, name: str) -> Key | None:
        """The key of that name."""
        return next((key for key in self.keys if key.name == name), None)


def namings_in(kind: ValueKind) -> frozenset[Naming]:
    """The kinds of names that a value of a kind gives."""
    match kind:
        case Named(naming=naming, item=item):
            more = {Naming.PANEL} if naming in (Naming.PIECE, Naming.LAYER) else set()
            return frozenset({naming, *more}) | namings_in(item)
        case ListOf(item=item):
            return namings_in(item)
        case Mapped(forms=forms):
            return frozenset(naming for form in forms for key in form.keys for naming in namings_in(key.kind))
    return frozenset()
