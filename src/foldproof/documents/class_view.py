"""What the class plan says, settled once: the printed plan and the table say these words and no others."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from foldproof.classroom.class_plan import ClassPlan, PaperPlan, TeacherCaution
from foldproof.classroom.instructions import Work, work_through
from foldproof.classroom.layout import settings
from foldproof.classroom.needs import PartNeed, SupplyNeed
from foldproof.classroom.sheets import Layout, Line, MayTurn, Plan, Sheet, taken
from foldproof.classroom.shopping import LENGTH_UNITS, Cost, Item
from foldproof.classroom.timeline import Moment
from foldproof.documents.view import Fact
from foldproof.drawing.cutting_layout import draw_layout
from foldproof.drawing.record import PLAIN, Drawing
from foldproof.measures.quantity import Unit
from foldproof.measures.rounding import decimal, half_even
from foldproof.measures.writing import with_unit, write_length, write_size

MOST_LABELS = 66
"""Kits whose labels are printed one by one; beyond, one label is printed to copy."""
_PLURAL = {"inch": "inches", "foot": "feet", "cm": "cm"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """A row of the shopping list."""

    name: str
    note: str
    need: str
    on_hand: str
    buy: str
    price: str
    """Of what is bought, together; empty where it is not known."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class KitLine:
    """One thing in a kit."""

    what: str
    size: str
    count: str
    total: str
    note: str


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
class ClassView:
    """Everything that the documents of a class say."""

    title: str
    heading: str
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
    cautions: tuple[TeacherCaution, ...]
    general: tuple[str, ...]
    language: str
    unit: Unit
    revision: str
    version: str
    dated: str

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
    papers = tuple(_paper(plan, one, at) for at, one in enumerate(plan.papers, start=1))
    kit = tuple(_kit(plan))
    return ClassView(
        title=f"Class plan: {heading}",
        heading=heading,
        facts=tuple(_facts(plan)),
        bought=tuple(_bought(item, plan) for item in plan.shopping.items),
        money=tuple(_money(plan.shopping.cost, plan)) if plan.shopping.cost else (),
        money_note=_money_note(plan.shopping.cost),
        papers=papers,
        desk_note=_desk_note(plan),
        kit=kit,
        shared=tuple(_shared(plan)),
        labels=_labels(plan),
        label_lines=tuple(" ".join(part for part in (line.count, line.what, line.size) if part) for line in kit),
        time=tuple(_time(moment, plan) for moment in plan.moments),
        time_note=_time_note(plan),
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
    if sheets:
        yield Fact(label="Sheets", text=", ".join(sheets))
    cost = plan.shopping.cost
    if cost is not None:
        yield Fact(label="Materials each", text=_amount(cost.each, cost.currency))
        if cost.suggested is not None:
            yield Fact(label="Suggested price", text=_amount(cost.suggested, cost.currency))


def _bought(item: Item, plan: ClassPlan) -> Bought:
    buy = ""
    if item.packs is not None and item.holds is not None:
        if item.packs == 0:
            buy = "nothing"
        else:
            called = item.called if item.packs == 1 else _plural(item.called)
            holds = _count(item.holds, item.unit)
            joined = holds if item.unit == "card" else f"of {holds}"
            buy = f"{item.packs} {called}" + ("" if item.called == item.unit and item.holds == 1 else f" {joined}")
    elif item.short is not None:
        buy = "nothing" if item.short == 0 else _count(item.short, item.unit)
    cost = plan.shopping.cost
    return Bought(
        name=item.name,
        note=item.note,
        need="shared" if item.need is None else _count(item.need, item.unit),
        on_hand=_count(item.on_hand, item.unit) if item.on_hand else "",
        buy=buy,
        price=_amount(item.spend, cost.currency) if cost and item.spend is not None else "",
    )


def _count(number: Fraction, unit: str) -> str:
    """A number with its unit, as sold: whole things as they are, lengths up to the next tenth."""
    if unit in LENGTH_UNITS:
        tenths = -int(-number * 10 // 1)
        shown = str(tenths // 10) if tenths % 10 == 0 else f"{tenths // 10}.{tenths % 10}"
        return f"{shown} {unit if shown == '1' else _plural(unit)}"
    whole = -int(-number // 1)
    if unit == "card":
        return f"for {whole} {'card' if whole == 1 else 'cards'}"
    return f"{whole} {unit if whole == 1 else _plural(unit)}" if unit != "piece" else str(whole)


def _plural(word: str) -> str:
    return _PLURAL.get(word) or (f"{word}es" if word.endswith(("s", "x", "ch")) else f"{word}s")


def _amount(value: Fraction, currency: str) -> str:
    """Money with its currency as written: a sign before, letters after."""
    shown = decimal(half_even(value, 2), 2)
    return f"{shown} {currency}" if currency.isalpha() else f"{currency}{shown}"


def _money(cost: Cost, plan: ClassPlan) -> Iterator[Fact]:
    yield Fact(label="To spend", text=_amount(cost.spend, cost.currency))
    yield Fact(label="Materials used", text=_amount(cost.used, cost.currency))
    yield Fact(label="Each of the people", text=_amount(cost.each, cost.currency))
    if cost.suggested is not None and cost.margin is not None:
        yield Fact(
            label=f"Suggested price, {write_length(cost.margin, Unit.MM)} % added",
            text=_amount(cost.suggested, cost.currency),
        )


def _money_note(cost: Cost | None) -> str:
    if cost is None:
        return "No price is known, so there is no cost."
    note = (
        "Materials used are reckoned by the share of each pack that all kits take, what was on hand too, and divided "
        "among the people who come."
    )
    return note + (f" Without a price, and so in no sum: {', '.join(cost.without)}." if cost.without else "")


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


def _paper(plan: ClassPlan, one: PaperPlan, at: int) -> PaperView:
    need, unit = one.need, plan.unit
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
        parts=tuple(_part_words(part, plan) for part in need.parts),
    )


def _proof(cut: Plan) -> str:
    """`7 sheets; fewer than 7 is impossible`."""
    sheets = f"{cut.count} {'sheet' if cut.count == 1 else 'sheets'}"
    if cut.proven:
        return f"{sheets}; fewer than {cut.count} is impossible ({cut.reason})."
    return f"{sheets}; fewer than {cut.least} is impossible, and between the two nothing better was found."


def _own_note(one: PaperPlan) -> str:
    if one.each is None:
        return ""
    sheets = f"{one.each.count} {'sheet' if one.each.count == 1 else 'sheets'}"
    return f"Each person gets {sheets} and cuts, by this plan:"


def _spares(cut: Plan) -> str:
    wanted = {part.name: part.count for part in cut.parts}
    got = dict.fromkeys(wanted, 0)
    for layout in cut.layouts:
        for name, count in taken(layout.root).items():
            got[name] += count * layout.times
    more = [f"{got[name] - count} {name}" for name, count in wanted.items() if got[name] > count]
    return f"Beyond the kits it gives {', '.join(more)}." if more else ""


def _part_words(part: PartNeed, plan: ClassPlan) -> str:
    """Name, size, how many, how it lies."""
    size = write_size(_own_size(part), plan.unit)
    count = part.count(plan.heads.kits)
    words = f"{count} {part.name}, {size}"
    more = []
    if part.shape == "circle":
        more.append("cut round from this square")
    elif part.halves:
        more.append("two triangles from each, along the diagonal")
    elif part.shape == "triangle":
        more.append("cut along its diagonal")
    elif part.shape:
        more.append("cut out of this rectangle")
    if part.turn is MayTurn.NONE:
        more.append("upright on the sheet, for the pattern")
    elif part.turn is MayTurn.HALF:
        side = "on its side" if part.on_side else "upright"
        more.append(f"{side} on the sheet, so that the grain runs along the folds")
    if not part.ahead:
        more.append("each person cuts it")
    return words + (f" ({'; '.join(more)})" if more else "")


def _own_size(part: PartNeed) -> tuple[Fraction, Fraction]:
    return (part.height, part.width) if part.on_side else (part.width, part.height)


def _layouts(plan: ClassPlan, one: PaperPlan, cut: Plan, key: str) -> Iterator[LayoutView]:
    names = {part.name: part.name for part in cut.parts}
    tone = str(one.need.spec.tone) if one.need.spec.tone else None
    for number, layout in enumerate(cut.layouts, start=1):
        works, _ = work_through(layout.root)
        several = len(cut.layouts) > 1
        head = f"Layout {number}: " if several else ""
        yield LayoutView(
            heading=f"{head}{layout.times} {'sheet' if layout.times == 1 else 'sheets'}",
            drawing=draw_layout(
                layout, cut.sheet, plan.unit, name=f"cut-{key}-{number}", tone=tone, names=names, style=PLAIN
            ),
            rows=tuple(_row(work, plan, cut.sheet) for work in works),
            gives=_gives(layout),
            stops=_stops(layout, plan),
        )


def _gives(layout: Layout) -> str:
    each = "" if layout.times == 1 else "Each sheet gives "
    said = ", ".join(f"{count} {part}" for part, count in sorted(taken(layout.root).items()))
    return f"{each}{said}." if each else f"Gives {said}."


def _stops(layout: Layout, plan: ClassPlan) -> str:
    marks = sorted(settings(layout.root), reverse=True)
    return ", ".join(_stop(at, plan) for at in marks)


def _stop(at: Fraction, plan: ClassPlan) -> str:
    """The setting of the stop that makes a strip come out as wide as this."""
    return write_length(at - plan.desk.cuts_long / plan.unit.millimetres, plan.unit)


def _row(work: Work, plan: ClassPlan, sheet: Sheet) -> CutRow:
    unit = plan.unit
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
        stop=_stop(work.at, plan),
        do=f"{edge} edge to stop, {times}",
        get=get,
    )


def _kit(plan: ClassPlan) -> Iterator[KitLine]:
    kits = plan.heads.kits
    for paper in plan.papers:
        for part in paper.need.parts:
            size = write_size(_own_size(part), plan.unit)
            if part.ahead:
                half = " (half of a rectangle)" if part.halves else ""
                yield KitLine(
                    what=f"{part.name}, {paper.need.name}{half}", size=size, count="1", total=str(kits), note=""
                )
        if paper.each is not None:
            count = paper.each.count
            yield KitLine(
                what=f"{paper.need.name}, whole {'sheet' if count == 1 else 'sheets'}",
                size=write_size(paper.size, plan.unit),
                count=str(count),
                total=str(count * kits),
                note="cut in the class",
            )
    for die in plan.needs.dies:
        yield KitLine(what=_titled(die, plan), size="", count="1", total=str(kits), note=die.reckoned)
    for supply in plan.needs.supplies:
        if supply.length is not None:
            yield KitLine(
                what=_titled(supply, plan),
                size=with_unit(supply.length, plan.unit),
                count="1",
                total=str(kits),
                note=supply.reckoned,
            )
        elif supply.pieces is not None:
            yield KitLine(
                what=_titled(supply, plan),
                size="",
                count=str(supply.pieces),
                total=str(supply.pieces * kits),
                note=supply.amount,
            )


def _titled(supply: SupplyNeed, plan: ClassPlan) -> str:
    return supply.name if len(plan.lessons) == 1 else f"{supply.name}, {supply.title}"


def _shared(plan: ClassPlan) -> Iterator[KitLine]:
    """What stands on the tables: supplies that can't be counted, and tools."""
    for supply in plan.needs.supplies:
        if supply.length is None and supply.pieces is None:
            note = f"each kit: {supply.amount}" if supply.amount else ""
            yield KitLine(what=_titled(supply, plan), size="", count="", total="", note=note)
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
        return (f"Kit __ of {heads.kits}",)
    labels = [f"Kit {number} of {heads.people}" for number in range(1, heads.people + 1)]
    labels += [f"Spare {number}" for number in range(1, heads.spares + 1)]
    return (*labels, *(["Teacher's sample"] if heads.sample else []))


def _time(moment: Moment, plan: ClassPlan) -> TimeRow:
    what = moment.title
    if moment.number is not None:
        card = f"{moment.card}, " if len(plan.lessons) > 1 else ""
        what = f"{card}step {moment.number}: {moment.title}"
    queue = ""
    if moment.queue is not None:
        people, tools = plan.heads.people, moment.queue.count
        queue = (
            f"{people} people, {tools} {moment.queue.tool if tools == 1 else _plural(moment.queue.tool)}: "
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


def _clock(seconds: Fraction) -> str:
    """Hours and minutes from the start: `0:05`."""
    minutes = int(seconds // 60)
    return f"{minutes // 60}:{minutes % 60:02d}"


def _span(seconds: Fraction) -> str:
    """A time in whole minutes, up: `1 h 5 min`."""
    minutes = -int(-seconds // 60)
    hours, rest = divmod(minutes, 60)
    return " ".join([*([f"{hours} h"] if hours else []), *([f"{rest} min"] if rest or not hours else [])])
