"""What may be wrong with a film: lines too long, silence too long, frames too narrow, things not there."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from foldproof.checks.check import advice, error, warning
from foldproof.checks.mentions import mentions_in
from foldproof.checks.summary import true_lengths
from foldproof.filming.lines import count_words
from foldproof.filming.plan import rate_of, shots_of
from foldproof.filming.records import Shot
from foldproof.findings.finding import Finding, Place
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Kind
from foldproof.measures.writing import with_unit, write_number
from foldproof.recipe.film_records import ShotSpec

LONGEST_SILENCE = Fraction(20)
"""Seconds of a step without words that a teacher lets pass, unless the recipe says another number (our own guess)."""

LINE_TOO_LONG = warning(
    "line longer than its shots", "The words of a step take longer to say than the seconds that its shots run.")
SILENCE = advice(
    "silence longer than wanted", "A step runs on without words for longer than the teacher wants.")
TOO_NARROW = error(
    "frame too narrow", "The width that the recipe gives a shot does not show what must be inside it.")
NOT_IN_SIGHT = error("not there to be filmed", "A shot is to show something that is not on the table then.")
NOT_THE_CARDS = error(
    "size in a beauty shot that the card has not", "The line of a shot of the finished card gives a length that "
    "nothing in the card has.")
FILM_CHECKS = (LINE_TOO_LONG, SILENCE, TOO_NARROW, NOT_IN_SIGHT, NOT_THE_CARDS)


def film_findings(card: Card, making: Making) -> tuple[Finding, ...]:
    """Everything that can be said of the film before an order is sought."""
    shots = shots_of(card, making)
    return (*_timing(card, shots), *_frames(card, shots), *_beauty_lines(card))


def _beauty_lines(card: Card) -> Iterator[Finding]:
    """Lengths in the lines of beauty shots, which belong to no step: each is a size that the card has."""
    lines = [one.say for one in card.recipe.filming.beauty if one.say is not None] if card.recipe.filming else []
    true = set(true_lengths(card)) if lines else set()
    for line in lines:
        for mention in mentions_in(line, "say", card.recipe.unit):
            if mention.kind is Kind.LENGTH and mention.converts is None and mention.value not in true:
                near = min(true, key=lambda value: abs(value - mention.value))
                yield NOT_THE_CARDS.finding(
                    f"The line says {mention.written}, and nothing in the card has that size; the nearest is "
                    f"{with_unit(near, card.recipe.unit)}.",
                    mend=f"Say {with_unit(near, card.recipe.unit)} if that is meant, or put `about` before it.",
                    place=mention.place)


def _timing(card: Card, shots: Iterable[Shot]) -> Iterator[Finding]:
    """Words against seconds, where the recipe gives the seconds: all shots of a step together."""
    by_step: dict[str, list[Shot]] = {}
    for shot in shots:
        by_step.setdefault(shot.step.spec.id if shot.step else shot.key, []).append(shot)
    spec = card.recipe.filming
    most = spec.longest_silence.value if spec is not None and spec.longest_silence is not None else LONGEST_SILENCE
    rate = rate_of(card)
    for own in by_step.values():
        if any(shot.estimated for shot in own):
            continue
        speaking = sum((shot.speaking for shot in own), Fraction(0))
        seconds = sum((shot.seconds for shot in own), Fraction(0))
        words = sum(count_words(" ".join((shot.spoken, *shot.cautions))) for shot in own)
        step = own[0].step.spec.id if own[0].step else None
        if speaking > seconds:
            caution = " with its spoken caution" if any(shot.cautions for shot in own) else ""
            yield LINE_TOO_LONG.finding(
                f"{_called(own)}: its {words} words{caution} take {_whole(speaking)} s at {write_number(rate)} words a "
                f"minute, {_whole(speaking - seconds)} s more than the {write_number(seconds)} s of its shots.",
                mend=f"Give it {_whole(speaking)} seconds, or say it in {int(seconds * rate / 60)} words.",
                place=_place(own), step=step)
        elif words and seconds - speaking > most:
            yield SILENCE.finding(
                f"{_called(own)}: its {words} words take {_whole(speaking)} s, so {int(seconds - speaking)} s of its "
                f"{write_number(seconds)} s are silent, more than {write_number(most)} s.",
                mend="Say what to look for, make the shot shorter, or set `longest silence` in `filming`.",
                place=_place(own), step=step)


def _frames(card: Card, shots: Iterable[Shot]) -> Iterator[Finding]:
    unit = card.recipe.unit
    for shot in shots:
        spec = shot.spec
        if not isinstance(spec, ShotSpec):
            continue
        for name in spec.inside:
            piece = card.panels[name.value].piece if name.value in card.panels else name.value
            if piece not in shot.before.pieces and piece not in shot.after.pieces:
                yield NOT_IN_SIGHT.finding(
                    f"{_called([shot])}: the {name} is not on the table yet in this shot.",
                    mend="Show something that is there, or put the shot in a later step.",
                    place=name.place, step=shot.step.spec.id if shot.step else None)
        if spec.width is not None and spec.width.value < shot.frame.need:
            yield TOO_NARROW.finding(
                f"{_called([shot])}: a frame {with_unit(spec.width.value, unit)} wide does not show the "
                f"{' and the '.join(shot.frame.inside)} with room for hands; that takes "
                f"{with_unit(shot.frame.need, unit)}.",
                mend=f"Write `width: {with_unit(shot.frame.need, unit)}`, or say with `inside` what must be seen.",
                place=spec.width.place, step=shot.step.spec.id if shot.step else None)


def _called(own: list[Shot]) -> str:
    shot = own[0]
    return f"Step {shot.number}, {shot.title}" if shot.number else shot.title


def _place(own: list[Shot]) -> Place | None:
    given = next((shot.spec.seconds for shot in own if shot.spec is not None and shot.spec.seconds), None)
    return given.place if given is not None else None


def _whole(seconds: Fraction) -> int:
    """Up to whole seconds."""
    return int(-(-seconds // 1))
