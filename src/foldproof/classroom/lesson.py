"""What a class plan starts from: proved cards, and how many people come."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from foldproof.findings.finding import Finding, Severity
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Making
from foldproof.measures.quantity import Quantity, Unit
from foldproof.recipe.class_records import ClassSpec
from foldproof.recipe.keys_class import MOST_PEOPLE

ONE_SPARE_FOR = 10
"""People for each spare kit, where the recipe does not say; common practice, no source."""
PACE = Fraction(3, 2)
"""How much slower a class works than the steps' minutes; a guess of our own, no source."""
WELCOME, TIDYING = Fraction(300), Fraction(600)
"""Seconds; guesses of our own, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """One card that the class makes."""

    card: Card
    making: Making

    @property
    def title(self) -> str:
        """The card's title."""
        return str(self.card.recipe.title)

    @property
    def spec(self) -> ClassSpec | None:
        """The recipe's class part."""
        return self.card.recipe.class_part

    @property
    def unit(self) -> Unit:
        """The recipe's unit."""
        return self.card.recipe.unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What the command line says; it goes before the recipe."""

    people: int | None = None
    spares: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Heads:
    """How many kits there are to be."""

    people: int
    spares: int
    sample: bool

    @property
    def kits(self) -> int:
        """All of them."""
        return self.people + self.spares + int(self.sample)


def heads(lessons: Sequence[Lesson], wanted: Wanted) -> tuple[Heads | None, tuple[Finding, ...]]:
    """How many come; None with a finding where that is not known or makes no sense."""
    people = wanted.people
    if people is None:
        people = max((int(p.value) for one in lessons if one.spec and (p := one.spec.people)), default=None)
    fault = _fault(people, wanted.spares)
    if fault is not None or people is None:
        return None, (fault,) if fault else ()
    spares = wanted.spares
    if spares is None:
        given = [int(s.value) for one in lessons if one.spec and (s := one.spec.spares) is not None]
        spares = max(given) if given else -(-people // ONE_SPARE_FOR)
    sample = any(one.spec is None or one.spec.sample for one in lessons)
    return Heads(people=people, spares=spares, sample=sample), ()


def _fault(people: int | None, spares: int | None) -> Finding | None:
    if people is None:
        return _error(
            "people not said",
            "Neither the command nor the recipe says how many people come.",
            "Add --people 12, or a part `class` with `people: 12` to the recipe.",
        )
    if people < 1:
        return _error(
            "nobody comes", f"{people} people: a class has at least one.", "Say how many people come, with --people 12."
        )
    if people > MOST_PEOPLE:
        return _error(
            "more people than a class",
            f"{people:,} people: a class plan is for {MOST_PEOPLE:,} at the most.",
            "Plan one class, and make it as often as it is held.",
        )
    if spares is not None and not 0 <= spares <= MOST_PEOPLE:
        return _error(
            "spares out of bounds", f"{spares} spare kits: from 0 to {MOST_PEOPLE:,} can be planned.", "Say how many."
        )
    return None


def _error(name: str, message: str, mend: str) -> Finding:
    return Finding(name=name, severity=Severity.ERROR, message=message, mend=mend)


def all_specs(lessons: Sequence[Lesson]) -> Iterator[ClassSpec]:
    """The class parts that there are."""
    return (one.spec for one in lessons if one.spec is not None)


def first_given(quantities: Iterator[Quantity | None], usual: Fraction) -> Fraction:
    """The largest value that a recipe gives, or the usual one."""
    return max((one.value for one in quantities if one is not None), default=usual)
