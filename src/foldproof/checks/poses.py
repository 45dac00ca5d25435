"""Poses: which of them there must be, and whether every folding score has a part in one."""

from collections.abc import Iterable

from foldproof.checks.check import advice, error, warning
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card, StandingPose
from foldproof.making.table import Making
from foldproof.paper.face import Fold

NO_CLOSED = error(
    "closed pose does not lie flat", "In the pose that the finished size speaks of, the card stands off the table.")
NEVER_FOLDS = advice("score that never folds", "A score of the plan is a fold, but no pose folds it.")
OPENS_ELSEWHERE = warning(
    "opening does not start closed", "The list of poses in which the card opens does not start with the closed one.")


def check_closed(card: Card, making: Making) -> Iterable[Finding]:
    """The closed pose lies flat, and the card opens from it. (That there is one, the reader tells.)"""
    promise = card.recipe.finished
    wanted = promise.pose.value if promise.pose else "closed"
    if isinstance(card.pose(wanted), StandingPose):
        yield NO_CLOSED.finding(
            f"The finished size is that of the pose {wanted}, and in it the card does not lie flat.",
            mend="Say under `finished` which flat pose goes into the envelope: `pose: NAME`.",
            place=promise.pose.place if promise.pose else promise.size[0].place)
    opening = card.recipe.opening
    if opening and wanted in {name.value for name in opening} and opening[0].value != wanted:
        yield OPENS_ELSEWHERE.finding(
            f"The card is said to open from {opening[0].value}, but {wanted} is the pose in which it is closed.",
            mend=f"Begin `opening` with {wanted}.", place=opening[0].place)


def check_scores_fold(card: Card, making: Making) -> Iterable[Finding]:
    """Every folding score folds in some pose. (Which way it folds, folding tells.)"""
    for piece in card.pieces:
        for score in piece.scores:
            if score.fold is Fold.NONE:
                continue
            folds = [fold for pose in card.recipe.poses for fold in pose.folds if fold.score.value == score.name]
            if all(fold.angle is not None and fold.angle.value == 0 for fold in folds):
                yield NEVER_FOLDS.finding(
                    f"No pose folds the {score.name} of the {piece.name}, which is scored as a {score.fold}.",
                    mend="Give it an angle in the pose that needs it, or `fold: none` if it is pressed for looks.",
                    place=score.place)
