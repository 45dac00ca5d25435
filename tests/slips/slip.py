"""One slip: what is written instead, and where."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One small mistake in the text of a recipe."""

    kind: str
    """Its row in the table: `plan`, `turn removed`, `left and right`..."""
    start: int
    """Offset of the first character that is changed."""
    end: int
    new: str
    """What stands there instead."""
    line: int
    """From 1."""
    what: str
    """For the list of those missed: `2 1/8 to 2 3/16`, `left to right`."""


def slipped(source: str, slip: Slip) -> str:
    """The recipe's text with the slip in it."""
    return source[: slip.start] + slip.new + source[slip.end :]


def line_of(source: str, offset: int) -> int:
    """The line, from 1, in which an offset stands."""
    return source.count("\n", 0, offset) + 1
