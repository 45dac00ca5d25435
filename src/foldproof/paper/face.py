"""The two faces of a piece of paper, and the two ways to fold."""

from enum import StrEnum


class Face(StrEnum):
    """A face of a piece. Inside and outside belong to a pose, not to a piece."""

    FRONT = "front"
    BACK = "back"

    @property
    def other(self) -> "Face":
        """The face on the far side of the sheet."""
        return Face.BACK if self is Face.FRONT else Face.FRONT


class Fold(StrEnum):
    """Which way a score folds, seen from the piece's front in a plan and from the face that is up in a step."""

    VALLEY = "valley"
    """Toward the one who looks: the fold angle is positive."""
    MOUNTAIN = "mountain"
    """Away from the one who looks: the fold angle is negative."""
    NONE = "none"
    """Pressed for looks; it never folds."""

    @property
    def other(self) -> "Fold":
        """The same fold seen from the other face."""
        return {Fold.VALLEY: Fold.MOUNTAIN, Fold.MOUNTAIN: Fold.VALLEY, Fold.NONE: Fold.NONE}[self]
