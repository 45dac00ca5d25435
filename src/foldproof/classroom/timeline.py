"""The time line of a class: steps at the pace of beginners, queues at shared tools, waiting used for other work.

What a step takes one person is its minutes without its drying, times the pace. Where a tool is shared by more people
than there are of it, they take turns, and the last one is done when all turns are over. While something dries, work
that touches no wet piece goes on.
"""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from foldproof.classroom.lesson import PACE, TIDYING, WELCOME, Heads, Lesson, all_specs, first_given
from foldproof.facts.tools import find_tool
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Done, StepMade
from foldproof.recipe.actions import Attach, CutAcross, CutBetween, CutOff, CutOut, DieCut, Dry, Measure, Note
from foldproof.recipe.repeating import every_action

MINUTE = 60
_ONE_FOR_ALL = ("trimmer", "guillotine", "die-cutting machine", "heat tool", "hot glue gun")
"""Tools of which a class has one unless the recipe says more (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Queue:
    """Turns at a tool."""

    tool: str
    count: int
    rounds: int
    seconds: Fraction
    """All turns together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One row of the time line; times in seconds."""

    start: Fraction
    seconds: Fraction
    """Until the next row may start."""
    title: str
    card: str
    number: int | None
    """The step's number; None for welcome, drying and tidying."""
    kind: str
    """`welcome`, `step`, `cut ahead`, `drying`, `tidying`."""
    queue: Queue | None
    hand_out: tuple[str, ...]
    note: str
    guessed: bool
    """Whether the recipe gives no minutes for the step."""


def timeline(lessons: Sequence[Lesson], heads: Heads, ahead: Iterable[tuple[str, str]]) -> tuple[Moment, ...]:
    """All moments in order. `ahead` are the parts cut before the class: title and the piece's own name."""
    cut = frozenset(ahead)
    pace = own_pace(lessons)
    clock = Fraction(0)
    found: list[Moment] = []
    welcome = first_given((spec.welcome for spec in all_specs(lessons)), WELCOME)
    if welcome:
        found.append(_plain(clock, welcome, "Welcome, hand out the kits, show the finished card", "welcome"))
        clock += welcome
    for lesson in lessons:
        for moment in _card(lesson, heads, cut, pace, clock):
            found.append(moment)
            clock = moment.start + moment.seconds
    tidying = first_given((spec.tidying for spec in all_specs(lessons)), TIDYING)
    if tidying:
        found.append(_plain(clock, tidying, "Tidy up: count the tools back in, close the blades", "tidying"))
    return tuple(found)


def own_pace(lessons: Sequence[Lesson]) -> Fraction:
    """How much slower the class works than the steps' minutes."""
    return first_given((spec.pace for spec in all_specs(lessons)), PACE)


def _plain(start: Fraction, seconds: Fraction, title: str, kind: str) -> Moment:
    return Moment(
        start=start,
        seconds=seconds,
        title=title,
        card="",
        number=None,
        kind=kind,
        queue=None,
        hand_out=(),
        note="",
        guessed=False,
    )


def _card(
    lesson: Lesson, heads: Heads, cut: frozenset[tuple[str, str]], pace: Fraction, clock: Fraction
) -> Iterable[Moment]:
    seen: set[str] = set()
    body: dict[str, set[str]] = {piece.name: {piece.name} for piece in lesson.card.pieces}
    dry_at: Fraction | None = None
    wet: set[str] = set()
    for step in lesson.making.steps:
        for done in step.every:
            if isinstance(done.action, Attach):
                _join(lesson.card, done.action.bond, body)
        touched = {name for piece in _touched(lesson.card, step) for name in body.get(piece, {piece})}
        if _all_cut_ahead(lesson, step, cut):
            yield _moment(lesson, step, clock, Fraction(0), "cut ahead", None, (), "cut before the class", False)
            continue
        idle = _still_to_cut(lesson, step, cut)[1]
        hand_out = _hand_out(lesson, step, cut, idle, seen)
        if dry_at is not None and clock < dry_at and wet & touched:
            yield _waiting(lesson, clock, dry_at - clock)
            clock, dry_at = dry_at, None
        work, drying, guessed = _minutes(step)
        share = _still_to_cut(lesson, step, cut)[0]
        seconds, queue = _with_queue(lesson, step, work * share * pace, heads.people, idle)
        note = ""
        if dry_at is not None and clock < dry_at:
            note = f"while the {_listed(wet)} dries" if len(wet) == 1 else "while the glue dries"
        yield _moment(lesson, step, clock, seconds, "step", queue, hand_out, note, guessed)
        clock += seconds
        if drying:
            until = clock + drying
            dry_at, wet = (max(until, dry_at) if dry_at else until), wet | touched
        elif dry_at is not None and clock >= dry_at:
            dry_at, wet = None, set()
    if dry_at is not None and clock < dry_at:
        yield _waiting(lesson, clock, dry_at - clock)


def _waiting(lesson: Lesson, start: Fraction, seconds: Fraction) -> Moment:
    return Moment(
        start=start,
        seconds=seconds,
        title="Let the glue dry",
        card=lesson.title,
        number=None,
        kind="drying",
        queue=None,
        hand_out=(),
        note="nothing else of this card can be done meanwhile",
        guessed=False,
    )


def _moment(
    lesson: Lesson,
    step: StepMade,
    start: Fraction,
    seconds: Fraction,
    kind: str,
    queue: Queue | None,
    hand_out: tuple[str, ...],
    note: str,
    guessed: bool,
) -> Moment:
    return Moment(
        start=start,
        seconds=seconds,
        title=str(step.spec.title),
        card=lesson.title,
        number=step.number,
        kind=kind,
        queue=queue,
        hand_out=hand_out,
        note=note,
        guessed=guessed,
    )


def _minutes(step: StepMade) -> tuple[Fraction, Fraction, bool]:
    """Seconds of work and of drying, and whether the work is a guess of two minutes.

    A step's minutes hold its drying where they are long enough for it.
    """
    drying = sum((do.time.value for do in every_action(step.spec) if isinstance(do, Dry)), Fraction(0))
    if step.spec.minutes is None:
        return Fraction(2 * MINUTE), drying, True
    given = step.spec.minutes.value
    return (given - drying if given > drying else given), drying, False


def _with_queue(
    lesson: Lesson, step: StepMade, work: Fraction, people: int, idle: frozenset[str]
) -> tuple[Fraction, Queue | None]:
    """The time until all are done, and the queue of the tool that is shortest in number. `idle` are not needed now."""
    shared = []
    for tool in map(str, step.spec.tools):
        count = tools_at_hand(lesson, tool)
        if count is not None and count < people and tool not in idle:
            shared.append((count, tool))
    if not shared:
        return work, None
    count, scarce = min(shared)
    rounds = -(-people // count)
    return work * rounds, Queue(tool=scarce, count=count, rounds=rounds, seconds=work * rounds)


def tools_at_hand(lesson: Lesson, tool: str) -> int | None:
    """How many of a tool there are; None where each person has one."""
    given = {str(one.tool): int(one.count.value) for one in lesson.spec.tools} if lesson.spec else {}
    if tool in given:
        return given[tool]
    known = find_tool(tool)
    return 1 if known is not None and known.name in _ONE_FOR_ALL else None


def _all_cut_ahead(lesson: Lesson, step: StepMade, cut: frozenset[tuple[str, str]]) -> bool:
    """Whether nothing is left of a step in which only parts are cut."""
    return _only_cuts(step) and _still_to_cut(lesson, step, cut)[0] == 0


def _cuts(step: StepMade) -> list[Done]:
    return [done for done in step.every if isinstance(done.action, CutOut | CutAcross | CutOff | CutBetween | DieCut)]


def _only_cuts(step: StepMade) -> bool:
    cuts = _cuts(step)
    return bool(cuts) and all(done in cuts or isinstance(done.action, Note | Measure) for done in step.every)


def _still_to_cut(
    lesson: Lesson, step: StepMade, cut: frozenset[tuple[str, str]]
) -> tuple[Fraction, frozenset[str]]:
    """The share of a step's work that is left where some of its parts were cut before the class, and idle tools.

    The minutes of a step that only cuts are shared out evenly among its cuts; other steps keep theirs. A tool for
    cutting is idle where no cut is left, one for die-cutting where no die cut is.
    """
    cuts = _cuts(step)
    left = [done for done in cuts if (lesson.title, done.piece or "") not in cut]
    if len(left) == len(cuts):
        return Fraction(1), frozenset()
    busy = {"die cut" if isinstance(done.action, DieCut) else "cut" for done in left}
    idle = {
        str(tool)
        for tool in step.spec.tools
        if (kind := find_tool(str(tool))) is not None and kind.does and kind.does[0] in {"cut", "die cut"} - busy
    }
    return (Fraction(len(left), len(cuts)) if _only_cuts(step) else Fraction(1)), frozenset(idle)


def _touched(card: Card, step: StepMade) -> set[str]:
    found = {str(step.spec.piece)} if step.spec.piece else set()
    for done in step.every:
        if done.piece:
            found.add(done.piece)
        if isinstance(done.action, Attach):
            found |= _bonded(card, done.action.bond)
    return found


def _bonded(card: Card, name: str) -> set[str]:
    bond = next((one for one in card.bonds if one.name == name), None)
    if bond is None:
        return set()
    return {card.panels[surface.panel].piece for surface in (bond.under, bond.over) if surface.panel in card.panels}


def _join(card: Card, name: str, body: dict[str, set[str]]) -> None:
    pieces = _bonded(card, name)
    whole = {other for piece in pieces for other in body.get(piece, {piece})}
    for piece in whole:
        body[piece] = whole


def _hand_out(
    lesson: Lesson, step: StepMade, cut: frozenset[tuple[str, str]], idle: frozenset[str], seen: set[str]
) -> tuple[str, ...]:
    """What a step needs for the first time: parts cut ahead, supplies, tools."""
    fresh: list[str] = []
    for name in sorted(_touched(lesson.card, step), key=lambda n: _order(lesson.card, n)):
        if (lesson.title, name) in cut and name not in seen:
            fresh.append(name)
            seen.add(name)
    for name in (*map(str, step.spec.supplies), *map(str, step.spec.tools)):
        if name not in seen and name not in idle:
            fresh.append(name)
            seen.add(name)
    return tuple(fresh)


def _order(card: Card, name: str) -> int:
    return next((i for i, piece in enumerate(card.pieces) if piece.name == name), len(card.pieces))


def _listed(names: Iterable[str]) -> str:
    return ", ".join(sorted(names))
