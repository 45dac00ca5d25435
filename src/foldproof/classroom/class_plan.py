"""The whole class plan on one screen: cards and heads in, needs, cutting, shopping, time line and cautions out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from foldproof.checks.words_of_caution import cautions
from foldproof.classroom.layout import offcuts
from foldproof.classroom.lesson import Heads, Lesson, Wanted, heads
from foldproof.classroom.needs import Needs, PaperNeed, PartNeed, needs
from foldproof.classroom.own_files import DeskProfile, Stock
from foldproof.classroom.sheets import MayTurn, Offcut, Part, Plan, Sheet
from foldproof.classroom.shopping import Shopping, shopping
from foldproof.classroom.timeline import Moment, timeline
from foldproof.facts.cautions import DEFER
from foldproof.findings.finding import Finding, Severity, has_errors
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_size
from foldproof.paper.vector import Segment

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
class PaperPlan:
    """How one paper is cut."""

    need: PaperNeed
    size: tuple[Fraction, Fraction]
    """Of a sheet as it is on the desk."""
    ahead: Plan | None
    """What the teacher cuts for all kits."""
    each: Plan | None
    """What each person cuts from their own sheets."""
    kits: int
    leftovers: tuple[tuple[Offcut, int], ...]
    """Offcuts worth keeping, of the teacher's cutting, with how many of each; the largest first."""

    @property
    def sheets(self) -> int:
        """For all kits."""
        return (self.ahead.count if self.ahead else 0) + (self.each.count * self.kits if self.each else 0)


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
    papers: tuple[PaperPlan, ...]
    shopping: Shopping
    moments: tuple[Moment, ...]
    cautions: tuple[TeacherCaution, ...]
    general: tuple[str, ...]

    @property
    def unit(self) -> Unit:
        """Of all its lengths."""
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
    count, need, findings = _before_cutting(lessons, wanted, desk)
    if count is None or need is None:
        return None, tuple(findings)
    papers = []
    for paper in need.papers:
        planned, odd = _paper(paper, need.unit, count, desk, seconds)
        findings += odd
        if planned is not None:
            papers.append(planned)
    sheets: dict[str, int | None] = {paper.name: None for paper in need.papers}
    sheets |= {planned.need.name: planned.sheets for planned in papers}
    bought, faults = shopping(lessons, need, sheets, count, stock)
    findings += faults
    if has_errors(tuple(findings)):
        return None, tuple(findings)
    ahead = [(part.title, _own_name(part)) for paper in need.papers for part in paper.parts if part.ahead]
    plan = ClassPlan(
        lessons=tuple(lessons),
        heads=count,
        desk=desk,
        needs=need,
        papers=tuple(papers),
        shopping=bought,
        moments=timeline(lessons, count, ahead),
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


def _paper(
    paper: PaperNeed, unit: Unit, count: Heads, desk: DeskProfile, seconds: float
) -> tuple[PaperPlan | None, list[Finding]]:
    """The cutting plan of one paper; a finding where there can be none."""
    from foldproof.classroom.planner import CannotBeCut, plan_cuts

    mm = unit.millimetres
    measured = desk.measured.get(str(paper.spec.name))
    size = (measured[0] / mm, measured[1] / mm) if measured else paper.sheet
    if size is None:
        return None, [
            Finding(
                name="sheet not known",
                severity=Severity.WARNING,
                message=f"The recipe does not say how large a sheet of {paper.name} is, so it can't be planned or "
                "bought by the sheet.",
                mend="Give the paper its `sheet`: [8 1/2, 11].",
                place=paper.spec.place,
            )
        ]
    sheet = Sheet(
        name=paper.name,
        width=size[0],
        height=size[1],
        kerf=desk.blade / mm,
        trim=desk.edge_trim / mm,
        longest_cut=desk.longest_cut / mm if desk.longest_cut else None,
        least_hold=desk.shortest_strip / mm,
    )
    try:
        ahead = plan_cuts(sheet, _parts(paper, count.kits, True), seconds=seconds)
        each = plan_cuts(sheet, _parts(paper, 1, False), seconds=seconds)
    except CannotBeCut as trouble:
        return None, [_cannot(paper, trouble.part, size, unit, measured is not None, desk)]
    keep = desk.least_offcut
    planned = PaperPlan(
        need=paper,
        size=size,
        ahead=ahead if ahead.layouts else None,
        each=each if each.layouts else None,
        kits=count.kits,
        leftovers=tuple(_leftovers(ahead, (keep[0] / mm, keep[1] / mm))),
    )
    return planned, list(_trim_is_dear(planned, count, seconds))


def _trim_is_dear(planned: PaperPlan, count: Heads, seconds: float) -> Iterator[Finding]:
    """Say so where trimming the edges of each sheet costs sheets."""
    from foldproof.classroom.planner import plan_cuts

    if planned.ahead is None or not planned.ahead.sheet.trim:
        return
    untrimmed = plan_cuts(
        replace(planned.ahead.sheet, trim=Fraction(0)), _parts(planned.need, count.kits, True), seconds=seconds / 2
    )
    more = planned.ahead.count - untrimmed.count
    if more > 0:
        name, sheets = planned.need.name, "sheet" if more == 1 else "sheets"
        yield Finding(
            name="trimming the edges costs sheets",
            severity=Severity.ADVICE,
            message=f"Trimming every edge of {name} takes {more} more {sheets} than leaving the edges as they are: "
            f"{planned.ahead.count}, not {untrimmed.count}.",
            mend="Set `edge trim` to 0 in the desk file where the edges of the sheets are clean.",
        )


def _parts(paper: PaperNeed, kits: int, ahead: bool) -> list[Part]:
    """Parts that are cut alike stay apart by name, so that the plan can say which is which."""
    return [
        Part(
            name=part.name,
            width=part.width,
            height=part.height,
            count=part.count(kits),
            may_turn=part.turn if part.width != part.height else MayTurn.ANY,
        )
        for part in paper.parts
        if part.ahead is ahead
    ]


def _cannot(
    paper: PaperNeed,
    name: str,
    size: tuple[Fraction, Fraction],
    unit: Unit,
    measured: bool,
    desk: DeskProfile,
) -> Finding:
    part = next((one for one in paper.parts if one.name == name), None)
    if part is None:
        return Finding(
            name="out of the trimmer's reach",
            severity=Severity.ERROR,
            message=f"The parts of {paper.name} can't be cut from sheets of {write_size(size, unit)}: a cut would be "
            "longer than the trimmer makes in one go, or leave less than it holds.",
            mend="Have the sheets cut down in the shop, cut those with a knife, or look at `longest cut` and "
            "`shortest strip` in the desk file.",
            place=paper.spec.place,
        )
    trim = f", less {with_unit(desk.edge_trim / unit.millimetres, unit)} off each edge" if desk.edge_trim else ""
    turn = {MayTurn.NONE: "upright ", MayTurn.HALF: "along the grain ", MayTurn.ANY: ""}[part.turn]
    real = "measures" if measured else "is"
    return Finding(
        name="part larger than its sheet",
        severity=Severity.ERROR,
        message=f"The {name}, {write_size((part.width, part.height), unit)}, can't be cut {turn}from {paper.name}: "
        f"the sheet {real} {write_size(size, unit)}{trim}.",
        mend="Take a larger sheet, trim less off its edges, or join the part from two.",
        place=paper.spec.place,
    )


def _leftovers(plan: Plan, least: tuple[Fraction, Fraction]) -> Iterator[tuple[Offcut, int]]:
    short, long = sorted(least)
    counts: dict[tuple[Fraction, Fraction], int] = {}
    for layout in plan.layouts:
        for one in offcuts(layout.root):
            low, high = sorted((one.width, one.height))
            if low >= short and high >= long:
                counts[low, high] = counts.get((low, high), 0) + layout.times
    for (low, high), times in sorted(counts.items(), key=lambda item: -item[0][0] * item[0][1]):
        yield Offcut(width=low, height=high), times


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
