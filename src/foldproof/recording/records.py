"""A finished recording: how long it is, and when which step begins in it, as far as that is known."""

from dataclasses import dataclass
from fractions import Fraction

from foldproof.findings.finding import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Began:
    """A step, or a chapter of the teacher's own, that begins at a known time."""

    step: int | None
    """The step's place in the recipe, from 0; None for a chapter of the teacher's own."""
    title: str
    at: Fraction
    """Seconds from the start of the recording."""
    place: Place
    by_number: bool = False
    """Whether the times file names the step by its number and nothing else."""
    as_filmed: str = ""
    """The fingerprint of the step that stands in the times file; empty where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recording:
    """A recording as its times file tells it."""

    length: Fraction
    """Seconds."""
    begins: tuple[Began, ...]
    """In order of time; steps among them in the order of the recipe."""
    steps: int
    """How many steps the recipe has."""
    address: str = ""
    """Where it can be seen; may hold `{seconds}`. Empty where the file gives none."""

    def address_at(self, moment: Fraction) -> str:
        """The address that leads to a moment; empty without an address.

        `{seconds}` in it is filled with whole seconds; else `#t=` is added (W3C Media Fragments URI 1.0, 4.2.1).
        """
        if not self.address:
            return ""
        if "{seconds}" in self.address:
            return self.address.replace("{seconds}", str(int(moment)))
        return f"{self.address}#t={int(moment)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A part of the recording, and the steps that are shown in it."""

    start: Fraction
    end: Fraction
    steps: tuple[int, ...]
    """One: this stretch is that step and nothing else. Several: all of them, where one ends and the next begins is not
    known. None: before the first step, or a chapter of the teacher's own."""


def stretches(recording: Recording) -> tuple[Stretch, ...]:
    """The whole recording in parts, in order; nothing is guessed between two known times.

    A step ends where the next step of the recipe begins, or a chapter of the teacher's own, or the recording ends.
    Where the next step's time is not known, the steps up to the next known one share a stretch.
    """
    known = [began for began in recording.begins if began.step is not None]
    starts = [began.at for began in known]
    found: list[Stretch] = []
    first = known[0].step if known and known[0].step is not None else recording.steps
    if not starts or starts[0] > 0:
        found.append(
            Stretch(start=Fraction(0), end=starts[0] if starts else recording.length, steps=tuple(range(first)))
        )
    ends = [*starts[1:], recording.length]
    following = [began.step for began in known[1:]]
    for began, end, after in zip(known, ends, [*following, recording.steps], strict=True):
        assert began.step is not None and after is not None
        steps = tuple(range(began.step, after))
        breaks = [own.at for own in recording.begins if own.step is None and began.at < own.at < end]
        if len(steps) == 1 and breaks:
            found.append(Stretch(start=began.at, end=breaks[0], steps=steps))
            found.append(Stretch(start=breaks[0], end=end, steps=()))
        else:
            found.append(Stretch(start=began.at, end=end, steps=steps))
    return tuple(found)
