"""The whole class plan on one screen: cards and heads in, needs, cutting, shopping, time line and cautions out."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from foldproof.checks.words_of_caution import cautions
from foldproof.classroom.lesson import Heads, Lesson, Wanted, heads
from foldproof.classroom.needs import Needs, PartNeed, needs
from foldproof.classroom.own_files import DeskProfile, Stock
from foldproof.classroom.shopping import Shopping, shopping
from foldproof.facts.cautions import DEFER
from foldproof.findings.finding import Finding, Severity, has_errors
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.paper.vector import Segment

if TYPE_CHECKING:
    from foldproof.classroom.advice import Advice
    from foldproof.classroom.paper_plan import PaperPlan
    from foldproof.classroom.timeline import Moment
    from foldproof.classroom.trouble import TroubleSpot

SECONDS_A_PAPER = 8.0
GENERAL_CAUTIONS = (
    "Ask before the class about allergies (glue, latex, fibers, inks), sight and hands, and who needs help with a "
    "blade.",
    "Follow the rules of the place that you teach in: who may use blades and heat, how many to one adult, what the "
    "insurance asks.",
    "With children: an adult cuts, and count the blades out and in. Small parts are not for children under 3.",
    "Keep a first-aid kit, a sharps container and water near.",
    DEFER,
)
"""Beside the facts with their sources in facts.cautions; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TeacherCaution:
    """A caution on the teacher's sheet."""

    about: str
    text: str
    where: str
    """The cards and steps that it belongs to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassPlan:
    """Everything for one class."""

    lessons: tuple[Lesson, ...]
    heads: Heads
    desk: DeskProfile
    needs: Needs
    papers: "tuple[PaperPlan, ...]"
    shopping: Shopping
    moments: "tuple[Moment, ...]"
    trouble: "tuple[TroubleSpot, ...]"
    advice: "tuple[Advice, ...]"
    cautions: tuple[TeacherCaution, ...]
    general: tuple[str, ...]

    @property
    def unit(self) -> Unit:
        """Of the first card, for the desk and the page; each paper and supply has its own."""
        return self.needs.unit


def plan_class(
    lessons: Sequence[Lesson],
    wanted: Wanted,
    *,
    stock: Stock,
    desk: DeskProfile,
    seconds: float = SECONDS_A_PAPER,
) -> tuple[ClassPlan | None, tuple[Finding, ...]]:
    """Plan a class; None where a finding is an error. `seconds` bounds the search for each paper's cutting plan."""
    from foldproof.classroom.advice import advice
    from foldproof.classroom.paper_plan import plan_paper
    from foldproof.classroom.timeline import timeline
    from foldproof.classroom.trouble import trouble_spots

    count, need, findings = _before_cutting(lessons, wanted, desk)
    if count is None or need is None:
        return None, tuple(findings)
    papers = []
    for paper in need.papers:
        planned, odd = plan_paper(paper, count, desk, seconds)
        findings += odd
        if planned is not None:
            papers.append(planned)
    sheets: dict[str, int | None] = {paper.name: None for paper in need.papers}
    sheets |= {planned.need.name: planned.sheets for planned in papers}
    bought, faults = shopping(lessons, need, sheets, count, stock)
    findings += faults
    if has_errors(tuple(findings)):
        return None, tuple(findings)
    ahead = [
        (part.title, name)
        for paper in need.papers
        for part in paper.parts
        if part.ahead
        for name in (_own_name(part), *part.others)
    ]
    moments = timeline(lessons, count, ahead)
    before = frozenset((one.card, one.number or 0) for one in moments if one.kind == "cut ahead")
    plan = ClassPlan(
        lessons=tuple(lessons),
        heads=count,
        desk=desk,
        needs=need,
        papers=tuple(papers),
        shopping=bought,
        moments=moments,
        trouble=trouble_spots(lessons, before),
        advice=advice(lessons, count, moments, any(paper.leftovers for paper in papers)),
        cautions=tuple(_cautions(lessons)),
        general=GENERAL_CAUTIONS,
    )
    return plan, tuple(findings)


def class_findings(lesson: Lesson) -> tuple[Finding, ...]:
    """What is wrong with a recipe's class part, as far as it shows without a cutting plan: quick."""
    if lesson.spec is None or lesson.spec.people is None:
        return ()
    count, need, findings = _before_cutting([lesson], Wanted(), DeskProfile())
    if count is not None and need is not None:
        sheets: dict[str, int | None] = {paper.name: None for paper in need.papers}
        findings += shopping([lesson], need, sheets, count, Stock())[1]
    return tuple(findings)


def _before_cutting(
    lessons: Sequence[Lesson], wanted: Wanted, desk: DeskProfile
) -> tuple[Heads | None, Needs | None, list[Finding]]:
    count, found = heads(lessons, wanted)
    if count is None:
        return None, None, list(found)
    need, more = needs(lessons)
    return count, need, [*found, *more, *_long_scores(lessons, desk), *_idle_files(need, desk)]


def _own_name(part: PartNeed) -> str:
    return part.name.removesuffix(f", {part.title}")


def _long_scores(lessons: Sequence[Lesson], desk: DeskProfile) -> Iterator[Finding]:
    """Scores that are longer than the scoring board takes."""
    if desk.widest_score is None:
        return
    for lesson in lessons:
        widest = desk.widest_score / lesson.unit.millimetres
        for piece in lesson.card.pieces:
            for score in piece.scores:
                if _square_of_length(score.segment) > widest**2:
                    yield Finding(
                        name="score longer than the board",
                        severity=Severity.WARNING,
                        message=f"The score {score.name} of the {piece.name} is longer than the "
                        f"{with_unit(widest, lesson.unit)} that your scoring board takes.",
                        mend="Score it in two goes against a ruler, or move the piece along and score the rest.",
                        place=score.place,
                    )


def _square_of_length(segment: Segment) -> Fraction:
    x, y = segment.end.x - segment.start.x, segment.end.y - segment.start.y
    return Fraction(x * x + y * y)


def _idle_files(need: Needs, desk: DeskProfile) -> Iterator[Finding]:
    """Measured sheets of papers that no card has."""
    known = {str(paper.spec.name) for paper in need.papers}
    for name in desk.measured:
        if name not in known and len(desk.measured) == 1:
            yield Finding(
                name="paper not in the class",
                severity=Severity.ADVICE,
                message=f"The desk file measures sheets of {name}; no card of this class has such a paper.",
                mend=f"The papers of this class: {', '.join(sorted(known))}.",
            )


def _cautions(lessons: Sequence[Lesson]) -> Iterator[TeacherCaution]:
    told: dict[tuple[str, str], list[str]] = {}
    for lesson in lessons:
        numbers = {step.spec.id: step.number for step in lesson.making.steps}
        titled = f"{lesson.title}, " if len(lessons) > 1 else ""
        for one in cautions(lesson.card):
            told.setdefault((one.about, one.text), []).append(f"{titled}step {numbers[one.step]}")
        for step in lesson.making.steps:
            if step.spec.caution:
                key = (str(step.spec.title), " ".join(str(step.spec.caution).split()))
                told.setdefault(key, []).append(f"{titled}step {step.number}")
    for (about, text), where in told.items():
        yield TeacherCaution(about=about, text=text, where=", ".join(where))
