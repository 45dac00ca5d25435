"""Where a column of a mended text stands in its source."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from foldproof.findings.finding import Place
from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """A line made longer by a mend; lines and columns from 0."""

    line: int
    since: int
    """The column behind which everything moved."""
    by: int
    """By how many characters; less than zero where the line was made shorter."""
    quoted: bool = False
    """Whether it is the first of two quotes put round the value that starts at `since`."""


Shifts = Mapping[int, tuple[Shift, ...]]
"""By line, in the order in which they were made."""


def added(shifts: Shifts, more: Iterable[Shift]) -> Shifts:
    """The shifts with some more made after them."""
    together = dict(shifts)
    for shift in more:
        together[shift.line] = (*together.get(shift.line, ()), shift)
    return together


def in_source(place: Place, shifts: Shifts) -> Place:
    """The same place before the text was mended."""
    column, length = place.column - 1, place.length
    for shift in reversed(shifts.get(place.line - 1, ())):
        if shift.quoted and column == shift.since:
            length = max(1, length - 2)
        if column > shift.since:
            column = max(shift.since, column - shift.by)
    return replace(place, column=column + 1, length=length)
