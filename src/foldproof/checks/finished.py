"""The finished card against what the recipe promises of it: size, edges that meet, height when it stands."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import partial

from foldproof.checks.check import error, warning
from foldproof.checks.mending import mend_by_trial
from foldproof.checks.phrases import hair, length, listed, size, sliver
from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import Card, CardScore, FlatPose, Meeting, StandingPose
from foldproof.making.table import Making
from foldproof.paper.polygon import bounding_box, edges, meeting
from foldproof.paper.vector import Segment
from foldproof.recipe.records import MeetSpec

WRONG_SIZE = error(
    "closed size is not as promised",
    "The card, folded as the plan says, is not the size that `finished` promises.")
WRONG_MEETING = error(
    "edges do not meet as promised",
    "Two free edges stay apart or overlap by another amount than `finished: meets` says.")
NO_MEETING = error(
    "edges do not face each other",
    "`finished: meets` names two panels that have no free edges side by side.")
UNNAMED_GAP = warning(
    "unnamed gap",
    "Two free edges that are seen face each other across a small gap that the recipe does not name.")
UNNAMED_OVERLAP = warning(
    "unnamed overlap", "Two free edges that are seen reach over each other and the recipe does not say so.")
WRONG_HEIGHT = error(
    "standing height is not as promised", "The card stands higher or lower than `finished: stands` says.")
NOT_STANDING = error(
    "no such standing pose", "`finished: stands` names a pose in which the card does not stand off the table.")


def check_size(card: Card, making: Making) -> Iterable[Finding]:
    """The closed pose has exactly the promised size."""
    closed = card.closed
    if closed is None:
        return
    promise = card.recipe.finished
    sides = (("wide", closed.width, promise.size[0]), ("high", closed.height, promise.size[1]))
    wrong = [(way, made, said) for way, made, said in sides if made != said.value]
    promised = (promise.size[0].value, promise.size[1].value)
    if not wrong or (_pieces_size(card, closed) == promised and not _meant(card)):
        return
    if closed.width == promise.size[1].value and closed.height == promise.size[0].value:
        yield WRONG_SIZE.finding(
            f"Closed, the card is {size(card, closed.width, closed.height)}, width first; the recipe promises "
            f"{size(card, closed.height, closed.width)}.",
            mend="Write the width first, as the reader holds the card; or turn the pose with `turned`.",
            place=promise.size[0].place)
        return
    off = listed(
        f"{length(card, made - said.value)} too {_too(way, made > said.value)}" for way, made, said in wrong)
    amounts = [amount for _, made, said in wrong for amount in (abs(made - said.value), abs(made - said.value) / 2)]
    yield WRONG_SIZE.finding(
        f"Closed, the card is {size(card, closed.width, closed.height)}; the recipe promises "
        f"{size(card, promise.size[0].value, promise.size[1].value)}. It is {off}.",
        mend=mend_by_trial(card, amounts, _keeps_promises)
        or f"Promise {size(card, closed.width, closed.height)}, or change the plan.",
        place=wrong[0][2].place)


def _pieces_size(card: Card, closed: FlatPose) -> tuple[Fraction, Fraction]:
    """The size without layers: where it is right, a layer sticks out, and that is told of the layer."""
    rings = [closed.placements[name].ring(card.panels[name].ring)
             for piece in card.pieces if not piece.layer for name in piece.panels if name in closed.placements]
    box = bounding_box(p for ring in rings for p in ring)
    return box.width, box.height


def _meant(card: Card) -> bool:
    return any(name.value == "edge" for layer in card.recipe.layers for name in layer.overhangs)


def _too(way: str, more: bool) -> str:
    return way if more else {"wide": "narrow", "high": "low"}[way]


def check_meetings(card: Card, making: Making) -> Iterable[Finding]:
    """Named edges meet, or miss, by exactly what the recipe says."""
    closed = card.closed
    if closed is None:
        return
    for meets in card.recipe.finished.meets:
        first, second = (name.value for name in meets.panels)
        found = _found(closed, meets)
        if not found:
            yield NO_MEETING.finding(
                f"Closed, the {first} and the {second} have no free edges that run side by side and face each other.",
                mend="Check the names, and the folds of the closed pose.", place=meets.place)
            continue
        wanted = wanted_gap(meets)
        nearest = min(found, key=lambda one: abs(one.gap - wanted))
        if nearest.gap == wanted:
            continue
        miss = nearest.gap - wanted
        said = meets.gap or meets.overlap
        yield WRONG_MEETING.finding(
            f"The {first} and the {second} {_says(card, nearest.gap)}; the recipe says that they "
            f"{_says(card, wanted)}: {length(card, miss)} {'too far apart' if miss > 0 else 'too close'}.",
            mend=mend_by_trial(card, (abs(miss) / 2, abs(miss)), _keeps_promises)
            or mend_by_trial(card, (abs(miss) / 2, abs(miss)), partial(_meets, meets=meets)),
            place=said.place if said else meets.place,
            asides=tuple(Aside(text=f"the {score.name} folds it", place=score.place)
                         for name in (first, second) for score in _scores_beside(card, name)))


def _says(card: Card, gap: Fraction) -> str:
    if gap == 0:
        return "meet edge to edge"
    return f"{'stay' if gap > 0 else 'overlap by'} {length(card, gap)}{' apart' if gap > 0 else ''}"


def wanted_gap(meets: MeetSpec) -> Fraction:
    """The gap that the recipe names: positive apart, negative overlapping."""
    if meets.overlap is not None:
        return -meets.overlap.value
    return meets.gap.value if meets.gap is not None else Fraction(0)


def _found(pose: FlatPose, meets: MeetSpec) -> list[Meeting]:
    pair = {name.value for name in meets.panels}
    return [one for one in pose.meetings if set(one.panels) == pair]


def _meets(card: Card, meets: MeetSpec) -> bool:
    closed = card.closed
    return closed is not None and any(one.gap == wanted_gap(meets) for one in _found(closed, meets))


def _keeps_promises(card: Card) -> bool:
    closed, promise = card.closed, card.recipe.finished
    return (
        closed is not None
        and (closed.width, closed.height) == (promise.size[0].value, promise.size[1].value)
        and all(_meets(card, meets) for meets in promise.meets)
    )


def _scores_beside(card: Card, panel: str) -> Iterator[CardScore]:
    seen = set()
    for hinge in card.hinges:
        if panel in hinge.panels and hinge.score not in seen:
            seen.add(hinge.score)
            yield from (score for piece in card.pieces for score in piece.scores if score.name == hinge.score)


def check_unnamed(card: Card, making: Making) -> Iterable[Finding]:
    """Seen edges of the pieces that nearly meet, or overlap, without the recipe's saying so.

    An overlap of more than half of the lesser panel is one panel lying on another, not edges that meet.
    """
    closed = card.closed
    if closed is None:
        return
    named = {frozenset(name.value for name in meets.panels) for meets in card.recipe.finished.meets}
    layers = {panel for piece in card.pieces if piece.layer for panel in piece.panels}
    told: set[frozenset[str]] = set()
    for one in closed.meetings:
        pair = frozenset(one.panels)
        if one.gap == 0 or pair in named | told or pair & layers:
            continue
        if not any(_edge_seen(closed, panel, edge) for panel, edge in zip(one.panels, one.edges, strict=True)):
            continue
        first, second = one.panels
        if 0 < one.gap <= sliver(card):
            told.add(pair)
            yield UNNAMED_GAP.finding(
                f"Closed, the {first} and the {second} stay {length(card, one.gap)} apart.",
                mend=f"If it is meant, name it under `finished: meets`: {{panels: [{first}, {second}], "
                f"gap: {_bare(card, one.gap)}}}. If not, move a score or an edge by that much.",
                place=card.recipe.finished.place)
        elif one.gap < 0 and -one.gap < _depth(closed, card, one) / 2:
            told.add(pair)
            yield UNNAMED_OVERLAP.finding(
                f"Closed, the {first} and the {second} overlap by {length(card, one.gap)}.",
                mend=f"If it is meant, name it under `finished: meets`: {{panels: [{first}, {second}], "
                f"overlap: {_bare(card, one.gap)}}}. If not, move a score or an edge by that much.",
                place=card.recipe.finished.place)


def _bare(card: Card, value: Fraction) -> str:
    return length(card, value).rsplit(" ", 1)[0]


def _edge_seen(pose: FlatPose, panel: str, edge: Segment) -> bool:
    regions = [region for region in (*pose.seen, *pose.hidden_side) if region.panel == panel]
    for region in regions:
        for ring in (region.ring, *region.holes):
            for side in edges(ring):
                shared = meeting(edge, side)
                if shared is not None and shared.start != shared.end:
                    return True
    return False


def _depth(pose: FlatPose, card: Card, one: Meeting) -> Fraction:
    upright = one.edges[0].start.x == one.edges[0].end.x
    depths = []
    for name in one.panels:
        ring = pose.placements[name].ring(card.panels[name].ring)
        values = [p.x if upright else p.y for p in ring]
        depths.append(max(values) - min(values))
    return min(depths)


def check_standing(card: Card, making: Making) -> Iterable[Finding]:
    """The card stands as high as promised, within what a hand can set. (Whether it holds together, folding tells.)"""
    stands = card.recipe.finished.stands
    if stands is None:
        return
    found = card.pose(stands.pose.value)
    if not isinstance(found, StandingPose):
        if found is not None:
            yield NOT_STANDING.finding(
                f"In the pose {found.name} every score is flat or folded right over, so the card lies on the table.",
                mend="Give a score of that pose an angle between 0 and 180 degrees.", place=stands.pose.place)
        return
    miss = found.height - float(stands.height.value)
    if abs(miss) > float(hair(card)):
        yield WRONG_HEIGHT.finding(
            f"In the pose {found.name} the card stands about {_about(card, found.height)} high; the recipe promises "
            f"{length(card, stands.height.value)}: about {_about(card, abs(miss))} {'more' if miss > 0 else 'less'}.",
            mend=f"Promise about {_about(card, found.height)}, or change the angles or the lengths.",
            place=stands.height.place)


def _about(card: Card, value: float) -> str:
    """A worked-out length, to the nearest 1/32 in or 0.1 mm, and not less than that."""
    step = Fraction(1, 32) if card.recipe.unit.value == "inch" else Fraction(1, 10)
    return length(card, max(round(Fraction(value) / step), 1) * step)
