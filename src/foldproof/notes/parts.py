"""What a draft is written from: the parts with their scores, and the names that they have in the recipe."""

from foldproof.frozen import dataclass
from foldproof.notes.naming import PIECE_NOUNS, usable
from foldproof.notes.records import Fact, NotedStep, Notes, Role


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A piece or a layer."""

    fact: Fact
    piece: bool
    scores: tuple[Fact, ...]

    @property
    def name(self) -> str:
        """Its name."""
        return self.fact.name

    def score_name(self, number: int) -> str:
        """The name of one of its scores, counted from 1."""
        return f"{self.name} score {number}"

    @property
    def join(self) -> str:
        """The name of the join that glues it on."""
        return f"{self.name} glued on"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """The notes with the names that things have in the draft."""

    notes: Notes
    parts: tuple[Part, ...]
    papers: tuple[str, ...]
    supplies: tuple[str, ...]

    def of(self, role: Role) -> tuple[Fact, ...]:
        """Every fact of a role."""
        return tuple(fact for fact in self.notes.facts if fact.role is role)

    @property
    def base(self) -> str:
        """The first part; empty where there is none."""
        return self.parts[0].name if self.parts else ""


def gather(notes: Notes) -> Gathered:
    """Give scores to the parts that they are on: the one that is named, else the first."""
    parts = [fact for fact in notes.facts if fact.role is Role.PART]
    scored = [fact for fact in notes.facts if fact.role is Role.SCORE]
    base = parts[0].name if parts else ""
    return Gathered(
        notes=notes,
        parts=tuple(
            Part(
                fact=fact, piece=fact.name.split()[-1] in PIECE_NOUNS or number == 0,
                scores=tuple(score for score in scored if (score.name or base) == fact.name))
            for number, fact in enumerate(parts)),
        papers=tuple(usable(name, "paper") for name in notes.papers),
        supplies=tuple(usable(name, "supply") for name in notes.supplies))


def owned(step: NotedStep) -> list[tuple[Fact, str]]:
    """Borders and distances of a step, each with what is fixed there: by its own sentence, else the last one before."""
    found = []
    for number, fact in enumerate(step.facts):
        if fact.role in (Role.BORDER, Role.SIDE):
            fixed = [each for each in step.facts if each.role is Role.ATTACH]
            here = [each.name for each in fixed if each.quote == fact.quote]
            before = [each.name for each in step.facts[:number] if each.role is Role.ATTACH]
            found.append((fact, (here or before or [each.name for each in fixed] or [""])[-1]))
    return found
