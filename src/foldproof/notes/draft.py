"""Facts to the text of a draft recipe: what was said stands in its place, and what was not is a question there.

A question is a comment that starts with `# ?`. Where the recipe cannot do without the answer, the key stands there with
nothing behind it, so that the reader's own finding points at the question.
"""

import textwrap
from collections.abc import Iterator

from foldproof.frozen import dataclass
from foldproof.notes.draft_plan import Plan
from foldproof.notes.draft_steps import Steps
from foldproof.notes.parts import gather
from foldproof.notes.records import Notes
from foldproof.notes.words import ASKED, WIDTH, value


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A draft recipe."""

    text: str

    @property
    def questions(self) -> tuple[tuple[int, str], ...]:
        """What the notes never said, with the line of the draft where it is asked."""
        lines = enumerate(self.text.split("\n"), start=1)
        return tuple((number, line.split(ASKED, 1)[1].strip()) for number, line in lines if ASKED in line)


def draft(notes: Notes, file: str) -> Draft:
    """The draft of a recipe from notes; `file` is the notes' file as the author named it."""
    return Draft(text="\n".join(_lines(notes, file)) + "\n")


def _lines(notes: Notes, file: str) -> Iterator[str]:
    had = gather(notes)
    yield f"# A draft, read from {' '.join(file.split())}. Nothing in it is made up: where a comment starts with a"
    yield "# question mark, the notes do not say it. Answer it there, and let `foldproof check` read the recipe."
    yield f"title:{value(notes.title)}" if notes.title else f"title:  {ASKED} what is the card called"
    yield f"unit: {notes.unit}" if notes.unit else f"unit:  {ASKED} the notes give no unit: inch, mm or cm"
    yield from Plan(had).lines()
    yield from Steps(had).lines()
    if notes.rest:
        yield ""
        yield "# Said besides:"
        for passage in notes.rest:
            said = f"{passage.label}: {passage.text}" if passage.label else passage.text
            first = f"# line {passage.line}: "
            yield from textwrap.wrap(said, WIDTH, initial_indent=first, subsequent_indent="#   ")
