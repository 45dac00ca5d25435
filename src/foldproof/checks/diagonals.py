"""Right triangles cut from rectangles of patterned paper: along which diagonal, so that the print stands upright."""

from foldproof.folding.card import Card, FlatPose
from foldproof.making.table import Making
from foldproof.making.triangles import right_angle_at
from foldproof.paper.isometry import Isometry
from foldproof.recipe.actions import CutAcross, CutBetween, CutOff


def landing(card: Card, panel: str, pose: FlatPose, behind: bool) -> tuple[str, str] | None:
    """Where a right triangle has its right angle as it lands, looked at from the side on which it is seen."""
    ring = pose.placements[panel].ring(card.panels[panel].ring)
    return right_angle_at(Isometry(xx=-Isometry().xx).ring(ring) if behind else ring)


def other_half(making: Making, piece: str) -> str | None:
    """The piece that comes from the other side of the cut that made this one, where it has a use."""
    for done in (done for step in making.steps for done in step.every):
        action = done.action
        if isinstance(action, CutBetween | CutAcross | CutOff) and action.other is not None:
            if done.piece == piece:
                return action.other
            if action.other == piece:
                return done.piece
    return None
