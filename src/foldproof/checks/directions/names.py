"""Direction words in names: `the left door` must be the door that the step works on, `the inside mat` must exist."""

import re

from foldproof.checks.binding import Sense
from foldproof.checks.directions.clauses import Doing
from foldproof.checks.directions.following import Deed, Telling
from foldproof.checks.directions.phrases import OPPOSITE, Phrase
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.folding.card import Card
from foldproof.frozen import dataclass
from foldproof.recipe import actions as do

_GENERIC = (
    "half",
    "edge",
    "end",
    "side",
    "corner",
    "panel",
    "part",
    "third",
    "quarter",
    "corners",
    "edges",
    "ends",
    "sides",
    "face",
    "and",
    "or",
    "is",
    "of",
    "in",
    "on",
    "then",
    "first",
    "with",
    "hand",
)
_ASIDE = re.compile(
    r"\b(?:over|across|beside|toward|towards|behind|than|lock|hold|locks|holds|(?:left|right|top|bottom) of)"
    r" (?:the )?$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A name of the card that a passage uses."""

    name: str
    start: int
    end: int
    twin: str | None
    """The name with the opposite direction word, where the card has one."""


def card_names(card: Card) -> frozenset[str]:
    """The names of pieces, panels, layers, joins and scores."""
    return frozenset(
        (
            *(piece.name for piece in card.pieces),
            *card.panels,
            *(bond.name for bond in card.bonds),
            *(score.name for piece in card.pieces for score in piece.scores),
        )
    )


def name_at(telling: Telling, phrase: Phrase) -> Named | None:
    """The name of which a phrase is part."""
    names = card_names(telling.card)
    best: Named | None = None
    for name in names:
        pattern = r"\s+".join(re.escape(word) for word in name.split())
        for match in re.finditer(rf"(?<![\w-]){pattern}(?![\w-])", telling.value, re.IGNORECASE):
            if match.start() <= phrase.start and phrase.end <= match.end():
                twin = _twin(name, phrase.word)
                one = Named(name=name, start=match.start(), end=match.end(), twin=twin if twin in names else None)
                if best is None or one.end - one.start > best.end - best.start:
                    best = one
    return best


def judge_name(telling: Telling, phrase: Phrase) -> Verdict | None:
    """A name with a direction in it."""
    if phrase.word not in OPPOSITE:
        return None
    named = name_at(telling, phrase)
    if named is None:
        return _unknown_name(telling, phrase)
    if named.twin is None:
        return decided(phrase, True, f"the card has a {named.name}")
    lead = telling.value[: named.start]
    if re.search(rf"\b{re.escape(named.name)}\s+and the\s+$", lead, re.IGNORECASE):
        return decided(
            phrase, False, f"the {named.name} is named twice; the other one is the {named.twin}", OPPOSITE[phrase.word]
        )
    if _ASIDE.search(lead):
        return _overhung(telling, phrase, named)
    if _elsewhere(telling, named):
        return None
    off = re.search(r"\b(?:off|away from) the $", lead, re.IGNORECASE) is not None
    deed = _deed(telling, phrase)
    if deed is not None:
        about = _about(telling, deed, lead)
        if named.name in about:
            return None if off else decided(phrase, True, "")
        if named.twin in about:
            return decided(phrase, off, f"the step works on the {named.twin} there", OPPOSITE[phrase.word])
    every = frozenset(name for names in (_about(telling, d, "") for d in telling.deeds) for name in names)
    if named.name in every and named.twin not in every:
        return decided(phrase, not off, f"the step works on the {named.name}", OPPOSITE[phrase.word])
    if named.twin in every and named.name not in every:
        return decided(phrase, off, f"the step works on the {named.twin} only", OPPOSITE[phrase.word])
    return None


def _elsewhere(telling: Telling, named: Named) -> bool:
    """Whether the sentence names both twins, so that one is only spoken of beside the other."""
    _, sentence = telling.sentence(named.start)
    both = all(re.search(rf"\b{re.escape(name)}\b", sentence, re.IGNORECASE) for name in (named.name, named.twin or ""))
    return both and telling.deed_at(named.start) is None


def _deed(telling: Telling, phrase: Phrase) -> Deed | None:
    """What the clause tells of; for glue put on something, the fixing that comes; else the sentence's own deed."""
    deed = telling.deed_at(phrase.start)
    clause = telling.clause_at(phrase.start)
    if deed is not None or clause is None:
        return deed
    numbers = [
        b.parameter.action
        for b in telling.bound
        if b.parameter is not None and b.sense is Sense.PARAMETER and clause.start <= b.mention.start < clause.end
    ]
    if numbers:
        return next((d for d in telling.deeds if d.index == numbers[0]), None)
    if re.match(r"(?:dot|put|take|spread|brush)\b", clause.text, re.IGNORECASE):
        return next(
            (
                telling.told[c]
                for c in telling.clauses
                if c.start > clause.start and c in telling.told and telling.told[c].kind is Doing.ATTACH
            ),
            None,
        )
    if re.match(r"(?:press|hold)\b", clause.text, re.IGNORECASE):
        found = [
            telling.told[c]
            for c in telling.clauses
            if c.start < clause.start and c in telling.told and telling.told[c].kind is Doing.ATTACH
        ]
        return found[-1] if found else None
    told = [telling.told[c] for c in telling.clauses if c.sentence == clause.sentence and c in telling.told]
    return told[0] if told else None


def _about(telling: Telling, deed: Deed, lead: str) -> frozenset[str]:
    """What a deed is about; after `on the`, what receives."""
    action = deed.done.action
    if not isinstance(action, do.Attach):
        return telling.names[deed.index]
    bond = next((bond for bond in telling.card.bonds if bond.name == action.bond), None)
    if bond is None:
        return frozenset()
    under: set[str] = set()
    panel: str | None = bond.under.panel
    while panel is not None:
        under |= {panel, telling.card.panels[panel].piece}
        panel = next((b.under.panel for b in telling.card.bonds if b.over.panel == panel), None)
    over = {bond.over.panel, telling.card.panels[bond.over.panel].piece, bond.name}
    if re.search(r"\b(?:on|onto|to) the (?:[\w]+ panel of the )?$", lead, re.IGNORECASE):
        return frozenset(under)
    if re.search(r"\btake the $", lead, re.IGNORECASE):
        return frozenset(over)
    return frozenset(under | over)


def _overhung(telling: Telling, phrase: Phrase, named: Named) -> Verdict | None:
    """`So that the band lies over the right door`: a layer over a panel that it overhangs."""
    if re.search(r"\b(?:locks?|holds?) the $", telling.value[: named.start]):
        fixed = {d.done.action.bond for d in telling.deeds if isinstance(d.done.action, do.Attach)}
        held = {
            one.value for layer in telling.card.recipe.layers if layer.name.value in fixed for one in layer.overhangs
        }
        if (named.name in held) != (named.twin in held):
            return decided(
                phrase, named.name in held, f"it is the {named.twin} that could be held", OPPOSITE[phrase.word]
            )
    if not re.search(r"\bover the $", telling.value[: named.start]):
        return None
    start, sentence = telling.sentence(named.start)
    lead = sentence[: named.start - start]
    for layer in telling.card.recipe.layers:
        if re.search(rf"\b{re.escape(layer.name.value)} (?:lies|reaches|slips|goes|sits)\b", lead):
            reached = {one.value for one in layer.overhangs}
            if named.name in reached or named.twin in reached:
                return decided(
                    phrase,
                    named.name in reached,
                    f"the {layer.name.value} reaches over the {named.twin}",
                    OPPOSITE[phrase.word],
                )
    return None


def _unknown_name(telling: Telling, phrase: Phrase) -> Verdict | None:
    """A name that the card has not, where the one with the opposite word is there: `the outside mat`."""
    short = _short_name(telling, phrase)
    if short is not None:
        return short
    match = re.match(r"\s+([a-z]+)", telling.value[phrase.end :])
    if match is None or match[1] in _GENERIC or phrase.written.endswith("-hand"):
        return None
    twin = f"{OPPOSITE[phrase.word]} {match[1]}"
    if twin in card_names(telling.card):
        return decided(
            phrase, False, f"the card has a {twin} and nothing called {phrase.word} {match[1]}", OPPOSITE[phrase.word]
        )
    return None


def _short_name(telling: Telling, phrase: Phrase) -> Verdict | None:
    """A name said short: `the front` for the easel front. With the other word it is a name that the card has not."""
    lead, rest = telling.value[: phrase.start], telling.value[phrase.end :]
    if phrase.word not in ("front", "back") or not re.search(r"\bthe $", lead, re.IGNORECASE):
        return None
    if re.match(r"\s+(?:of|face|side|panel|edge|half|is up)\b", rest):
        return None
    pieces = [piece.name for piece in telling.card.pieces]
    if len([name for name in pieces if name.split()[-1] == phrase.word]) == 1:
        return decided(phrase, True, "")
    twins = [name for name in pieces if name.split()[-1] == OPPOSITE[phrase.word]]
    if len(twins) != 1 or any(name.split()[-1] == phrase.word for name in card_names(telling.card)):
        return None
    used = telling.tables[-1].pieces
    said = re.search(r"(?:\b(?:cut|lay|dress|tape|from|of|and)|[.!?]) the $|^the $", lead, re.IGNORECASE)
    if twins[0] not in used or said is None:
        return None
    return decided(
        phrase,
        False,
        f"the step works on the {twins[0]}, and nothing is called the {phrase.word}",
        OPPOSITE[phrase.word],
    )


def _twin(name: str, word: str) -> str:
    return " ".join(OPPOSITE.get(word, word) if part == word else part for part in name.split())
