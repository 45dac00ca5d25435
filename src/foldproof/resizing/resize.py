"""A sound recipe told for another finished size: its own text, with other plain numbers in it."""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

import yaml

from foldproof.checks.mentions import mentions_in
from foldproof.facts.envelopes import find_envelope
from foldproof.filming.film_checks import LINE_TOO_LONG
from foldproof.findings.finding import Finding, Place, Severity, has_errors
from foldproof.folding.build import build_card
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind
from foldproof.measures.writing import write_length
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.reader import read_text
from foldproof.recipe.records import StepSpec
from foldproof.refit.numbers import Change as Said
from foldproof.refit.numbers import applied, number_like
from foldproof.refit.steps import refit_promise, refit_steps
from foldproof.refit.words import known_changes
from foldproof.resizing.edits import (
    Edit,
    changed_numbers,
    edited,
    number_edit,
    offset,
    passage_edit,
    scalars,
    value_at,
)
from foldproof.resizing.measures import Change, growing_changes, main_changes
from foldproof.starting.sheets import smallest_sheet
from foldproof.starting.sizes import MARK, Size, envelope_for
from foldproof.starting.trouble import CannotBeError

Wrong = Callable[[str], tuple[Finding, ...]]
"""What is wrong with a recipe's text: the errors and warnings of its proof."""
TRIES = 4
"""Into how many parts the way back to the first card is divided, to look for the nearest size that can be."""
SECONDS_MORE, MOST_LONGER = 5, 4
"""What a shot is made longer by, and how often, when its line takes longer to say."""


def resized(card: Card, making: Making, size: Size, wrong: Wrong) -> str:
    """The recipe's text for another size, proved without error, and without warning where there is such a way.

    Lengths that grow with the card are tried first in its proportions, then as they are. Raises CannotBeError, with the
    reason and the nearest size that can be, where no way is sound.
    """
    try:
        return _sound(card, making, size, wrong)
    except CannotBeError as error:
        near = next((near for near in _on_the_way(card, size) if _can(card, making, near, wrong)), None)
        mend = f' The nearest that can is "{near.said}".' if near is not None else ""
        raise CannotBeError(f"{str(error).rstrip('.')}.{mend}") from None


def _sound(card: Card, making: Making, size: Size, wrong: Wrong) -> str:
    """The first way to tell the recipe for a size that is sound and quiet, else the one with the fewest warnings."""
    main = main_changes(card, size)
    growing = growing_changes(card, size, main)
    reasons: list[str] = []
    sound: list[tuple[int, str]] = []
    for changes in dict.fromkeys(((*main, *growing), main)):
        try:
            text, found = _with_time_to_speak(told_anew(card, making, size, changes), wrong)
        except CannotBeError as error:
            reasons.append(str(error))
            continue
        if not found:
            return text
        if has_errors(found):
            reasons.append(next(one.message for one in found if one.severity is Severity.ERROR))
        else:
            sound.append((len(found), text))
    if sound:
        return min(sound)[1]
    raise CannotBeError(reasons[0])


def _with_time_to_speak(text: str, wrong: Wrong) -> tuple[str, tuple[Finding, ...]]:
    """The text with more seconds for shots whose lines have become longer, and what is still wrong with it."""
    found = wrong(text)
    for _ in range(MOST_LONGER):
        places = [one.place for one in found if one.name == LINE_TOO_LONG.name and one.place is not None]
        edits = [edit for place in places if (edit := _more_seconds(text, place)) is not None]
        if not edits:
            break
        text = edited(text, edits)
        found = wrong(text)
    return text, found


def _more_seconds(text: str, place: Place) -> Edit | None:
    """Five seconds more at a number."""
    start = offset(text, place)
    figures = re.match(r"\d+", text[start:])
    return None if figures is None else Edit(
        start=start, end=start + figures.end(), said=str(int(figures[0]) + SECONDS_MORE))


def _on_the_way(card: Card, size: Size) -> Iterator[Size]:
    """Sizes on the way from the wanted one back to the first card; the square first, where that card is square."""
    closed = card.closed
    assert closed is not None
    mark = 2 * MARK[size.unit]
    pairs = [tuple(wanted + round((was - wanted) * part / TRIES / mark) * mark
                   for wanted, was in ((size.width, closed.width), (size.height, closed.height)))
             for part in range(1, TRIES)]
    if closed.width == closed.height:
        pairs.insert(0, (min(size.width, size.height),) * 2)
    for width, height in dict.fromkeys(pairs):
        if (width, height) not in ((size.width, size.height), (closed.width, closed.height)):
            near = Size(width=width, height=height, unit=size.unit, envelope=None)
            yield replace(near, envelope=envelope_for(near))


def _can(card: Card, making: Making, size: Size, wrong: Wrong) -> bool:
    try:
        _sound(card, making, size, wrong)
    except CannotBeError:
        return False
    return True


def told_anew(card: Card, making: Making, size: Size, changes: tuple[Change, ...]) -> str:
    """The recipe's text with changes to its plan, and its steps, words and promises told for them; not proved yet."""
    recipe = card.recipe
    source, unit = recipe.texts[recipe.file], recipe.unit
    if any(change.number.place.file != recipe.file for change in changes):
        raise CannotBeError("it builds on another recipe; give that one the other size, and this one follows")
    plan = [number_edit(source, change.number, change.value, unit) for change in changes]
    other = _other(edited(source, plan), recipe.file)
    if other.closed is None or (other.closed.width, other.closed.height) != (size.width, size.height):
        raise CannotBeError("something else in the card reaches farther than its cover would")
    edits = [*plan, *_promise(card, other, source), *_sheets(card, other, source)]
    steps = refit_steps(card, other, making.steps).steps
    root = yaml.compose(source, Loader=yaml.SafeLoader)
    assert root is not None, "a sound recipe has a text"
    said: dict[int, str] = {}
    for number, (old, new) in enumerate(zip(recipe.steps, steps, strict=True)):
        for action, fresh in zip(old.actions, new.actions, strict=False):
            edits += [number_edit(source, quantity, value, unit) for quantity, value in changed_numbers(action, fresh)]
        said |= {id(node): text for node, text in _words(root, number, old, new)}
    summary = value_at(root, "summary")
    if recipe.summary is not None and summary is not None:
        said[id(summary)] = _summary(card, other)
    renamed = _renamed(card, size)
    for node in scalars(root):
        text = said.get(id(node), " ".join(node.value.split()))
        text = renamed(text)
        if text.split() != node.value.split():
            edits.append(passage_edit(source, node, text))
    edits += _envelope(root, size)
    return edited(source, edits)


def _other(text: str, file: str) -> Card:
    """The card of the changed plan."""
    reading = read_text(text, file)
    card = build_card(reading.recipe)[0] if reading.recipe is not None and reading.whole else None
    if card is None or card.closed is None:
        found = reading.findings[0].message if reading.findings else "the card cannot be folded in that size"
        raise CannotBeError(found)
    return card


def _promise(card: Card, other: Card, source: str) -> Iterator[Edit]:
    promise = refit_promise(card.recipe.finished, other)
    for quantity, value in changed_numbers(
            (card.recipe.finished.size, card.recipe.finished.stands), (promise.size, promise.stands)):
        yield number_edit(source, quantity, value, card.recipe.unit)


def _sheets(card: Card, other: Card, source: str) -> Iterator[Edit]:
    """Larger sheets, where what is cut from a paper no longer fits the sheet that the author has."""
    for paper in card.recipe.papers:
        if paper.sheet is None:
            continue
        boxes = [bounding_box(piece.outline) for piece in other.pieces if piece.paper == paper.name.value]
        sheet = sorted(side.value for side in paper.sheet)
        if all(min(box.width, box.height) <= sheet[0] and max(box.width, box.height) <= sheet[1] for box in boxes):
            continue
        needed = smallest_sheet([(box.width, box.height) for box in boxes], card.recipe.unit)
        for quantity, value in zip(paper.sheet, needed, strict=True):
            yield number_edit(source, quantity, value, card.recipe.unit)


def _words(root: yaml.Node, number: int, old: StepSpec, new: StepSpec) -> Iterator[tuple[yaml.Node, str]]:
    """The passages of a step that have changed, with the nodes where they stand."""
    pairs: list[tuple[tuple[str | int, ...], str, str]] = [
        ((name,), str(getattr(old, name) or ""), str(getattr(new, name) or ""))
        for name in ("title", "text", "say", "tip")]
    for at, (shot, fresh) in enumerate(zip(old.shots, new.shots, strict=True)):
        before, after = str(shot.say or ""), str(fresh.say or "")
        pairs += [(("film", at, "say"), before, after), (("film", "say"), before, after)]
    for path, was, now in pairs:
        node = value_at(root, "steps", number, *path)
        if node is not None and was != now:
            yield node, now


def _summary(card: Card, other: Card) -> str:
    """The summary with the sizes of the card that have changed."""
    summary = card.recipe.summary
    assert summary is not None
    known = known_changes(card, other)
    return applied(summary.value, (
        Said(start=one.start, end=one.end, said=number_like(one.written, known[one.value], card.recipe.unit))
        for one in mentions_in(summary, "summary", card.recipe.unit, card.recipe.texts)
        if one.kind is Kind.LENGTH and one.converts is None and one.value in known))


def _renamed(card: Card, size: Size) -> Callable[[str], str]:
    """The name of the old envelope in a passage taken for the new one's."""
    name = card.recipe.finished.envelope
    old = find_envelope(name.value) if name is not None else None
    if old is None or size.envelope == old.name:
        return lambda text: text
    look = re.compile(rf"\b(?:(an?|An?) )?{re.escape(old.name)} envelope\b")
    new = "" if size.envelope is None else "square " if "square" in size.envelope else f"{size.envelope} "

    def replaced(found: re.Match[str]) -> str:
        article = ""
        if found[1]:
            article = ("an " if (new or "e")[0] in "Aae" else "a ") if found[1].islower() else "A "
        return f"{article}{new}envelope"

    return lambda text: look.sub(replaced, text)


def _envelope(root: yaml.Node, size: Size) -> Iterator[Edit]:
    """The envelope that the finished card goes into: by name, or its outside where no usual one takes the card."""
    node = value_at(root, "finished", "envelope")
    if node is None:
        return
    if size.envelope is not None:
        said = f'"{size.envelope}"' if size.envelope.startswith("#") else size.envelope
    else:
        room = Fraction(1, 4) if size.unit.value == "inch" else 6 / size.unit.millimetres
        said = f"[{write_length(size.width + room, size.unit)}, {write_length(size.height + room, size.unit)}]"
    yield Edit(start=node.start_mark.index, end=node.end_mark.index, said=said)
