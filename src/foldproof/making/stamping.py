"""Stamping and writing: on a face that lies open, the words upright as the work lies."""

from dataclasses import replace

from foldproof.making.outcome import Outcome, Setting, fault, refused
from foldproof.making.seen import seen
from foldproof.making.table import Stamped
from foldproof.making.work import work_with
from foldproof.recipe.actions import Stamp


def stamp(setting: Setting, action: Stamp) -> Outcome:
    """The words stand on the face from now on, their top away from the maker."""
    card, table = setting.card, setting.table
    piece = card.panels[action.panel].piece
    if piece not in table.pieces:
        plan = card.piece(piece)
        if plan is not None and plan.bought:
            return Outcome(table=table, piece=piece)
        return refused(setting, "not cut yet", f"The {piece} is not on the table yet: no step before this one cuts it.",
                       f"Cut the {piece} first, or move this step behind the one that does.")
    work = work_with(card, table, piece)
    part = next((part for part in work.parts if part.piece == piece and part.panel in (None, action.panel)), None)
    if part is None:
        return Outcome(table=table, piece=piece)
    made = Stamped(
        panel=action.panel, face=action.face, up=part.fit.inverse.vector(work.lie.away), words=action.words,
        place=action.place)
    after = Outcome(table=replace(table, stamped=(*table.stamped, made)), piece=piece)
    whole = seen(card, table, piece)
    if not any(shown.panel is not None for shown in whole.shown if shown.piece == piece):
        return after  # it has not its plan's outline yet: told where pieces are compared with the plan
    if whole.of(action.panel, action.face):
        return after
    if seen(card, table, piece, behind=True).of(action.panel, action.face):
        finding = fault(
            setting, "stamped on a face that is down", f"As the work lies, the {action.face.value} of the "
            f"{action.panel} is down, and here it is to be stamped.",
            "Turn the work over first, or name the face that is up.")
    else:
        finding = fault(
            setting, "stamped after it is covered", f"The {action.face.value} of the {action.panel} is covered by now: "
            "a stamp cannot reach it.", "Move this step before the one that covers it, or open the fold first.")
    return replace(after, findings=(finding,))
