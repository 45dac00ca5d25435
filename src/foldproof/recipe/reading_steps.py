"""Steps and shots from read fields."""

import re
import unicodedata
from dataclasses import replace
from typing import get_args

from foldproof.findings.finding import Aside
from foldproof.measures.quantity import Quantity
from foldproof.recipe.actions import (
    Action,
    CutAcross,
    CutBetween,
    CutOff,
    CutOut,
    DieCut,
    Lay,
    MarkAt,
    Measure,
    ScoreAt,
    ScoreBetween,
    Turn,
    TurnOver,
)
from foldproof.recipe.desk import Builder, Desk, Fields, Item
from foldproof.recipe.pictures import picture
from foldproof.recipe.records import CorrectionSpec, RepeatSpec, ShotSpec, StepSpec, Text

_NEEDS_PIECE = (
    CutOut, CutAcross, CutOff, CutBetween, DieCut, Lay, MarkAt, ScoreAt, ScoreBetween, Turn, TurnOver, Measure,
)
_ID = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")


def step(fields: Fields, name: Text | None, desk: Desk) -> StepSpec | None:
    """A step; its id is its own or none yet."""
    given, piece = fields.get("id", Text), fields.get("piece", Text)
    sound = True
    if given is not None and not _ID.fullmatch(given.value):
        sound = False
        desk.error(
            "id not usable",
            f"`{given}` cannot be an id: it has small letters and digits, joined by hyphens.",
            given.place,
            f"Write {slug(given.value)}",
        )
    repeats = fields.several("repeat", RepeatSpec)
    if repeats and piece is None:
        sound = False
        desk.error(
            "piece missing",
            "The step is repeated with another piece, and does not say which piece it is done with first.",
            repeats[0].place,
            "Add piece: NAME to the step.",
        )
    actions: list[Action] = []
    for value in fields.several("do", object):
        assert isinstance(value, get_args(Action))
        actions.append(value)
        if piece is None and value.piece is None and isinstance(value, _NEEDS_PIECE):
            sound = False
            desk.error(
                "piece missing",
                "Neither the step nor this action says which piece it acts on.",
                value.place,
                "Add piece: NAME to the step, or beside the action.",
            )
    if not sound:
        return None
    return StepSpec(
        id=given.value if given else "",
        title=fields.need("title", Text),
        piece=piece,
        tools=fields.several("tools", Text),
        supplies=fields.several("supplies", Text),
        actions=tuple(actions),
        text=fields.need("text", Text),
        say=fields.get("say", Text),
        tip=fields.get("tip", Text),
        caution=fields.get("caution", Text),
        minutes=fields.get("minutes", Quantity),
        shots=fields.several("film", ShotSpec),
        picture=picture(fields.get("picture", Text), desk),
        place=fields.place,
        repeats=repeats,
        picture_shows=fields.get("picture shows", Text),
        corrections=fields.several("corrections", CorrectionSpec),
    )


def correction(fields: Fields, name: Text | None, desk: Desk) -> CorrectionSpec:
    """What an earlier edition had wrong."""
    return CorrectionSpec(day=fields.need("day", Text), text=fields.need("text", Text), place=fields.place)


def repeat(fields: Fields, name: Text | None, desk: Desk) -> RepeatSpec:
    """The same with another piece."""
    return RepeatSpec(
        piece=fields.need("for", Text),
        mirrored=fields.word("mirrored") == "true",
        instead=fields.several("instead", tuple),
        place=fields.place,
    )


def instead(fields: Fields, name: Text | None, desk: Desk) -> tuple[Text, Text]:
    """A name, and what stands in its place."""
    return fields.need("of", Text), fields.need("take", Text)


def slug(title: str) -> str:
    """A title as an id: small letters and digits joined by hyphens."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    words = "-".join(re.findall(r"[a-z0-9]+", plain))
    return words if words[:1].isalpha() else f"step-{words}".rstrip("-")


def with_ids(items: tuple[object, ...], desk: Desk) -> tuple[object, ...]:
    """Steps with ids that are all different: an id from a title that is taken gets -2, -3, ..."""
    steps = [item.value for item in items if isinstance(item, Item) and isinstance(item.value, StepSpec)]
    taken: dict[str, StepSpec] = {}
    for each in steps:
        if each.id and each.id in taken:
            desk.error(
                "name given twice",
                f"The id `{each.id}` is given to two steps.",
                each.place,
                "Change one of them.",
                (Aside(text="It is given here first.", place=taken[each.id].place),),
            )
        if each.id:
            taken.setdefault(each.id, each)
    named: list[object] = []
    for item in items:
        if isinstance(item, Item) and isinstance(item.value, StepSpec) and not item.value.id:
            start = chosen = slug(item.value.title.value)
            number = 1
            while chosen in taken:
                number += 1
                chosen = f"{start}-{number}"
            taken[chosen] = item.value
            named.append(replace(item, value=replace(item.value, id=chosen)))
        else:
            named.append(item)
    return tuple(named)


BUILDERS: dict[str, Builder] = {
    "step": step, "correction": correction, "repeat": repeat, "name instead": instead}
