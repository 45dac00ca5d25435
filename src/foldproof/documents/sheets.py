"""How many sheets of each paper one card takes: a simple count, with a cutting order that reaches it."""

from collections.abc import Iterable
from fractions import Fraction

Size = tuple[Fraction, Fraction]
"""Width then height."""


def sheets_for(parts: Iterable[Size], sheet: Size, *, turn: bool) -> int | None:
    """Enough sheets to cut all the parts from, edge to edge; None when a part is larger than the sheet.

    Parts are laid in rows, the tallest first, each in the first row with room (one cut right across frees a row).
    A cleverer plan may need fewer; this one works. `turn` says whether a part may be turned a quarter.
    """
    rows: list[tuple[int, Fraction, Fraction]] = []
    """For each row: the sheet that it is on, its height (its first part's), and the width still free."""
    used: list[Fraction] = []
    for width, height in sorted((_laid(part, sheet, turn) for part in parts), key=lambda size: (-size[1], -size[0])):
        if width > sheet[0] or height > sheet[1]:
            return None
        for number, (on, tall, free) in enumerate(rows):
            if width <= free and height <= tall:
                rows[number] = (on, tall, free - width)
                break
        else:
            on = next((number for number, taken in enumerate(used) if taken + height <= sheet[1]), len(used))
            if on == len(used):
                used.append(Fraction(0))
            used[on] += height
            rows.append((on, height, sheet[0] - width))
    return len(used)


def _laid(part: Size, sheet: Size, turn: bool) -> Size:
    """The way round that a part is cut: lying where that fits, since low rows waste less."""
    lying = max(part), min(part)
    if turn and lying[0] <= sheet[0] and lying[1] <= sheet[1]:
        return lying
    return (lying[1], lying[0]) if turn else part
