"""How one paper of a class is cut: what the teacher cuts for all kits, what people cut from sheets in the class."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from foldproof.classroom.layout import offcuts
from foldproof.classroom.lesson import Heads
from foldproof.classroom.needs import PaperNeed
from foldproof.classroom.own_files import DeskProfile
from foldproof.classroom.sheets import MayTurn, Offcut, Part, Plan, Sheet
from foldproof.findings.finding import Finding, Severity
from foldproof.frozen import dataclass
from foldproof.measures.writing import with_unit, write_size


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperPlan:
    """How one paper is cut."""

    need: PaperNeed
    size: tuple[Fraction, Fraction]
    """Of a sheet as it is on the desk."""
    ahead: Plan | None
    """What the teacher cuts for all kits."""
    each: Plan | None
    """What people cut in the class from whole sheets, so many of them together."""
    together: int
    """People who share what `each` takes: more than one where their parts come out of one sheet."""
    kits: int
    leftovers: tuple[tuple[Offcut, int], ...]
    """Offcuts worth keeping, of the teacher's cutting, with how many of each; the largest first."""

    @property
    def sheets(self) -> int:
        """For all kits."""
        return (self.ahead.count if self.ahead else 0) + (self.each.count * self.groups if self.each else 0)

    @property
    def groups(self) -> int:
        """Of people who share."""
        return -(-self.kits // self.together)


def plan_paper(
    paper: PaperNeed, count: Heads, desk: DeskProfile, seconds: float
) -> tuple[PaperPlan | None, list[Finding]]:
    """The cutting plan of one paper; a finding where there can be none."""
    from foldproof.classroom.planner import CannotBeCut, plan_cuts

    mm = paper.unit.millimetres
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
        each, together = _shared(paper, sheet, count.kits, seconds)
    except CannotBeCut as trouble:
        return None, [_cannot(paper, trouble.part, size, measured is not None, desk)]
    keep = desk.least_offcut
    planned = PaperPlan(
        need=paper,
        size=size,
        ahead=ahead if ahead.layouts else None,
        each=each if each.layouts else None,
        together=together,
        kits=count.kits,
        leftovers=tuple(_leftovers(ahead, (keep[0] / mm, keep[1] / mm))),
    )
    return planned, list(_trim_is_dear(planned, count, seconds))


def _shared(paper: PaperNeed, sheet: Sheet, kits: int, seconds: float) -> tuple[Plan, int]:
    """What people cut in the class: one person's sheets, or one sheet that as many share as it serves."""
    from foldproof.classroom.planner import plan_cuts

    alone = plan_cuts(sheet, _parts(paper, 1, False), seconds=seconds)
    if alone.count != 1:
        return alone, 1
    area = sum(part.width * part.height * part.count for part in alone.parts)
    low, high = 1, max(1, min(kits, int(2 * sheet.width * sheet.height / area)))
    while low < high:
        middle = (low + high + 1) // 2
        if plan_cuts(sheet, _parts(paper, middle, False), seconds=seconds / 8).count == 1:
            low = middle
        else:
            high = middle - 1
    together = -(-kits // -(-kits // low))
    return plan_cuts(sheet, _parts(paper, together, False), seconds=seconds / 4), together


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
    measured: bool,
    desk: DeskProfile,
) -> Finding:
    unit = paper.unit
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
