"""What the class plan says, settled once: the printed plan and the table say these words and no others."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from foldproof.classroom.advice import Advice
from foldproof.classroom.class_plan import ClassPlan, TeacherCaution
from foldproof.classroom.supplies import SupplyNeed
from foldproof.classroom.timeline import Moment
from foldproof.classroom.trouble import TroubleSpot
from foldproof.documents.class_buying import Bought, amount, money_note, plural, tell_cost, tell_item
from foldproof.documents.class_cutting import PaperView, own_size, tell_paper
from foldproof.documents.view import Fact
from foldproof.drawing.record import Drawing
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_size

MOST_LABELS = 66
"""Kits whose labels are printed one by one; beyond, one page of them is printed to copy."""
PAGE_OF_LABELS = 15
MOST_NAMED = 6
"""Papers that the head of the plan names one by one."""
MOST_LINES = 14
"""Things that a label lists one by one; beyond, it counts them by card."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KitLine:
    """One thing in a kit."""

    what: str
    size: str
    count: str
    total: str
    note: str
    card: str = ""
    """The card that it belongs to; empty for what belongs to none alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeRow:
    """A row of the time line."""

    clock: str
    lasts: str
    what: str
    queue: str
    hand_out: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A step where people go wrong."""

    where: str
    why: str
    help: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassView:
    """Everything that the documents of a class say."""

    title: str
    heading: str
    short: str
    """The heading where room is scarce: at the foot of a page, on a label."""
    facts: tuple[Fact, ...]
    bought: tuple[Bought, ...]
    money: tuple[Fact, ...]
    money_note: str
    papers: tuple[PaperView, ...]
    desk_note: str
    kit: tuple[KitLine, ...]
    shared: tuple[KitLine, ...]
    labels: tuple[str, ...]
    label_lines: tuple[str, ...]
    time: tuple[TimeRow, ...]
    time_note: str
    trouble: tuple[Spot, ...]
    advice: tuple[Advice, ...]
    cautions: tuple[TeacherCaution, ...]
    general: tuple[str, ...]
    language: str
    unit: Unit
    revision: str
    version: str
    dated: str

    @property
    def copied(self) -> bool:
        """Whether the labels are a page to copy."""
        return len(set(self.labels)) < len(self.labels)

    @property
    def stamp(self) -> str:
        """What every document of the class carries."""
        return f"revision {self.revision}" + (f", {self.dated}" if self.dated else "")

    @property
    def drawings(self) -> tuple[Drawing, ...]:
        """All its drawings."""
        return tuple(one.drawing for paper in self.papers for one in (*paper.layouts, *paper.own))


def tell_class(plan: ClassPlan, *, revision: str, version: str, dated: str = "") -> ClassView:
    """The view of a class plan."""
    titles = [lesson.title for lesson in plan.lessons]
    heading = titles[0] if len(titles) == 1 else f"{', '.join(titles[:-1])} and {titles[-1]}"
    papers = tuple(tell_paper(plan, one, at) for at, one in enumerate(plan.papers, start=1))
    kit = tuple(_kit(plan))
    return ClassView(
        title=f"Class plan: {heading}",
        heading=heading,
        short=heading if len(titles) < 4 else f"{titles[0]} and {len(titles) - 1} more cards",
        facts=tuple(_facts(plan)),
        bought=tuple(tell_item(item, plan) for item in plan.shopping.items),
        money=tuple(tell_cost(plan.shopping.cost)) if plan.shopping.cost else (),
        money_note=money_note(plan.shopping.cost),
        papers=papers,
        desk_note=_desk_note(plan),
        kit=kit,
        shared=tuple(_shared(plan)),
        labels=_labels(plan),
        label_lines=_label_lines(kit, plan),
        time=tuple(_time(moment, plan) for moment in plan.moments),
        time_note=_time_note(plan),
        trouble=tuple(_spot(spot, plan) for spot in plan.trouble),
        advice=plan.advice,
        cautions=plan.cautions,
        general=plan.general,
        language=plan.lessons[0].card.recipe.language,
        unit=plan.unit,
        revision=revision,
        version=version,
        dated=dated,
    )


def _facts(plan: ClassPlan) -> Iterator[Fact]:
    heads = plan.heads
    yield Fact(label="People", text=str(heads.people))
    extra = [f"{heads.spares} spare"] if heads.spares else []
    extra += ["1 for the teacher"] if heads.sample else []
    yield Fact(label="Kits", text=f"{heads.kits}" + (f" ({heads.people}, {', '.join(extra)})" if extra else ""))
    end = max((m.start + m.seconds for m in plan.moments), default=Fraction(0))
    yield Fact(label="Class time", text=f"about {_span(end)}")
    sheets = [f"{one.sheets} {one.need.name}" for one in plan.papers]
    if len(sheets) > MOST_NAMED:
        sheets = [f"{sum(one.sheets for one in plan.papers)} of {len(sheets)} papers"]
    if sheets:
        yield Fact(label="Sheets", text=", ".join(sheets))
    cost = plan.shopping.cost
    if cost is not None:
        yield Fact(label="Materials each", text=amount(cost.each, cost.currency))
        if cost.suggested is not None:
            yield Fact(label="Suggested price", text=amount(cost.suggested, cost.currency))


def _desk_note(plan: ClassPlan) -> str:
    desk, unit = plan.desk, plan.unit
    said = []
    if desk.cuts_long:
        way = "long" if desk.cuts_long > 0 else "short"
        by = with_unit(abs(desk.cuts_long) / unit.millimetres, unit)
        said.append(f"Your trimmer cuts {by} {way}: each stop is set so that the strip comes out as it should.")
    if desk.edge_trim:
        said.append(f"{with_unit(desk.edge_trim / unit.millimetres, unit)} is trimmed off each edge of a new sheet.")
    return " ".join(said)


def _kit(plan: ClassPlan) -> Iterator[KitLine]:
    kits = plan.heads.kits
    for paper in plan.papers:
        for part in paper.need.parts:
            size = write_size(own_size(part), paper.need.unit)
            if part.ahead:
                note = "cut from this rectangle" if part.others else ""
                note = "half of this rectangle" if part.rising is not None else note
                titled = f", {part.title}" if len(plan.lessons) > 1 else ""
                for name in (part.name, *(f"{other}{titled}" for other in part.others)):
                    yield KitLine(
                        what=f"{name}, {paper.need.name}", size=size, count="1", total=str(kits), note=note,
                        card=part.title,
                    )
        if paper.each is not None and paper.together == 1:
            count = paper.each.count
            yield KitLine(
                what=f"{paper.need.name}, whole {'sheet' if count == 1 else 'sheets'}",
                size=write_size(paper.size, paper.need.unit),
                count=str(count),
                total=str(count * kits),
                note="cut in the class",
            )
    for die in plan.needs.dies:
        yield KitLine(what=_titled(die, plan), size="", count="1", total=str(kits), note=die.reckoned, card=die.title)
    for supply in plan.needs.supplies:
        if supply.length is not None:
            yield KitLine(
                what=_titled(supply, plan),
                size=with_unit(supply.length, supply.unit),
                count="1",
                total=str(kits),
                note=supply.reckoned,
                card=supply.title,
            )
        elif supply.pieces is not None:
            yield KitLine(
                what=_titled(supply, plan),
                size="",
                count=str(supply.pieces),
                total=str(supply.pieces * kits),
                note=supply.amount if " " in supply.amount else "",
                card=supply.title,
            )


def _titled(supply: SupplyNeed, plan: ClassPlan) -> str:
    return supply.name if len(plan.lessons) == 1 else f"{supply.name}, {supply.title}"


def _shared(plan: ClassPlan) -> Iterator[KitLine]:
    """What stands on the tables: sheets that people share, supplies that can't be counted, and tools."""
    for paper in plan.papers:
        if paper.each is not None and paper.together > 1:
            yield KitLine(
                what=f"{paper.need.name}, whole sheets",
                size="",
                count="",
                total="",
                note=f"{paper.groups}, one for every {paper.together} kits" if paper.groups > 1
                else "one, for all to cut from",
            )
    amounts: dict[str, dict[str, None]] = {}
    for supply in plan.needs.supplies:
        if supply.length is None and supply.pieces is None:
            amounts.setdefault(supply.name, {}).update({supply.amount: None} if supply.amount else {})
    for name, several in amounts.items():
        note = f"each card: {' or '.join(several)}" if several else ""
        yield KitLine(what=name, size="", count="", total="", note=note)
    told: set[str] = set()
    for lesson in plan.lessons:
        for tool in lesson.card.recipe.tools:
            if str(tool.name) in told:
                continue
            told.add(str(tool.name))
            yield KitLine(
                what=str(tool.name), size="", count="", total="", note="one for each person" if tool.basic else ""
            )


def _labels(plan: ClassPlan) -> tuple[str, ...]:
    heads = plan.heads
    if heads.kits > MOST_LABELS:
        return (f"Kit __ of {heads.kits}",) * PAGE_OF_LABELS
    labels = [f"Kit {number} of {heads.people}" for number in range(1, heads.people + 1)]
    labels += [f"Spare {number}" for number in range(1, heads.spares + 1)]
    return (*labels, *(["Teacher's sample"] if heads.sample else []))


def _label_lines(kit: Sequence[KitLine], plan: ClassPlan) -> tuple[str, ...]:
    if len(kit) <= MOST_LINES:
        return tuple(" ".join(part for part in (line.count, line.what, line.size) if part) for line in kit)
    return tuple(f"{lesson.title}: {sum(line.card == lesson.title for line in kit)} things" for lesson in plan.lessons)


def _time(moment: Moment, plan: ClassPlan) -> TimeRow:
    what = moment.title
    if moment.number is not None:
        card = f"{moment.card}, " if len(plan.lessons) > 1 else ""
        what = f"{card}step {moment.number}: {moment.title}"
    queue = ""
    if moment.queue is not None:
        people, tools = plan.heads.people, moment.queue.count
        queue = (
            f"{people} people, {tools} {moment.queue.tool if tools == 1 else plural(moment.queue.tool)}: "
            f"{moment.queue.rounds} turns, {_span(moment.queue.seconds)} in all"
        )
    note = moment.note + (
        ("; " if moment.note else "") + "no minutes in the recipe, reckoned as 2" if moment.guessed else ""
    )
    return TimeRow(
        clock=_clock(moment.start),
        lasts=_span(moment.seconds) if moment.seconds else "",
        what=what[:1].upper() + what[1:],
        queue=queue,
        hand_out=", ".join(moment.hand_out),
        note=note,
    )


def _time_note(plan: ClassPlan) -> str:
    queues = [moment for moment in plan.moments if moment.queue is not None]
    if not queues:
        return ""
    longest = max(queues, key=lambda moment: moment.seconds)
    assert longest.queue is not None
    return (
        f"The class waits longest at step {longest.number}, for the {longest.queue.tool}: "
        f"{_span(longest.queue.seconds)}. Cut more ahead, bring another {longest.queue.tool}, or let half of the "
        "people do the next step that needs none."
    )


def _spot(spot: TroubleSpot, plan: ClassPlan) -> Spot:
    card = f"{spot.card}, " if len(plan.lessons) > 1 else ""
    where = f"{card}step {spot.number}: {spot.title}"
    why = "; ".join(spot.reasons)
    return Spot(where=where[:1].upper() + where[1:], why=f"{why[:1].upper()}{why[1:]}.", help=spot.help)


def _clock(seconds: Fraction) -> str:
    """Hours and minutes from the start: `0:05`."""
    minutes = int(seconds // 60)
    return f"{minutes // 60}:{minutes % 60:02d}"


def _span(seconds: Fraction) -> str:
    """A time in whole minutes, up: `1 h 5 min`."""
    minutes = -int(-seconds // 60)
    hours, rest = divmod(minutes, 60)
    return " ".join([*([f"{hours} h"] if hours else []), *([f"{rest} min"] if rest or not hours else [])])
