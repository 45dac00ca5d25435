"""Points of the work by the names that people say: corners as it lies, middles, marks, ends of scores."""

from fractions import Fraction

from foldproof.folding.card import Card
from foldproof.making.lying import direction
from foldproof.making.table import Table
from foldproof.making.work import Work
from foldproof.paper.vector import ORIGIN, Point, Vector
from foldproof.recipe.actions import TablePoint

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
    end = _end_of_score(card, table, work, point.name)
    return end if end is not None else f"there is no mark or corner called “{point.name}” on the work"


def _end_of_score(card: Card, table: Table, work: Work, name: str) -> Point | None:
    score_name, _, side = name.rpartition(" ")
    if side not in (*UPRIGHT_WORDS, *LEVEL_WORDS):
        return None
    for part in work.parts:
        piece = card.piece(part.piece)
        for score in piece.scores if piece else ():
            if score.name == score_name and any(
                {crease.segment.start, crease.segment.end} == {score.segment.start, score.segment.end}
                for crease in table.pieces[part.piece].creases
            ):
                ends = [part.fit.point(p) for p in (score.segment.start, score.segment.end)]
                toward: Vector = direction(work.lie, side)
                return max(ends, key=lambda p: (p - ORIGIN).dot(toward))
    return None
