"""Advice for the teacher, from the numbers of the plan: who is quick, who is new, whose left hand leads, when to wait.

What it says of people is common practice, no source.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from foldproof.classroom.lesson import Heads, Lesson
from foldproof.classroom.timeline import Moment, own_pace
from foldproof.facts.tools import find_tool
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """A word on some of the people, or on some time of the class."""

    about: str
    text: str


def advice(lessons: Sequence[Lesson], heads: Heads, moments: Sequence[Moment], keep: bool) -> tuple[Advice, ...]:
    """All of it. `keep` says whether offcuts worth keeping are left over."""
    return tuple(
        Advice(about=about, text=" ".join(said))
        for about, said in (
            ("Who is new to this", list(_new(lessons, moments))),
            ("Who is quick", list(_quick(lessons, heads, keep, moments))),
            ("Whose left hand leads", list(_left(lessons))),
            ("While glue dries", list(_drying(lessons, moments))),
            ("When something goes wrong", list(_wrong(heads))),
        )
        if said
    )


def _work(moments: Sequence[Moment]) -> Fraction:
    """Seconds of the steps without turns at a tool."""
    return sum(
        (m.queue.seconds / m.queue.rounds if m.queue else m.seconds for m in moments if m.kind == "step"), Fraction(0)
    )


def _minutes(seconds: Fraction) -> str:
    minutes = -int(-seconds // 60)
    return f"{minutes} {'minute' if minutes == 1 else 'minutes'}"


def _new(lessons: Sequence[Lesson], moments: Sequence[Moment]) -> Iterator[str]:
    pace = own_pace(lessons)
    work = _work(moments)
    if pace == 1 or not work:
        yield "The time line runs at the recipe's own pace: beginners take longer."
        return
    times = str(float(pace)).removesuffix(".0")
    yield (
        f"The time line gives {_minutes(work)} for work that the recipe does in {_minutes(work / pace)} "
        f"({times} times as long)."
    )
    yield "Show each step before they do it, and walk round after each score: a wrong one can't be mended."


def _quick(lessons: Sequence[Lesson], heads: Heads, keep: bool, moments: Sequence[Moment]) -> Iterator[str]:
    pace = own_pace(lessons)
    over = _work(moments) * (1 - 1 / pace)
    if over >= 60:
        yield f"At the recipe's own pace somebody has about {_minutes(over)} over by the end."
    things = [f"to help a {'neighbor' if lessons[0].unit is Unit.INCH else 'neighbour'}"]
    if any(lesson.card.recipe.finished.envelope for lesson in lessons):
        things.append("to address the envelope and write inside")
    if keep:
        things.append("to make a tag from the offcuts")
    listed = things[0] if len(things) == 1 else f"{', '.join(things[:-1])}, or {things[-1]}"
    yield f"Have something ready: {listed}."


def _left(lessons: Sequence[Lesson]) -> Iterator[str]:
    tools = [known for lesson in lessons for tool in lesson.card.recipe.tools if (known := find_tool(str(tool.name)))]
    names = {tool.name for tool in tools}
    yield "Seat them at the left end of a table, so that elbows don't meet."
    if "scissors" in names:
        yield "Bring a pair of left-handed scissors."
    if names & {"trimmer", "guillotine"}:
        yield "Try the trimmer with the left hand before the class; where it does not go, somebody else cuts for them."
    if "scoring board" in names:
        yield "Measures stay as they are: the stop of the scoring board is at its left end for everybody."


def _drying(lessons: Sequence[Lesson], moments: Sequence[Moment]) -> Iterator[str]:
    waits = [moment for moment in moments if moment.kind == "drying"]
    if waits:
        total = sum((moment.seconds for moment in waits), Fraction(0))
        times = "once" if len(waits) == 1 else f"{len(waits)} times"
        yield (
            f"The class waits {times}, {_minutes(total)} in all: clear the offcuts away, look at the work together, "
            "show the next step."
        )


def _wrong(heads: Heads) -> Iterator[str]:
    if heads.spares:
        kits = "the spare kit" if heads.spares == 1 else f"the {heads.spares} spare kits"
        yield f"Keep {kits} back until the steps above are done; give out the single part that went wrong."
    else:
        yield "There is no spare kit: cut a few parts more of the steps above."
    yield "Count the parts of a kit when you hand it out, not when somebody lacks one."
