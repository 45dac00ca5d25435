"""The chapters of a recording: one for each step whose beginning is known, and those of the teacher's own."""

from dataclasses import dataclass
from fractions import Fraction

from foldproof.recording.moments import clock, to_millisecond
from foldproof.recording.records import Recording

FIRST = "Start"
"""What stands before the first known time: players want a chapter at 0:00 (common practice, from memory)."""
FEWEST, SHORTEST = 3, Fraction(10)
"""What many players ask of chapters: three or more, each of ten seconds or more (common practice, from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """From one known time to the next."""

    title: str
    start: Fraction
    end: Fraction
    step: int | None = None
    """The step that begins it, from 0; None for one of the teacher's own, and for the start."""


def chapters(recording: Recording) -> tuple[Chapter, ...]:
    """They follow on one another without a gap, from 0 to the end (W3C WebVTT, section 3.5, on chapter cues)."""
    starts = [(to_millisecond(began.at), " ".join(began.title.split()), began.step) for began in recording.begins]
    if not starts or starts[0][0] > 0:
        starts.insert(0, (Fraction(0), FIRST, None))
    ends = [start for start, _, _ in starts[1:]] + [to_millisecond(recording.length)]
    return tuple(
        Chapter(title=title, start=start, end=end, step=step)
        for (start, title, step), end in zip(starts, ends, strict=True)
    )


def chapter_lines(listed: tuple[Chapter, ...]) -> str:
    """One `m:ss title` a line, the first at 0:00, ascending (common practice, from memory)."""
    return "".join(f"{clock(chapter.start)} {chapter.title}\n" for chapter in listed)


def hard_to_show(listed: tuple[Chapter, ...]) -> str:
    """Why some players would not show these chapters; empty where they would."""
    short = [chapter for chapter in listed if chapter.end - chapter.start < SHORTEST]
    if len(listed) < FEWEST:
        return f"there are {len(listed)} of them, and many players show no fewer than {FEWEST}"
    if short:
        return (
            f"{short[0].title}, at {clock(short[0].start)}, is shorter than the ten seconds that many players ask for"
        )
    return ""
