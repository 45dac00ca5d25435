"""The rows of the shot list: framing, what lies on the table, what hands do, the line to say, the seconds."""

from collections.abc import Callable
from fractions import Fraction
from itertools import accumulate

from foldproof.documents.plan_words import table_words
from foldproof.documents.view import Shot
from foldproof.making.table import Making, StepMade

WORDS_A_MINUTE = 130
"""A planning value for hands-on demonstration; from memory, no source."""
SECONDS_A_HAND = 4
"""For one action, where the recipe gives no seconds; a guess of our own, no source."""
ROUND_TO = 5


def shots(making: Making, plain: Callable[[str], str], hands: Callable[[StepMade], tuple[str, ...]]) -> tuple[
    tuple[Shot, ...], ...
]:
    """The shots of each step, in filming order, the time running on from one to the next.

    `plain` turns an author's Markdown into one line; `hands` says a step's actions in words.
    """
    rows = [row for step in making.steps for row in _rows(step, plain, hands(step))]
    ends = accumulate(row.seconds for row in rows)
    timed = iter([_at(row, end) for row, end in zip(rows, ends, strict=True)])
    return tuple(tuple(next(timed) for _ in range(max(1, len(step.spec.shots)))) for step in making.steps)


def _rows(step: StepMade, plain: Callable[[str], str], hands: tuple[str, ...]) -> list[Shot]:
    """A step without a shot of its own gets one row; with several, the first has the hands and the line."""
    spec = step.spec
    several = len(spec.shots) > 1
    rows = []
    for index, shot in enumerate(spec.shots or (None,)):
        own = shot.say if shot else None
        said = own or ((spec.say or spec.text) if index == 0 else None)
        line = plain(said.value) if said else ""
        does = hands if index == 0 else ()
        given = shot.seconds if shot else None
        rows.append(Shot(
            key=f"{step.number}.{spec.id}" + (f".{chr(ord('a') + index)}" if several else ""),
            framing=str(shot.framing) if shot and shot.framing else "",
            table=table_words(step.before) if index == 0 else (),
            hands=does,
            say=line,
            seconds=given.value if given else estimate(line, len(does)),
            estimated=given is None,
            so_far=Fraction(0),
        ))
    return rows


def estimate(line: str, actions: int) -> Fraction:
    """Seconds for a shot: the longer of speaking the line and doing the work, up to the next five."""
    needed = max(Fraction(len(line.split()) * 60, WORDS_A_MINUTE), Fraction(actions * SECONDS_A_HAND))
    return Fraction(max(1, -(-needed // ROUND_TO)) * ROUND_TO)


def _at(shot: Shot, end: Fraction) -> Shot:
    return Shot(
        key=shot.key, framing=shot.framing, table=shot.table, hands=shot.hands, say=shot.say, seconds=shot.seconds,
        estimated=shot.estimated, so_far=end,
    )
