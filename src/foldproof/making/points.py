"""Points of the work by the names that people say: corners as it lies, middles, marks, ends of scores."""

from fractions import Fraction

from foldproof.folding.card import Card
from foldproof.making.lying import direction
from foldproof.making.table import Table
from foldproof.making.work import Work
from foldproof.paper.polygon import centre_of
from foldproof.paper.vector import ORIGIN, Point, Segment
from foldproof.recipe.actions import TablePoint
from foldproof.recipe.words import FOUND_POINT

UPRIGHT_WORDS = ("top", "bottom")
LEVEL_WORDS = ("left", "right")


def at_coordinates(work: Work, across: Fraction, away: Fraction) -> Point:
    """The point of the work's frame with the given `right . p` and `away . p`.

    With r the direction to the right and a the one away, both of square n and square to each other,
    p = (across r + away a) / n.
    """
    r, a = work.lie.right, work.lie.away
    step = (r * across + a * away) * (1 / r.square)
    return ORIGIN + step


def corner(work: Work, words: tuple[str, str]) -> Point | None:
    """The corner of the work at (`top` or `bottom`, `left` or `right`) as it lies, if there is paper in that corner."""
    low_x, high_x = work.span(work.lie.right)
    low_y, high_y = work.span(work.lie.away)
    wanted = at_coordinates(
        work, low_x if words[1] == "left" else high_x, high_y if words[0] == "top" else low_y)
    return wanted if wanted in set(work.corners) else None


def find_point(card: Card, table: Table, work: Work, point: TablePoint) -> Point | str:
    """The point of that name in the work's frame, or the reason why there is none."""
    words = tuple(point.name.split())
    if len(words) == 2 and words[0] in UPRIGHT_WORDS and words[1] in LEVEL_WORDS:
        found = corner(work, (words[0], words[1]))
        return found if found is not None else f"the work has no corner at its {point.name} as it lies"
    low_x, high_x = work.span(work.lie.right)
    low_y, high_y = work.span(work.lie.away)
    middle_x, middle_y = (low_x + high_x) / 2, (low_y + high_y) / 2
    named = {
        "top middle": (middle_x, high_y), "bottom middle": (middle_x, low_y),
        "left middle": (low_x, middle_y), "right middle": (high_x, middle_y), "centre": (middle_x, middle_y),
    }
    if point.name in named:
        return at_coordinates(work, *named[point.name])
    for part in work.parts:
        for mark in table.pieces[part.piece].marks:
            if mark.name == point.name:
                return part.fit.point(mark.at)
    found_name = FOUND_POINT.fullmatch(point.name)
    if found_name is None:
        return f"there is no mark or corner called “{point.name}” on the work"
    names = found_name.groupdict()
    if names["panel"] is not None:
        return _centre_of(card, work, names["panel"])
    lines = []
    for name in (names["score"], names["whole"], names["first"], names["second"]):
        if name is not None:
            line = _pressed(card, table, work, name)
            if line is None:
                return f"the {name} has not been scored on the work yet"
            lines.append(line)
    if names["first"] is not None:
        return _crossing(lines[0], lines[1]) or f"the {names['first']} and the {names['second']} do not cross"
    if names["whole"] is not None:
        return lines[0].middle
    return _end(work, lines[0], point.name.partition(" ")[0])


def _pressed(card: Card, table: Table, work: Work, name: str) -> Segment | None:
    """The line of a score of that name in the work's frame, once it has been pressed."""
    for part in work.parts:
        piece = card.piece(part.piece)
        for score in piece.scores if piece else ():
            if score.name == name and any(
                {crease.segment.start, crease.segment.end} == {score.segment.start, score.segment.end}
                for crease in table.pieces[part.piece].creases
            ):
                return part.fit.segment(score.segment)
    return None


def _end(work: Work, line: Segment, side: str) -> Point | str:
    """The end of a line that lies farthest to a side."""
    toward = direction(work.lie, side)
    if line.along.dot(toward) == 0:
        return f"the score has no {side} end: it runs the other way as it lies"
    return max((line.start, line.end), key=lambda p: (p - ORIGIN).dot(toward))


def _crossing(a: Segment, b: Segment) -> Point | None:
    """Where two lines cross, ends counted: a.start + t * a.along with t = (b.start - a.start) x b.along / (a x b)."""
    bend = a.along.cross(b.along)
    if bend == 0:
        return None
    step = b.start - a.start
    t, s = step.cross(b.along) / bend, step.cross(a.along) / bend
    return a.start + a.along * t if 0 <= t <= 1 and 0 <= s <= 1 else None


def _centre_of(card: Card, work: Work, panel: str) -> Point | str:
    """The middle of a panel's bounding rectangle."""
    for part in work.parts:
        if part.piece == card.panels[panel].piece and part.panel in (None, panel):
            return part.fit.point(centre_of(card.panels[panel].ring))
    return f"the {panel} is not on the work"
