"""The film plan of a card: one function from the card and its making to shots, set-ups and an order."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate, groupby

from foldproof.filming.cuts import Piecework, cut_into_shots, filmed, joined
from foldproof.filming.distances import Reach, fewest_widths
from foldproof.filming.hands import SHOWN_SECONDS, hand_seconds, rounded_up
from foldproof.filming.lines import WORDS_A_MINUTE, plain, speaking_seconds, spoken
from foldproof.filming.measuring import ASPECTS, frame_of, shown_pieces
from foldproof.filming.ordering import order_of, sequence
from foldproof.filming.records import FilmPlan, FilmStep, Frame, Order, SetUp, Shot
from foldproof.filming.replay import faults_of
from foldproof.filming.saying import spoken_cautions
from foldproof.filming.tasks import tasks_of
from foldproof.filming.touched import changed
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.recipe import actions as do
from foldproof.recipe.film_records import OVERHEAD, BeautySpec, ShotSpec
from foldproof.recipe.records import StepSpec
from foldproof.recipe.references import fill
from foldproof.recipe.text import Text


def shots_of(card: Card, making: Making) -> tuple[Shot, ...]:
    """Every shot in story order, measured and timed; its set-up has no letter yet."""
    works = [work for work in cut_into_shots(card, making) if filmed(work)]
    measured = _framed(card, works)
    lines = _lines(card, [work for work, _ in measured])
    rate = rate_of(card)
    careful = _cautions(card, [work for work, _ in measured])
    creased: frozenset[str] = frozenset()
    shots: list[Shot] = []
    rows = zip(measured, _keys(measured), lines, careful, _shares(measured), strict=True)
    for (work, frame), key, line, cautions, share in rows:
        hands = hand_seconds(done.action for done in work.done) if work.done else SHOWN_SECONDS
        said = spoken(line, card.recipe.unit)
        speaking = speaking_seconds(" ".join((said, *cautions)), rate)
        given = work.spec.seconds if work.spec is not None else None
        changes: frozenset[str] = frozenset()
        for done in work.done:
            changes |= changed(card, done, creased)
            if isinstance(done.action, do.FoldOn):
                creased |= {done.action.score}
        shots.append(Shot(
            key=key,
            number=work.step.number if work.step else None,
            title=str(work.step.spec.title) if work.step else f"The finished card, {frame.inside[0]}",
            framing=work.framing, done=work.done, step=work.step, spec=work.spec, before=work.before, after=work.after,
            moment=work.moment, say=line, spoken=said, cautions=cautions, speaking=speaking,
            seconds=given.value * share if given else rounded_up(max(hands, speaking)),
            estimated=given is None, hands=hands, frame=frame, pieces=shown_pieces(card, work), changed=changes,
        ))
    ends = accumulate(shot.seconds for shot in shots)
    return tuple(replace(shot, so_far=end) for shot, end in zip(shots, ends, strict=True))


def rate_of(card: Card) -> Fraction:
    """Words a minute."""
    spec = card.recipe.filming
    return spec.rate.value if spec is not None and spec.rate is not None else WORDS_A_MINUTE


def aspect_of(card: Card) -> Fraction:
    """The picture's width over its height."""
    return ASPECTS[card.recipe.filming.picture if card.recipe.filming is not None else "wide"]


Measured = tuple[Piecework, Frame]


def _framed(card: Card, works: Sequence[Piecework]) -> list[Measured]:
    """Shots with their frames. Neighbours in one step that were told apart by us and share a set-up become one shot."""
    measured = _measured(card, works)
    found: list[Measured] = []
    for work, frame in measured:
        last, seen = found[-1] if found else (None, frame)
        alike = last is not None and last.derived and work.derived and last.step is work.step
        if last is not None and alike and (seen.width, camera(last)) == (frame.width, camera(work)):
            found[-1] = (joined(last, work), frame)
        else:
            found.append((work, frame))
    return measured if len(found) == len(measured) else _measured(card, [work for work, _ in found])


def _measured(card: Card, works: Sequence[Piecework]) -> list[Measured]:
    """Each shot with its frame: as few lens distances as may be for each position of the camera."""
    aspect = aspect_of(card)
    frames = [frame_of(card, work, aspect) for work in works]
    reaches = [Reach(position=camera(work), need=frame.need, fixed=_width(work)) for work, frame in zip(
        works, frames, strict=True)]
    widths = fewest_widths(reaches)
    return [
        (work, replace(frame, width=width, height=width / aspect))
        for work, frame, width in zip(works, frames, widths, strict=True)]


def camera(work: Piecework) -> str:
    """The position of the camera, whatever its distance."""
    return "overhead" if work.framing in OVERHEAD else work.framing


def _width(work: Piecework) -> Fraction | None:
    return work.spec.width.value if isinstance(work.spec, ShotSpec) and work.spec.width is not None else None


def _keys(measured: Sequence[Measured]) -> list[str]:
    """`2.score-the-doors`, with a letter where a step has several; `start.1`, `end.1` for beauty shots."""
    keys: list[str] = []
    for _, group in groupby(measured, key=lambda one: _group(one[0])):
        own = list(group)
        step = own[0][0].step
        for index, (work, _) in enumerate(own):
            if step is None:
                keys.append(f"{_when(work)}.{index + 1}")
            else:
                letter = f".{chr(ord('a') + index)}" if len(own) > 1 else ""
                keys.append(f"{step.number}.{step.spec.id}{letter}")
    return keys


def _group(work: Piecework) -> str:
    return work.step.spec.id if work.step else _when(work)


def _when(work: Piecework) -> str:
    return work.spec.when if isinstance(work.spec, BeautySpec) else "end"


def _shares(measured: Sequence[Measured]) -> list[Fraction]:
    """What part of the seconds that a recipe gives is each shot's, where we told a step's shots apart: by the hands."""
    shares: list[Fraction] = []
    for _, group in groupby(measured, key=lambda one: _group(one[0])):
        own = [work for work, _ in group]
        needs = [hand_seconds(done.action for done in work.done) for work in own]
        total = sum(needs, Fraction(0))
        apart = len(own) > 1 and all(work.derived for work in own) and total > 0
        shares += [need / total if apart else Fraction(1) for need in needs]
    return shares


def _lines(card: Card, works: Sequence[Piecework]) -> list[str]:
    """The line of each shot: its own, else the step's in the step's first shot that has no line of its own."""
    told: set[str] = set()
    lines: list[str] = []
    for work in works:
        own = work.spec.say if work.spec is not None else None
        if own is None and work.step is not None and work.step.spec.id not in told and not _looks_back(work):
            own = step_line(work.step.spec)
            told.add(work.step.spec.id)
        lines.append(plain(fill(own.value, card.recipe)) if own is not None else "")
    return lines


def _cautions(card: Card, works: Sequence[Piecework]) -> list[tuple[str, ...]]:
    """The cautions to say in each shot: where their tool is used first in their step, else in the step's first shot."""
    made = {work.step.number: work.step for work in works if work.step and not _looks_back(work)}
    found: list[tuple[str, ...]] = [()] * len(works)
    for step, cautions in spoken_cautions(card, list(made.values())).items():
        own = [i for i, work in enumerate(works) if work.step and work.step.spec.id == step and not _looks_back(work)]
        for about, words in cautions:
            use = next((i for i in own if any(done.tool == about for done in works[i].done)), own[0])
            found[use] = (*found[use], words)
    return found


def _looks_back(work: Piecework) -> bool:
    return isinstance(work.spec, ShotSpec) and work.spec.of is not None


def step_line(step: StepSpec) -> Text:
    """What is said in a step where its shots do not say it: its line, else its text."""
    return step.say or step.text


def plan_film(card: Card, making: Making) -> FilmPlan:
    """Plan the film."""
    shots = shots_of(card, making)
    rate = rate_of(card)
    spec = card.recipe.filming
    starts = dict(zip((shot.key for shot in shots), (shot.so_far - shot.seconds for shot in shots), strict=True))
    steps: list[FilmStep] = []
    clock = Fraction(0)
    for step in making.steps:
        own = [shot for shot in shots if shot.step is step]
        clock = starts[own[0].key] if own else clock
        steps.append(FilmStep(
            number=step.number, id=step.spec.id, title=str(step.spec.title),
            say=" ".join(shot.say for shot in own if shot.say),
            spoken=" ".join(shot.spoken for shot in own if shot.spoken),
            cautions=tuple(caution for shot in own for caution in shot.cautions),
            speaking=sum((shot.speaking for shot in own), Fraction(0)),
            seconds=sum((shot.seconds for shot in own), Fraction(0)), start=clock,
            shots=tuple(shot.key for shot in own)))
        clock += steps[-1].seconds
    tasks = tasks_of(card, making, shots, {shot.key: _camera_name(shot) for shot in shots})
    wanted = int(spec.duplicates.value) if spec is not None and spec.duplicates is not None else 0
    order, splits = order_of(card, making, tasks, wanted)
    faults = faults_of(card, tasks, sequence(tasks, splits).jobs, splits)
    assert not faults, faults
    setups = _setups(shots, order)
    letters = {key: setup.letter for setup in setups for key in setup.shots}
    return FilmPlan(
        steps=tuple(steps), shots=tuple(replace(shot, setup=letters[shot.key]) for shot in shots), setups=setups,
        order=order, prepared=tuple(
            work.step for work in cut_into_shots(card, making) if not filmed(work) and work.step),
        bottom=spec.bottom if spec else "maker", aspect=aspect_of(card), rate=rate,
        seconds=shots[-1].so_far if shots else Fraction(0))


def _camera_name(shot: Shot) -> str:
    """What tells a set-up from others: the camera's position and its lens distance."""
    return f"{'overhead' if shot.overhead else shot.framing} {shot.frame.width}"


def _setups(shots: Sequence[Shot], order: Order) -> tuple[SetUp, ...]:
    """The set-ups with their letters, in the order in which they are first used."""
    by_key = {shot.key: shot for shot in shots}
    keys: dict[str, list[str]] = {}
    for key in order.shots:
        keys.setdefault(_camera_name(by_key[key]), []).append(key)
    firsts = [by_key[own[0]] for own in keys.values()]
    return tuple(
        SetUp(
            letter=_letter(index), framing="overhead" if first.overhead else first.framing, width=first.frame.width,
            height=first.frame.height, shots=tuple(own))
        for index, (first, own) in enumerate(zip(firsts, keys.values(), strict=True)))


def _letter(index: int) -> str:
    """A, B, ... Z, AA, AB, ..."""
    return (_letter(index // 26 - 1) if index >= 26 else "") + chr(ord("A") + index % 26)
