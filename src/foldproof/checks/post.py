"""What the post makes of the card in its envelope: one line for each post that asks more, or refuses it."""

from collections.abc import Iterable
from fractions import Fraction

from foldproof.checks.bulk import mass_g
from foldproof.checks.check import advice, warning
from foldproof.checks.envelope import envelope_fit
from foldproof.facts.paper_weights import read_weight
from foldproof.facts.postal import MailPiece, Verdict, germany, united_kingdom, united_states, universal_postal_union
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.measures.quantity import Unit

COSTS_MORE = advice(
    "post asks more", "In its envelope the card is not a plain letter to a post, or is refused by it.")
WEIGHT = warning(
    "paper's weight can't be read",
    "The weight of a paper is not written as packs have it, so nothing can be reckoned from it.")

_ENVELOPE_WALLS_MM = Fraction("0.23")
"""Two walls of 24 lb bond, 0.0045 in each."""
_NO_BULK_KNOWN_MM = Fraction(1)
"""Taken for a card whose papers tell nothing of their thickness: inside every limit for thin letters."""


def mail_piece(card: Card) -> MailPiece | None:
    """The card in its envelope, addressed along the longer side; None without an envelope or a known weight."""
    fit = envelope_fit(card)
    if fit is None or not fit.goes_in:
        return None
    mass = mass_g(card, fit.envelope_mm)
    if mass is None:
        return None
    bulk = fit.bulk_mm if fit.bulk_mm is not None else _NO_BULK_KNOWN_MM
    return MailPiece(
        length_mm=fit.envelope_mm[1], height_mm=fit.envelope_mm[0], thickness_mm=bulk + _ENVELOPE_WALLS_MM, mass_g=mass)


def verdicts(card: Card) -> tuple[Verdict, ...]:
    """What each post of the recipe's part of the world makes of it: the United States for inches, else Europe's."""
    piece = mail_piece(card)
    if piece is None:
        return ()
    posts = (united_states,) if card.recipe.unit is Unit.INCH else (united_kingdom, germany, universal_postal_union)
    return tuple(post(piece) for post in posts)


def check_post(card: Card, making: Making) -> Iterable[Finding]:
    """Only a post that asks more than for a plain letter, or refuses, is told."""
    promise = card.recipe.finished
    for verdict in verdicts(card):
        if verdict.plain:
            continue
        reasons = "; ".join(reason.text for reason in verdict.reasons)
        yield COSTS_MORE.finding(
            f"{verdict.post}: {verdict.what}{', refused as it is' if verdict.refused else ''}. {reasons[:1].upper()}"
            f"{reasons[1:]}. Source: {verdict.source}.",
            mend="Ask your local post office what it costs; rules change, and it has the last word.",
            place=promise.envelope.place if promise.envelope else promise.place)


def check_weights(card: Card, making: Making) -> Iterable[Finding]:
    """Each paper's weight is one that can be reckoned with."""
    for paper in card.recipe.papers:
        if paper.weight is None:
            continue
        found = read_weight(paper.weight.value, place=paper.weight.place)
        if isinstance(found, Finding):
            yield WEIGHT.finding(found.message, mend=found.mend, place=paper.weight.place)
