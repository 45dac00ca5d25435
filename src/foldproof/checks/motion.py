"""The way from pose to pose in the order in which the card opens: no paper passes through paper."""

from collections.abc import Iterable
from fractions import Fraction

from foldproof.checks.check import advice, error
from foldproof.checks.cover import uncovered
from foldproof.checks.layers import placed_ring
from foldproof.findings.finding import Finding, Place
from foldproof.folding.card import Card, StandingPose
from foldproof.folding.motion import RESOLUTION_MM, Journey, Passage, crossings, journeys
from foldproof.making.table import Making
from foldproof.measures.quantity import Unit
from foldproof.measures.writing import with_unit
from foldproof.recipe.records import LayerSpec

PASSES = error(
    "paper in the way", "On the way from one pose of `opening` to the next, paper would have to pass through paper.")
STIFF = error(
    "way that does not stay closed", "On the way from one pose to the next, a ring of folds cannot stay together.")
GAVE_UP = advice("way not looked at to its end", "The way between two poses took too much work to be looked at whole.")


def check_motion(card: Card, making: Making) -> Iterable[Finding]:
    """Each way between poses of `opening`. (What is tucked or bent on it is listed with the card's facts.)"""
    for way in journeys(card):
        place = next((name.place for name in card.recipe.opening if name.value == way.end), None)
        if way.passage is None or not _told_by_layers(card, way.passage):
            yield from _told(card, way, place)
    named = {name.value for name in card.recipe.opening}
    for pose in card.poses:
        if isinstance(pose, StandingPose) and (pose.name not in named or len(named) < 2):
            through = crossings(card, pose)
            if through is not None and not _told_by_layers(card, through):
                a, b = through.panels
                yield PASSES.finding(
                    f"In the pose {pose.name}, {a} and {b} come through each other by about "
                    f"{_much(through.depth, card.recipe.unit)}.", place=pose.spec.place,
                    mend="Check the angles, and how far each reaches past its own folds.")


def _told_by_layers(card: Card, passage: Passage) -> bool:
    """Whether a layer reaches over the other panel without saying so, which is another fault and told as that."""
    return any(
        isinstance(bond.spec, LayerSpec) and bond.name in passage.panels
        and not set(passage.panels) & {name.value for name in bond.spec.overhangs}
        and bool(uncovered(placed_ring(card, bond), [card.panels[bond.under.panel].ring]))
        for bond in card.bonds)


def _told(card: Card, way: Journey, place: Place | None) -> Iterable[Finding]:
    unit = card.recipe.unit
    between = f"On the way from {way.start} to {way.end}"
    if way.said:
        order = "in the order that the recipe gives"
    elif len(way.stages) == 1 and len(way.stages[0]) == 1:
        order = "as the fold turns"
    else:
        order = "in every order of the folds that was tried"
    if way.passage is not None:
        a, b = way.passage.panels
        yield PASSES.finding(
            f"{between}, {order}, {a} and {b} come through each other by about {_much(way.passage.depth, unit)}; it is "
            f"first seen with {way.text_of(way.passage.angles)}. Moments were looked at no more than "
            f"{_much(RESOLUTION_MM / float(unit.millimetres), unit)} of travel apart.",
            mend=f"Say which folds move `first` in the pose {way.end}, name a pose between the two, or say what the "
            "hand `bends` or `tucks`.", place=place)
    elif way.open:
        yield STIFF.finding(
            f"{between}, {order}, the card comes apart by about {_much(way.open, unit)}; the nearest that it comes to "
            f"staying together is with {way.text_of(way.open_angles)}.",
            mend=f"Say what the hand `bends` in the pose {way.end}, or name a pose between the two.", place=place)
    elif not way.finished:
        yield GAVE_UP.finding(
            f"{between} the card has too many panels for every moment to be looked at: nothing was found in the way in "
            f"{way.moments} moments.", place=place,
            mend="Name a pose between the two, and its folds will be looked at by themselves.")


def _much(length: float, unit: Unit) -> str:
    grain = {Unit.INCH: 32, Unit.MM: 1, Unit.CM: 10}[unit]
    return with_unit(Fraction(max(1, round(length * grain)), grain), unit)
