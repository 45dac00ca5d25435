"""What each kit uses up beside paper: adhesives, ink, ribbon by its length, die cuts, the envelope."""

import re
from collections.abc import Iterator
from fractions import Fraction

from foldproof.classroom.lesson import Lesson
from foldproof.findings.finding import Finding, Severity
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit, write_outer_size
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.actions import DieCut, Tie
from foldproof.recipe.class_records import WrapSpec
from foldproof.recipe.records import Circle, SupplySpec

_NUMBERS = ["a", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
_SHARED = frozenset(["pad", "pads", "bottle", "bottles", "roll", "rolls", "pack", "packs", "tube", "tubes", "stick"])
"""What outlasts one card, so that it is shared and not counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyNeed:
    """Something that each kit uses up, or that the class shares."""

    name: str
    title: str
    kind: str
    amount: str
    """In the recipe's own words."""
    pieces: int | None
    """How many a kit takes, where that can be counted."""
    length: Fraction | None
    """Of one kit's ribbon, thread or tape."""
    unit: Unit
    """Of the length."""
    reckoned: str
    """How the length was reckoned; empty where the recipe gives it."""


def die_needs(lesson: Lesson) -> Iterator[SupplyNeed]:
    """Die-cut and bought shapes that no paper is given for."""
    cut = {d.piece for step in lesson.making.steps for d in step.every if isinstance(d.action, DieCut)}
    for piece in lesson.card.pieces:
        if piece.paper is None and (piece.bought or piece.name in cut):
            box = bounding_box(piece.outline)
            yield SupplyNeed(
                name=piece.name,
                title=lesson.title,
                kind="die cut or ready made",
                amount="1",
                pieces=1,
                length=None,
                unit=lesson.unit,
                reckoned=write_outer_size(
                    (box.width, box.height), lesson.unit, circle=isinstance(piece.spec.shape, Circle)),
            )


def supply_needs(lesson: Lesson, findings: list[Finding]) -> Iterator[SupplyNeed]:
    """What one kit uses up, and its envelope; what is odd about it goes to `findings`."""
    recipe = lesson.card.recipe
    tied = {
        action.supply: action.length.value
        for step in recipe.steps
        for action in step.actions
        if isinstance(action, Tie) and action.length is not None
    }
    wraps = {str(wrap.supply): wrap for wrap in lesson.spec.wraps} if lesson.spec else {}
    for supply in recipe.supplies:
        name = str(supply.name)
        length = supply.length.value if supply.length else tied.get(name)
        reckoned = ""
        if name in wraps:
            wound = wound_length(lesson.card, wraps[name])
            if length is None and wound is not None:
                length, reckoned = _up(wound, lesson.unit), _wound_words(wraps[name])
            elif length is not None and wound is not None and wound > length:
                findings.append(_too_short(supply, length, wound, wraps[name], lesson.unit))
        yield SupplyNeed(
            name=name,
            title=lesson.title,
            kind=supply.kind or "",
            amount=str(supply.amount) if supply.amount else "",
            pieces=_pieces(str(supply.amount)) if supply.amount and length is None else None,
            length=length,
            unit=lesson.unit,
            reckoned=reckoned,
        )
    envelope = recipe.finished.envelope
    if envelope is not None:
        yield SupplyNeed(
            name=f"{envelope} envelope",
            title=lesson.title,
            kind="envelope",
            amount="one",
            pieces=1,
            length=None,
            unit=lesson.unit,
            reckoned="",
        )


def _up(length: Fraction, unit: Unit) -> Fraction:
    """A length to cut ribbon to: up to the next quarter inch, or the next 5 mm."""
    step = {Unit.INCH: Fraction(1, 4), Unit.MM: Fraction(5), Unit.CM: Fraction(1, 2)}[unit]
    return -(-length // step) * step


def wound_length(card: Card, wrap: WrapSpec) -> Fraction | None:
    """Round the closed card so many times, with knot and tails: 2 (side + thickness) each time round."""
    if card.closed is None:
        return None
    side = card.closed.width if wrap.way == "across" else card.closed.height
    once = 2 * (side + (card.closed.thickness or 0))
    knot = wrap.knot.value if wrap.knot else Fraction(0)
    tails = 2 * wrap.tails.value if wrap.tails else Fraction(0)
    return once * wrap.times.value + knot + tails


def _wound_words(wrap: WrapSpec) -> str:
    what = "width" if wrap.way == "across" else "height"
    more = [word for word, given in (("knot", wrap.knot), ("two tails", wrap.tails)) if given]
    return f"{wrap.times.written} × round the {what} of the closed card{', ' if more else ''}{' and '.join(more)}"


def _too_short(supply: SupplySpec, length: Fraction, wound: Fraction, wrap: WrapSpec, unit: Unit) -> Finding:
    return Finding(
        name="too short to go round",
        severity=Severity.WARNING,
        message=f"One card is given {with_unit(length, unit)} of {supply.name}; {_wound_words(wrap)} takes "
        f"{with_unit(wound, unit)}, {with_unit(wound - length, unit)} more.",
        mend=f"Give it {with_unit(wound, unit)}, or shorten the tails.",
        place=supply.length.place if supply.length else wrap.place,
    )


def _pieces(amount: str) -> int | None:
    """How many pieces `three squares` or `2` says; None for what is shared or not counted."""
    words = re.findall(r"\w+", amount.casefold())
    if not words or len(words) > 3 or words[-1] in _SHARED or words[:2] == ["a", "few"]:
        return None
    if words[0].isdigit():
        return int(words[0])
    return max(1, _NUMBERS.index(words[0])) if words[0] in _NUMBERS else None
