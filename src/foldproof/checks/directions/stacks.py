"""Who lies on top of the folded work, as its maker sees it: folds done one by one, each part over or under the rest."""

import re
from dataclasses import replace

from foldproof.checks.directions.following import Telling
from foldproof.checks.directions.looking import Sight, moved
from foldproof.checks.directions.phrases import Phrase
from foldproof.checks.directions.things import bare, panels_called
from foldproof.checks.directions.verdict import Verdict, decided
from foldproof.paper.face import Face
from foldproof.paper.polygon import overlap


def from_below(sight: Sight) -> tuple[str, ...]:
    """The panels of the work, its layers left out, in an order from the table upward.

    Each fold turns the panels that it moves over or under all the others; those that do not overlap stand anyhow.
    """
    own = sight.own()
    stack, table = list(own), sight.table
    before = Sight(sight.card, replace(table, folded=()), sight.piece)
    for count, (name, angle) in enumerate(table.folded, 1):
        after = Sight(sight.card, replace(table, folded=table.folded[:count]), sight.piece)
        going = set(moved(before, after)) & set(own)
        hinge = next((h for h in sight.card.hinges if h.score == name and set(h.panels) & going), None)
        if hinge is not None and going:
            still = next((panel for panel in hinge.panels if panel not in going), None)
            turned = [panel for panel in reversed(stack) if panel in going]
            rest = [panel for panel in stack if panel not in going]
            over = still is not None and (angle > 0) == (before.up(still) is Face.FRONT)
            stack = [*rest, *turned] if over else [*turned, *rest]
        before = after
    return tuple(stack)


def outermost(sight: Sight, panel: str, *, top: bool) -> bool:
    """Whether no other panel lies over any part of one; or under any, for the bottom."""
    stack = from_below(sight)
    if panel not in stack:
        return False
    at = stack.index(panel)
    return not any(overlap(sight.ring(other), sight.ring(panel)) for other in (stack[at + 1 :] if top else stack[:at]))


def judge_on_top(telling: Telling, phrase: Phrase) -> Verdict | None:
    """`The short panel lies on top`, `the flap lands on top`."""
    if phrase.word not in ("on top", "on bottom"):
        return None
    start, _ = telling.sentence(phrase.start)
    lead = telling.value[start : phrase.start]
    match = re.search(
        r"((?:[a-z]+ )?(?:panel|flap|half|door|page|piece)) (?:only, the one that )?(?:now )?"
        r"(?:lies |lands |is |ends up )?$",
        lead,
        re.IGNORECASE,
    )
    piece = telling.made.spec.piece.value if telling.made.spec.piece is not None else telling.piece(phrase.start)
    if match is None or piece is None:
        return None
    top = phrase.word == "on top"
    true: list[bool] = []
    for sight in telling.sights(phrase.start, piece):
        for panels in panels_called(sight, bare(match[1]), piece):
            if sight.table.folded:
                true.append(all(outermost(sight, panel, top=top) for panel in panels))
    if not true:
        return None
    return decided(
        phrase,
        any(true),
        f"the {bare(match[1])} lies {'under' if top else 'over'} others then",
        None if top else "on top",
    )
