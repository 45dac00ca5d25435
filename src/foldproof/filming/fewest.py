"""The order in which the camera is set up least often.

Jobs must be done after those that they wait for; a job has a set-up, or none (it is done off camera, at no cost). Once
the camera stands, doing every job of its set-up that can be done never harms: it moves the camera no more, and takes
nothing from what may follow. So an order is a row of set-ups, each run until nothing of it is left to do, and the
least number of set-ups from a set of jobs done is one more than the least from the best of the sets that it can lead
to. That is reckoned once for each set that is met (dynamic programming over sets of jobs done), so the answer is
exact. Where more than `MOST_SETS` sets are met, which takes many pieces that have nothing to do with each other, the
set-up with most jobs is taken each time instead, and the plan says that fewer may be possible.
"""

from collections.abc import Sequence

from foldproof.frozen import dataclass

MOST_SETS = 50_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One thing to film, or to do off camera."""

    setup: str | None
    after: frozenset[int]
    """The jobs that it waits for, by their places in the row of jobs; all of them stand before it there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """An order of jobs."""

    jobs: tuple[int, ...]
    setups: int
    """How often the camera is set up, the first time included."""
    proved: bool
    """Whether no other order needs fewer."""


class _TooManyError(Exception):
    """More sets of jobs than can be gone through."""


def fewest_setups(jobs: Sequence[Job], most_sets: int = MOST_SETS) -> Row:
    """An order with the least number of set-ups; among such orders one that keeps near the jobs' own order."""
    search = _Search(jobs, most_sets)
    try:
        search.least(search.started)
    except _TooManyError:
        return search.greedy()
    return search.best()


class _Search:
    """Sets of jobs done are bits of a whole number."""

    def __init__(self, jobs: Sequence[Job], most_sets: int) -> None:
        self._jobs = jobs
        self._waits = [sum(1 << other for other in job.after) for job in jobs]
        self._all = (1 << len(jobs)) - 1
        self._most = most_sets
        self._known: dict[int, tuple[int, str | None]] = {}
        self.started, self._first = self._run(0, None)

    def least(self, done: int) -> int:
        """How many set-ups finish all jobs from here."""
        if done == self._all:
            return 0
        if done in self._known:
            return self._known[done][0]
        if len(self._known) >= self._most:
            raise _TooManyError
        best: tuple[int, str | None] | None = None
        floor = len({job.setup for i, job in enumerate(self._jobs) if not done >> i & 1 and job.setup is not None})
        for setup in self._open(done):
            count = 1 + self.least(self._run(done, setup)[0])
            if best is None or count < best[0]:
                best = (count, setup)
            if count == floor:
                break
        assert best is not None, "jobs wait for each other in a ring"
        self._known[done] = best
        return best[0]

    def best(self) -> Row:
        """The order that `least` found."""
        done, order, count = self.started, [*self._first], 0
        while done != self._all:
            done, run = self._run(done, self._known[done][1])
            order += run
            count += 1
        return Row(jobs=tuple(order), setups=count, proved=True)

    def greedy(self) -> Row:
        """An order by taking the set-up in which most can be done, again and again."""
        done, order, count = self.started, [*self._first], 0
        while done != self._all:
            runs = [self._run(done, setup) for setup in self._open(done)]
            done, run = max(runs, key=lambda found: len(found[1]))
            order += run
            count += 1
        return Row(jobs=tuple(order), setups=count, proved=False)

    def _open(self, done: int) -> tuple[str, ...]:
        """The set-ups in which something can be done now, in the jobs' own order."""
        return tuple(dict.fromkeys(
            job.setup for i, job in enumerate(self._jobs)
            if job.setup is not None and not done >> i & 1 and self._waits[i] & ~done == 0))

    def _run(self, done: int, setup: str | None) -> tuple[int, list[int]]:
        """Do everything of a set-up that can be done, and everything off camera."""
        run: list[int] = []
        for i, job in enumerate(self._jobs):
            if job.setup in (setup, None) and not done >> i & 1 and self._waits[i] & ~done == 0:
                done |= 1 << i
                run.append(i)
        return done, run
