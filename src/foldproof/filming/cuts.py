"""The steps cut into shots: as the recipe says, else by what hands do."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Done, Making, StepMade, Table
from foldproof.recipe import actions as do
from foldproof.recipe.film_records import OFF_CAMERA, BeautySpec, ShotSpec

WIDE, WORK, CLOSE, FRONT = "overhead wide", "overhead", "overhead close", "front on"
_WIDEST_FIRST = (WIDE, WORK, CLOSE)
_LOOKS: tuple[tuple[type[do.Doing], str], ...] = (
    (do.CutOut, WIDE), (do.CutAcross, WORK), (do.CutOff, WORK), (do.CutBetween, CLOSE),
    (do.SlitAt, CLOSE), (do.SlitBetween, CLOSE), (do.CutAway, CLOSE), (do.RoundCorners, CLOSE), (do.Scallop, CLOSE),
    (do.MarkAt, WORK), (do.ScoreAt, WORK), (do.ScoreBetween, CLOSE), (do.FoldOn, WORK), (do.Unfold, WORK),
    (do.BringTo, WORK), (do.Tuck, CLOSE), (do.SlideIn, CLOSE), (do.Attach, CLOSE), (do.Stamp, CLOSE), (do.Tie, WORK),
)
"""How each action is best seen (common practice, no source): wide for laying out, overhead for scoring and folding,
close for lining up between two points, for glue and for stamps. All else goes with what stands beside it."""
MOST_LOOKS = 2
"""A step that goes to and fro between more ways of seeing it is seen in its widest throughout."""
_ONLY_SHOWS = (do.FoldOn, do.BringTo, do.Unfold, do.Tuck, do.Measure, do.Note, do.Turn, do.TurnOver, do.Lay)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piecework:
    """A shot before it is measured: a stretch of a step's actions, or a look at the work."""

    step: StepMade | None
    spec: ShotSpec | BeautySpec | None
    framing: str
    done: tuple[Done, ...]
    before: Table
    after: Table
    moment: tuple[Fraction, Fraction]
    derived: bool = False
    """Whether the recipe leaves the framing to us, so that it may be joined with its neighbour."""


def cut_into_shots(card: Card, making: Making) -> tuple[Piecework, ...]:
    """All shots in story order; a step that is done off camera has one of that framing."""
    found: list[Piecework] = list(_beauty(card, making, "start"))
    at = 0
    for step in making.steps:
        last = step is making.steps[-1]
        found += _of_step(making, step, at, last=last)
        at += len(step.done)
    found += _beauty(card, making, "end")
    return tuple(found)


def _beauty(card: Card, making: Making, when: str) -> Iterator[Piecework]:
    spec = card.recipe.filming
    end = Fraction(sum(len(step.done) for step in making.steps))
    for beauty in spec.beauty if spec else ():
        if beauty.when == when:
            yield Piecework(
                step=None, spec=beauty, framing=beauty.framing, done=(), before=making.end, after=making.end,
                moment=(end, end))


def _of_step(making: Making, step: StepMade, at: int, *, last: bool) -> Iterator[Piecework]:
    shots = step.spec.shots
    if len(shots) > 1 or (shots and (shots[0].framing or shots[0].of or shots[0].actions or shots[0].inside)):
        yield from _as_said(making, step, at, last=last)
        return
    spec = shots[0] if shots else None
    runs = _runs(step.done, last=last)
    start = 0
    for framing, count in runs:
        yield replace(_stretch(step, at, start, count, framing), spec=spec, derived=True)
        start += count


def _as_said(making: Making, step: StepMade, at: int, *, last: bool) -> Iterator[Piecework]:
    """Each shot takes as many actions as it says; the first that does not say takes the rest."""
    shots = step.spec.shots
    given = sum(int(shot.actions.value) for shot in shots if shot.actions is not None)
    rest = max(0, len(step.done) - given)
    start = 0
    for shot in shots:
        if shot.of is not None:
            yield _looking_back(making, step, shot)
            continue
        count = int(shot.actions.value) if shot.actions is not None else rest
        rest = rest if shot.actions is not None else 0
        count = min(count, len(step.done) - start)
        framing = shot.framing.value if shot.framing else None
        if framing is None:
            own = step.done[start:start + count]
            framing = min((run for run, _ in _runs(own, last=last)), key=_width_rank) if own else CLOSE
        yield replace(_stretch(step, at, start, count, framing), spec=shot)
        start += count


def _width_rank(framing: str) -> int:
    return _WIDEST_FIRST.index(framing) if framing in _WIDEST_FIRST else -1


def _looking_back(making: Making, step: StepMade, shot: ShotSpec) -> Piecework:
    ends = dict(zip(
        (one.spec.id for one in making.steps),
        (sum(len(one.done) for one in making.steps[:i + 1]) for i in range(len(making.steps))), strict=True))
    shown = next((one for one in making.steps if shot.of and one.spec.id == shot.of.value), step)
    end = Fraction(ends[shown.spec.id])
    return Piecework(
        step=step, spec=shot, framing=shot.framing.value if shot.framing else CLOSE, done=(), before=shown.after,
        after=shown.after, moment=(end, end))


def _stretch(step: StepMade, at: int, start: int, count: int, framing: str) -> Piecework:
    done = step.done[start:start + count]
    before = step.before if start == 0 else step.done[start - 1].after
    if done and start + count == len(step.done):
        done = (*done, *step.again)  # the last shot runs on while the same is done with the other pieces
    return Piecework(
        step=step, spec=None, framing=framing, done=done, before=before, after=done[-1].after if done else before,
        moment=(Fraction(at + start), Fraction(at + start + count)))


def _runs(done: tuple[Done, ...], *, last: bool) -> list[tuple[str, int]]:
    """Neighbouring actions that are seen alike: the framing and how many; a whole step that only shows is one."""
    if last and all(isinstance(one.action, _ONLY_SHOWS) for one in done):
        return [(FRONT, len(done))]
    looks = [next((look for kind, look in _LOOKS if isinstance(one.action, kind)), None) for one in done]
    known: str | None = None
    for i, look in enumerate(looks):  # what has no look of its own goes on with the last one
        known = look or known
        looks[i] = known
    first = next((look for look in looks if look), WORK)
    filled = [look or first for look in looks] or [WORK]
    starts = [0, *(i + 1 for i, (a, b) in enumerate(pairwise(filled)) if a != b), len(filled)]
    runs = [(filled[a], done[a:b]) for a, b in pairwise(starts)]
    runs = _folds_joined(runs) if done else []
    if len(runs) > MOST_LOOKS:
        return [(min((look for look, _ in runs), key=_width_rank), len(done))]
    return [(look, len(own)) for look, own in runs] or [(WORK, 0)]


def _folds_joined(runs: list[tuple[str, tuple[Done, ...]]]) -> list[tuple[str, tuple[Done, ...]]]:
    """Folding that only makes way for what is done close to it is no shot of its own: both are seen from overhead."""
    found: list[tuple[str, tuple[Done, ...]]] = []
    for look, own in runs:
        last, before = found[-1] if found else ("", ())
        if {last, look} == {WORK, CLOSE} and (_only_folds(own) or _only_folds(before)):
            found[-1] = (WORK, (*before, *own))
        else:
            found.append((look, own))
    return found


def _only_folds(done: tuple[Done, ...]) -> bool:
    return all(isinstance(one.action, _ONLY_SHOWS) for one in done)


def joined(first: Piecework, second: Piecework) -> Piecework:
    """Two neighbouring shots of a step as one, seen as the wider of them."""
    framing = min(first.framing, second.framing, key=_width_rank)
    return replace(
        first, framing=framing, done=(*first.done, *second.done), after=second.after,
        moment=(first.moment[0], second.moment[1]))


def filmed(work: Piecework) -> bool:
    """Whether a camera is on."""
    return work.framing != OFF_CAMERA
