"""True sizes that the words of a step may mention although no action of the step sets them."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from foldproof.checks.mentions import Mention, mentions_in
from foldproof.checks.parameters import Parameter
from foldproof.facts.envelopes import find_envelope
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.measures.quantity import Kind
from foldproof.paper.polygon import bounding_box
from foldproof.recipe.actions import Attach
from foldproof.recipe.records import StepSpec, Text

Pair = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is true of the card and of what it is made from, for one step."""

    ordered: frozenset[Pair]
    """Width and height, in this order: the finished card, the pieces and layers in hand."""
    either: frozenset[Pair]
    """Sizes that are said either way round: sheets and envelopes."""
    lengths: frozenset[Fraction]
    """Single lengths."""
    times: frozenset[Fraction] = frozenset()
    """How long the supplies take to dry, in seconds."""

    def pairs_in(self, mentions: Sequence[Mention], parameters: Sequence[Parameter]) -> set[Mention]:
        """Mentions that together name a known size (`an 8 1/2 x 11 in sheet`) which the step itself does not set."""
        values = [one.value for one in parameters]
        set_here = {frozenset(pair) for pair in pairwise(values)}
        found: set[Mention] = set()
        for first, second in pairwise(mentions):
            pair = (first.value, second.value)
            known = pair in self.ordered or pair in self.either or pair[::-1] in self.either
            if second.joined and known and frozenset(pair) not in set_here:
                found |= {first, second}
        return found

    def explains(self, mention: Mention, *, open_: bool) -> bool:
        """Whether a single mention is true, and stands where no number of the step is missing.

        A title or a tip need not say the step's numbers, so there only one beside a cut or a score must be the step's.
        """
        if mention.kind is Kind.TIME:
            return mention.value in self.times and not open_
        loose = mention.passage in ("title", "tip") and not mention.beside
        return mention.kind is Kind.LENGTH and mention.value in self.lengths and (loose or not open_)


def known_sizes(card: Card, step: StepSpec) -> Known:
    """What a step may mention."""
    recipe = card.recipe
    promise = recipe.finished
    in_hand = set(_in_hand(card, step))
    ordered: set[Pair] = {(promise.size[0].value, promise.size[1].value)}
    lengths: set[Fraction] = set()
    for piece in card.pieces:
        if piece.name in in_hand:
            box = bounding_box(piece.outline)
            ordered.add((box.width, box.height))
            for name in piece.panels:
                panel = bounding_box(card.panels[name].ring)
                lengths |= {panel.width, panel.height}
    either: set[Pair] = {(p.sheet[0].value, p.sheet[1].value) for p in recipe.papers if p.sheet is not None}
    if promise.envelope_size is not None:
        either.add((promise.envelope_size[0].value, promise.envelope_size[1].value))
    envelope = find_envelope(promise.envelope.value) if promise.envelope is not None else None
    if envelope is not None:
        mm = recipe.unit.millimetres
        either.add((envelope.size_mm[0] / mm, envelope.size_mm[1] / mm))
    lengths |= {supply.length.value for supply in recipe.supplies if supply.length is not None}
    for meets in promise.meets:
        lengths |= {q.value for q in (meets.gap, meets.overlap) if q is not None}
    if promise.stands is not None:
        lengths.add(promise.stands.height.value)
    lengths |= {value for pair in ordered | either for value in pair}
    names = (*(one.name for one in recipe.supplies), *(one.name for one in recipe.tools),
             *(one.name for one in recipe.papers))
    lengths |= set(_in_names(card, names))
    times = frozenset(supply.dries.value for supply in recipe.supplies if supply.dries is not None)
    return Known(ordered=frozenset(ordered), either=frozenset(either), lengths=frozenset(lengths), times=times)


def _in_hand(card: Card, step: StepSpec) -> Iterator[str]:
    """The pieces and layers that a step acts on."""
    if step.piece is not None:
        yield step.piece.value
    yield from (again.piece.value for again in step.repeats)
    bonds = {bond.name: bond for bond in card.bonds}
    for action in step.actions:
        if action.piece is not None:
            yield action.piece
        if isinstance(action, Attach) and action.bond in bonds:
            bond = bonds[action.bond]
            yield card.panels[bond.over.panel].piece
            yield card.panels[bond.under.panel].piece


def _in_names(card: Card, names: Iterable[Text]) -> Iterator[Fraction]:
    """Lengths in names of things: `1/4 in tape`."""
    for name in names:
        for mention in mentions_in(name, "name", card.recipe.unit):
            if mention.kind is Kind.LENGTH:
                yield mention.value
