"""How each paper of a class is cut, in words: what is cut ahead, what in the class, each cut with its setting."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from foldproof.classroom.class_plan import ClassPlan
from foldproof.classroom.instructions import Corners, Work, corner_to_corner, work_through
from foldproof.classroom.layout import settings
from foldproof.classroom.needs import PartNeed
from foldproof.classroom.paper_plan import PaperPlan
from foldproof.classroom.sheets import Layout, Line, MayTurn, Plan, taken
from foldproof.drawing.cutting_layout import draw_layout
from foldproof.drawing.record import PLAIN, Drawing
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import write_length, write_size


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """A numbered row of work at the trimmer."""

    number: int
    take: str
    stop: str
    do: str
    get: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutView:
    """One layout of a paper."""

    heading: str
    drawing: Drawing
    rows: tuple[CutRow, ...]
    gives: str
    stops: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperView:
    """How one paper is cut."""

    name: str
    stock: str
    sheets: str
    proof: str
    layouts: tuple[LayoutView, ...]
    own: tuple[LayoutView, ...]
    """What each person cuts."""
    own_note: str
    spares: str
    """Parts beyond what is needed; empty where there are none."""
    keep: tuple[str, ...]
    """Offcuts worth keeping."""
    parts: tuple[str, ...]
    """Parts with size, count and how they lie."""


def tell_paper(plan: ClassPlan, one: PaperPlan, at: int) -> PaperView:
    """One paper, the `at`-th of the plan."""
    need, unit = one.need, one.need.unit
    stock = ", ".join(str(word) for word in (need.spec.kind, need.spec.weight) if word)
    size = write_size(one.size, unit)
    total = f"{one.sheets} {'sheet' if one.sheets == 1 else 'sheets'} of {size}"
    return PaperView(
        name=need.name,
        stock=stock,
        sheets=total,
        proof=_proof(one.ahead) if one.ahead else "",
        layouts=tuple(_layouts(plan, one, one.ahead, f"{at}")) if one.ahead else (),
        own=tuple(_layouts(plan, one, one.each, f"{at}-own")) if one.each else (),
        own_note=_own_note(one),
        spares=_spares(one.ahead) if one.ahead else "",
        keep=tuple(f"{times} of {write_size((left.width, left.height), unit)}" for left, times in one.leftovers),
        parts=tuple(_part_words(part, plan, unit) for part in need.parts),
    )


def _proof(cut: Plan) -> str:
    """`7 sheets; fewer than 7 is impossible`."""
    sheets = f"{cut.count} {'sheet' if cut.count == 1 else 'sheets'}"
    if cut.proven:
        return f"{sheets}; fewer than {cut.count} is impossible ({cut.reason})."
    any_strip = " even on a trimmer that holds any strip" if cut.sheet.least_hold else ""
    return f"{sheets}; fewer than {cut.least} is impossible{any_strip}, and between the two nothing better was found."


def _own_note(one: PaperPlan) -> str:
    if one.each is None:
        return ""
    if one.together > 1:
        return f"Cut in the class: one sheet serves {one.together} kits, by this plan."
    sheets = f"{one.each.count} {'sheet' if one.each.count == 1 else 'sheets'}"
    return f"Cut in the class: each person gets {sheets} and cuts by this plan."


def _spares(cut: Plan) -> str:
    wanted = {part.name: part.count for part in cut.parts}
    got = dict.fromkeys(wanted, 0)
    for layout in cut.layouts:
        for name, count in taken(layout.root).items():
            got[name] += count * layout.times
    more = [f"{got[name] - count} {name}" for name, count in wanted.items() if got[name] > count]
    return f"Beyond the kits it gives {', '.join(more)}." if more else ""


def _part_words(part: PartNeed, plan: ClassPlan, unit: Unit) -> str:
    """Name, size, how many, how it lies."""
    size = write_size(own_size(part), unit)
    count = part.count(plan.heads.kits)
    what = part.name if part.rising is None else f"{'rectangle' if count == 1 else 'rectangles'} for {part.name}"
    words = f"{count} {what}, {size}"
    more = []
    if part.shape == "circle":
        more.append("cut round from this square")
    elif part.halves:
        more.append("two triangles from each, along the diagonal")
    elif part.shape == "triangle":
        more.append("cut along its diagonal")
    elif part.shape:
        more.append("cut out of this rectangle")
    if part.others:
        more.append(f"also gives the {' and the '.join(part.others)}")
    if part.turn is MayTurn.NONE:
        more.append("upright on the sheet, for the pattern")
    elif part.turn is MayTurn.HALF:
        side = "on its side" if part.on_side else "upright"
        more.append(f"{side} on the sheet, so that the grain runs along the folds")
    if not part.ahead:
        more.append("cut in the class")
    return words + (f" ({'; '.join(more)})" if more else "")


def own_size(part: PartNeed) -> tuple[Fraction, Fraction]:
    """Width and height of the part as it stands in the card."""
    return (part.height, part.width) if part.on_side else (part.width, part.height)


def _layouts(plan: ClassPlan, one: PaperPlan, cut: Plan, key: str) -> Iterator[LayoutView]:
    unit = one.need.unit
    names = {part.name: part.name for part in cut.parts}
    rising = {part.name: part.rising != part.on_side for part in one.need.parts if part.rising is not None}
    circles = [part.name for part in one.need.parts if part.shape == "circle"]
    tone = str(one.need.spec.tone) if one.need.spec.tone else None
    for number, layout in enumerate(cut.layouts, start=1):
        works, _ = work_through(layout.root)
        several = len(cut.layouts) > 1
        head = f"Layout {number}: " if several else ""
        rows = [_row(work, plan, unit) for work in works]
        rows += [_corner_row(corners, one) for corners in corner_to_corner(layout.root, rising)]
        yield LayoutView(
            heading=f"{head}{layout.times} {'sheet' if layout.times == 1 else 'sheets'}",
            drawing=draw_layout(
                layout, cut.sheet, unit, name=f"cut-{key}-{number}", tone=tone, names=names, rising=rising,
                circles=circles, style=PLAIN,
            ),
            rows=tuple(rows),
            gives=_gives(layout),
            stops=_stops(layout, plan, unit),
        )


def _gives(layout: Layout) -> str:
    each = "" if layout.times == 1 else "Each sheet gives "
    said = ", ".join(f"{count} {part}" for part, count in sorted(taken(layout.root).items()))
    return f"{each}{said}." if each else f"Gives {said}."


def _stops(layout: Layout, plan: ClassPlan, unit: Unit) -> str:
    marks = sorted(settings(layout.root), reverse=True)
    return ", ".join(_stop(at, plan, unit) for at in marks)


def _stop(at: Fraction, plan: ClassPlan, unit: Unit) -> str:
    """The setting of the stop that makes a strip come out as wide as this."""
    return write_length(at - plan.desk.cuts_long / unit.millimetres, unit)


def _row(work: Work, plan: ClassPlan, unit: Unit) -> CutRow:
    takes = work.takes if work.takes_count == 1 else f"each {work.takes} ({work.takes_count})"
    takes = takes if work.takes == "the sheet" else takes if work.takes_count > 1 else f"strip {work.takes}"
    edge = "left" if work.line is Line.UPRIGHT else "bottom"
    times = "once" if work.cuts == 1 else f"{work.cuts} times"
    gives = work.gives if not work.gives.isupper() else f"strip {work.gives}"
    get = f"{work.gives_count} × {gives}, {write_size(work.gives_size, unit)}"
    if work.turned:
        get += ", on its side"
    if work.rest and work.rest_size is not None:
        rest = work.rest if not work.rest.isupper() else f"strip {work.rest}"
        get += f"; left: {rest}, {write_size(work.rest_size, unit)}"
    return CutRow(
        number=work.number,
        take=takes[:1].upper() + takes[1:],
        stop=_stop(work.at, plan, unit),
        do=f"{edge} edge to stop, {times}",
        get=get,
    )


def _corner_row(corners: Corners, one: PaperPlan) -> CutRow:
    part = next(part for part in one.need.parts if part.name == corners.part)
    if part.others:
        get = " and ".join(f"{corners.count} × {name}" for name in (part.name, *part.others))
    else:
        get = f"{2 * corners.count if part.halves else corners.count} × {part.name}"
    take = f"Each {part.name} ({corners.count})" if corners.count > 1 else part.name[:1].upper() + part.name[1:]
    return CutRow(
        number=corners.number, take=take, stop="–", do="from corner to corner, as drawn", get=f"{get}, triangles"
    )
