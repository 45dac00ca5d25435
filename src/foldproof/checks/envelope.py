"""Whether the closed card goes into its envelope, and with what room."""

from collections.abc import Iterable
from fractions import Fraction

from foldproof.checks.bulk import thickness_mm
from foldproof.checks.check import error, warning
from foldproof.checks.phrases import length, listed, size
from foldproof.facts.envelopes import STANDARD_CLEARANCE_MM, Envelope, find_envelope, unknown_envelope
from foldproof.findings.finding import Finding, Place
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.making.table import Making

UNKNOWN = error("unknown envelope", "The envelope's name is none that is known here.")
TOO_BIG = error("card larger than its envelope", "The closed card does not go into the envelope that the recipe names.")
TIGHT = warning(
    "tight in its envelope",
    "The closed card leaves less room than the usual card for that envelope, or less than its bulk.")

Pair = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How the closed card lies in its envelope, shorter side first; millimetres, exact but for the bulk."""

    envelope: str
    """Its name, or its size where it has none."""
    known: Envelope | None
    envelope_mm: Pair
    card_mm: Pair
    room_mm: Pair
    """Envelope less card, both sides together; negative where the card is larger."""
    usual_room_mm: Pair
    """The room that counts as enough: what the usual card leaves, and never more than a quarter inch."""
    bulk_mm: Fraction | None
    """The thickness of the closed card; estimated where a paper gives only its weight."""

    @property
    def goes_in(self) -> bool:
        """Whether the card is no larger than the envelope."""
        return min(self.room_mm) >= 0

    @property
    def tight(self) -> bool:
        """Whether it has less room than usual, or than its own thickness once more (rule of thumb, from memory)."""
        return any(
            room < usual or (self.bulk_mm is not None and room < self.bulk_mm)
            for room, usual in zip(self.room_mm, self.usual_room_mm, strict=True)
        )


def envelope_fit(card: Card) -> Fit | None:
    """The fit of the closed card; None without an envelope or a closed pose, or where the envelope is not known."""
    promise, closed, unit = card.recipe.finished, card.closed, card.recipe.unit
    known = find_envelope(promise.envelope.value) if promise.envelope is not None else None
    if closed is None:
        return None
    if known is not None:
        name, outside, usual = known.name, known.size_mm, known.usual_clearance_mm
    elif promise.envelope_size is not None:
        sides = sorted(side.value * unit.millimetres for side in promise.envelope_size)
        outside = (sides[0], sides[1])
        name = size(card, promise.envelope_size[0].value, promise.envelope_size[1].value)
        usual = (STANDARD_CLEARANCE_MM, STANDARD_CLEARANCE_MM)
    else:
        return None
    # the promised size: where the closed card has another, that is a finding of its own
    sides = sorted(side.value * unit.millimetres for side in promise.size)
    card_mm = (sides[0], sides[1])
    return Fit(
        envelope=name, known=known, envelope_mm=outside, card_mm=card_mm,
        room_mm=(outside[0] - card_mm[0], outside[1] - card_mm[1]),
        usual_room_mm=(min(usual[0], STANDARD_CLEARANCE_MM), min(usual[1], STANDARD_CLEARANCE_MM)),
        bulk_mm=thickness_mm(card),
    )


def check_envelope(card: Card, making: Making) -> Iterable[Finding]:
    """Too large is an error; less room than the usual card leaves, or than the bulk needs, a warning."""
    promise = card.recipe.finished
    if promise.envelope is not None and promise.envelope_size is None and find_envelope(promise.envelope.value) is None:
        yield unknown_envelope(promise.envelope.value, promise.envelope.place)
        return
    fit = envelope_fit(card)
    if fit is None:
        return
    place = _place(card)
    sides = tuple(zip(("short", "long"), fit.room_mm, fit.usual_room_mm, strict=True))
    says = f"the closed card is {_size(card, fit.card_mm)}, the envelope {_name(fit)}{_size(card, fit.envelope_mm)}"
    if not fit.goes_in:
        over = listed(f"{_said(card, -room)} too large on its {side} side" for side, room, _ in sides if room < 0)
        yield TOO_BIG.finding(
            f"It does not go in: {says}. It is {over}.",
            mend="Name a larger envelope, or make the card smaller.", place=place)
        return
    if not fit.tight:
        return
    narrow = [f"{_said(card, room)} on the {side} side, where {_said(card, usual)} is usual"
              for side, room, usual in sides if room < usual]
    if narrow:
        yield TIGHT.finding(
            f"It is tight: {says}. It leaves {'; '.join(narrow)}.",
            mend="Name the next larger envelope, or make the card smaller.", place=place)
    elif fit.bulk_mm is not None:
        yield TIGHT.finding(
            f"It is tight for its bulk: the closed card is about {_about(card, fit.bulk_mm)} thick and leaves only "
            f"{_said(card, min(fit.room_mm))}; a card needs at least its own thickness again.",
            mend="Name the next larger envelope, or take thinner layers.", place=place)


def _place(card: Card) -> Place:
    promise = card.recipe.finished
    if promise.envelope is not None:
        return promise.envelope.place
    return promise.envelope_size[0].place if promise.envelope_size else promise.place


def _name(fit: Fit) -> str:
    return f"{fit.known.name} " if fit.known is not None else ""


def _size(card: Card, pair: Pair) -> str:
    mm = card.recipe.unit.millimetres
    return size(card, pair[0] / mm, pair[1] / mm)


def _said(card: Card, mm: Fraction) -> str:
    return length(card, mm / card.recipe.unit.millimetres)


def _about(card: Card, mm: Fraction) -> str:
    """A thickness to the hundredth of an inch or the tenth of a millimetre."""
    if card.recipe.unit.value == "inch":
        return f"{float(mm / card.recipe.unit.millimetres):.2f} in"
    return f"{float(mm):.1f} mm"
