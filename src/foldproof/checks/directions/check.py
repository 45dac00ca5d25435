"""Direction words against the table: what is decided, and a finding for each that the table contradicts."""

import re
from collections.abc import Iterable, Iterator

from foldproof.checks.binding import Bound
from foldproof.checks.check import error, warning
from foldproof.checks.directions.clauses import Clause, Doing
from foldproof.checks.directions.corners import judge_corner
from foldproof.checks.directions.crosses import Cross, find_crosses
from foldproof.checks.directions.distances import judge_distance, judge_flush, judge_position
from foldproof.checks.directions.faces import (
    judge_cross,
    judge_face_up,
    judge_glued_face,
    judge_inside,
    judge_looked_at,
    judge_underneath,
    judge_upright,
)
from foldproof.checks.directions.folds import judge_fold
from foldproof.checks.directions.following import Telling
from foldproof.checks.directions.joined import judge_beyond, judge_joined, judge_nearness
from foldproof.checks.directions.names import judge_name
from foldproof.checks.directions.phrases import Phrase
from foldproof.checks.directions.places import (
    judge_end,
    judge_glue,
    judge_layer_turn,
    judge_narrower,
    judge_place,
    judge_pressed,
    judge_receiver,
    judge_ridge,
)
from foldproof.checks.directions.stacks import judge_on_top
from foldproof.checks.directions.turns import AMOUNTS, WAYS, judge_edge, judge_same_face, judge_stop, judge_turn
from foldproof.checks.directions.verdict import Verdict
from foldproof.checks.directions.worked import judge_worked_face
from foldproof.checks.prose import bind_step, called, passages_of
from foldproof.findings.finding import Finding, Place
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Making, StepMade
from foldproof.recipe.actions import Attach
from foldproof.recipe.pinpoint import place_in, words_round
from foldproof.recipe.text import Text

WRONG_DIRECTION = error(
    "direction that is wrong", "The words of a step give a side, a face or a turn that the table contradicts."
)
NO_SUCH_TURN = error("turn that hands do not make", "The words of a step turn the work, and none of its actions does.")
TURN_UNSAID = warning("turn missing from the text", "A step turns the work, and its text does not say so, or not how.")
NOT_ALL = warning(
    "directions not all looked at", "A passage has more direction words than can be looked at in good time."
)
MOST_LOOKED_AT = 100
"""Direction words of a passage that are looked at: a page full has some 40."""

_RULES = (
    judge_turn,
    judge_same_face,
    judge_stop,
    judge_edge,
    judge_end,
    judge_narrower,
    judge_corner,
    judge_name,
    judge_glue,
    judge_layer_turn,
    judge_ridge,
    judge_looked_at,
    judge_inside,
    judge_distance,
    judge_position,
    judge_fold,
    judge_on_top,
    judge_underneath,
    judge_receiver,
    judge_pressed,
    judge_beyond,
    judge_joined,
    judge_nearness,
    judge_place,
    judge_glued_face,
    judge_worked_face,
    judge_upright,
    judge_face_up,
)
"""The first that can tell decides a phrase."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """A direction phrase of a recipe, and what the table says of it."""

    step: str
    """The step's id."""
    passage: str
    phrase: Phrase
    place: Place
    verdict: Verdict | None
    """None where it is left alone."""


def read_directions(card: Card, making: Making) -> Iterator[Read]:
    """Every direction phrase in the words of the steps, decided or left alone."""
    crosses = find_crosses(card, making)
    for made in making.steps:
        for telling in tellings(card, made):
            yield from _read(telling, crosses)


def _read(telling: Telling, crosses: tuple[Cross, ...]) -> Iterator[Read]:
    for phrase in telling.phrases[:MOST_LOOKED_AT]:
        yield Read(
            step=telling.made.spec.id,
            passage=telling.passage,
            phrase=phrase,
            verdict=judge(telling, phrase, crosses),
            place=place_in(telling.text, phrase.start, phrase.end, telling.card.recipe.texts),
        )


def tellings(card: Card, made: StepMade) -> Iterator[Telling]:
    """The passages of a step, its caution too, each laid beside what hands do."""
    bound = {one.name: one.bound for one in bind_step(card, made.spec).passages}
    passages: list[tuple[str, Text]] = list(passages_of(made.spec))
    if made.spec.caution is not None:
        passages.append(("caution", made.spec.caution))
    for name, text in passages:
        numbers: tuple[Bound, ...] = bound.get(name, ())
        yield Telling(card, made, name, text, numbers)


def judge(telling: Telling, phrase: Phrase, crosses: tuple[Cross, ...]) -> Verdict | None:
    """What the table says of one phrase; None where it can't tell."""
    here = telling.pieces(phrase.start)
    found = judge_cross(telling, phrase, next((one for one in crosses if one.piece in here), None))
    if found is not None:
        return found
    for rule in _RULES:
        found = rule(telling, phrase)
        if found is not None:
            return found
    return judge_flush(telling, phrase) if "flush" in telling.sentence(phrase.start)[1] else None


def directions_left(card: Card, making: Making) -> Iterator[str]:
    """One line for each phrase that the table can't tell, with its place and its words, then how many it decided."""
    every = tuple(read_directions(card, making))
    file = card.recipe.file
    left = [read for read in every if read.verdict is None]
    for read in left:
        rows = card.recipe.texts.get(read.place.file, "").splitlines()
        line = rows[read.place.line - 1].strip() if 0 < read.place.line <= len(rows) else ""
        yield f"{read.place.file}:{read.place.line}:{read.place.column}: {read.phrase.written}, left alone: {line}"
    yield f"{file}: {len(every) - len(left)} of {len(every)} direction words held against the table"


def check_directions(card: Card, making: Making) -> Iterable[Finding]:
    """Directions that the table contradicts, turns that nobody makes, and turns that nobody says."""
    crosses = find_crosses(card, making)
    for made in making.steps:
        for telling in tellings(card, made):
            for read in _read(telling, crosses):
                if read.verdict is not None and not read.verdict.true:
                    yield _contradicted(telling, read, read.verdict)
            yield from _not_all(telling)
            yield from _turns(telling)


def _not_all(telling: Telling) -> Iterator[Finding]:
    """A finding at the first direction word that is not looked at."""
    for phrase in telling.phrases[MOST_LOOKED_AT : MOST_LOOKED_AT + 1]:
        yield NOT_ALL.finding(
            f"The {called(telling.passage)} of the step {telling.made.spec.title} has {len(telling.phrases)} direction "
            f"words; those after the first {MOST_LOOKED_AT} are not looked at.",
            mend="Make two steps of it.", step=telling.made.spec.id,
            place=place_in(telling.text, phrase.start, phrase.end, telling.card.recipe.texts))


def _contradicted(telling: Telling, read: Read, verdict: Verdict) -> Finding:
    instead = f"Say {verdict.instead}" if verdict.instead else "Say it as it lies"
    return WRONG_DIRECTION.finding(
        f"The {called(read.passage)} of the step {telling.made.spec.title} says {read.phrase.written}"
        f"{_excerpt(telling, read.phrase)}; {verdict.says}.",
        mend=f"{instead}, or change the actions.",
        place=read.place,
        step=read.step,
    )


def _excerpt(telling: Telling, phrase: Phrase) -> str:
    """The words round a phrase, so that it is found without counting columns."""
    return f" (“{words_round(telling.value, phrase.start, phrase.end)}”)"


def _turns(telling: Telling) -> Iterator[Finding]:
    spec = telling.made.spec
    told = {id(deed) for deed in telling.told.values()}
    for clause in telling.clauses:
        said = _turn_said(telling, clause)
        if said is not None and clause not in telling.told and not _of_a_layer(telling, clause):
            yield NO_SUCH_TURN.finding(
                f"The {called(telling.passage)} of the step {spec.title} says {said.written}; at that point no action "
                "of the step turns it so.",
                mend="Take it out, or give the step the turn.",
                step=spec.id,
                place=place_in(telling.text, said.start, said.end, telling.card.recipe.texts),
            )
    if telling.passage != "text":
        return
    for deed in telling.deeds:
        if deed.kind in (Doing.TURN, Doing.TURN_OVER) and not deed.said_by_lay and id(deed) not in told:
            words = {**WAYS, **AMOUNTS}.get(deed.amount or "", "")
            over = " over" if deed.kind is Doing.TURN_OVER else ""
            yield TURN_UNSAID.finding(
                f"The step {spec.title} turns the {deed.done.piece or 'work'}{over} {words}, and its text does not say "
                "so.",
                mend="Say it: someone who follows the text alone would lack it.",
                place=deed.done.action.place,
                step=spec.id,
            )


def _turn_said(telling: Telling, clause: Clause) -> Phrase | None:
    if clause.doing not in (Doing.TURN, Doing.TURN_OVER):
        return None
    return next(
        (p for p in telling.phrases if clause.start <= p.start < clause.end and p.word in (*WAYS, *AMOUNTS)), None
    )


_OBJECT = re.compile(
    r"\b(?:turn|flip|rotate)\s+(?P<it>it|them)?(?:(?:the|your)\s+(?:whole |folded |closed |open )?(?P<what>[\w -]+?))?"
    r"(?=\s+(?:over|half|halfway|a|by|like|from|back|round|face|quarter|in)\b|$)", re.IGNORECASE)
_WORK = ("card", "sheet", "base", "piece", "work", "coat", "board")


def _of_a_layer(telling: Telling, clause: Clause) -> bool:
    """Whether what is turned may be something in hand that no action turns: a layer, or a piece about to be joined."""
    match = _OBJECT.search(clause.text)
    acted = {done.piece for done in telling.made.done if not isinstance(done.action, Attach)}
    acted.add(telling.made.spec.piece.value if telling.made.spec.piece is not None else None)
    what = (match["what"] or "").casefold() if match is not None else ""
    if what:
        return what not in _WORK and what not in {name.casefold() for name in acted if name is not None}
    return any(isinstance(done.action, Attach) for done in telling.made.done)
