"""How many folds, doors, mats, corners the words speak of, against how many the card has."""

import re
from collections.abc import Iterable, Iterator

from foldproof.checks.counts import WRONG_COUNT
from foldproof.checks.prose import called, passages_of
from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.making.table import Making
from foldproof.paper.face import Fold
from foldproof.recipe.actions import Attach, CutOut, DieCut
from foldproof.recipe.pinpoint import place_in
from foldproof.recipe.records import StepSpec

_NUMBERS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_COUNTED = re.compile(
    rf"\b(?P<all>all )?(?P<count>{'|'.join(_NUMBERS[1:])}|\d)(?= (?P<like>[a-z-]+ )?(?P<thing>[a-z]+s)\b)",
    re.IGNORECASE,
)
_WHICH_CORNERS = ("top", "bottom", "left", "right", "upper", "lower", "near", "far")
_MORE = re.compile(r"\b(?:rest|other|others|more|each|every|another)\b", re.IGNORECASE)


def check_things_counted(card: Card, making: Making) -> Iterable[Finding]:
    """More things than the card has; one of what is said as several; not all of what is said to be all.

    Fewer than there are is no fault: a sentence may speak of some of them.
    """
    for step in card.recipe.steps:
        for passage, text in passages_of(step):
            for match in _COUNTED.finditer(text.value):
                count = _value(match["count"])
                like, thing = (match["like"] or "").strip().casefold(), match["thing"].casefold()
                most = max(_truths(card, step, like, thing), default=None)
                exact = bool(match["all"]) or _only_supply(card, step, text.value, thing)
                if most is None or (count == most) or (count < most and count != 1 and not exact):
                    continue
                yield WRONG_COUNT.finding(
                    f"The {called(passage)} of the step {step.title} says {match['count']} {like + ' ' if like else ''}"
                    f"{thing}; the card has {_NUMBERS[most] if most < len(_NUMBERS) else most} that it could mean.",
                    mend=f"Say {_NUMBERS[most] if most < len(_NUMBERS) else most}, or change the plan.",
                    step=step.id,
                    place=place_in(text, *match.span("count"), card.recipe.texts),
                )


def _truths(card: Card, step: StepSpec, like: str, thing: str) -> Iterator[int]:
    """The numbers that the card has of a thing; none where it is not known what is meant."""
    noun = thing.removesuffix("s")
    if noun in ("side", "edge") and not like:
        yield from ([4] if _four_cornered(card, step) else [])
    elif noun == "halve" or (noun == "corner" and like in _WHICH_CORNERS):
        yield 2
    elif noun == "piece" and like in ("", "large", "small"):
        cuts = sum(isinstance(action, CutOut | DieCut) for action in step.actions)
        yield from (number for number in (len(card.recipe.pieces), cuts) if number > 1)
    elif noun in ("fold", "score") and not like:
        scores = [score for piece in card.pieces for score in piece.scores]
        yield from _several(len([s for s in scores if noun == "score" or s.fold is not Fold.NONE]))
    else:
        yield from _several(len(_named(card, like, noun)))
        yield from _amounts(card, thing)


def _several(number: int) -> Iterator[int]:
    if number > 1:
        yield number


def _named(card: Card, like: str, noun: str) -> set[str]:
    """Names of panels, pieces, layers and scores that end in a word, of the kind that the word before it tells."""
    layers = {piece.name: piece for piece in card.pieces if piece.layer}
    names = {*card.panels, *(piece.name for piece in card.pieces), *(s.name for p in card.pieces for s in p.scores)}
    fits = {name for name in names if name.split()[-1].casefold() == noun}
    if not like:
        return fits
    if any(name.split()[-2:-1] == [like] for name in fits):
        return {name for name in fits if name.split()[-2:-1] == [like]}
    papers = {name for name in fits if name in layers and (layers[name].paper or "").casefold() == like}
    upon = {bond.over.panel for bond in card.bonds if bond.under.panel.split()[-1].casefold() == like}
    return papers or fits & upon


def _amounts(card: Card, thing: str) -> Iterator[int]:
    """How many of a supply are listed: `three squares`."""
    for supply in card.recipe.supplies:
        words = (supply.amount.value if supply.amount is not None else "").casefold().split()
        if len(words) == 2 and words[1] == thing and (words[0] in _NUMBERS or words[0].isdigit()):
            yield _value(words[0])


def _only_supply(card: Card, step: StepSpec, text: str, thing: str) -> bool:
    """Whether a supply is used in this step only and counted once, so that its whole amount must be meant."""
    users = [one for one in card.recipe.steps if re.search(rf"\b{thing}\b", one.text.value, re.IGNORECASE)]
    once = len(re.findall(rf"\b{thing}\b", text, re.IGNORECASE)) == 1
    return bool([*_amounts(card, thing)]) and users == [step] and once and _MORE.search(text) is None


def _four_cornered(card: Card, step: StepSpec) -> bool:
    """Whether what the step fixes, or else every panel of what it works on, has four corners."""
    fixed = {action.bond for action in step.actions if isinstance(action, Attach)}
    laid = [card.panels[bond.over.panel].ring for bond in card.bonds if bond.name in fixed]
    if laid:
        return all(len(ring) == 4 for ring in laid)
    names = {step.piece.value if step.piece is not None else None, *(action.piece for action in step.actions)}
    rings = [card.panels[panel].ring for piece in card.pieces if piece.name in names for panel in piece.panels]
    return all(len(ring) == 4 for ring in rings)


def _value(word: str) -> int:
    return int(word) if word.isdigit() else _NUMBERS.index(word.casefold())
