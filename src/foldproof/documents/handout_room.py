"""How a step's words and picture share a sheet so that they take little of its height."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil

from foldproof.documents.handout_kinds import Edition
from foldproof.documents.prose import plain
from foldproof.documents.view import Step
from foldproof.drawing.lettering import MM_PER_PT, text_width

GAP_MM = 5.0
"""Between words and a picture, or words and words."""
LEAST_MM = 56.0
"""The narrowest column of words."""
APART_MM = 112.0
"""From here on a column of words is set as two: what is told, and what is ticked off."""
TITLE = 2.0
"""How high the title stands, in ems."""
LINE = 1.34
"""From line to line, in ems."""
RAGGED = 1.06
"""How much of a column broken lines leave empty: measured on the demo recipes, rounded up."""
BOX_MM = 5.2
"""The box to tick before a line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Where the words and the picture of a step stand; its height is an estimate, for choosing."""

    words_mm: float
    apart: bool
    """Whether the boxes to tick stand beside the prose rather than beneath it."""
    beneath: bool
    """Whether the picture stands beneath the words rather than at their right."""
    height_mm: float

    @property
    def column_mm(self) -> float:
        """The width of each of two columns of words."""
        return (self.words_mm - GAP_MM) / 2


def setting(step: Step, edition: Edition, size: tuple[float, float] | None) -> Setting:
    """The way to set a step that takes the least height; `size` is its picture's on paper, width and height."""
    ways = [_set(step, edition, edition.room_mm, size[1] + 2.0 if size else 0.0, beneath=True)]
    if size and (left := edition.room_mm - size[0] - GAP_MM) >= LEAST_MM * edition.body_pt / 9.6:
        ways.insert(0, _set(step, edition, left, size[1], beneath=False))
    return min(ways, key=lambda way: way.height_mm)


def _set(step: Step, edition: Edition, room: float, picture: float, *, beneath: bool) -> Setting:
    apart = not edition.compact and room >= APART_MM * edition.body_pt / 9.6 and bool(step.short)
    told, ticked = _told(step), [(line, BOX_MM) for line in step.short]
    column = (room - GAP_MM) / 2 if apart else room
    tall, other = (lines_mm(part, column, edition.body_pt) for part in (told, ticked))
    words = TITLE * edition.body_pt * MM_PER_PT + (max(tall, other) if apart else tall + other)
    return Setting(
        words_mm=room, apart=apart, beneath=beneath, height_mm=words + picture if beneath else max(words, picture))


def _told(step: Step) -> list[tuple[str, float]]:
    """The paragraphs of a step, each with what it is set in by."""
    marked = [*step.cautions, *step.care, *step.handwork, *([plain(step.tip)] if step.tip else [])]
    return [(plain(step.prose), 0.0), *((words, 4.0) for words in marked)]


def lines_mm(paragraphs: Iterable[tuple[str, float]], room: float, pt: float) -> float:
    """About how high paragraphs stand in a column, a little space after each."""
    total = 0.0
    for words, indent in paragraphs:
        lines = ceil(text_width(words, pt) * RAGGED / (room - indent))
        total += lines * LINE * pt * MM_PER_PT + 1.0
    return total
