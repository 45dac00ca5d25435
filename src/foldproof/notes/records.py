"""What can be read in the notes of a card."""

from enum import StrEnum

from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit


class Section(StrEnum):
    """What a part of the notes is about, by its heading."""

    SUPPLIES = "supplies"
    PARTS = "parts"
    STEPS = "steps"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """A paragraph, an item of a list, or a row of a table."""

    text: str
    """Without the marks of Markdown, on one line."""
    line: int
    """Where it begins in the notes, from 1."""
    section: Section
    label: str = ""
    """What stands before its colon: `Card base` of `Card base: 8 1/2 x 5 1/2`."""
    title: str = ""
    """Its own heading, where it is a step with one."""


class Role(StrEnum):
    """What a length, or a doing, in the notes is."""

    PART = "part"
    SHEET = "sheet"
    FINISHED = "finished"
    ENVELOPE = "envelope"
    SCORE = "score"
    BORDER = "border"
    SIDE = "side"
    SUPPLY = "supply"
    LAP = "lap"
    LAY = "lay"
    TURN = "turn"
    TURN_OVER = "turn over"
    FOLD = "fold"
    ATTACH = "attach"
    TIE = "tie"
    DRY = "dry"
    UNPLACED = "unplaced"
    """A length whose place was not understood: it becomes a question."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One thing that was read, in the order of the notes."""

    role: Role
    line: int
    """Of the passage in the notes."""
    quote: str
    """The words that it was read from."""
    lengths: tuple[str, ...] = ()
    """As a recipe writes them: one, or width and height in the order of mention."""
    name: str = ""
    """The part, paper or supply that it is about."""
    paper: str = ""
    """Of a part: the paper that is said."""
    word: str = ""
    """A side, an edge, a fold, a way to turn; what holds it when something is attached."""
    count: str = ""
    """How many of it there are, where it is more than one: `two`."""
    ordered: bool = True
    """Whether it is said which length is the width, or the usual order may be taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NotedStep:
    """A passage that tells of something done."""

    passage: Passage
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Notes:
    """All that could be read."""

    title: str
    """Empty where there is none."""
    unit: Unit | None
    """None where no length has one."""
    facts: tuple[Fact, ...]
    steps: tuple[NotedStep, ...]
    papers: tuple[str, ...]
    weights: tuple[tuple[str, str], ...]
    """Of papers by name, as written."""
    supplies: tuple[str, ...]
    tools: tuple[str, ...]
    envelope: str
    rest: tuple[Passage, ...]
    """What tells of nothing that a recipe holds."""
