"""A step done again with another piece: what its actions name there, and what they cannot find."""

from collections.abc import Iterator

from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import Card
from foldproof.making.outcome import Setting, fault
from foldproof.recipe.actions import (
    Action,
    Attach,
    CutAcross,
    CutBetween,
    CutOff,
    FoldOn,
    ScoreBetween,
    Stamp,
    Tuck,
    Unfold,
)
from foldproof.recipe.records import RepeatSpec
from foldproof.recipe.words import FOUND_POINT

_OWN = ("score", "bond", "panel")
"""Names of things that only one piece has: with the other piece they must be others."""


def lost_in_repeat(setting: Setting, first: Action, again: RepeatSpec) -> Finding | None:
    """What an action of a repeat names that the plan has not, or that is the first piece's own."""
    for sort, name in _names(setting.action):
        if not _known(setting.card, sort, name):
            return _lost(setting, again, f"there is no {sort} called “{name}”", name)
    for field in _OWN:
        own = getattr(setting.action, field, None)
        if own is not None and own == getattr(first, field):
            return _lost(setting, again, f"the {own} is the first piece's own", own)
    return None


def _lost(setting: Setting, again: RepeatSpec, why: str, name: str) -> Finding:
    return fault(
        setting, "a repeat that does not fit", f"The step is done again with the {again.piece}, and {why}.",
        f"Say what stands in its place: `instead: {{of: {name}, take: ...}}` beside `for: {again.piece}`.",
        place=again.place, asides=(Aside(text="this is done again", place=setting.action.place),))


def _names(action: Action) -> Iterator[tuple[str, str]]:
    """Everything of the plan that an action names, with what it is."""
    if action.piece is not None:
        yield "piece", action.piece
    match action:
        case FoldOn() | Unfold():
            yield "score", action.score
        case Attach():
            yield "layer or join", action.bond
            if action.at.centred_on not in (None, "card"):
                yield "panel", str(action.at.centred_on)
        case Stamp():
            yield "panel", action.panel
        case Tuck():
            yield "panel", action.flap
            yield "panel", action.under
        case CutAcross() | CutOff() | CutBetween() if action.other is not None:
            yield "piece", action.other
    if isinstance(action, ScoreBetween | CutBetween):
        for point in (action.start, action.end):
            found = FOUND_POINT.fullmatch(point.name)
            for group, name in found.groupdict().items() if found else ():
                if name is not None:
                    yield ("panel" if group == "panel" else "score"), name


def _known(card: Card, sort: str, name: str) -> bool:
    match sort:
        case "piece":
            return card.piece(name) is not None
        case "score":
            return any(score.name == name for piece in card.pieces for score in piece.scores)
        case "panel":
            return name in card.panels
        case _:
            return any(bond.name == name for bond in card.bonds)
