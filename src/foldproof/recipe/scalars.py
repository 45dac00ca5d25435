"""Single values: a scalar's text read by the kind that its key asks for."""

from dataclasses import replace

from foldproof.findings.finding import Place
from foldproof.findings.nearest import nearest
from foldproof.measures.quantity import Kind
from foldproof.paper.face import Face
from foldproof.recipe.actions import TablePoint
from foldproof.recipe.desk import Desk
from foldproof.recipe.kinds import (
    Coordinates,
    Defines,
    FaceOf,
    Measured,
    NameOf,
    Naming,
    OneOf,
    PointOnPiece,
    PointOnTable,
    SideOf,
    Size,
    Sort,
    ValueKind,
    WherePanel,
    Words,
)
from foldproof.recipe.naming import TRUTH_WORDS, fit_for_name, tidy, use
from foldproof.recipe.nodes import Scalar
from foldproof.recipe.quantities import measured
from foldproof.recipe.records import EdgeOf, PointNamed, SurfaceSpec, Text
from foldproof.recipe.references import check_references
from foldproof.recipe.synonyms import SYNONYMS
from foldproof.recipe.web import address_fault, day_fault, page_fault
from foldproof.recipe.words import EDGES, FACES, FIXED_POINTS, FOUND_POINT

LONGEST_PASSAGE = 5_000
"""Characters of a title, a note, the text of a step; two pages full."""
MOST_PROSE = 60_000
"""Characters of all passages of a recipe: 300 steps of 200, or seven times a demo's. Checking them takes seconds."""
_FAULTS = {Sort.ADDRESS: address_fault, Sort.PAGE: page_fault, Sort.DAY: day_fault}


def read_scalar(node: Scalar, kind: ValueKind, desk: Desk) -> object | None:
    """Read a scalar as a kind of value that a scalar can hold; None where it is broken, with the finding made."""
    match kind:
        case Measured():
            return measured(node, kind, desk)
        case OneOf():
            return _one_of(node, kind.words, desk)
        case Words():
            return _passage(node, kind, desk)
        case Size():
            words = _passage(node, Words(), desk)
            return replace(words, value=tidy(words.value)) if words else None
        case NameOf():
            return use(node, kind.namings, kind.also, desk)
        case Defines():
            return _defined(node, kind, desk)
        case FaceOf():
            return _face_of(node, desk)
        case SideOf():
            return _side_of(node, desk)
        case PointOnTable():
            return _table_point(node, desk)
        case PointOnPiece():
            return PointNamed(name=tidy(node.text), place=node.place)
        case WherePanel():
            return Text(value=tidy(node.text), place=node.place)
    raise TypeError(f"no scalar is read as {kind}")


def described(kind: ValueKind) -> str:
    """What kind of value is wanted, in words."""
    match kind:
        case Measured(kind=sort):
            return {Kind.LENGTH: "a length", Kind.ANGLE: "an angle", Kind.TIME: "a time"}.get(sort, "a number")
        case OneOf(words=words):
            return f"one of the words {', '.join(words)}"
        case FaceOf():
            return "a panel and its face, like `middle front`,"
        case SideOf():
            return "a panel and its side, like `stand bottom`,"
        case Words(sort=sort) if sort is not Sort.ANY:
            return str(sort)
        case NameOf(namings=namings) | Defines(naming=namings):
            return f"the name of a {namings if isinstance(namings, Naming) else ' or a '.join(namings)}"
        case PointOnTable():
            return "a corner, a middle or the name of a mark"
        case PointOnPiece() | Coordinates():
            return "a point"
        case _:
            return "a word or a sentence"


def _one_of(node: Scalar, words: tuple[str, ...], desk: Desk) -> str | None:
    word = tidy(node.text)
    if word in words:
        return word
    guess, more = nearest(word, words, SYNONYMS), ""
    if word.casefold() in TRUTH_WORDS:
        more = " (YAML programs disagree on what yes, no, on and off mean, so recipes have no such words.)"
        if words == ("true", "false"):
            guess = "true" if word.casefold() in ("y", "yes", "on", "true") else "false"
    desk.error(
        "unknown word",
        f"`{word}` is none of the words that may stand here: {', '.join(words)}.{more}",
        node.place,
        f"Did you mean `{guess}`?" if guess else None,
    )
    return None


def _passage(node: Scalar, kind: Words, desk: Desk) -> Text | None:
    text = Text(value=node.text.strip(), place=node.place)
    if not text.value:
        desk.error("nothing written", "These quotes hold nothing.", node.place, "Write the words, or take the key out.")
        return None
    if len(text.value) > LONGEST_PASSAGE:
        desk.error(
            "passage too long", f"This has {len(text.value):,} characters; {LONGEST_PASSAGE:,} are the most.",
            text.place, "Say it shorter, or make two steps of it.")
        return None
    before, desk.prose = desk.prose, desk.prose + len(text.value)
    if before <= MOST_PROSE < desk.prose:
        desk.error(
            "too many words", f"The passages up to here have more than {MOST_PROSE:,} characters together; that is the "
            "most that can be checked in good time.", text.place, "Say it shorter, or make two recipes of it.")
        desk.lacking = True
    fault = _FAULTS[kind.sort](text.value) if kind.sort in _FAULTS else None
    if fault is not None:
        name, message, mend = fault
        desk.error(name, message, text.place, mend)
        return None
    if kind.prose:
        check_references(text, desk)
    return text


def _defined(node: Scalar, kind: Defines, desk: Desk) -> Text | None:
    name = Text(value=tidy(node.text), place=node.place)
    if not fit_for_name(name, kind.naming, desk):
        return None
    desk.marks[name.value] = name.place
    return name


def _face_of(node: Scalar, desk: Desk) -> SurfaceSpec | None:
    panel, _, face = tidy(node.text).rpartition(" ")
    if face not in FACES or not panel:
        guess = nearest(face, FACES, SYNONYMS) if panel else None
        mend = (
            f"Did you mean `{panel} {guess}`?"
            if guess
            else f"Write `{tidy(node.text)} front` or `{tidy(node.text)} back`."
        )
        desk.error(
            "face missing",
            f"`{tidy(node.text)}` does not end in a face: a panel has a front and a back.",
            node.place,
            mend,
        )
        return None
    used = use(Scalar(text=panel, style=None, place=_part(node.place, len(panel))), (Naming.PANEL,), (), desk)
    return SurfaceSpec(panel=used, face=Face(face)) if used else None


def _side_of(node: Scalar, desk: Desk) -> EdgeOf | None:
    panel, _, side = tidy(node.text).rpartition(" ")
    if side not in EDGES or not panel:
        desk.error(
            "side missing",
            f"`{tidy(node.text)}` does not end in a side: left, right, top or bottom.",
            node.place,
            f"Write, for example, `{tidy(node.text)} bottom`.",
        )
        return None
    used = use(Scalar(text=panel, style=None, place=_part(node.place, len(panel))), (Naming.PANEL,), (), desk)
    return EdgeOf(panel=used, side=side) if used else None


def _part(place: Place, length: int) -> Place:
    return replace(place, length=max(1, min(place.length, length)))


def _table_point(node: Scalar, desk: Desk) -> TablePoint | None:
    name = tidy(node.text)
    if name in FIXED_POINTS or name in desk.marks:
        return TablePoint(name=name, place=node.place)
    found = FOUND_POINT.fullmatch(name)
    if found:
        for group, text in found.groupdict().items():
            if text is not None:
                start = replace(node.place, column=node.place.column + found.start(group), length=len(text))
                namings = (Naming.PANEL,) if group == "panel" else (Naming.SCORE,)
                if use(Scalar(text=text, style=None, place=start), namings, (), desk) is None:
                    return None
        return TablePoint(name=name, place=node.place)
    guess = nearest(name, [*FIXED_POINTS, *desk.marks], SYNONYMS)
    desk.error(
        "unknown name",
        f"No mark `{name}` has been made in this or an earlier step, and it is no corner or middle.",
        node.place,
        f"Did you mean `{guess}`?" if guess else f"Mark it first, or write one of: {', '.join(FIXED_POINTS)}.",
    )
    return None
