"""Things laid out side by side for a wide picture: rows from left to right, the first row farthest from the maker."""

from collections.abc import Sequence
from fractions import Fraction

from foldproof.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Where a thing lies: the bottom left corner of its box, counted from the bottom left corner of all."""

    x: Fraction
    y: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """A layout with its size."""

    width: Fraction
    height: Fraction
    laid: tuple[Laid, ...]


Size = tuple[Fraction, Fraction]


def spread(sizes: Sequence[Size], gap: Fraction, aspect: Fraction) -> Spread:
    """Lay things out in their order in as many rows as make the picture narrowest; at least one thing."""
    layouts = [_in_rows(sizes, rows, gap) for rows in range(1, len(sizes) + 1)]
    return min(layouts, key=lambda layout: max(layout.width, layout.height * aspect))


def _in_rows(sizes: Sequence[Size], rows: int, gap: Fraction) -> Spread:
    """At most so many rows, none wider than it must be."""
    widths = sorted({
        sum((w for w, _ in sizes[a:b]), Fraction(0)) + gap * (b - a - 1)
        for a in range(len(sizes)) for b in range(a + 1, len(sizes) + 1)})
    broken = next(found for width in widths if len(found := _broken(sizes, width, gap)) <= rows)
    height = sum((max(h for _, h in row) for row in broken), Fraction(0)) + gap * (len(broken) - 1)
    laid: list[Laid] = []
    top = height
    for row in broken:
        across = Fraction(0)
        tallest = max(h for _, h in row)
        for w, h in row:
            laid.append(Laid(x=across, y=top - tallest + (tallest - h) / 2))
            across += w + gap
        top -= tallest + gap
    wide = max(sum((w for w, _ in row), Fraction(0)) + gap * (len(row) - 1) for row in broken)
    return Spread(width=wide, height=height, laid=tuple(laid))


def _broken(sizes: Sequence[Size], width: Fraction, gap: Fraction) -> list[list[Size]]:
    rows: list[list[Size]] = []
    used = Fraction(0)
    for size in sizes:
        if rows and used + gap + size[0] <= width:
            rows[-1].append(size)
            used += gap + size[0]
        else:
            rows.append([size])
            used = size[0]
    return rows
