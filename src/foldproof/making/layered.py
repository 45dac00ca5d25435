"""A score through several layers of paper, where one was meant."""

from fractions import Fraction

from foldproof.findings.finding import Finding
from foldproof.folding.card import Card
from foldproof.making.outcome import Setting, fault
from foldproof.making.work import Part, Work
from foldproof.paper.polygon import clip
from foldproof.paper.vector import Segment

AFTER_GLUING = "scored after gluing"
THROUGH_FOLDS = "scored through folded layers"


def through_several(setting: Setting, work: Work, line: Segment) -> tuple[Finding, ...]:
    """What is to be said of a score that goes through paper lying on other paper.

    Where the plan has the score in every layer it is meant.
    """
    touched = [part for part in work.parts if _stretches(part, line)]
    layered = [part for part in touched if any(_on_each_other(part, other, line) for other in touched)]
    if all(_planned(setting.card, part, line) for part in layered):
        return ()
    own = setting.target or work.root
    others = [name for name in dict.fromkeys(part.piece for part in layered) if name != own]
    if others:
        finding = fault(
            setting, AFTER_GLUING, f"The {' and the '.join(others)} and the {own} lie on each other by now, "
            "and this score goes through both.", f"Score the {own} before anything is fixed to it.")
    else:
        finding = fault(
            setting, THROUGH_FOLDS, f"The {own} is folded here, and this score goes through all the "
            "paper beneath.", "Score before folding, or unfold first.")
    return (finding,)


def _stretches(part: Part, line: Segment) -> tuple[Segment, ...]:
    return tuple(s for s in clip(part.fit.inverse.segment(line), part.ring, part.holes) if s.start != s.end)


def _spans(part: Part, line: Segment) -> list[tuple[Fraction, Fraction]]:
    """From where to where along the line the part lies under it."""
    found = []
    for stretch in _stretches(part, line):
        on_work = part.fit.segment(stretch)
        low, high = sorted(line.along.dot(p - line.start) for p in (on_work.start, on_work.end))
        found.append((low, high))
    return found


def _on_each_other(a: Part, b: Part, line: Segment) -> bool:
    """Whether two parts of different panels or pieces lie on each other somewhere under the line."""
    if (a.piece, a.panel) == (b.piece, b.panel) or _beside(a, b):
        return False
    return any(low < other_high and other_low < high
               for low, high in _spans(a, line) for other_low, other_high in _spans(b, line))


def _beside(a: Part, b: Part) -> bool:
    """Whether two parts are panels of one piece that lies flat there: a line along their hinge touches both."""
    return a.piece == b.piece and a.fit == b.fit


def _planned(card: Card, part: Part, line: Segment) -> bool:
    """Whether the plan scores the piece all along where the line crosses this part."""
    plan = card.piece(part.piece)
    return plan is not None and all(
        any(_along(stretch, score.segment) for score in plan.scores) for stretch in _stretches(part, line))


def _along(stretch: Segment, line: Segment) -> bool:
    return line.along.cross(stretch.start - line.start) == 0 and line.along.cross(stretch.end - line.start) == 0
