"""What is told of the order of the papers in a flat pose."""

from collections.abc import Iterator

from foldproof.findings.finding import Aside, Finding, Place
from foldproof.folding.card import Card
from foldproof.folding.ordering import MOST_STEPS, Condition
from foldproof.folding.stacking import Stacking
from foldproof.folding.words import distance, error, list_of
from foldproof.measures.quantity import Unit
from foldproof.paper.face import Face
from foldproof.recipe.records import PoseSpec

MOST_TOLD = 8
"""The most reasons that are told of one clash."""


def told(card: Card, spec: PoseSpec, stacking: Stacking) -> tuple[Finding, ...]:
    """What is wrong with the order, or what the recipe has still to say."""
    if stacking.clash:
        return (_clash(card, spec, stacking),)
    if stacking.undecided:
        return (error(
            "order of papers not decided",
            f"In the pose {spec.name} it could not be decided within {MOST_STEPS:,} steps whether the papers can lie "
            "on each other without passing through each other.", spec.place,
            "Say under `over` who lies on top, pair by pair, until it can be decided."),)
    return (*_passing(card, spec, stacking), *_left_open(spec, stacking))


def _passing(card: Card, spec: PoseSpec, stacking: Stacking) -> Iterator[Finding]:
    """Paper that passes through paper as the folds are written; each fold and paper is told once."""
    done: set[tuple[str, str]] = set()
    for fault in stacking.broken:
        through, a, b = fault.names[0], *fault.names[-2:]
        if (fault.scores[0], through) in done:
            continue
        done.add((fault.scores[0], through))
        if fault.kind == "inside":
            c, d = fault.names[:2]
            message = (
                f"In the pose {spec.name} the folds on {list_of(sorted(fault.scores))} lie on one line, and of {c} and "
                f"{d} only one lies between {a} and {b}.")
        else:
            message = (
                f"In the pose {spec.name}, {through} lies between {a} and {b} and reaches "
                f"{distance(fault.square, card.recipe.unit)} across the score {fault.scores[0]} that joins them.")
        yield error(
            "paper passes through paper", message, spec.place,
            "Make it narrower, move the score, or write the folds in another order.")


def _left_open(spec: PoseSpec, stacking: Stacking) -> Iterator[Finding]:
    back = spec.seen is Face.BACK
    for pair in stacking.open:
        upper, lower = pair[::-1] if back else pair
        yield error(
            "order of papers left open",
            f"In the pose {spec.name} either of {upper} and {lower} could lie over the other, and it shows: which one "
            "lies on top?", spec.place,
            f"Add `over: [[{upper}, {lower}]]` to the pose, the one on top first, or write the folds in an order in "
            "which they can be made one after the other.")


def _clash(card: Card, spec: PoseSpec, stacking: Stacking) -> Finding:
    kinds = {condition.kind for condition in stacking.clash}
    places = {score.name: score.place for piece in card.pieces for score in piece.scores}
    places |= {bond.name: bond.place for bond in card.bonds}
    back = spec.seen is Face.BACK
    asides = tuple(
        Aside(text=_reason(condition, card.recipe.unit, back), place=_place(condition, spec, places, back))
        for condition in stacking.clash[:MOST_TOLD])
    more = len(stacking.clash) - len(asides)
    if more > 0:
        asides = (*asides, Aside(text=f"and {more} more of the kind"))
    asked = next((c for c in stacking.clash if c.kind in ("choice", "tuck")), None)
    if asked is not None:
        upper, lower = asked.names[::-1] if back else asked.names
        return error(
            "order that cannot be kept",
            f"In the pose {spec.name}, {upper} cannot lie over {lower}: that and what else holds there cannot all be "
            "true.", _place(asked, spec, places, back),
            "Leave this pair out, or turn it round; the other reasons stand below.", asides)
    if kinds & {"bond", "held"}:
        bond = next(c for c in stacking.clash if c.kind in ("bond", "held")).scores[0]
        return error(
            "glued faces apart",
            f"In the pose {spec.name} the two faces of {bond} cannot lie on each other: no order of the papers does "
            "without passing through paper.", spec.place,
            "Check the faces of the join and which way the scores fold; what cannot all be true stands below.", asides)
    return error(
        "no order of the papers",
        f"In the pose {spec.name} the papers cannot lie on each other in any order without passing through each other.",
        spec.place, "Change one of these: the way a score folds, or how far a paper reaches.", asides)


def _place(condition: Condition, spec: PoseSpec, places: dict[str, Place], back: bool) -> Place | None:
    if condition.kind in ("choice", "tuck"):
        names = condition.names[::-1] if back else condition.names
        return next((a.place for a, b in (*spec.over, *spec.tucks) if (a.value, b.value) == names), spec.place)
    return next((places[name] for name in condition.scores if name in places), None)


def _reason(condition: Condition, unit: Unit, back: bool) -> str:
    """A condition in words."""
    names, scores = condition.names, condition.scores
    pair = condition.pairs[0][::-1] if back else condition.pairs[0]
    match condition.kind:
        case "fold":
            return f"the fold on {scores[0]} lays {pair[0]} over {pair[1]}"
        case "across":
            return (f"{names[0]} reaches {distance(condition.square, unit)} across the fold on {scores[0]}, so it "
                    f"cannot lie between {names[1]} and {names[2]}")
        case "along":
            return (f"{names[0]} lies across {scores[0]}, which is flat here: over both {names[1]} and {names[2]}, or "
                    "under both")
        case "inside":
            return (f"the folds on {list_of(sorted(scores))} lie on one line, so {names[0]} and {names[1]} lie both "
                    f"between {names[2]} and {names[3]}, or neither")
        case "bond":
            return f"{scores[0]} lays {pair[0]} over {pair[1]}"
        case "held":
            return f"{names[0]} cannot lie between {names[1]} and {names[2]}, which {scores[0]} glues together"
        case "tuck":
            return f"the recipe tucks {pair[1]} under {pair[0]}"
        case _:
            return f"the recipe lays {pair[0]} over {pair[1]}"
