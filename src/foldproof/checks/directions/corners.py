"""Corners by their two words: the ends of a score or a cut, the part that is kept, and where a layer goes."""

import re

from foldproof.checks.directions.following import Deed, Telling
from foldproof.checks.directions.looking import Sight
from foldproof.checks.directions.phrases import OPPOSITE, Phrase
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.recipe import actions as do

_PAIR = re.compile(
    r"\b(?P<level>top|bottom|near|far|upper|lower)\s+(?P<side>left|right)(?:-hand)?(?P<corner>\s+corners?\b)?", re.I
)
_LEVELS = {"far": "top", "near": "bottom", "upper": "top", "lower": "bottom"}
_SAID = {"top": "far", "bottom": "near"}


def judge_corner(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`From the bottom left corner to the top right corner`, `its square corner at the top left`."""
    pair = next((m for m in _PAIR.finditer(telling.value) if m.start() <= phrase.start and phrase.end <= m.end()), None)
    if pair is None or phrase.word not in OPPOSITE:
        return None
    level, side = pair["level"].casefold(), pair["side"].casefold()
    corner = f"{_LEVELS.get(level, level)} {side}"
    true, about = _true_corners(telling, phrase, pair)
    if not true:
        return None
    first = pair.start("level") <= phrase.start < pair.end("level")
    word = _LEVELS.get(level, level) if first else side
    other = corner.replace(word, OPPOSITE[word])
    if corner in true:
        return decided(phrase, True, "")
    if other not in true:
        return None
    right = OPPOSITE[word] if level not in _SAID.values() or not first else _SAID[OPPOSITE[word]]
    return decided(phrase, False, f"{about} the {' or the '.join(sorted(true))}", right)


def _true_corners(telling: Telling, phrase: Phrase, pair: re.Match[str]) -> tuple[frozenset[str], str]:
    """The corners of which the words may speak, and how to say it."""
    start, sentence = telling.sentence(phrase.start)
    deed = telling.deed_of_sentence(phrase.start)
    if deed is not None and isinstance(deed.done.action, do.Attach):
        return _where_it_goes(telling, deed), "it goes to"
    between = [d for d in telling.deeds if isinstance(d.done.action, do.ScoreBetween | do.CutBetween)]
    if re.search(r"\bcorner at the\s+$", telling.value[start : pair.start()], re.IGNORECASE):
        named = telling.named(sentence)
        kept = frozenset(
            d.done.action.keep
            for d in between
            if isinstance(d.done.action, do.CutBetween) and named in (None, d.done.action.piece, d.done.piece)
        )
        return kept, "the part that is kept has its corner at"
    if pair["corner"] is None:
        return frozenset(), ""
    ends = {
        point.name
        for d in between
        if isinstance(d.done.action, do.ScoreBetween | do.CutBetween)
        for point in (d.done.action.start, d.done.action.end)
    }
    return frozenset(name for name in ends if re.fullmatch(r"(top|bottom) (left|right)", name)), "the line ends at"


def _where_it_goes(telling: Telling, deed: Deed) -> frozenset[str]:
    """The corner of the receiving panel toward which a layer lies: by its own square corner or by its middle."""
    action = deed.done.action
    bond = next((b for b in telling.card.bonds if isinstance(action, do.Attach) and b.name == action.bond), None)
    sight = telling.sight(deed.index + 1, telling.card.panels[bond.under.panel].piece) if bond is not None else None
    if bond is None or sight is None or bond.over.panel not in sight.fits or bond.under.panel not in sight.fits:
        return frozenset()
    room, laid = _middle(sight, bond.under.panel), _weight(sight, bond.over.panel)
    if room[0] == laid[0] or room[1] == laid[1]:
        return frozenset()
    return frozenset({f"{'top' if laid[1] > room[1] else 'bottom'} {'right' if laid[0] > room[0] else 'left'}"})


def _middle(sight: Sight, panel: str) -> tuple[float, float]:
    (left, right), (near, far) = sight.spans((panel,))
    return float(left + right) / 2, float(near + far) / 2


def _weight(sight: Sight, panel: str) -> tuple[float, float]:
    """The mean of a panel's corners, as the maker sees it."""
    ring = sight.ring(panel)
    right, top = sight.way("right"), sight.way("top")
    return (
        sum(float(right.x * p.x + right.y * p.y) for p in ring) / len(ring),
        sum(float(top.x * p.x + top.y * p.y) for p in ring) / len(ring),
    )
