"""Folding and unfolding on the table."""

from dataclasses import replace
from fractions import Fraction

from foldproof.findings.finding import Finding
from foldproof.folding.card import CardPiece, CardScore, FlatPose
from foldproof.making.drying import moved_while_wet
from foldproof.making.outcome import Outcome, Setting, fault, refused
from foldproof.making.table import OnTable
from foldproof.making.tucking import still_tucked
from foldproof.making.work import Work, work_with
from foldproof.paper.face import Face, Fold
from foldproof.paper.polygon import clip
from foldproof.paper.vector import Segment
from foldproof.recipe.actions import BringTo, FoldOn, Unfold

_RIGHT_OVER = Fraction(180)


def same_line(a: Segment, b: Segment) -> bool:
    """Whether two segments have the same ends, whichever comes first."""
    return {a.start, a.end} == {b.start, b.end}


def _find(setting: Setting, name: str) -> tuple[CardPiece, CardScore] | None:
    for piece in setting.card.pieces:
        for score in piece.scores:
            if score.name == name:
                return piece, score
    return None


def fold_on(setting: Setting, action: FoldOn) -> Outcome:
    """Fold on a score: it must have been pressed, and must fold the way the plan folds it."""
    found = _find(setting, action.score)
    if found is None:
        return refused(setting, "no such score", f"The plan has no score called “{action.score}”.",
                       "Use the name of a score of the plan.")
    piece, score = found
    on_table = setting.table.pieces.get(piece.name)
    if on_table is None:
        return refused(setting, "not cut yet", f"The {piece.name} is not on the table yet, so it cannot be folded.",
                       f"Cut and score the {piece.name} first.")
    findings: list[Finding] = []
    if not _pressed(on_table, score.segment) and not _mispressed(on_table, piece):
        findings.append(fault(
            setting, "folded before it is scored", f"The {piece.name} is folded on its {score.name}, which no step "
            "before this one scores.", "Score it first, or move this step behind the one that does."))
    work = work_with(setting.card, setting.table, piece.name)
    up = _face_at(setting, work, score)
    from_front = action.fold if up is Face.FRONT else action.fold.other
    if score.fold is Fold.NONE:
        findings.append(fault(
            setting, "a score that never folds is folded", f"The plan says that the {score.name} is pressed for looks "
            "and never folds.", "Say `valley` or `mountain` in the plan, or take this fold out."))
    elif from_front is not score.fold:
        right_way = score.fold if up is Face.FRONT else score.fold.other
        findings.append(fault(
            setting, "folded the wrong way", f"As the work lies, the {up.value} of the {piece.name} is up at the "
            f"{score.name}; the plan folds it {score.fold.value} as seen from the front, so here it is a "
            f"{right_way.value} fold, not a {action.fold.value} fold.",
            f"Write `fold: {right_way.value}`, or turn the work over first."))
    findings.extend(moved_while_wet(setting, piece.name, score.name))
    sign = 1 if score.fold is not Fold.MOUNTAIN else -1
    angle = sign * (action.angle.value if action.angle is not None else _RIGHT_OVER)
    if (score.name, angle) in setting.table.folded:
        findings.append(fault(
            setting, "folded twice", f"The {score.name} is folded already, and no step has opened it since.",
            f"Open it first (`unfold: {score.name}`), or take this fold out."))
    kept = tuple(entry for entry in setting.table.folded if entry[0] != score.name)
    table = replace(setting.table, folded=(*kept, (score.name, angle)))
    return Outcome(table=table, piece=piece.name, lines=(score.segment,), findings=tuple(findings))


def bring_to(setting: Setting, action: BringTo) -> Outcome:
    """All that a flat pose folds otherwise, folded or opened at once; other scores lie flat then."""
    card, table = setting.card, setting.table
    pose = card.pose(action.pose)
    if not isinstance(pose, FlatPose):
        return refused(setting, "pose that does not lie flat", f"The pose “{action.pose}” does not lie flat, so the "
                       "work cannot be left in it on the table.", "Name a flat pose, or say what hands do in a `note`.")
    wanted = {fold.score.value: fold.angle.value for fold in pose.spec.folds
              if fold.angle is not None and fold.angle.value}
    own = [(piece, score) for piece in card.pieces if piece.name in table.pieces for score in piece.scores]
    findings: list[Finding] = []
    for piece, score in own:
        on_table = table.pieces[piece.name]
        if score.name in wanted and not _pressed(on_table, score.segment) and not _mispressed(on_table, piece):
            findings.append(fault(
                setting, "folded before it is scored", f"The {piece.name} is folded on its {score.name}, which no step "
                "before this one scores.", "Score it first, or move this step behind the one that does."))
    before = dict(table.folded)
    moving = [score.name for _, score in own if before.get(score.name, 0) != wanted.get(score.name, 0)]
    if not moving:
        return refused(setting, "nothing to fold", f"The work lies in the pose “{action.pose}” already.",
                       "Take this out, or name the pose that is meant.")
    findings.extend(found for piece, score in own if score.name in moving
                    for found in moved_while_wet(setting, piece.name, score.name))
    names = {score.name for _, score in own}
    folded = tuple((name, angle) for name, angle in wanted.items() if name in names)
    kept = tuple(entry for entry in table.folded if entry[0] not in names)
    after = still_tucked(card, replace(table, folded=(*kept, *folded)))
    lines = tuple(score.segment for piece, score in own if score.name in moving and piece.name == own[0][0].name)
    return Outcome(table=after, piece=setting.target, lines=lines, findings=tuple(dict.fromkeys(findings)))


def unfold(setting: Setting, action: Unfold) -> Outcome:
    """Lay a fold flat again."""
    found = _find(setting, action.score)
    if found is None or action.score not in {name for name, _ in setting.table.folded}:
        return refused(setting, "unfolded while flat", f"The {action.score} is not folded at this moment.",
                       "Take this action out, or fold it first.")
    kept = tuple(entry for entry in setting.table.folded if entry[0] != action.score)
    table = replace(setting.table, folded=kept)
    return Outcome(
        table=still_tucked(setting.card, table), piece=found[0].name, lines=(found[1].segment,),
        findings=tuple(moved_while_wet(setting, found[0].name, action.score)))


def _pressed(piece: OnTable, line: Segment) -> bool:
    return all(
        any(same_line(crease.segment, part) for crease in piece.creases)
        for part in clip(line, piece.outline, piece.holes) if part.start != part.end)


def _mispressed(piece: OnTable, plan: CardPiece) -> bool:
    """Whether some score was pressed where the plan has none: said once, where the piece is compared with the plan."""
    return any(
        not any(same_line(crease.segment, score.segment) for score in plan.scores) for crease in piece.creases)


def _face_at(setting: Setting, work: Work, score: CardScore) -> Face:
    """The face that is up beside a score."""
    for hinge in setting.card.hinges:
        if hinge.score == score.name:
            for part in work.parts:
                if part.piece == hinge.piece and part.panel in (None, *hinge.panels):
                    return work.face_up(part)
    return work.lie.up
