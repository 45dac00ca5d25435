"""Captions run together into one passage, so that a number split between two of them is read as one."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from foldproof.findings.finding import Place
from foldproof.measures.quantity import Unit
from foldproof.recording.transcript import Cue

_FILLERS = re.compile(r",?[ ]*\b(?:uh+|um+|er|erm|ah|hmm+)\b,?", re.IGNORECASE)
_FALSE_START = re.compile(r"\b(?:an?|the)(?=\s+(?:an?|one|the)\b)", re.IGNORECASE)
_MIL = re.compile(r"\bmil(s?)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """Where a line of a caption begins in the passage."""

    offset: int
    line: int
    cue: Cue


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """What was said in a stretch of the recording."""

    text: str
    file: str
    runs: tuple[_Run, ...]

    def cue_at(self, offset: int) -> Cue:
        """The caption in which a character of the passage stands."""
        return self._run(offset).cue

    def at(self, offset: int) -> Fraction:
        """When it was said: as far on in its caption as its place among the caption's characters."""
        cue = self.cue_at(offset)
        first = next(run.offset for run in self.runs if run.cue is cue)
        size = sum(len(line.text) + 1 for line in cue.lines)
        return cue.start + (cue.end - cue.start) * min(Fraction(1), Fraction(offset - first, max(1, size)))

    def place(self, start: int, end: int) -> Place:
        """Where it stands in the caption file; as far as the end of its line."""
        run = self._run(start)
        following = [other.offset - 1 for other in self.runs if other.offset > run.offset]
        end = min([end, *following[:1]])
        column = start - run.offset + 1
        return Place(file=self.file, line=run.line, column=column, length=max(1, end - start))

    def _run(self, offset: int) -> _Run:
        return next((run for run in reversed(self.runs) if run.offset <= offset), self.runs[0])


def hear(cues: Sequence[Cue], file: str, unit: Unit) -> Heard:
    """Captions as one passage. Sounds of hesitation are left out; `mil` is a millimetre in a metric recipe."""
    parts: list[str] = []
    runs: list[_Run] = []
    at = 0
    for cue in cues:
        for line in cue.lines:
            runs.append(_Run(offset=at, line=line.number, cue=cue))
            text = _FALSE_START.sub(_blanks, _FILLERS.sub(_blanks, line.text))
            if unit is not Unit.INCH:
                text = _MIL.sub(lambda found: "mm" + " " * (len(found.group()) - 2), text)
            text = _dashless(text)
            parts.append(text)
            at += len(text) + 1
    return Heard(text=" ".join(parts), file=file, runs=tuple(runs))


def _dashless(text: str) -> str:
    """Without the dash or the arrows that show a change of speaker."""
    return re.sub(r"^\s*(?:-|–|—|>>)\s", _blanks, text)


def _blanks(found: re.Match[str]) -> str:
    return " " * len(found.group())
