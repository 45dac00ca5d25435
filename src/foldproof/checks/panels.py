"""Panels rolled up inside others need to be a little shorter, once what they hold takes up room; and the grain."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from math import pi

from foldproof.checks.check import advice, warning
from foldproof.checks.phrases import hair, length, paper_of, small
from foldproof.findings.finding import Aside, Finding
from foldproof.folding.card import Card, FlatPose, Hinge
from foldproof.folding.thickness import paper_thickness
from foldproof.making.table import Making
from foldproof.measures.quantity import Unit
from foldproof.paper.face import Fold
from foldproof.paper.polygon import bounding_box
from foldproof.paper.vector import Segment

BUCKLES = warning(
    "inner panel too long",
    "A panel folded up inside two others reaches right into their fold, where its stack needs room.")
GRAIN = advice(
    "fold across the grain", "The way that a piece must be cut from its sheet puts its main fold across the grain.")


def check_inner_panels(card: Card, making: Making) -> Iterable[Finding]:
    """A panel between two others that hinge on each other stops short of their fold by what the stack takes.

    Going round a flat fold a layer that lies t further out needs pi t more length, pi t / 2 a side (plain geometry).
    Side folds, Z folds and gates have no panel inside two others. Only a need of more than 1/32 in (0.5 mm) counts.
    """
    closed = card.closed
    if closed is None:
        return
    for hinge in card.hinges:
        line = _folded_level(closed, hinge)
        if line is None:
            continue
        for name in _between(card, closed, hinge):
            need = _need(card, closed, hinge, name)
            room = _room(card, closed, name, line, hinge)
            if need is None or room is None or need <= hair(card) or room >= need:
                continue
            step = Fraction(1, 16) if card.recipe.unit is Unit.INCH else small_step(card)
            usual = usual_reduction(card, name)
            yield BUCKLES.finding(
                f"Closed, the {name} lies inside the fold at the {hinge.score} and stops "
                f"{length(card, room) if room else 'no distance'} short of it; the paper there takes about "
                f"{length(card, need)}, so it would buckle or push the fold open.",
                mend=f"Make the {name} shorter by {length(card, max(_up_to(need, step), usual) - room)}, as is usual "
                "for such stock, or take thinner paper.",
                place=card.recipe.finished.place,
                asides=tuple(Aside(text=f"the {score.name}", place=score.place)
                             for piece in card.pieces for score in piece.scores if score.name == hinge.score))
            break


def usual_reduction(card: Card, panel: str) -> Fraction:
    """What printers take off the panel that is folded in: 1/8 in for cover stock, 1/16 in for text (facts: secondary).

    In millimetres 3 for card and 1.5 for paper: A4 rolled to DL is 97 + 100 + 100 (secondary), half of it from memory.
    """
    paper = paper_of(card, card.panels[panel].piece)
    words = f"{paper.kind or ''} {paper.weight or ''}".casefold() if paper else ""
    heavy = "cover" in words or "card" in words
    return small(card.recipe.unit, inch=Fraction(1, 8 if heavy else 16), mm=Fraction(3) if heavy else Fraction(3, 2))


def small_step(card: Card) -> Fraction:
    """Half a millimetre, in the recipe's unit."""
    return Fraction(1, 2) if card.recipe.unit is Unit.MM else Fraction(1, 20)


def _up_to(value: Fraction, step: Fraction) -> Fraction:
    return -((-value) // step) * step


def _folded_level(pose: FlatPose, hinge: Hinge) -> Segment | None:
    """Where a hinge that is folded right over lies in the pose, if upright or level there."""
    a, b = (pose.placements.get(name) for name in hinge.panels)
    if a is None or b is None or a.flips == b.flips:
        return None
    line = a.segment(hinge.segment)
    return line if line.start.x == line.end.x or line.start.y == line.end.y else None


def _between(card: Card, pose: FlatPose, hinge: Hinge) -> Iterator[str]:
    """Panels of the hinge's own piece that are folded up between its two panels; what is glued flat to one is none."""
    for name, panel in card.panels.items():
        if panel.piece == hinge.piece and name not in hinge.panels and _inside(pose, name, hinge):
            yield name


def _inside(pose: FlatPose, name: str, hinge: Hinge) -> bool:
    a, b = hinge.panels
    return {(a, name), (name, b)} <= pose.over or {(b, name), (name, a)} <= pose.over


def _need(card: Card, pose: FlatPose, hinge: Hinge, name: str) -> Fraction | None:
    """What the stack between the hinge's panels takes, to 1/1000; None where a thickness is not known."""
    total = Fraction(0)
    for other in pose.placements:
        if other != name and not (_inside(pose, other, hinge)
                                  and ((other, name) in pose.over or (name, other) in pose.over)):
            continue
        paper = paper_of(card, card.panels[other].piece)
        if paper is None:
            continue
        thick = paper_thickness(card, paper)
        if thick is None:
            return None
        total += thick
    return Fraction(round(float(total) * pi / 2 * 1000), 1000)


def _room(card: Card, pose: FlatPose, name: str, line: Segment, hinge: Hinge) -> Fraction | None:
    """From the inner panel's nearest edge to the fold; None where it does not lie over the same stretch."""
    box = bounding_box(pose.placements[name].ring(card.panels[name].ring))
    upright = line.start.x == line.end.x
    at = line.start.x if upright else line.start.y
    low, high = (box.left, box.right) if upright else (box.bottom, box.top)
    ends = sorted((line.start.y, line.end.y) if upright else (line.start.x, line.end.x))
    first, last = (box.bottom, box.top) if upright else (box.left, box.right)
    if min(last, ends[1]) <= max(first, ends[0]) or low < at < high:
        return None
    return min(abs(low - at), abs(high - at))


def check_grain(card: Card, making: Making) -> Iterable[Finding]:
    """Once for the card: the first piece whose size forces its main fold across the grain."""
    for piece in card.recipe.pieces:
        paper, found = paper_of(card, piece.name.value), card.piece(piece.name.value)
        if paper is None or paper.grain is None or paper.sheet is None or found is None:
            continue
        folding = [score for score in found.scores if score.fold is not Fold.NONE]
        if not folding:
            continue
        main = max(folding, key=lambda score: score.segment.along.square)
        along = main.segment.along
        if along.x != 0 and along.y != 0:
            continue
        box = bounding_box(found.outline)
        across, up = paper.sheet[0].value, paper.sheet[1].value
        upright = along.x == 0
        # with the grain: the fold runs the way of the sheet that the grain does
        turned = (paper.grain == "height") != upright
        width, height = (box.height, box.width) if turned else (box.width, box.height)
        if width <= across and height <= up:
            continue
        yield GRAIN.finding(
            f"The {piece.name} fits on a sheet of {paper.name} only with the {main.name} across the grain, where card "
            "cracks more easily.",
            mend="Score it well and fold slowly, or take a sheet whose grain runs the other way.", place=main.place)
        return
