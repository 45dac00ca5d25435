"""Candidates for the places of words: inside an area, round a point, along a curve."""

from collections.abc import Iterator, Sequence

from foldproof.drawing.labels import CLEAR
from foldproof.drawing.lettering import cap_height, line_step, text_width
from foldproof.drawing.plane import XY, Box, box_round, inside, length, middle_of, minus


def places_inside(
    ring: Sequence[XY], text: str, pt: float, *, bold: bool = False, covered: Sequence[Sequence[XY]] = (),
) -> Iterator[tuple[XY, str, bool]]:
    """Candidates on a lattice in a ring, outside what covers it, from the middle of the rest outward.

    Upright ones come first where the ring is narrow.
    """
    box = box_round(ring)
    width = text_width(text, pt, bold=bold) + 2 * CLEAR
    lattice = [
        (box.left + box.width * (i + 0.5) / 11, box.bottom + box.height * (j + 0.5) / 13)
        for i in range(11) for j in range(13)
    ]
    free = [p for p in lattice if inside(p, ring) and not any(inside(p, over) for over in covered)]
    middle = middle_of(ring)
    if free and len(free) < len(lattice):
        middle = (sum(p[0] for p in free) / len(free), sum(p[1] for p in free) / len(free))
    if not any(inside(middle, over) for over in covered):
        free.append(middle)
    near = sorted(free, key=lambda p: length(minus(p, middle)))
    ways = (False, True) if width <= box.width * 0.96 else (True, False)
    for upright in ways:
        for p in near:
            yield (p, "middle", upright)


def places_round(
    p: XY, pt: float, reach: Sequence[float] = (1.6, 4.0, 7.0, 11.0, 16.0, 22.0), lines: int = 1,
) -> Iterator[tuple[XY, str, bool]]:
    """Candidates round a point for so many lines: to the right, left, above and below, nearer first."""
    half = _half(pt, lines)
    for r in reach:
        for dx, dy, anchor in (
            (r, 0, "start"), (-r, 0, "end"), (0, r + half, "middle"), (0, -r - half, "middle"),
            (r, r, "start"), (-r, r, "end"), (r, -r, "start"), (-r, -r, "end"),
        ):
            yield ((p[0] + dx, p[1] + dy), anchor, False)


def _half(pt: float, lines: int) -> float:
    return cap_height(pt) / 2 + (lines - 1) * line_step(pt) / 2


def places_beside(box: Box, p: XY, pt: float, lines: int = 1) -> Iterator[tuple[XY, str, bool]]:
    """Candidates outside a box for so many lines that speak of a point in it, those at the point's level first."""
    half = _half(pt, lines)
    for off in (2.0, 7.0, 13.0, 20.0):
        for along in (0.0, 6.0, -6.0, 13.0, -13.0, 21.0, -21.0):
            yield ((box.right + off, p[1] + along), "start", False)
            yield ((box.left - off, p[1] + along), "end", False)
            yield ((p[0] + along, box.top + off + half), "middle", False)
            yield ((p[0] + along, box.bottom - off - half), "middle", False)


def places_along(path: Sequence[XY], pt: float) -> Iterator[tuple[XY, str, bool]]:
    """Candidates on both sides of a curve, nearer first, its middle before its ends."""
    half = cap_height(pt) / 2
    count = len(path)
    for away in (1.6, 3.0, 5.0, 8.0, 12.0):
        for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95):
            x, y = path[round(share * (count - 1))]
            yield ((x, y + away + half), "middle", False)
            yield ((x, y - away - half), "middle", False)
            yield ((x + away, y), "start", False)
            yield ((x - away, y), "end", False)
