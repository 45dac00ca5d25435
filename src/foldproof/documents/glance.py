"""The card at a glance: finished size, envelope with what it leaves, time, skill, sheets."""

from fractions import Fraction

from foldproof.checks.envelope import envelope_fit
from foldproof.checks.post import mail_piece, verdicts
from foldproof.documents.cutting import pieces_wanted, sheet_counts
from foldproof.documents.view import Fact
from foldproof.documents.words import listed, time_words
from foldproof.facts.source import Source
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Unit
from foldproof.measures.rounding import half_even
from foldproof.measures.writing import size_in_metric, with_unit, write_length, write_size
from foldproof.recipe.actions import Dry
from foldproof.recipe.repeating import every_action


def facts(card: Card, making: Making) -> tuple[Fact, ...]:
    """What a teacher looks for first; what the recipe does not say is left out."""
    told = (
        ("Finished size", _size(card)),
        ("Standing height", _standing(card)),
        ("Closed thickness", _thickness(card)),
        ("Envelope", _envelope(card)),
        ("Post", _post(card)),
        ("Time", _time(card)),
        ("Skill", str(card.recipe.skill) if card.recipe.skill else ""),
        ("Sheets", _sheets(card, making)),
    )
    return tuple(Fact(label=label, text=text) for label, text in told if text)


def _finished(card: Card) -> tuple[Fraction, Fraction]:
    """The closed card's size, as the plan folds it; as promised where it does not fold flat."""
    promised = card.recipe.finished.size
    return (card.closed.width, card.closed.height) if card.closed else (promised[0].value, promised[1].value)


def _size(card: Card) -> str:
    size, unit = _finished(card), card.recipe.unit
    return write_size(size, unit) + (f" ({size_in_metric(size, unit)})" if unit is Unit.INCH else "")


def _standing(card: Card) -> str:
    stands = card.recipe.finished.stands
    return with_unit(stands.height.value, card.recipe.unit) if stands else ""


def _thickness(card: Card) -> str:
    """At the thickest place of the closed card, up to the next 1/64 in or 0.1 mm."""
    if card.closed is None or not card.closed.thickness:
        return ""
    unit = card.recipe.unit
    step = {Unit.INCH: Fraction(1, 64), Unit.MM: Fraction(1, 10), Unit.CM: Fraction(1, 100)}[unit]
    return f"about {with_unit(-(-card.closed.thickness // step) * step, unit)} at its thickest"


def _envelope(card: Card) -> str:
    """The envelope and what the flat card leaves: along the short side, then along the long one, both ends together."""
    fit, unit = envelope_fit(card), card.recipe.unit
    if fit is None:
        return str(card.recipe.finished.envelope or "")
    mm = unit.millimetres
    outside, room = (
        write_size((_shown(pair[0] / mm, unit), _shown(pair[1] / mm, unit)), unit)
        for pair in (fit.envelope_mm, fit.room_mm))
    return f"{f'{fit.known.name}, ' if fit.known else ''}{outside}; it leaves {room}"


def _shown(value: Fraction, unit: Unit) -> Fraction:
    """An envelope of the other unit to a tenth of a millimetre, half to even, or to a 32nd of an inch."""
    return Fraction(round(value * 32), 32) if unit is Unit.INCH else half_even(value, 1 if unit is Unit.MM else 2)


def _post(card: Card) -> str:
    """What it weighs in its envelope, and what the posts of the recipe's part of the world take it for."""
    piece = mail_piece(card)
    if piece is None:
        return ""
    told = [f"about {write_length(half_even(piece.mass_g, 0), Unit.MM)} g in its envelope"]
    told += [f"{one.post}: {one.what}{_dated(one.source)}" for one in verdicts(card)]
    return "; ".join(told) + ". Your post office has the last word."


def _dated(source: Source) -> str:
    """A source that has a date, in brackets: rules change."""
    return f" ({source.text}, {source.date})" if source.date else ""


def _time(card: Card) -> str:
    """The time of all steps and, of it or beside it, the waiting while things dry."""
    steps = card.recipe.steps
    given = [step.minutes.value for step in steps if step.minutes]
    drying = sum((do.time.value for step in steps for do in every_action(step) if isinstance(do, Dry)), Fraction(0))
    parts = [time_words(sum(given, Fraction(0)))] if given else []
    return ", ".join([*parts, *([f"drying {time_words(drying)}"] if drying else [])])


def _sheets(card: Card, making: Making) -> str:
    """The sheets of each paper; what is cut from a paper whose sheet nobody knows."""
    counts = sheet_counts(card, making)
    used = {piece.paper for piece in card.pieces}
    loose = [(name, pieces_wanted(card, making, name)) for name, count in counts.items() if not count and name in used]
    return "; ".join(filter(None, (
        listed([f"{count} {name}" for name, count in counts.items() if count]),
        *(f"{name}: {pieces}" for name, pieces in loose if pieces))))
