"""What stops a measure from being read; turned into a finding at the door of the stage."""

from dataclasses import replace

from foldproof.findings.finding import Finding, Place, Severity


class Trouble(Exception):
    """A fault in one measure's text, between two character offsets of it. Never leaves the measures package."""

    def __init__(self, name: str, message: str, mend: str | None, start: int, end: int) -> None:
        super().__init__(name)
        self.name, self.message, self.mend, self.start, self.end = name, message, mend, start, end

    def finding(self, text: str, place: Place) -> Finding:
        """Give the finding, its place narrowed to the offending part of the text."""
        return Finding(name=self.name, severity=Severity.ERROR, message=self.message, mend=self.mend,
                       place=part_of(place, text, self.start, self.end))


def part_of(place: Place, text: str, start: int, end: int) -> Place:
    """Narrow a place to the characters `start` to `end` of the text that stands there.

    Only where the place covers the text character by character, bare or in one pair of quotes; a folded or escaped
    text keeps the whole place.
    """
    if place.length == len(text):
        shift = 0
    elif place.length == len(text) + 2:
        shift = 1
    else:
        return place
    return replace(place, column=place.column + shift + start, length=max(1, end - start))


def two_slashes(written: str, start: int, end: int) -> Trouble:
    """Say that a fraction beside another slash can be read in two ways."""
    return Trouble("two slashes", f"`{written}` stands beside another slash, so it can be read in two ways.",
                   "Put brackets round what belongs together: (width / 2) / 3, or width / (2/3).", start, end)
