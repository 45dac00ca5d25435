"""A caption file of what was really said: WebVTT or SRT, read leniently where nothing is lost by it."""

import re
from dataclasses import dataclass
from fractions import Fraction

from foldproof.findings.finding import Finding, Place
from foldproof.recording.captions import Caption
from foldproof.recording.faults import BAD_CUE, CUES_BACKWARDS, NOT_CAPTIONS, PAST_END
from foldproof.recording.moments import clock

MOST_FAULTS = 20
_TIME = r"(?:(\d{1,3}):)?(\d{1,3}):(\d{2})[.,](\d{1,3})"
_TIMING = re.compile(rf"\s*{_TIME}\s*-->\s*{_TIME}(?:\s.*)?")
_TAG = re.compile(r"<[^<>]*>|\{\\[^{}]*\}")
_ENTITIES = {"&amp;": "&", "&lt;": "<", "&gt;": ">", "&nbsp;": " ", "&lrm;": " ", "&rlm;": " "}


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a caption, tags and entities turned into blanks, so that every character keeps its column."""

    text: str
    number: int
    """The line of the file, from 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue:
    """What was said in a stretch of time."""

    start: Fraction
    end: Fraction
    lines: tuple[Line, ...]

    @property
    def caption(self) -> Caption:
        """The same as a caption."""
        texts = (" ".join(line.text.split()) for line in self.lines)
        return Caption(start=self.start, end=self.end, lines=tuple(text for text in texts if text))


def read_transcript(source: str, file: str, length: Fraction | None) -> tuple[tuple[Cue, ...], tuple[Finding, ...]]:
    """All cues that can be read, and what is wrong. `length` is that of the recording, where it is known."""
    source = source.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    top = Place(file=file, line=1, column=1)
    mend = "Save the captions of the recording as WebVTT or SRT, as text in UTF-8."
    if not source.strip():
        return (), (NOT_CAPTIONS.finding(f"{file} is empty.", mend=mend, place=top),)
    lines = source.split("\n")
    vtt = re.match(r"WEBVTT(?:[ \t\n]|$)", source) is not None
    if not vtt and not any(_TIMING.fullmatch(line) for line in lines):
        return (), (
            NOT_CAPTIONS.finding(
                f"{file} holds no line of times like 00:01:05.000 --> 00:01:07.500, and does not begin with WEBVTT.",
                mend=mend,
                place=top,
            ),
        )
    cues: list[Cue] = []
    findings: list[Finding] = []
    for first, block in _blocks(lines):
        if vtt and re.match(r"(?:WEBVTT|NOTE|STYLE|REGION)(?:\s|$)", block[0]):
            continue
        found = _cue(first, block, file)
        if isinstance(found, Cue):
            findings += _judged(found, cues[-1] if cues else None, length, file)
            cues.append(found)
        elif found is not None:
            findings.append(found)
        if len(findings) >= MOST_FAULTS:
            break
    if not cues and not findings:
        findings.append(NOT_CAPTIONS.finding(f"{file} holds no caption.", mend=mend, place=top))
    return tuple(cues), tuple(findings)


def _blocks(lines: list[str]) -> list[tuple[int, list[str]]]:
    """Runs of lines between blank ones, each with the number of its first line, from 1."""
    found: list[tuple[int, list[str]]] = []
    open_ = False
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            open_ = False
        elif open_:
            found[-1][1].append(line)
        else:
            found.append((number, [line]))
            open_ = True
    return found


def _cue(first: int, block: list[str], file: str) -> Cue | Finding | None:
    at = next((i for i, line in enumerate(block[:2]) if "-->" in line), None)
    if at is None:
        if len(block) == 1 and block[0].strip().isdigit():
            return None  # the number of a caption without words
        return BAD_CUE.finding(
            "These lines stand between captions and have no times of their own.",
            mend="Put the line of times above them, or take the blank line out that parts them from their caption.",
            place=Place(file=file, line=first, column=1, length=len(block[0])),
        )
    timing = _TIMING.fullmatch(block[at])
    place = Place(file=file, line=first + at, column=1, length=max(1, len(block[at])))
    if timing is None:
        return BAD_CUE.finding(
            "The line of times cannot be read.", mend="Write it like 00:01:05.000 --> 00:01:07.500.", place=place
        )
    start, end = _moment(timing.groups()[:4]), _moment(timing.groups()[4:])
    if start is None or end is None:
        return BAD_CUE.finding(
            "A time has 60 or more minutes or seconds.", mend="Minutes and seconds go up to 59.", place=place
        )
    if end <= start:
        return BAD_CUE.finding("The caption ends before it has begun.", mend="Correct its times.", place=place)
    said = tuple(Line(text=_bare(line), number=first + at + 1 + i) for i, line in enumerate(block[at + 1 :]))
    return Cue(start=start, end=end, lines=said)


def _moment(parts: tuple[str | None, ...]) -> Fraction | None:
    hours, minutes, seconds, rest = parts
    if int(seconds or 0) > 59 or (int(minutes or 0) > 59):
        return None
    whole = int(hours or 0) * 3600 + int(minutes or 0) * 60 + int(seconds or 0)
    return whole + Fraction(int(rest or 0), 10 ** len(rest or "0"))


def _bare(line: str) -> str:
    bare = _TAG.sub(lambda tag: " " * len(tag.group()), line)
    for entity, character in _ENTITIES.items():
        bare = bare.replace(entity, character.ljust(len(entity)))
    return bare


def _judged(cue: Cue, before: Cue | None, length: Fraction | None, file: str) -> list[Finding]:
    line = cue.lines[0].number - 1 if cue.lines else 1
    place = Place(file=file, line=line, column=1)
    found = []
    if before is not None and cue.start < before.start:
        found.append(
            CUES_BACKWARDS.finding(
                f"The caption at {clock(cue.start)} stands below one at {clock(before.start)}.",
                mend="Put the captions in order of their times, or correct them.",
                place=place,
            )
        )
    if length is not None and cue.start >= length:
        found.append(
            PAST_END.finding(
                f"A caption begins at {clock(cue.start)}, and the recording lasts {clock(length)}.",
                mend="Correct the length in the times file, or give the captions of this recording.",
                place=place,
            )
        )
    return found
