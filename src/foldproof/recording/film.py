"""All that comes of a recording: its times and what was said, read against the card, and what is made of them."""

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from foldproof.findings.finding import Finding, Place, Severity
from foldproof.folding.card import Card
from foldproof.recipe.records import Recipe
from foldproof.recording.captions import FASTEST, Caption, broken, lay_out, words_in
from foldproof.recording.chapters import Chapter, chapters, hard_to_show
from foldproof.recording.faults import FAST_CAPTIONS, HARD_CHAPTERS, NO_CAPTIONS, NO_INTERVAL
from foldproof.recording.moments import clock
from foldproof.recording.records import Recording, stretches
from foldproof.recording.said import Slip, compare
from foldproof.recording.times import read_times, written
from foldproof.recording.transcript import Cue, read_transcript


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A file's name, as the author gave it, and its text."""

    file: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """A recording and what is made of it."""

    recording: Recording
    chapters: tuple[Chapter, ...]
    captions: tuple[Caption, ...]
    draft: bool
    """Whether the captions are laid out from the written lines rather than from what was said."""
    uncaptioned: tuple[int, ...]
    """Steps that got none, from 0."""
    slips: tuple[Slip, ...]
    times: str
    """The times as a file to keep beside the recipe."""
    stamp: str
    """Eight hexadecimal digits of a hash of the times and of what was said."""

    def begins(self, step: int) -> Fraction | None:
        """When a step, from 0, begins; None where it is not known."""
        return next((began.at for began in self.recording.begins if began.step == step), None)

    def ends(self, step: int) -> Fraction | None:
        """When a step, from 0, ends; None where it is not known."""
        return next((part.end for part in stretches(self.recording) if part.steps == (step,)), None)


def make_film(
    card: Card, times: Written, said: Written | None, lines: Sequence[Sequence[str]], *, kept: bool = False
) -> tuple[Film | None, tuple[Finding, ...]]:
    """What comes of a recording, and what is wrong with its files; None where something is.

    `lines` has for each step the plain lines that the recipe has for it to speak.
    """
    recording, findings = read_times(times.text, times.file, card.recipe, kept=kept)
    cues: tuple[Cue, ...] = ()
    if said is not None:
        cues, faults = read_transcript(said.text, said.file, recording.length if recording is not None else None)
        findings = (*findings, *faults)
    if recording is None or any(finding.severity is Severity.ERROR for finding in findings):
        return None, findings
    listed = chapters(recording)
    findings = (*findings, *_chapters_told(listed, recording))
    slips: tuple[Slip, ...] = ()
    uncaptioned: tuple[int, ...] = ()
    if said is None:
        captions, uncaptioned, told = _drafted(card.recipe, recording, lines)
    else:
        slips = compare(card, recording, cues, said.file)
        captions, told = _as_said(cues), (*(slip.finding for slip in slips), *_fast(cues, said.file))
    digest = hashlib.sha256("\0".join((times.text, said.text if said is not None else "")).encode("utf-8", "replace"))
    return Film(
        recording=recording,
        chapters=listed,
        captions=captions,
        draft=said is None,
        uncaptioned=uncaptioned,
        slips=slips,
        times=written(recording, card.recipe),
        stamp=digest.hexdigest()[:8],
    ), (*findings, *told)


def _chapters_told(listed: Sequence[Chapter], recording: Recording) -> Iterator[Finding]:
    if why := hard_to_show(tuple(listed)):
        yield HARD_CHAPTERS.finding(
            f"Some players may not show the chapters: {why}.",
            mend="Nothing is wrong with them; add times, or chapters of your own (chapter: Welcome, 0:00).",
            place=recording.begins[0].place if recording.begins else None,
        )


def _drafted(
    recipe: Recipe, recording: Recording, lines: Sequence[Sequence[str]]
) -> tuple[tuple[Caption, ...], tuple[int, ...], tuple[Finding, ...]]:
    """Captions of the written lines, each step's in its own time; and the steps that get none, told."""
    captions: list[Caption] = []
    without: list[int] = []
    findings: list[Finding] = []
    unknown: list[int] = []
    places = {began.step: began.place for began in recording.begins}
    for part in stretches(recording):
        if len(part.steps) != 1 or part.steps[0] not in places:
            unknown += part.steps
            continue
        step = part.steps[0]
        laid = lay_out(lines[step], part.start, part.end)
        if laid is not None:
            captions += laid
            continue
        without.append(step)
        count, room = words_in(lines[step]), part.end - part.start
        findings.append(
            NO_CAPTIONS.finding(
                f"The line of the step {recipe.steps[step].title} has {count} words, and the step lasts "
                f"{_seconds(room)}. "
                f"People read up to {FASTEST} words a minute, so it would need "
                f"{_seconds(count * 60 / FASTEST)} or more. It gets "
                "no captions.",
                mend="Give the captions of what was said with --said, or look at the times of this step and the next.",
                place=places[step],
                step=recipe.steps[step].id,
            )
        )
    unknown = [step for step in unknown if any(line.strip() for line in lines[step])]
    if unknown:
        titles = ", ".join(str(recipe.steps[step].title) for step in unknown)
        findings.append(
            NO_INTERVAL.finding(
                f"When these steps begin or end is not known, so they get no captions: {titles}.",
                mend="Add their times and that of the step after them, or give what was said with --said.",
                place=next((places[step] for step in unknown if step in places), recording.begins[0].place),
            )
        )
    return tuple(captions), tuple(sorted((*without, *unknown))), tuple(findings)


def _as_said(cues: Sequence[Cue]) -> tuple[Caption, ...]:
    """The captions as they were said, at their own times, their lines broken anew where they are too long."""
    told = ((cue, " ".join(cue.caption.lines)) for cue in cues)
    return tuple(Caption(start=cue.start, end=cue.end, lines=broken(text)) for cue, text in told if text)


def _fast(cues: Sequence[Cue], file: str) -> Iterator[Finding]:
    """One word on captions that people cannot read in their time; a quarter over the limit is let pass."""
    fast = [cue for cue in cues if words_in(cue.caption.lines) * 60 > FASTEST * (cue.end - cue.start) * Fraction(5, 4)]
    if fast:
        first = fast[0]
        speed = round(words_in(first.caption.lines) * 60 / (first.end - first.start))
        others = f"; {len(fast) - 1} more are as fast" if len(fast) > 1 else ""
        yield FAST_CAPTIONS.finding(
            f"The caption at {clock(first.start)} runs at {speed} words a minute, and people read up to "
            f"{FASTEST}{others}.",
            mend="Let captions stand longer, or say less in each.",
            place=Place(file=file, line=max(1, first.lines[0].number - 1 if first.lines else 1), column=1),
        )


def _seconds(amount: Fraction) -> str:
    whole = -(-amount // 1)
    return f"{whole} second{'' if whole == 1 else 's'}"
