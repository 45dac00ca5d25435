"""Frames that tell nothing new are left out: folds that are tried, unfolding on and on, what an earlier one shows."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import takewhile

from foldproof.drawing.frame import Frame, body_of, marks_on
from foldproof.making.table import Done, Table
from foldproof.recipe import actions as do


def merged(frames: Sequence[Frame]) -> tuple[Frame, ...]:
    """The frames that are drawn; nothing that is done is left untold."""
    return tuple(_closing_up(_opening_up(_there_and_back(frames))))


def only_folds(frame: Frame) -> bool:
    """Whether nothing but folding and unfolding is done."""
    return bool(frame.done) and all(isinstance(done.action, do.FoldOn | do.Unfold | do.BringTo) for done in frame.done)


def _there_and_back(frames: Sequence[Frame]) -> Iterator[Frame]:
    """The frames, those left out whose folds only undo the ones before; what is measured then is told with them."""
    rest = list(frames)
    while rest:
        frame = rest.pop(0)
        count = _there_and_back_in((frame, *rest))
        if count:
            every = [*frame.done, *(done for one in rest[:count] for done in one.done)]
            half = len(every) // 2
            frame = replace(frame, rest=tuple(every[len(frame.done):half]), back=tuple(every[half:]))
            del rest[:count]
            if rest and _only_then(rest[0]) and _only_measures(rest[0]):
                frame = replace(frame, done=(*frame.done, *rest.pop(0).done))
        yield frame


def _there_and_back_in(frames: Sequence[Frame]) -> int:
    """How many frames after the first undo what was folded, so that the work lies as in the first; the most."""
    first = frames[0]
    run = list(takewhile(lambda one: only_folds(one) and not one.back and (one is first or _only_then(one)), frames))
    for count in range(len(run) - 1, 0, -1):
        every = [done for one in run[:count + 1] for done in one.done]
        half, odd = divmod(len(every), 2)
        if not odd and len(run[0].done) <= half and _undone(every[:half], every[half:]) \
                and _alike(run[0].table, every[-1].after, run[0].piece):
            return count
    return 0


def _opening_up(frames: Iterable[Frame]) -> Iterator[Frame]:
    """The frames, without those between that only open the work further."""
    last: Frame | None = None
    for frame in frames:
        if last is not None and _only_then(frame) and not last.back and not frame.back \
                and all(only_folds(one) and all(isinstance(done.action, do.Unfold) for done in one.done)
                        for one in (last, frame)):
            last = replace(last, rest=(*last.rest, *frame.done))
            continue
        if last is not None:
            yield last
        last = frame
    if last is not None:
        yield last


def _closing_up(frames: Iterable[Frame]) -> list[Frame]:
    """The frames; where the last only measures what an earlier one shows, the measures stand there."""
    found = list(frames)
    ends = len(found) > 1 and _only_measures(found[-1]) and _only_then(found[-1])
    shown, end = (found[:-1], found[-1]) if ends else (found, None)
    if not shown or not only_folds(shown[-1]) or shown[-1].back:
        return found
    last = shown[-1]
    table = end.table if end else last.done[-1].after
    known = next((i for i, one in enumerate(shown[:-1]) if _alike(one.table, table, last.piece)), None)
    if known is None:
        return found
    if end:
        shown[known] = replace(shown[known], done=(*shown[known].done, *end.done))
    return [*shown[:-1], replace(shown[-1], again=known)]


def _only_measures(frame: Frame) -> bool:
    return bool(frame.done) and all(isinstance(done.action, do.Measure) for done in frame.done)


def _undone(there: Sequence[Done], back: Sequence[Done]) -> bool:
    """Whether the second folds undo the first in the other order; the state after both is for the caller to see."""
    def scores(folds: Sequence[Done]) -> list[str]:
        return [done.action.score if isinstance(done.action, do.FoldOn | do.Unfold) else "" for done in folds]

    return scores(there) == scores(back)[::-1]


def _only_then(frame: Frame) -> bool:
    return all(motion.kind == "then" for motion in frame.motions)


def _alike(one: Table, other: Table, piece: str) -> bool:
    """Whether a body looks the same at two moments; the order of folds aside."""
    return marks_on(one) == marks_on(other) and dict(one.folded) == dict(other.folded) \
        and body_of(one, piece)[:2] == body_of(other, piece)[:2]
