"""The numbers that were said in the recording, held against the numbers of the step that is shown.

A spoken passage is bound to its step as prose is (checks/binding.py). Speech repeats itself, corrects itself, speaks of
other steps and of things that no recipe sets, so what prose would not be forgiven is looked at once more here.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from foldproof.checks.binding import Bound, Passage, Sense, bind
from foldproof.checks.known import Known, known_sizes
from foldproof.checks.mentions import Mention
from foldproof.checks.parameters import Parameter, parameters
from foldproof.checks.prose import said
from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import Card
from foldproof.measures.quantity import Kind
from foldproof.recipe.records import StepSpec
from foldproof.recording.faults import WRONG_SAID
from foldproof.recording.heard import Heard, hear
from foldproof.recording.manner import in_passing, looks_back, meant_mentions, of_stock, results
from foldproof.recording.moments import clock
from foldproof.recording.records import Recording, Stretch, stretches
from foldproof.recording.sizes import converts, of_the_card, sizes_said
from foldproof.recording.transcript import Cue

SLACK = Fraction(3, 2)
"""Seconds that captions may be early or late (BBC Subtitle Guidelines): near a border, either step may be meant."""
_VERBS = re.compile(r"\b(?:scor|cut|trim|mark|measur|fold|glu|tap|attach|stick|lay|put|sit|stand|tie|turn|punch)\w*")
_SETS = ("score", "cut", "trim", "mark", "measure", "mat", "border", "gap")
_ROUND = re.compile(r"(?:border|margin|all (?:the way )?round|all (?:the way )?around|on (?:all|every|each))\b")
"""After these a length is a border."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """A number that was said wrongly."""

    at: Fraction
    """Seconds into the recording."""
    written: str
    """As the caption file has it."""
    excerpt: str
    """The words round it."""
    steps: tuple[int, ...]
    """The steps that may be shown, from 0; empty where none is."""
    step: int | None
    """The step whose number was meant."""
    meant: Parameter | None
    right: str
    """What it should have been, as prose says it; empty where that cannot be told."""
    finding: Finding


def compare(card: Card, recording: Recording, cues: Sequence[Cue], file: str) -> tuple[Slip, ...]:
    """Every number that was said wrongly, in order of time."""
    slips: list[Slip] = []
    parts = stretches(recording)
    for index, part in enumerate(parts):
        heard = hear([cue for cue in cues if part.start <= _middle(cue) < part.end], file, card.recipe.unit)
        if not heard.text.strip():
            continue
        near = [parts[i] for i in (index - 1, index + 1) if 0 <= i < len(parts)]
        for mention, meant in wrong_in(card, heard.text, part.steps):
            if not _at_a_border(card, mention, heard, part, near):
                slips.append(_slip(card, mention, meant, heard, part))
    return tuple(slips)


def wrong_in(card: Card, text: str, steps: Sequence[int]) -> tuple[tuple[Mention, Parameter | None], ...]:
    """The numbers in a spoken passage that are wrong while these steps are shown, each with what was likely meant."""
    specs = [card.recipe.steps[index] for index in steps]
    found = [one for spec in specs for one in parameters(spec)]
    mentions = meant_mentions(text, card.recipe.unit)
    if not specs:
        return tuple((mention, None) for mention in mentions if _wrong_of_the_card(card, mention, mentions))
    known = _known(card, specs)
    sizes = sizes_said(card, mentions, found, known)
    passage = bind("said", mentions, found, known)
    wrong: list[tuple[Mention, Parameter | None]] = []
    for bound in passage.bound:
        if bound.mention in sizes:
            verdict = sizes[bound.mention]
            if not verdict.right:
                wrong.append((bound.mention, verdict.meant))
        elif aimed := _aimed(bound.mention, found):
            if all(one.value != bound.mention.value for one in aimed):
                wrong.append((bound.mention, aimed[0]))
        elif bound.sense in (Sense.UNBOUND, Sense.CONVERSION) and not _forgiven(
            card, text, bound, passage, found, known
        ):
            wrong.append((bound.mention, bound.parameter))
    return tuple(wrong)


def _aimed(mention: Mention, found: Sequence[Parameter]) -> tuple[Parameter, ...]:
    """The numbers that a length said as `down from the top`, `down` or `all round` can only be."""
    if mention.kind is not Kind.LENGTH:
        return ()
    side = re.match(r"(?:(?:up|down|in|over) )?from the (top|bottom|left|right)\b", mention.after)
    way = re.match(r"(up|down)\b(?! from| to)", mention.after)
    if _ROUND.match(mention.after):
        what = "border"
    elif side is not None:
        what = f"distance from the {side[1]}"
    elif way is not None:
        what = f"distance from the {'top' if way[1] == 'down' else 'bottom'}"
    else:
        return ()
    return tuple(one for one in found if one.what == what)


def _forgiven(card: Card, text: str, bound: Bound, passage: Passage, found: Sequence[Parameter], known: Known) -> bool:
    """Whether speech may say a number that is bound to nothing: a conversion, a repeat, another true size."""
    mention = bound.mention
    values = [one.value for one in found if one.kind is mention.kind]
    if bound.sense is Sense.CONVERSION and bound.of is not None:
        return converts(card, mention, [bound.of.value])
    if mention.kind is not Kind.LENGTH:
        return False
    if mention.value in _thicknesses(card):
        return True
    if converts(card, mention, values, unit=_unit_before(mention, passage)) or _said_again(
        text, mention, passage.bound
    ):
        return True
    if _of_another_step(card, mention, found):
        return True
    if in_passing(text, mention):
        return True
    if of_stock(mention) and any(mention.value in pair for pair in known.either):
        return True
    if looks_back(mention) and mention.value in of_the_card(card):
        return True
    if results(mention) and mention.value in known.lengths:
        return True
    missing = [one for one in passage.unsaid if one.kind is Kind.LENGTH and not one.optional]
    like = [one for one in missing if one.needed or abs(one.value - mention.value) * 4 <= one.value]
    if mention.value in known.lengths and not like:
        return True
    if not missing and mention.value in of_the_card(card):
        earlier = [one.mention.value for one in passage.bound if one.mention.end <= mention.start]
        return not mention.after.startswith("again") or mention.value in earlier
    return not values and mention.beside not in _SETS


def _of_another_step(card: Card, mention: Mention, found: Sequence[Parameter]) -> bool:
    """Whether it is said of a score or a mark, of which this step makes none, and another step makes it just so."""
    what = {"score": "distance of the score", "mark": "distance of the mark"}.get(mention.beside or "")
    if what is None or any(one.what == what for one in found):
        return False
    elsewhere = (one for step in card.recipe.steps for one in parameters(step))
    return any(one.what == what and one.value == mention.value for one in elsewhere)


def _thicknesses(card: Card) -> frozenset[Fraction]:
    """How thick the papers and supplies are."""
    papers, supplies = card.recipe.papers, card.recipe.supplies
    given = (*(paper.thickness for paper in papers), *(supply.thickness for supply in supplies))
    return frozenset(thickness.value for thickness in given if thickness is not None)


def _unit_before(mention: Mention, passage: Passage) -> str | None:
    """The unit of the length before it, for a number that is said without one: `9.7 centimetres, and then 19.7`."""
    before = [
        bound.mention
        for bound in passage.bound
        if bound.mention.end <= mention.start and bound.mention.kind is Kind.LENGTH
    ]
    return before[-1].unit if before and mention.unit is None else mention.unit


def _said_again(text: str, mention: Mention, all_bound: Sequence[Bound]) -> bool:
    """Whether it repeats the number just before it, with no new action between: `at an eighth, so an eighth`."""
    before = [bound for bound in all_bound if bound.mention.end <= mention.start and bound.mention.kind is mention.kind]
    if not before or before[-1].mention.value != mention.value or before[-1].sense is Sense.UNBOUND:
        return False
    return _VERBS.search(text[before[-1].mention.end : mention.start].casefold()) is None


def _wrong_of_the_card(card: Card, mention: Mention, mentions: Sequence[Mention]) -> bool:
    """Where no step is shown: a size, or a length beside `score` and its like, that nothing in the card has."""
    if mention.kind is not Kind.LENGTH or mention.value in of_the_card(card):
        return False
    following = next((other for other in mentions if other.start >= mention.end), None)
    sized = mention.joined or (following is not None and following.joined)
    return (sized or mention.beside in _SETS) and not converts(card, mention, sorted(of_the_card(card)))


def _known(card: Card, specs: Sequence[StepSpec]) -> Known:
    known = [known_sizes(card, spec) for spec in specs]
    return Known(
        ordered=frozenset().union(*(one.ordered for one in known)),
        either=frozenset().union(*(one.either for one in known), *(one.ordered for one in known)),
        lengths=frozenset().union(*(one.lengths for one in known)),
        times=frozenset().union(*(one.times for one in known)),
    )


def _at_a_border(card: Card, mention: Mention, heard: Heard, part: Stretch, near: Sequence[Stretch]) -> bool:
    """Whether it may belong to the step before or after, since captions may be a little early or late."""
    cue = heard.cue_at(mention.start)
    for other in near:
        close = cue.end > part.end - SLACK if other.start >= part.end else cue.start < part.start + SLACK
        values = {
            one.value
            for index in other.steps
            for one in parameters(card.recipe.steps[index])
            if one.kind is mention.kind
        }
        if close and mention.value in values:
            return True
    return False


def _slip(card: Card, mention: Mention, meant: Parameter | None, heard: Heard, part: Stretch) -> Slip:
    step = next((index for index in part.steps if meant in parameters(card.recipe.steps[index])), None)
    if step is None and len(part.steps) == 1:
        step = part.steps[0]
    right = said(card, meant) if meant is not None else ""
    at = heard.at(mention.start)
    written = " ".join(mention.written.split())
    spec = card.recipe.steps[step] if step is not None else None
    where = f"while the step {spec.title} is shown" if spec is not None else "where no step is shown"
    but = f"; the {meant.what} is {right}" if meant is not None else ", and nothing that is set there has that size"
    asides = (Aside(text=f"the {meant.what}: {right}", place=meant.place),) if meant is not None else ()
    return Slip(
        at=at,
        written=written,
        excerpt=_excerpt(heard.text, mention),
        steps=part.steps,
        step=step,
        meant=meant,
        right=right,
        finding=WRONG_SAID.finding(
            f"At {clock(at)}, {where}, “{_excerpt(heard.text, mention)}” is said{but}.",
            mend="Cut or dub it in the recording, or leave the correction in the description as it is drafted. "
            "If the caption is misheard, correct the caption.",
            place=heard.place(mention.start, mention.end),
            asides=asides,
            step=spec.id if spec is not None else None,
        ),
    )


def _excerpt(text: str, mention: Mention) -> str:
    before, after = text[: mention.start].split()[-3:], text[mention.end :].split()[:2]
    gap = " " if text[mention.end : mention.end + 1].isspace() else ""
    excerpt = f"{' '.join([*before, ' '.join(mention.written.split())])}{gap}{' '.join(after)}"
    return excerpt.strip(" ,;:-")


def _middle(cue: Cue) -> Fraction:
    return (cue.start + cue.end) / 2
