"""What a few words of a sentence stand for: panels of the work, a score, the face with the pencil cross."""

import re
from collections.abc import Iterable

from foldproof.checks.directions.following import Telling
from foldproof.checks.directions.looking import Sight
from foldproof.folding.card import Card
from foldproof.folding.outside import outside_of
from foldproof.paper.face import Face
from foldproof.paper.polygon import area, bounding_box
from foldproof.paper.vector import Point, Segment
from foldproof.recipe.records import StepSpec

_ARTICLE = re.compile(r"^(?:the|its|your|a|an|each|both|their|whole|open|closed|folded|that|this)\s+", re.IGNORECASE)
_WHOLE = ("card", "sheet", "work", "base", "piece", "coat")
_SMALL, _LARGE = ("narrow", "short", "small", "narrower"), ("wide", "large", "big", "long")
_PARTS = ("panel", "flap", "triangle", "door", "lapel", "part", "side", "half", "leaf", "page")


def bare(words: str) -> str:
    """Words without their articles, in small letters."""
    words = " ".join(words.casefold().split()).strip(" .,;:")
    while _ARTICLE.match(words):
        words = _ARTICLE.sub("", words)
    return words


def panels_called(sight: Sight, words: str, piece: str) -> tuple[tuple[str, ...], ...]:
    """The panels that some words may mean: one tuple for each thing that they fit; empty where nothing is known."""
    card, said = sight.card, bare(words)
    here = sight.panels
    for panel in here:
        if panel.casefold() == said:
            return ((panel,),)
    for one in card.pieces:
        if one.name.casefold() == said and any(panel in here for panel in one.panels):
            return (tuple(panel for panel in one.panels if panel in here),)
    own = _own(sight, piece)
    if said in _WHOLE:
        return (own,)
    *adjectives, noun = said.split() or [""]
    many, noun = noun.endswith("s") and noun != "s", noun.removesuffix("s")
    fits = [panel for panel in own if panel.split()[-1].casefold() == noun]
    if not fits and noun in _PARTS:
        fits = list(own)
    sized = next((word for word in adjectives if word in _SMALL + _LARGE), None)
    if sized is not None:
        fits = [one for one in fits if one in _sized(card, own, small=sized in _SMALL)] or _sized(
            card, fits, small=sized in _SMALL
        )
    elif adjectives or (noun in _PARTS and fits == list(own)):
        return ()
    if many:
        return (tuple(fits),) if fits else ()
    return tuple((panel,) for panel in fits)


def _own(sight: Sight, piece: str) -> tuple[str, ...]:
    found = sight.card.piece(piece)
    return tuple(p for p in found.panels if p in sight.panels) if found is not None else sight.own()


def _sized(card: Card, panels: Iterable[str], *, small: bool) -> list[str]:
    """The smallest panels of some, or the largest."""
    sizes = {panel: area(card.panels[panel].ring) for panel in panels}
    if len(set(sizes.values())) < 2:
        return []
    wanted = min(sizes.values()) if small else max(sizes.values())
    return [panel for panel, size in sizes.items() if size == wanted]


def narrowest(sight: Sight, piece: str) -> str | None:
    """The one panel of a piece that is narrower than all others as it lies."""
    widths = {p: bounding_box(sight.ring(p)).width + bounding_box(sight.ring(p)).height for p in _own(sight, piece)}
    least = [panel for panel, width in widths.items() if width == min(widths.values())]
    return least[0] if len(least) == 1 and len(widths) > 1 else None


def scores_called(telling: Telling, words: str, piece: str) -> tuple[Segment, ...]:
    """The pressed scores that some words mean, in the piece's own frame; empty where it is not clear which."""
    said = bare(words)
    on_table = next((t.pieces[piece] for t in reversed(telling.tables) if piece in t.pieces), None)
    if on_table is None or said.split()[-1:] not in (["score"], ["ridge"], ["scores"], ["line"]):
        return ()
    segments = tuple(dict.fromkeys(crease.segment for crease in on_table.creases))
    order = {"first": 0, "second": 1, "third": 2}
    for word, index in order.items():
        if word in said.split():
            return segments[index : index + 1]
    if "slanted" in said:
        return tuple(s for s in segments if s.along.x != 0 and s.along.y != 0)
    return segments if len(segments) == 1 else ()


def middle(segment: Segment) -> Point:
    """The middle of a score."""
    return segment.start + segment.along * (segment.along.square / segment.along.square / 2)


def folds_now(telling: Telling, sight: Sight) -> tuple[Segment, ...]:
    """The folds that are folded at a moment, in the frame of the body."""
    found = []
    for name, _ in sight.table.folded:
        for hinge in telling.card.hinges:
            if hinge.score == name and hinge.panels[0] in sight.fits:
                found.append(sight.fits[hinge.panels[0]].segment(hinge.segment))
    return tuple(found)


def piece_face(sight: Sight, piece: str) -> Face | None:
    """The face of a piece that is up: that of its largest panel."""
    own = _own(sight, piece)
    if not own:
        return None
    return sight.up(max(own, key=lambda panel: area(sight.card.panels[panel].ring)))


def face_named(telling: Telling, words: str, piece: str) -> Face | None:
    """The face that words such as `outside`, `plain side`, `lining` name on a piece; None where it is not known."""
    card, found = telling.card, telling.card.piece(piece)
    if found is None:
        return None
    said = bare(words)
    for word, meant in _aliases(card.recipe.steps).items():
        if word in said.split():
            said = meant
    outside = outside_of(card, found)
    if "outside" in said.split():
        return outside
    if "inside" in said.split():
        return outside.other if outside is not None else None
    paper = next((p for p in card.recipe.papers if p.name.value == found.paper), None)
    if paper is None or paper.printed != "one face":
        return None
    if any(word in said.split() for word in ("patterned", "printed")):
        return Face.FRONT
    return Face.BACK if "plain" in said.split() else None


def lies_flat(sight: Sight, piece: str) -> bool:
    """Whether no score of a piece is folded now."""
    folded = {name for name, _ in sight.table.folded}
    own = {hinge.score for hinge in sight.card.hinges if sight.card.panels[hinge.panels[0]].piece == piece}
    return not folded & own


def own_face(telling: Telling, words: str, piece: str) -> Face | None:
    """The face that `its front` or `the back of the hut` names on a piece that lies flat.

    None where another piece is called so, or where the card has an outside: its front may then be its cover.
    """
    found = telling.card.piece(piece)
    match = re.search(r"\b(?P<face>front|back)(?: of (?:the|your|its) [\w ]+)?$", bare(words))
    if found is None or match is None or outside_of(telling.card, found) is not None:
        return None
    names = [one.name for one in telling.card.pieces if one.name != piece]
    if any(name.split()[-1].casefold() == match["face"] for name in names):
        return None
    return Face(match["face"])


def _aliases(steps: Iterable[StepSpec]) -> dict[str, str]:
    """Words that the recipe itself explains: `the patterned face is the lining`."""
    found = {}
    for step in steps:
        for match in re.finditer(r"\bthe (patterned|printed|plain) (?:face|side) is the (\w+)", step.text.value, re.I):
            found[match[2].casefold()] = match[1].casefold()
    return found
