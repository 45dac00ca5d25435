"""A film plan in plain words."""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from foldproof.documents.film_view import FilmSetUp, FilmShot, FilmThing, FilmView, StepTime
from foldproof.documents.plan_words import table_words
from foldproof.documents.words import listed, time_words
from foldproof.drawing.record import Drawing
from foldproof.filming.continuity import Continuity, Drying, continuity
from foldproof.filming.ready import Prepared, pieces_prepared, things_ready
from foldproof.filming.records import FilmPlan, Order, Shot
from foldproof.folding.card import Card
from foldproof.making.table import Table
from foldproof.measures.quantity import Unit
from foldproof.measures.rounding import half_even
from foldproof.measures.writing import with_unit, write_number

_CAMERA = {
    "overhead": "Camera straight down",
    "front on": "Camera in front of the card, a little above it",
    "turntable": "Camera in front of a turntable, a little above it",
}
_FRAMING = {
    "overhead wide": "From overhead, wide", "overhead": "From overhead", "overhead close": "From overhead, close",
    "front on": "From the front", "turntable": "On a turntable",
}
Hands = Callable[[Shot], tuple[str, ...]]


def tell_film(card: Card, plan: FilmPlan, hands: Hands, drawn: Mapping[str, Drawing]) -> FilmView:
    """The view of a film plan. `hands` says the actions of a shot in words; drawings come by the shot's key."""
    order = plan.filming_order
    held = continuity(card, order)
    opens = {shot.key for i, shot in enumerate(order) if i == 0 or order[i - 1].setup != shot.setup}
    places = {shot.key: i for i, shot in enumerate(order, start=1)}
    labels = {shot.key: label_of(shot) for shot in plan.shots}
    shots = tuple(
        FilmShot(
            key=shot.key, label=labels[shot.key], title=shot.title, framing=_FRAMING[shot.framing], setup=shot.setup,
            place=places[shot.key], width=with_unit(shot.frame.width, card.recipe.unit),
            height=_height(card, shot.frame.height),
            inside=listed([f"the {name}" for name in shot.frame.inside]) if shot.overhead else "the whole card",
            bottom=_bottom(plan, shot), table=_lying(card, shot.before, held[shot.key].start),
            after=_lying(card, shot.after, held[shot.key].end), ready=_ready(held[shot.key], labels, plan),
            hands=hands(shot), line=shot.say, say=shot.spoken, goes_on=_goes_on(plan, shot, labels),
            cautions=shot.cautions, speaking=int(-(-shot.speaking // 1)), seconds=half_even(shot.seconds, 0),
            estimated=shot.estimated, so_far=shot.so_far, once=shot.once, opens=shot.key in opens,
            drawing=drawn.get(shot.key))
        for shot in plan.shots)
    return FilmView(
        shots=shots,
        setups=tuple(
            FilmSetUp(
                letter=setup.letter, camera=_CAMERA[setup.framing], width=with_unit(setup.width, card.recipe.unit),
                height=_height(card, setup.height), shots=", ".join(labels[key] for key in setup.shots))
            for setup in plan.setups),
        things=tuple(
            FilmThing(name=thing.name, note=thing.note, first=labels[thing.shot])
            for thing in things_ready(card, plan, held)),
        prepared=tuple(_prepared(one, labels) for one in pieces_prepared(card, plan)),
        steps=tuple(
            StepTime(label=str(step.number), title=step.title, start=step.start, seconds=step.seconds)
            for step in plan.steps),
        order=tuple(_order_words(plan.order, plan)), rate=write_number(plan.rate), total=plan.seconds)


def _goes_on(plan: FilmPlan, shot: Shot, labels: Mapping[str, str]) -> str:
    """The shot of the same step whose line is still being said, where a step was told apart by us."""
    if shot.say or not shot.done:
        return ""
    own = [other for other in plan.shots if other.step is shot.step and other.spec is shot.spec and other.say]
    return labels[own[0].key] if own else ""


def label_of(shot: Shot) -> str:
    """`2`, `3b`, `start 1`: a shot's key as a person says it."""
    if shot.number is None:
        return shot.key.replace(".", " ")
    tail = shot.key.rpartition(".")[2]
    return f"{shot.number}{tail if len(tail) == 1 and shot.key.count('.') == 2 else ''}"


def _height(card: Card, height: Fraction) -> str:
    """To the next lower eighth of an inch, or whole millimetre."""
    unit = card.recipe.unit
    parts = {Unit.INCH: 8, Unit.MM: 1, Unit.CM: 10}[unit]
    return with_unit(Fraction(height * parts // 1, parts), unit)


def _bottom(plan: FilmPlan, shot: Shot) -> str:
    if not shot.overhead:
        return "the table"
    return "your edge of the table" if plan.bottom == "maker" else (
        "the far edge of the table: it is upside down to you, and your right hand is at the left")


def _lying(card: Card, table: Table, roots: Sequence[str]) -> tuple[str, ...]:
    """How some bodies lie, and what of them is folded."""
    names = {name for name in table.pieces if table.root(name) in roots}
    scores = {score.name for piece in card.pieces if piece.name in names for score in piece.scores}
    own = Table(
        pieces={name: piece for name, piece in table.pieces.items() if name in names},
        bonds=tuple(bond for bond in table.bonds if bond.guest in names),
        folded=tuple(fold for fold in table.folded if fold[0] in scores))
    return table_words(own)


def _ready(held: Continuity, labels: Mapping[str, str], plan: FilmPlan) -> tuple[str, ...]:
    """What must be so before the camera starts, the most easily forgotten first."""
    right = "at your right hand" + (" (the left of the picture)" if plan.bottom == "opposite" else "")
    found = [_drying(one, labels) for one in held.dry]
    if held.clean:
        found.append(f"Hands and table clean of {listed(held.clean)}")
    if held.blade:
        change = "Change the blade: the" if held.change_blade else "The"
        found.append(f"{change} {held.blade} blade is in the trimmer")
    if held.under:
        found.append(f"Under the work: {listed(held.under)}")
    if held.at_hand:
        found.append(f"{right[:1].upper()}{right[1:]}: {listed(held.at_hand)}")
    if held.away:
        found.append(f"Out of the picture: {listed(held.away)}")
    if held.aside:
        found.append(f"Made already, to lie aside: {listed(held.aside)}")
    return tuple(found)


def _drying(one: Drying, labels: Mapping[str, str]) -> str:
    since = f"since shot {labels[one.since]}"
    if one.seconds is not None:
        return f"Glue dry: {time_words(one.seconds)} {since}"
    return f"Ink dry to the touch on the {listed(one.pieces)} ({since})"


def _prepared(one: Prepared, labels: Mapping[str, str]) -> FilmThing:
    steps = f"step{'s' if len(one.steps) > 1 else ''} {listed([str(number) for number in one.steps])} done"
    first = labels.get(one.shot, "")
    kind = "a duplicate" if one.duplicate else "made off camera"
    return FilmThing(name=f"{one.count} {one.piece}", note=f"{kind}, {steps}", first=first)


def _order_words(order: Order, plan: FilmPlan) -> list[str]:
    """How often the camera is set up, whether that is proved, and what duplicates would save."""
    story = 1 + sum(a.setup != b.setup for a, b in pairwise(plan.shots))
    count = f"The camera is set up {_times(order.changes)}"
    words = [f"{count}; in story order it would be {story}." if story > order.changes else f"{count}."]
    words.append(
        "No order that can be filmed needs fewer; this one was carried out on the virtual table."
        if order.fewest else
        "Fewer may be possible: there were too many orders to try. This one was carried out on the virtual table.")
    used = len(order.duplicates)
    for choice in order.choices:
        if choice.duplicates > used and choice.setups < order.changes:
            many = "one duplicate" if choice.duplicates == 1 else f"{choice.duplicates} duplicates"
            words.append(
                f"With {many} prepared it would be {_times(choice.setups)} (write duplicates: {choice.duplicates} "
                "in filming).")
    return words


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")
