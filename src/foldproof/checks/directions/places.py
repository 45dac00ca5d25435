"""Where a panel, a score, a fold or a layer lies: the words against the table."""

import re

from foldproof.checks.directions.clauses import Doing
from foldproof.checks.directions.faces import judge_ridge_up
from foldproof.checks.directions.following import Deed, Telling
from foldproof.checks.directions.looking import Sight
from foldproof.checks.directions.phrases import OPPOSITE, SIDES, Phrase
from foldproof.checks.directions.things import bare, folds_now, middle, narrowest, panels_called, scores_called
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.folding.card import Bond
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Point
from foldproof.recipe import actions as do

_AT = re.compile(
    r"^(?P<subject>.*?)(?:\s*\b(?:is|are|lies?|sits?|stays?|points?|on top|now))*\s*"
    r"\b(?:at|on|to|by|across) (?:the|your|its) $",
    re.IGNORECASE | re.DOTALL,
)
_JOINING = re.compile(r"^(?:with|keep|so that|and|then|lay|leave|fold|on)\s+", re.IGNORECASE)


def judge_place(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The first score is now at your left`, `the narrow panels at the left`, `with the fold at your left`."""
    clause = telling.clause_at(phrase.start)
    if phrase.word not in SIDES or clause is None:
        return None
    if re.match(r"\s*(?:-hand)?\s*(?:edge|corner|half|third|of\b|panel|door)", telling.value[phrase.end :]):
        return None
    if re.match(r"\s+is the (?:top|bottom)\b", telling.value[phrase.end :]):
        return None
    match = _AT.match(telling.value[clause.start : phrase.start])
    if match is None:
        return None
    subject = match["subject"]
    while _JOINING.match(subject):
        subject = _JOINING.sub("", subject, count=1)
    sides: list[frozenset[str]] = []
    what = bare(subject)
    for words in _endings(what) or _before(telling, clause.start):
        sides = next(
            filter(
                None,
                (
                    [
                        side
                        for sight in telling.sights(phrase.start, piece)
                        for side in _sides(telling, sight, words, piece)
                    ]
                    for piece in telling.pieces(phrase.start)
                ),
            ),
            [],
        )
        if sides:
            what = words
            break
    level = phrase.word in ("left", "right")
    pair = {"left", "right"} if level else {"top", "bottom"}
    if not sides or not any(pair & side for side in sides):
        return None
    there = min(pair & next(side for side in sides if pair & side))
    return decided(phrase, any(phrase.word in side for side in sides), f"the {what} lies at the {there} then", there)


def _endings(words: str) -> list[str]:
    """The last words of some, the longest run first: what a sentence speaks of stands before its verb."""
    said = words.split()
    return [" ".join(said[-count:]) for count in range(min(4, len(said)), 0, -1)]


def _before(telling: Telling, start: int) -> list[str]:
    earlier = [clause.text for clause in telling.clauses if clause.start < start]
    return [earlier[-1]] if earlier else []


def _sides(telling: Telling, sight: Sight, words: str, piece: str) -> list[frozenset[str]]:
    """Where something lies: one set for each thing that the words fit; nothing where they disagree."""
    if words in ("fold", "folded edge", "spine"):
        found = [sight.point_sides(middle(line)) for line in folds_now(telling, sight)]
        return found if len(found) == 1 else []
    if words.split()[-1:] == ["window"]:
        return [sight.point_sides(spot) for spot in _windows(sight, piece)]
    score = scores_called(telling, words, piece)
    pressed = [crease.segment for crease in sight.table.pieces[piece].creases]
    if score:
        return [
            sight.point_sides(sight.fits[_any(sight, piece)].point(middle(line))) for line in score if line in pressed
        ]
    found = [sight.sides(panels) for panels in panels_called(sight, words, piece)]
    if len({frozenset(side) for side in found}) > 1:
        common = frozenset.intersection(*found)
        return [common] if common else []
    return found


def _windows(sight: Sight, piece: str) -> list[Point]:
    """The middle of the one window of a piece, in the frame of the body; nothing where it has several."""
    holes = sight.table.pieces[piece].holes
    if len(holes) != 1:
        return []
    box = bounding_box(holes[0])
    return [sight.fits[_any(sight, piece)].point(box.centre)]


def _any(sight: Sight, piece: str) -> str:
    found = sight.card.piece(piece)
    assert found is not None
    return next(panel for panel in found.panels if panel in sight.fits)


def judge_ridge(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The first score is now at your left, its ridge up`."""
    if phrase.word not in ("up", "down"):
        return None
    start, _ = telling.sentence(phrase.start)
    lead = telling.value[start : phrase.start]
    if not re.search(r"\bridge(?: is)? (?:\w+ )?$", lead):
        return None
    named = re.search(r"\b(?:first|second|third|slanted) score\b", lead, re.IGNORECASE)
    piece = telling.piece(phrase.start)
    if piece is None or named is None:
        return None
    return judge_ridge_up(telling, phrase, scores_called(telling, named[0], piece), piece)


def judge_end(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The end at your right is the top of the stand`: which way a piece's own up points."""
    start, sentence = telling.sentence(phrase.start)
    match = re.search(r"\b(?:end|edge) at (?:your|the) (left|right) is the (top|bottom)\b", sentence, re.IGNORECASE)
    that = re.fullmatch(r"\s*that (?:end|edge) is the (top|bottom)[.!]?\s*", sentence, re.IGNORECASE)
    piece = telling.piece(phrase.start)
    if piece is None or phrase.word not in SIDES:
        return None
    if match is not None and start + match.start() <= phrase.start < start + match.end():
        side, end = match[1].casefold(), match[2].casefold()
    elif that is not None:
        earlier = re.findall(r"\b(left|right)(?:-hand)? end\b", telling.value[:start])
        if not earlier:
            return None
        side, end = earlier[-1], that[1].casefold()
    else:
        return None
    true = []
    for sight in telling.sights(phrase.start, piece):
        way = sight.way(side)
        up = way.y if sight.work.root == piece else 0
        if way.x == 0 and up != 0:
            true.append((up > 0) == (end == "top"))
    if not true:
        return None
    return decided(
        phrase, any(true), f"the {OPPOSITE[end]} of the {piece} is at your {side} then", OPPOSITE[phrase.word]
    )


def judge_narrower(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The panel at the left is a little narrower than the others`."""
    piece = telling.piece(phrase.start)
    lead, rest = telling.value[: phrase.start], telling.value[phrase.end :]
    if phrase.word not in SIDES or piece is None or not re.search(r"\bpanel (?:at|on) (?:the|your) $", lead):
        return None
    if not re.match(r"\s+is [\w ]{0,12}narrower\b", rest):
        return None
    sides = []
    for sight in telling.sights(phrase.start, piece):
        least = narrowest(sight, piece)
        if least is not None:
            sides.append(sight.sides((least,)))
    pair = {"left", "right"} if phrase.word in ("left", "right") else {"top", "bottom"}
    if not any(pair & side for side in sides):
        return None
    there = min(pair & sides[-1])
    return decided(
        phrase, any(phrase.word in side for side in sides), f"the narrowest panel lies at the {there}", there
    )


_HALF = re.compile(r"\s*(?:half|side)\b", re.IGNORECASE)


def judge_receiver(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The base mat goes on the bottom half`: where the panel that receives it lies."""
    clause = telling.clause_at(phrase.start)
    if phrase.word not in SIDES or clause is None or not _HALF.match(telling.value[phrase.end :]):
        return None
    if not re.search(r"\b(?:on|onto|to) the $", telling.value[clause.start : phrase.start]):
        return None
    deed = telling.deed_at(phrase.start)
    bond = telling.bond_of(deed)
    if deed is None or bond is None:
        return None
    sight = telling.sight(deed.index + 1, telling.card.panels[bond.under.panel].piece)
    if sight is None or bond.under.panel not in sight.fits:
        return None
    pair = {"left", "right"} if phrase.word in ("left", "right") else {"top", "bottom"}
    sides = pair & sight.sides((bond.under.panel,))
    if not sides:
        return None
    there = min(sides)
    return decided(phrase, phrase.word == there, f"the {bond.under.panel} lies at the {there} then", there)


def judge_pressed(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`Press along the top half of the front only`: the part of a layer that is glued."""
    start, sentence = telling.sentence(phrase.start)
    if phrase.word not in SIDES or not re.match(r"\s*half\b", telling.value[phrase.end :], re.IGNORECASE):
        return None
    if not re.search(r"\bpress\b[\w ]* $", telling.value[start : phrase.start], re.IGNORECASE):
        return None
    named = telling.named(sentence[phrase.end - start :])
    deed = next(
        (
            d
            for d in telling.deeds
            if isinstance(d.done.action, do.Attach) and named is not None and named in telling.names[d.index]
        ),
        telling.deed_of_sentence(phrase.start),
    )
    bond = telling.bond_of(deed)
    if deed is None or bond is None or bond.area is None:
        return None
    return _glued(telling, phrase, deed, bond, mirrored=False)


def judge_glue(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`Dot glue on its right-hand third`, `so that the glue is at the left`: on which end of a layer the glue goes.

    A layer that lies face down for gluing is turned later; like the page of a book left and right change places.
    """
    if phrase.word not in ("left", "right"):
        return None
    start, _ = telling.sentence(phrase.start)
    lead, rest = telling.value[start : phrase.start], telling.value[phrase.end :]
    on_end = re.search(r"\bglue\b[\w ]*\b(?:on|near|along) its $", lead, re.IGNORECASE)
    lies = re.search(r"\bglue (?:is|sits|lies) at (?:the|its|your) $", lead, re.IGNORECASE)
    if (on_end is None and lies is None) or (on_end and not re.match(r"\s*(?:-hand)? ?(?:third|edge|end|half)", rest)):
        return None
    later = [
        d
        for d in telling.deeds
        if isinstance(d.done.action, do.Attach) and (telling.deed_of_sentence(phrase.start) is None or True)
    ]
    clause = telling.clause_at(phrase.start)
    if clause is None:
        return None
    told = [
        telling.told[c]
        for c in telling.clauses
        if c in telling.told and c.start > clause.start and telling.told[c].kind is Doing.ATTACH
    ]
    deed = told[0] if told else later[-1] if len(later) == 1 else None
    bond = telling.bond_of(deed)
    if deed is None or bond is None or bond.area is None:
        return None
    turns = _turns_of(telling, clause.end)
    if turns is None:
        return None
    return _glued(telling, phrase, deed, bond, mirrored=turns % 2 == 1)


def judge_layer_turn(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`Turn the band face down`, `turn it face up like the page of a book`: a layer in hand, turned for its glue."""
    clause = telling.clause_at(phrase.start)
    if clause is None or clause.doing is not Doing.TURN_OVER or clause in telling.told:
        return None
    deed = next(
        (
            telling.told[c]
            for c in telling.clauses
            if c.start > clause.start and c in telling.told and telling.told[c].kind is Doing.ATTACH
        ),
        None,
    )
    bond = telling.bond_of(deed)
    if bond is None:
        return None
    turns = [c for c in telling.clauses if c.doing is Doing.TURN_OVER and c not in telling.told]
    shown_up = (len(turns) - turns.index(clause)) % 2 == 1
    if phrase.word in ("up", "down"):
        # the last turn brings up the face that stays in sight, so the one before it brought up the face for the glue
        return decided(
            phrase,
            (phrase.word == "up") == shown_up,
            f"the {bond.name} must then lie face {'up' if shown_up else 'down'}",
            "face up" if shown_up else "face down",
        )
    if phrase.word not in ("book page", "top to bottom"):
        return None
    told = [(p, judge_glue(telling, p)) for p in telling.phrases if p.word in ("left", "right")]
    before = [v for p, v in told if v is not None and p.start < phrase.start]
    after = [v for p, v in told if v is not None and p.start > phrase.end]
    if not before and not after:
        return None
    return decided(phrase, True, "")


def _turns_of(telling: Telling, start: int) -> int | None:
    """How often a layer in hand is turned over like a page after a place in the text; None where it is not said how."""
    count, way = 0, None
    for clause in telling.clauses:
        if clause.doing is not Doing.TURN_OVER or clause in telling.told:
            continue
        words = telling.value[clause.start : clause.end]
        said = next(
            (
                p.word
                for p in telling.phrases
                if clause.start <= p.start < clause.end and p.word in ("book page", "top to bottom")
            ),
            None,
        )
        if said is None and re.search(r"\b(?:same way|again|back)\b", words, re.IGNORECASE):
            said = way
        way = said or way
        if clause.start >= start:
            if said is None:
                return None
            count += said == "book page"
    return count


def _glued(telling: Telling, phrase: Phrase, deed: Deed, bond: Bond, *, mirrored: bool) -> Verdict | None:
    root = telling.card.panels[bond.under.panel].piece
    sight = telling.sight(deed.index + 1, root)
    if sight is None or bond.over.panel not in sight.fits or bond.under.panel not in sight.fits or bond.area is None:
        return None
    whole = sight.spans((bond.over.panel,))
    fit = sight.fits[bond.under.panel]
    points = fit.ring(bond.area)
    level = phrase.word in ("left", "right")
    way = sight.way("right" if level else "top")
    values = [way.x * p.x + way.y * p.y for p in points]
    low, high = whole[0] if level else whole[1]
    middle_of_glue, middle_of_all = min(values) + max(values), low + high
    if middle_of_glue == middle_of_all:
        return None
    names = ("left", "right") if level else ("bottom", "top")
    side = names[0] if middle_of_glue < middle_of_all else names[1]
    true = OPPOSITE[side] if mirrored else side
    return decided(
        phrase,
        phrase.word == true,
        f"the {bond.name} is fixed by the part at its {side}"
        + (", which is the other side while its face is down" if mirrored else ""),
        true,
    )
