"""How a step's words and picture share a sheet so that they take little of its height."""

from collections.abc import Iterable, Iterator, Sequence
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
LEAST_TICKS_MM = 50.0
"""The narrowest column of boxes to tick, where there are several."""
TITLE = 1.7
"""How high the title stands, in ems."""
LINE = 1.29
"""From line to line, in ems."""
RAGGED = 1.06
"""How much of a column broken lines leave empty: measured on the demo recipes, rounded up."""
BOX_MM = 5.2
"""The box to tick before a line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Where the words and the picture of a step stand; its height is an estimate, for choosing."""

    words_mm: float
    """The width of the words beside or above the picture."""
    apart: bool
    """Whether the boxes to tick stand beside the prose rather than beneath it."""
    beneath: bool
    """Whether the picture stands beneath the words rather than at their right."""
    columns: int = 1
    """In how many columns the boxes to tick stand, where they are not beside the prose."""
    last: bool = False
    """Whether the boxes to tick stand beneath words and picture, from margin to margin."""
    height_mm: float

    @property
    def column_mm(self) -> float:
        """The width of each of two columns of words."""
        return (self.words_mm - GAP_MM) / 2


def setting(step: Step, edition: Edition, size: tuple[float, float] | None) -> Setting:
    """The way to set a step that takes the least height; `size` is its picture's on paper, width and height."""
    ways = list(_ways(step, edition, edition.room_mm, size[1] + 2.0 if size else 0.0, beneath=True))
    if size and (left := edition.room_mm - size[0] - GAP_MM) >= LEAST_MM * edition.body_pt / 9.6:
        ways += _ways(step, edition, left, size[1], beneath=False)
    return min(ways, key=lambda way: (round(way.height_mm), way.last, way.columns, way.beneath))


def _ways(step: Step, edition: Edition, room: float, picture: float, *, beneath: bool) -> Iterator[Setting]:
    """The ways to set a step whose words are so wide."""
    pt, told, ticked = edition.body_pt, _told(step), [(line, BOX_MM) for line in step.short]
    title = TITLE * pt * MM_PER_PT
    words = lines_mm(told, room, pt)

    def beside(tall: float, under: float = 0.0) -> float:
        return tall + picture + under if beneath else max(tall, picture) + under

    for columns in columns_in(room, edition) if ticked else (1,):
        yield Setting(
            words_mm=room, apart=False, beneath=beneath, columns=columns,
            height_mm=beside(title + words + columns_mm(ticked, room, columns, pt)))
    if not ticked or edition.compact:
        return
    if room >= APART_MM * pt / 9.6:
        column = (room - GAP_MM) / 2
        tall = max(lines_mm(told, column, pt), lines_mm(ticked, column, pt))
        yield Setting(words_mm=room, apart=True, beneath=beneath, height_mm=beside(title + tall))
    for columns in columns_in(edition.room_mm, edition) if not beneath else ():
        under = columns_mm(ticked, edition.room_mm, columns, pt)
        yield Setting(words_mm=room, apart=False, beneath=False, columns=columns, last=True,
                      height_mm=beside(title + words, under + 1.0))


def columns_in(room: float, edition: Edition) -> tuple[int, ...]:
    """In how many columns boxes to tick may stand: none so narrow that its lines are chopped small."""
    least = LEAST_TICKS_MM * edition.body_pt / 9.6
    return (1, *(n for n in (2, 3) if not edition.compact and (room - (n - 1) * GAP_MM) / n >= least))


def columns_mm(paragraphs: Sequence[tuple[str, float]], room: float, columns: int, pt: float) -> float:
    """About how high paragraphs stand in so many columns, filled one after the other to the same height."""
    each = [lines_mm([one], (room - (columns - 1) * GAP_MM) / columns, pt) for one in paragraphs]
    heights = sorted({sum(each[i:j]) for i in range(len(each)) for j in range(i + 1, len(each) + 1)})
    return next((height for height in heights if _filled(each, height) <= columns), 0.0)


def _filled(each: Sequence[float], height: float) -> int:
    """How many columns of a height the paragraphs fill."""
    columns, used = 1, 0.0
    for one in each:
        if used + one > height + 1e-9:
            columns, used = columns + 1, 0.0
        used += one
        if one > height + 1e-9:
            return len(each) + 9
    return columns


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
